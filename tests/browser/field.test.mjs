// A phone in the field: entries without signal, through reloads, crashes, restarts and refusals; each is on the server exactly
// once in the end. Every bound on time is Playwright's or stated here.
import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { enterFleet, signIn } from './fleet.mjs';
import { openPhone, reads, startServer } from './world.mjs';

let server, fleet;
const folders = [];
const open = [];

before(async () => {
  server = await startServer();
  fleet = await enterFleet(server);
});

after(async () => {
  // What a failed test left open would keep this program from ending.
  await Promise.allSettled(open.map((context) => context.close()));
  server?.stop();
  folders.forEach((folder) => rmSync(folder, { recursive: true, force: true, maxRetries: 5 }));
});

const at = (path) => new URL(path, server.url).href;

/** A phone with somebody signed in and their pages kept. */
async function phoneOf(email) {
  const folder = mkdtempSync(join(tmpdir(), 'sowmark-phone-'));
  folders.push(folder);
  const phone = await openPhone(folder);
  open.push(phone.context);
  await signIn(phone.page, server, email);
  await settled(phone.page);
  return { ...phone, folder };
}

/** Asks a page again and again until it says yes. Playwright's own waiting takes a promise for a yes. */
async function until(page, ask, seconds = 20) {
  for (const end = Date.now() + seconds * 1000; Date.now() < end;) {
    if (await page.evaluate(ask)) return;
    await page.waitForTimeout(100);
  }
  assert.fail(`${seconds} s passed without: ${ask}`);
}

/** Waits until the worker is at work and every page of this person is kept. */
async function settled(page) {
  await page.evaluate(() => navigator.serviceWorker.ready);
  await until(page, async () => {
    const names = (await caches.keys()).filter((name) => name.startsWith('sowmark-pages '));
    if (names.length !== 1) return false;
    // Two seeders with their forms, a scale, a lot: kept to the last.
    return (await (await caches.open(names[0])).keys()).length >= 19;
  });
  await until(page, () => navigator.serviceWorker.controller !== null);
}

const gross = [['2.110', '2.136', '2.095', '2.120'], ['2.124', '2.141', '2.100', '2.131']];
// sum of (gross - 0.320) over 8 catches, over 8 runs x 60 revolutions: (16.957 - 2.56) / 480 kg.
const factor = (16.957 - 2.56) / 480;

async function fillCatch(page, { tares = true } = {}) {
  await page.fill('[name=roller_speed_rpm]', '42');
  for (const [j, row] of gross.entries()) {
    await page.fill(`[name="repeats/${j}/revolutions"]`, '60');
    for (const [i, weight] of row.entries()) {
      if (tares) await page.fill(`[name="repeats/${j}/catches/${i}/tare/value"]`, '0.320');
      await page.fill(`[name="repeats/${j}/catches/${i}/gross/value"]`, weight);
    }
  }
}

const save = (page) => page.click('button[value=save]');
const waiting = (page) => page.evaluate(async () => {
  const { entries } = await import(document.querySelector('script[src*="phone.js"]').src.replace('phone.js', 'outbox.js'));
  return (await entries()).map(({ id, kind, refused }) => ({ id, kind, refused: Boolean(refused) }));
});
const calibrations = async (unit) => (await fleet.api(`/metering-units/${unit}/calibrations`)).items;
const empty = (page) => until(page, async () => {
  const { entries } = await import(document.querySelector('script[src*="phone.js"]').src.replace('phone.js', 'outbox.js'));
  return (await entries()).length === 0;
});

