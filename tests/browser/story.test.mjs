// The main job in a real browser: from the one-time link to a unit that is ready, with the mistakes that people make on the
// way; at the desk and on a phone, light and dark, with and without JavaScript.
import assert from 'node:assert/strict';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { isSound, openPage, reads, shots, startBrowser, startServer } from './world.mjs';

const password = 'a few good words for a yard';

let server, browser, desk;
const seen = new Map();

before(async () => {
  server = await startServer();
  browser = await startBrowser();
  desk = await openPage(browser);
});

after(async () => {
  await browser?.close();
  server?.stop();
});

const at = (path) => new URL(path, server.url).href;

/** Sends a form and waits for what comes of it: another page, or the faults on this one. */
async function submit(page, button = '.bar-act button.act') {
  await page.evaluate(() => { window.isStillThere = true; });
  await page.click(button);
  await page.waitForFunction(() => !window.isStillThere || document.querySelector('main .errors, main .kept-note'));
  await page.waitForLoadState('load');
}

/** Fills a form by its fields' names; a select is chosen by label or value. */
async function fill(page, values) {
  for (const [name, value] of Object.entries(values)) {
    const field = page.locator(`[name="${name}"]`).first();
    if ((await field.evaluate((element) => element.tagName)) === 'SELECT') {
      await field.selectOption(value);
    } else {
      await field.fill(value);
    }
  }
}

/** Fills and sends; the page must be left for another. */
async function send(page, path, values) {
  await page.goto(at(path));
  await fill(page, values);
  await submit(page);
  const errors = await page.locator('.errors').allInnerTexts();
  assert.deepEqual(errors, [], `${path} was refused`);
}

test('the one-time link makes the first office account, once', async () => {
  const { page } = desk;
  await page.goto(server.setUp);
  await fill(page, { organization: 'Birkenfeld', time_zone: 'Europe/Vienna', name: 'Ana Feld', email: 'ana@example.org', password: 'short' });
  await submit(page);
  assert.match(await page.locator('.error').first().innerText(), /12/, 'a short password is refused beside its field');
  assert.equal(await page.inputValue('[name=organization]'), 'Birkenfeld', 'what was typed is still there');
  await fill(page, { password });
  await submit(page);
  assert.equal(new URL(page.url()).pathname, '/');
  await reads(page, 'main', /seeder/i, 'an empty fleet says how to start');
  seen.set('start', page.url());

  const again = await openPage(browser);
  const answer = await again.page.goto(server.setUp);
  assert.equal(answer.status(), 404);
  await again.context.close();
});

test('the office enters a fleet', async () => {
  const { page } = desk;
  await send(page, '/rollers/new', { label: 'fine fluted', 'displacement_per_rev/value': '82' });
  await send(page, '/rollers/new', { label: 'coarse fluted' });
  await send(page, '/scales/new', { name: 'hanging scale', 'readability/value': '5', 'capacity/value': '15' });
  await page.goto(at('/scales'));
  await page.click('text=Log a check');
  await fill(page, { 'reference/value': '2', 'reading/value': '2,005' });
  await submit(page);
  await reads(page, 'main', /2[.,]005 kg/);
  await send(page, '/seasons/new', { name: 'Spring', starts_on: '2026-03-01' });
  await send(page, '/seeders/new', {
    name: 'Drill at the yard', serial_number: 'AD-0417', kind: 'air_drill', commissioned_on: '2026-03-02',
    'working_width/value': '6', 'row_spacing/value': '12,5', 'metering_units/0/label': 'front tank',
    'metering_units/0/runs': '8', 'metering_units/0/roller_speed_rpm/min': '10', 'metering_units/0/roller_speed_rpm/max': '120',
  });
  assert.match(page.url(), /\/seeders\/[0-9a-f-]{36}$/);
  seen.set('seeder', page.url());
  await send(page, '/lots/new', { lot_number: 'WW-114', crop: 'wheat', 'treatment/product': 'a fungicide', 'treatment/caution': 'Wear gloves.' });
  seen.set('lot', page.url());
  await page.goto(`${seen.get('lot')}/tests/new`);
  await fill(page, { 'thousand_seed_weight/value': '45.2', 'bulk_density/value': '78' });
  await submit(page);
});

test('what is fitted and filled is logged from the seeder', async () => {
  const { page } = desk;
  await page.goto(seen.get('seeder'));
  await page.click('text=Roller or ratio changed');
  await fill(page, { roller_id: { label: 'fine fluted' }, drive_ratio: '5:2', runs: '9' });
  await submit(page);
  assert.match(await page.locator('.errors').innerText(), /8/, 'more runs than the unit has are refused');
  assert.equal(await page.inputValue('[name=drive_ratio]'), '5:2');
  await fill(page, { runs: '8' });
  await submit(page);
  await page.goto(seen.get('seeder'));
  await page.click('text=Tank filled');
  const lot = await page.locator('[name=lot_id] option', { hasText: 'WW-114' }).getAttribute('value');
  await fill(page, { lot_id: lot, 'mass/value': '1500' });
  await submit(page);
  await reads(page, 'main', /Log a catch/);
});

async function catchSeed(page, gross) {
  await page.goto(seen.get('seeder'));
  await page.locator('a', { hasText: 'Log a catch' }).first().click();
  await page.waitForLoadState('load');
  assert.match(await page.locator('.cautions').innerText(), /guards/i, 'the cautions stand before the form');
  const scale = await page.locator('[name=scale_id] option', { hasText: 'hanging' }).getAttribute('value');
  await fill(page, { scale_id: scale, roller_speed_rpm: '42', 'planned/rate/value': '140', 'planned/speed/value': '9' });
  for (const repeat of [0, 1]) {
    await fill(page, { [`repeats/${repeat}/revolutions`]: '60' });
    for (const run of [0, 1]) {
      const row = `repeats/${repeat}/catches/${run}`;
      await fill(page, { [`${row}/tare/value`]: '0.32', [`${row}/gross/value`]: gross[run] });
    }
  }
}

test('a catch with a slip is refused beside the field, and nothing typed is lost', async () => {
  const { page } = desk;
  await catchSeed(page, ['4.20', '0.30']);
  await submit(page, 'button[value=save]');
  assert.match(await page.locator('.errors').innerText(), /tare/i);
  assert.equal(await page.inputValue('[name="repeats/0/catches/0/gross/value"]'), '4.20');
});

test('a good catch gives the number to key in, and the board says ready', async () => {
  const { page } = desk;
  await catchSeed(page, ['4.20', '4.22']);
  await submit(page, 'button[value=save]');
  assert.match(page.url(), /\/calibrations\/[0-9a-f-]{36}$/);
  const text = await page.innerText('main');
  // (4.20 - 0.32 + 4.22 - 0.32) kg / (2 runs x 60 revolutions) = 0.064833 kg a revolution and run.
  assert.match(text, /6[.,]48/);
  seen.set('record', page.url());
  await page.goto(at('/'));
  await reads(page, 'main', /Ready/);
  seen.set('board', at('/'));
});

async function fit(page, label) {
  await page.goto(seen.get('seeder'));
  await page.click('text=Roller or ratio changed');
  await fill(page, { roller_id: { label } });
  await submit(page);
  await page.goto(at('/'));
}

test('a changed roller asks for a catch, the first one back brings its number back', async () => {
  const { page } = desk;
  const number = (await page.innerText('main')).match(/6[.,]48\d*/)[0];
  await fit(page, 'coarse fluted');
  await reads(page, 'main', /coarse fluted/);
  await reads(page, 'main', /Catch again/i);
  assert.ok(!(await page.innerText('main')).includes(number), 'no number is offered');
  await fit(page, 'fine fluted');
  await reads(page, 'main', /Ready/);
  assert.ok((await page.innerText('main')).includes(number), 'the number of the first catch is true again');
});