test('a catch without signal outlives a reload, a closed browser and a dead server, and is stored once', async () => {
  const unit = fleet.seeders[0].unit;
  let phone = await phoneOf('ben@example.org');
  let { page } = phone;
  await phone.context.setOffline(true);
  await page.goto(at(`/metering-units/${unit}/catch`));
  await reads(page, 'main', /No signal: this is the page of/);
  await fillCatch(page);
  await reads(page, '.running', /2\.999 kg\/100rev/);
  await reads(page, '.running', /Still missing\s+nothing/i);

  // Reloaded in the middle: what was typed is back.
  await until(page, async () => {
    const { all } = await import(document.querySelector('script[src*="phone.js"]').src.replace('phone.js', 'store.js'));
    return (await all('drafts')).some((draft) => draft.pairs.some(([, text]) => text === '2.131'));
  });
  await page.reload();
  await page.waitForSelector('.draft-back');
  assert.equal(await page.inputValue('[name="repeats/1/catches/3/gross/value"]'), '2.131');
  await save(page);
  await page.waitForSelector('.kept-note');
  await reads(page, '.kept-note', /2\.999 kg\/100rev/);
  const [entry] = await waiting(page);
  assert.equal(entry.kind, 'calibration');
  assert.equal((await calibrations(unit)).length, 0);

  // The battery is flat: the browser is closed, and opened again while the server is down.
  await phone.context.close();
  await server.kill();
  phone = { ...(await openPhone(phone.folder)), folder: phone.folder };
  open.push(phone.context);
  ({ page } = phone);
  await page.goto(at('/outbox'));
  await reads(page, '#waiting', /Waits to be sent/);

  await server.again();
  await page.click('text=Send now');
  await empty(page);
  const stored = await calibrations(unit);
  assert.equal(stored.length, 1);
  assert.equal(stored[0].id, entry.id);
  assert.ok(Math.abs(Number(stored[0].result.factor.value) - factor) < 1e-9, stored[0].result.factor.value);
  assert.equal(stored[0].status, 'accepted');
  await reads(page, '#waiting', /Sent from here/);

  // What became of it is said on whatever page is open, until the record was looked at.
  const verdict = /The catch of .* is judged: pass.* Number to key in: \d[\d.]* \w+ per /;
  await page.waitForSelector('#outbox-line [data-news] li');
  await reads(page, '#outbox-line', verdict);
  await until(page, () => /is judged/.test(document.querySelector('[data-list="sent"]').innerText));
  await reads(page, '[data-list="sent"]', verdict);
  await page.goto(at('/lots'));
  await page.click('#outbox-line >> text=See the record');
  await page.waitForURL(new RegExp(`/calibrations/${entry.id}$`));
  await until(page, () => document.getElementById('outbox-line').hidden);
  await page.goto(at('/lots'));
  await until(page, () => document.getElementById('outbox-line').hidden);
  assert.deepEqual(phone.complaints, []);
  await phone.context.close();
});

test('the next catch has the bags of the last one, and takes few taps beside the weights', async () => {
  const phone = await phoneOf('ben@example.org');
  const { page } = phone;
  // As after reading the code on the machine.
  await page.goto(at(`/seeders/${fleet.seeders[0].id}`));
  let taps = 0;
  const tap = async (selector) => { taps += 1; await page.click(selector); };
  const type = async (name, text) => { taps += 1; await page.fill(`[name="${name}"]`, text); };
  await tap('text=Log a catch');
  await page.waitForURL(/\/catch$/);
  await page.waitForFunction(() => document.querySelector('[name="repeats/1/catches/3/tare/value"]')?.value === '0.320');
  await type('roller_speed_rpm', '42');
  for (const [j, row] of gross.entries()) {
    await type(`repeats/${j}/revolutions`, '60');
    for (const [i, weight] of row.entries()) {
      assert.equal(await page.inputValue(`[name="repeats/${j}/catches/${i}/tare/value"]`), '0.320', 'the tare is remembered');
      await page.fill(`[name="repeats/${j}/catches/${i}/gross/value"]`, weight);
    }
  }
  await tap('button[value=save]');
  await page.waitForURL(/\/calibrations\//);
  assert.ok(taps <= 12, `${taps} taps and fields`);
  assert.equal((await calibrations(fleet.seeders[0].unit)).length, 2);
  await phone.context.close();
});

test('the running sums read a weight as the sheet suggests it, and name what they cannot read', async () => {
  const phone = await phoneOf('ben@example.org');
  const { page } = phone;
  await page.goto(at(`/metering-units/${fleet.seeders[1].unit}/catch`));
  await fillCatch(page);
  assert.equal(await page.isVisible('[name=_per]') || await page.isVisible('[name=_slip]'), false, 'revolutions are counted');
  const first = (text) => page.fill('[name="repeats/0/catches/0/gross/value"]', text);
  const net = () => page.innerText('.catch-net output');
  for (const [typed, shown] of [['2110 g', '1.790 kg'], ['4 lb 10 oz', '1.778 kg'], ['4.651 lb', '1.7897 kg'], ['2 110 g', '1.790 kg']]) {
    await first(typed);
    await reads(page, '.catch-net output', new RegExp(`^${shown.replace('.', '\\.')}$`), typed);
    await reads(page, '.running', /Still missing\s+nothing/i);
  }
  await reads(page, '.running', /2\.999 kg\/100rev/);
  for (const [typed, missing] of [['5 lb 80 oz', /gross weight of run 1, repeat 1, that can be read/], ['0.1', /gross weight of run 1, repeat 1, above its tare/], ['99', /gross weight of run 1, repeat 1, that the scale can weigh/]]) {
    await first(typed);
    await reads(page, '.running', missing);
    assert.equal(await net(), '–', typed);
  }
  // Every fault at once, the server's among those seen here, each with its repeat and run.
  await page.fill('[name="repeats/1/catches/2/gross/value"]', '-3');
  await page.fill('[name="repeats/1/revolutions"]', '');
  await save(page);
  await reads(page, 'main .errors', /Gross, run 3, repeat 2: \u22123 kg is negative, which no mass can be\./);
  const told = await page.innerText('main .errors');
  for (const wanted of ['Roller revolutions, repeat 2: This is missing.']) assert.ok(told.includes(wanted), told);
  assert.deepEqual(await calibrations(fleet.seeders[1].unit), []);
  await phone.context.close();
});

test('two phones without signal on the same unit: both entries are stored, whichever comes first', async () => {
  const unit = fleet.seeders[1].unit;
  const [one, two] = [await phoneOf('ben@example.org'), await phoneOf('cora@example.org')];
  for (const phone of [one, two]) {
    await phone.context.setOffline(true);
    await phone.page.goto(at(`/metering-units/${unit}/catch`));
    await fillCatch(phone.page);
    await save(phone.page);
    await phone.page.waitForSelector('.kept-note');
  }
  for (const phone of [two, one]) {
    await phone.context.setOffline(false);
    await empty(phone.page);
  }
  const stored = await calibrations(unit);
  assert.equal(stored.length, 2);
  assert.deepEqual(new Set(stored.map((calibration) => calibration.recorded_by.name)), new Set(['Ben Acker', 'Cora Rain']));
  // Each phone says it of its own; dismissed, it is said no more.
  await one.page.click('#outbox-line >> text=Dismiss');
  await until(one.page, () => document.getElementById('outbox-line').hidden);
  await two.page.waitForSelector('#outbox-line [data-news] li');
  await reads(two.page, '#outbox-line', /The catch of .* is judged/);
  await one.context.close();
  await two.context.close();
});

test('an answer that is lost on the way is asked for again, and nothing is stored twice', async () => {
  const unit = fleet.seeders[1].unit;
  const phone = await phoneOf('ben@example.org');
  const { page } = phone;
  let sent = 0;
  // The server has it, the answer never arrives: the connection drops in the middle of the request.
  await page.route('**/api/v1/**', async (route) => {
    sent += 1;
    if (sent > 1) return route.continue();
    await route.fetch();
    return route.abort('connectionreset');
  });
  await page.goto(at(`/metering-units/${unit}/fills/new`));
  await page.selectOption('[name=lot_id]', fleet.lot.id);
  await page.fill('[name="mass/value"]', '250');
  await page.click('.bar-act button.act');
  await page.waitForSelector('.kept-note');
  await page.click('#outbox-line [data-send]');
  await empty(page);
  assert.ok(sent >= 2);
  await page.goto(at('/outbox'));
  const back = page.locator('[data-list="sent"] a').first();
  await back.waitFor();
  const led = await page.request.get(at(await back.getAttribute('href')));
  assert.equal(led.status(), 200, 'what was sent leads to the machine');
  const fills = (await fleet.api(`/metering-units/${unit}/fills`)).items;
  assert.equal(fills.filter((fill) => fill.mass?.value === '250').length, 1);
  await phone.context.close();
});

test('an entry that arrived without an answer, and is changed meanwhile, corrects what stands', async () => {
  const unit = fleet.seeders[1].unit;
  const phone = await phoneOf('ben@example.org');
  const { page } = phone;
  let answers = false;
  await page.route('**/api/v1/**', async (route) => {
    if (answers) return route.continue();
    await route.fetch();
    return route.abort('connectionreset');
  });
  await page.goto(at(`/metering-units/${unit}/fills/new`));
  await page.selectOption('[name=lot_id]', fleet.lot.id);
  await page.fill('[name="mass/value"]', '271');
  await page.click('.bar-act button.act');
  await page.waitForSelector('.kept-note');
  await page.goto(at('/outbox'));
  await page.click('text=Open and mend');
  await page.waitForFunction(() => document.querySelector('[name="mass/value"]')?.value === '271');
  answers = true;
  await page.fill('[name="mass/value"]', '272');
  await page.click('.bar-act button.act');
  await page.waitForURL(/\/seeders\//);
  await empty(page);
  const fills = (await fleet.api(`/metering-units/${unit}/fills`)).items.filter((fill) => /^27[12]$/.test(fill.mass?.value));
  const [before, after] = ['271', '272'].map((mass) => fills.filter((fill) => fill.mass.value === mass));
  assert.equal(before.length, 1);
  assert.equal(after.length, 1);
  assert.equal(before[0].replaced_by, after[0].id, 'the first is right no more');
  await phone.context.close();
});

test('a catch that came before the setup is taken in once that is there, and the phone hears of it', async () => {
  const unit = fleet.seeders[0].unit;
  const phone = await phoneOf('cora@example.org');
  const { page } = phone;
  await phone.context.setOffline(true);
  await page.goto(at(`/metering-units/${unit}/catch`));
  await page.fill('[name=occurred_at]', '2026-11-18T09:00');
  await fillCatch(page);
  await save(page);
  await page.waitForSelector('.kept-note');
  const [entry] = await waiting(page);
  await phone.context.setOffline(false);
  await page.goto(at('/outbox'));
  await page.waitForSelector('text=Not taken in');
  await reads(page, '.waiting-list', /No setup of this unit is known for 18 November/);
  // The office logs what another phone should have.
  await fleet.api(`/metering-units/${unit}/setups`, { occurred_at: '2026-11-17T08:00:00+01:00', roller_id: fleet.roller.id, drive_ratio: '1', gate: null, runs: 8 });
  await page.reload();
  await empty(page);
  await reads(page, '#outbox-line', /The catch of .* is judged/);
  const stored = (await calibrations(unit)).filter(({ id }) => id === entry.id);
  assert.deepEqual(stored.map((calibration) => calibration.recorded_by.name), ['Cora Rain']);
  await phone.context.close();
});

test('a refused entry stands in the way of none, says why, and is mended', async () => {
  const unit = fleet.seeders[1].unit;
  const phone = await phoneOf('ben@example.org');
  const { page } = phone;
  await phone.context.setOffline(true);
  await page.goto(at(`/metering-units/${unit}/setups/new`));
  await page.fill('[name=runs]', '80');
  await page.click('.bar-act button.act');
  await page.waitForSelector('.kept-note');
  await page.goto(at(`/metering-units/${unit}/emptyings/new`));
  await page.selectOption('[name=lot_id]', fleet.lot.id);
  await page.fill('[name="mass/value"]', '20');
  await page.click('.bar-act button.act');
  await page.waitForSelector('.kept-note');
  await phone.context.setOffline(false);
  await page.goto(at('/outbox'));
  await page.waitForSelector('text=Not taken in');
  assert.deepEqual((await waiting(page)).map(({ kind, refused }) => ({ kind, refused })), [{ kind: 'setup', refused: true }]);
  await reads(page, '.waiting-list', /80 runs in use/);
  assert.equal((await fleet.api(`/metering-units/${unit}/emptyings`)).items.length, 1);

  await page.click('text=Open and mend');
  await page.waitForSelector('.errors');
  assert.equal(await page.inputValue('[name=runs]'), '80');
  await reads(page, '.field.at-fault', /80 runs in use/);
  await page.fill('[name=runs]', '8');
  await page.click('.bar-act button.act');
  await page.waitForURL(/\/seeders\//);
  await empty(page);
  assert.equal((await fleet.api(`/metering-units/${unit}/setups`)).items.length, 2);
  await phone.context.close();
});

test('a session that ended keeps the outbox, and another person never sends it', async () => {
  const unit = fleet.seeders[0].unit;
  const phone = await phoneOf('ben@example.org');
  const { page } = phone;
  await phone.context.setOffline(true);
  await page.goto(at(`/metering-units/${unit}/fills/new`));
  await page.selectOption('[name=lot_id]', fleet.lot.id);
  await page.fill('[name="mass/value"]', '111');
  await page.click('.bar-act button.act');
  await page.waitForSelector('.kept-note');
  await phone.context.clearCookies();
  await phone.context.setOffline(false);
  await page.waitForSelector('#outbox-line >> text=Sign in to send');
  assert.equal((await waiting(page)).length, 1);

  await signIn(page, server, 'cora@example.org', '/outbox');
  await settled(page);
  await page.waitForSelector('text=entry of another person');
  assert.equal((await waiting(page)).length, 1);
  assert.equal((await fleet.api(`/metering-units/${unit}/fills`)).items.filter((fill) => fill.mass?.value === '111').length, 0);

  await page.click('text=Sign out');
  await page.waitForURL(/sign-in/);
  await signIn(page, server, 'ben@example.org', '/outbox');
  await empty(page);
  const fills = (await fleet.api(`/metering-units/${unit}/fills`)).items.filter((fill) => fill.mass?.value === '111');
  assert.deepEqual(fills.map((fill) => fill.recorded_by.name), ['Ben Acker']);
  await phone.context.close();
});

test('kept pages are one person\'s: signing out clears them, and nobody else is shown them', async () => {
  const phone = await phoneOf('ben@example.org');
  const { page } = phone;
  const kept = () => page.evaluate(async () => {
    const found = [];
    for (const name of await caches.keys()) {
      for (const request of await (await caches.open(name)).keys()) {
        found.push({ name, text: await (await (await caches.open(name)).match(request)).text() });
      }
    }
    return found;
  });
  assert.ok((await kept()).some(({ text }) => text.includes('Ben Acker')));
  // With something waiting the first click only says so.
  await phone.context.setOffline(true);
  await page.goto(at(`/metering-units/${fleet.seeders[0].unit}/fills/new`));
  await page.selectOption('[name=lot_id]', fleet.lot.id);
  await page.click('.bar-act button.act');
  await page.waitForSelector('.kept-note');
  await phone.context.setOffline(false);
  await empty(page);
  await page.goto(at('/'));
  await page.click('text=Sign out');
  await page.waitForURL(/sign-in/);
  assert.ok((await kept()).every(({ text }) => !text.includes('Ben Acker') && !text.includes('Drill at the yard')));
  await phone.context.setOffline(true);
  await page.goto(at('/seeders'));
  await reads(page, 'main', /not kept on this phone/);
  assert.ok(!(await page.innerText('body')).includes('Ben Acker'));
  await phone.context.close();
});

test('a full storage says so, and the form keeps what was typed', async () => {
  const phone = await phoneOf('ben@example.org');
  const { page } = phone;
  // As a browser does when there is no room. Chromium's own switch for it is heeded now and then only.
  await page.addInitScript(() => {
    const put = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function (item) {
      if (this.name === 'entries') throw new DOMException('no room', 'QuotaExceededError');
      return put.call(this, item);
    };
    navigator.storage.estimate = async () => ({ usage: 99, quota: 100 });
  });
  await page.goto(at(`/metering-units/${fleet.seeders[0].unit}/setups/new`));
  await page.waitForSelector('#outbox-line >> text=nearly full');
  await page.fill('[name=gate]', '17');
  await phone.context.setOffline(true);
  await page.click('.bar-act button.act');
  await page.waitForSelector('.not-kept');
  await reads(page, '.not-kept', /storage of this phone is full/);
  assert.equal(await page.inputValue('[name=gate]'), '17');
  assert.equal(new URL(page.url()).pathname, `/metering-units/${fleet.seeders[0].unit}/setups/new`);
  // With signal it is sent all the same.
  await phone.context.setOffline(false);
  await page.click('.bar-act button.act');
  await page.waitForURL(/\/seeders\//);
  await phone.context.close();
});

test('a copy of the outbox can be saved and taken in again', async () => {
  const unit = fleet.seeders[0].unit;
  const phone = await phoneOf('cora@example.org');
  const { page } = phone;
  await phone.context.setOffline(true);
  await page.goto(at(`/metering-units/${unit}/fills/new`));
  await page.selectOption('[name=lot_id]', fleet.lot.id);
  await page.fill('[name="mass/value"]', '333');
  await page.click('.bar-act button.act');
  await page.waitForSelector('.kept-note');
  await page.goto(at('/outbox'));
  const [download] = await Promise.all([page.waitForEvent('download'), page.click('[data-copy]')]);
  const copy = await download.path();
  assert.equal(JSON.parse(readFileSync(copy, 'utf8')).entries.length, 1);
  await page.click('[data-drop]');
  await page.click('text=Drop it for good');
  await page.waitForSelector('text=Nothing waits');
  await page.setInputFiles('[data-take-in]', copy);
  await page.waitForSelector('text=1 entry was taken in');
  await phone.context.setOffline(false);
  await empty(page);
  assert.equal((await fleet.api(`/metering-units/${unit}/fills`)).items.filter((fill) => fill.mass?.value === '333').length, 1);
  assert.deepEqual(phone.complaints, []);
  await phone.context.close();
});

test('what was logged wrongly is corrected without signal, and the correction replaces it', async () => {
  const { unit, id } = fleet.seeders[1];
  const phone = await phoneOf('ben@example.org');
  const { page } = phone;
  const fills = async () => (await fleet.api(`/metering-units/${unit}/fills`)).items;
  await page.goto(at(`/metering-units/${unit}/fills/new`));
  await page.selectOption('[name=lot_id]', { index: 1 });
  await page.fill('[name="mass/value"]', '4000');
  await page.click('button.act');
  await page.waitForURL(at(`/seeders/${id}`));
  const wrong = (await fills()).find((fill) => fill.mass?.value === '4000');
  const correct = at(`/metering-units/${unit}/fills/new?corrects=${wrong.id}`);
  await page.goto(correct);
  assert.equal(await page.inputValue('[name="mass/value"]'), '4000');
  await page.fill('[name="mass/value"]', '400');
  // Left in the middle: the draft is this correction's own, and no new fill begins with it.
  await until(page, async () => {
    const { all } = await import(document.querySelector('script[src*="phone.js"]').src.replace('phone.js', 'store.js'));
    return (await all('drafts')).some((draft) => draft.pairs.some(([, text]) => text === '400'));
  });
  await page.goto(at(`/metering-units/${unit}/fills/new`));
  assert.equal(await page.inputValue('[name="mass/value"]'), '');
  await page.goto(correct);
  await page.waitForSelector('.draft-back');
  assert.equal(await page.inputValue('[name="mass/value"]'), '400');
  await phone.context.setOffline(true);
  await page.click('button.act');
  await page.waitForSelector('.kept-note');
  assert.equal((await waiting(page)).length, 1);
  // Without signal the blank form, which is kept, is not shown for it.
  await page.goto(correct);
  await reads(page, 'main', /signal/);
  assert.equal(await page.locator('form.form').count(), 0);
  await phone.context.setOffline(false);
  await page.goto(at('/'));
  await empty(page);
  const stored = (await fills()).find((fill) => fill.corrects === wrong.id);
  assert.equal(stored?.mass.value, '400');
  assert.equal((await fills()).find((fill) => fill.id === wrong.id).replaced_by, stored.id);
  await phone.context.close();
});