test('a wrong entry is voided from its line', async () => {
  const { page } = desk;
  await fit(page, 'coarse fluted');
  await reads(page, 'main', /Catch again/i);
  await page.goto(seen.get('seeder'));
  const entry = page.locator('.timeline .entry', { hasText: 'coarse fluted' }).first();
  await entry.locator('text=This was wrong').click();
  await fill(page, { reason: 'it was another machine' });
  await submit(page, 'button.act.grave');
  assert.match(await page.locator('.timeline .entry.voided').innerText(), /another machine/);
  await page.goto(at('/'));
  await reads(page, 'main', /Ready/);
});

test('a wrong entry is corrected: its form opens with what was recorded', async () => {
  const { page } = desk;
  await page.goto(seen.get('seeder'));
  await page.locator('.timeline .entry:not(.voided)', { hasText: 'fine fluted' }).first().locator('text=This was wrong').click();
  await page.click('text=Correct it');
  assert.equal(await page.inputValue('[name=drive_ratio]'), '5:2');
  assert.match(await page.locator('[name=roller_id] option:checked').innerText(), /fine fluted/);
  // Refused first: it comes back as a correction, with what was typed.
  await fill(page, { runs: '999' });
  await page.click('text=Save the correction');
  assert.equal(await page.inputValue('[name=runs]'), '999');
  await fill(page, { runs: '8', note: 'typed on the wrong line' });
  await page.click('text=Save the correction');
  await page.waitForURL(seen.get('seeder'));
  const lines = await page.locator('.timeline .entry', { hasText: 'fine fluted' }).allInnerTexts();
  assert.ok(lines.some((line) => line.includes('typed on the wrong line')), lines.join());
  assert.ok(lines.some((line) => line.includes('Replaced by a correction.')), lines.join());
});

test('of two who log what is fitted, the second is asked about what the first changed', async () => {
  const { page } = desk;
  const form = (await page.goto(seen.get('seeder')), await page.locator('a', { hasText: 'Roller or ratio changed' }).first().getAttribute('href'));
  const other = await openPage(browser, { storageState: await desk.context.storageState() });
  for (const one of [page, other.page]) await one.goto(at(form));
  await fill(page, { drive_ratio: '3:1' });
  await submit(page);
  await fill(other.page, { note: 'only this' });
  await submit(other.page);
  assert.match(await other.page.locator('main .errors').innerText(), /Meanwhile this was changed to .3:1/);
  assert.deepEqual([await other.page.inputValue('[name=drive_ratio]'), await other.page.inputValue('[name=note]')], ['5:2', 'only this']);
  // Saved again it is as typed: the ratio that stood before, knowingly.
  await submit(other.page);
  await reads(other.page, '.timeline', /only this/);
  await other.context.close();
  await page.goto(at('/'));
  await reads(page, 'main', /Ready/);
});

test('without JavaScript the same catch is logged, with rows added on the way', async () => {
  const plain = await openPage(browser, { javaScriptEnabled: false, storageState: await desk.context.storageState() });
  const { page } = plain;
  await catchSeed(page, ['4.21', '4.23']);
  await page.click('button[value="add_run/0"]');
  assert.equal(await page.inputValue('[name="repeats/1/catches/1/gross/value"]'), '4.23');
  await page.click('button[value=save]');
  assert.match(page.url(), /\/calibrations\/[0-9a-f-]{36}$/);
  await plain.context.close();
});

// How a page looks does not depend on the database.
const skip = Boolean(process.env.BROWSER_DATABASE);

test('every page fits a phone and a desk, light and dark, and axe finds nothing', { skip }, async () => {
  const id = seen.get('seeder').split('/').pop();
  const unit = (await desk.page.goto(seen.get('seeder')), await desk.page.locator('a[href*="/catch"]').first().getAttribute('href'));
  const plan = new URLSearchParams({
    'plants/value': '280', 'plants/unit': 'per m²', 'weight/value': '45.2', 'weight/unit': 'g per thousand', germination_percent: '95',
    'share/value': '10', 'share/unit': 'field loss', 'speed/value': '9', 'speed/unit': 'km/h', 'row_spacing/value': '12.5',
    'row_spacing/unit': 'cm', seed_weight_plus_minus_percent: '3',
  });
  const pages = {
    readiness: '/', seeders: '/seeders', seeder: `/seeders/${id}`, 'new-seeder': '/seeders/new', catch: unit,
    record: seen.get('record'), lots: '/lots', usage: '/usage', signatures: '/usage/signatures', exchange: '/exchange', import: '/exchange/import/lots',
    'task-data': '/exchange/task-data', whole: '/exchange/whole',
    reports: '/reports', 'cab-card': '/reports/cab-card', 'season-report': '/reports/season', 'seeder-book': `/reports/seeder-book?seeder_id=${id}`, 'check-print': '/reports/check?head=0123456789abcdef', lot: seen.get('lot'), 'new-lot': '/lots/new', keeping: '/keeping',
    rollers: '/rollers', scales: '/scales', seasons: '/seasons', tolerances: '/tolerances', people: '/people',
    account: '/account', notices: '/notices', audit: '/audit', setup: unit.replace('/catch', '/setups/new'), fill: unit.replace('/catch', '/fills/new'),
    job: unit.replace('/catch', '/jobs/new'), rate: unit.replace('/catch', '/rate'),
    'rate-answer': unit.replace('/catch', '/rate?rate/value=140&rate/unit=kg/ha&speed/value=9&speed/unit=km/h'),
    gate: unit.replace('/catch', '/gate'), 'gate-answer': unit.replace('/catch', '/gate?setting=40&measured/value=5&measured/unit=g/rev&wanted=7'),
    'rate-plan': `/rate-plan?unit_id=${unit.split('/')[2]}`, 'rate-plan-answer': `/rate-plan?unit_id=${unit.split('/')[2]}&${plan}`,
    'rate-plan-live': `/rate-plan/live?lot_id=${seen.get('lot').split('/').pop()}`, fields: '/fields', clients: '/clients', outbox: '/outbox', offline: '/offline',
  };
  for (const [width, colorScheme] of [[360, 'light'], [1280, 'dark']]) {
    const storageState = await desk.context.storageState();
    const view = await openPage(browser, { colorScheme, storageState, viewport: { width, height: 800 } });
    for (const [name, path] of Object.entries(pages)) {
      const answer = await view.page.goto(at(path));
      assert.equal(answer.status(), 200, `${name} answers ${answer.status()}`);
      await isSound(view.page, name, width, colorScheme);
    }
    assert.deepEqual(view.complaints, []);
    await view.context.close();
  }
});

test('the record prints on one page, black on white', async () => {
  const { page } = desk;
  await page.goto(seen.get('record'));
  const pdf = await page.pdf({ format: 'A4', path: shots ? join(shots, 'record.pdf') : undefined });
  const pages = pdf.toString('latin1').match(/\/Type\s*\/Page[^s]/g).length;
  assert.equal(pages, 1);
});

test('signing out ends the session', async () => {
  const { page } = desk;
  await page.goto(at('/'));
  await page.click('text=Sign out');
  // The catch that was refused above is still in the Outbox: that is said first.
  await page.waitForSelector('#outbox-line >> text=It stays here');
  await page.click('text=Sign out all the same');
  await page.waitForURL(/sign-in/);
  await page.goto(at('/people'));
  assert.equal(new URL(page.url()).pathname, '/sign-in');
  await fill(page, { email: 'ana@example.org', password });
  await submit(page);
  assert.equal(new URL(page.url()).pathname, '/people', 'signing in leads back to where one wanted to go');
  assert.deepEqual(desk.complaints, []);
});
