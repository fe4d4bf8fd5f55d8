// A second engine: Debian's Firefox, driven by WebDriver BiDi. The forms on line, and a catch while the server is dead.
import assert from 'node:assert/strict';
import { existsSync } from 'node:fs';
import { after, before, test } from 'node:test';
import puppeteer from 'puppeteer-core';
import { enterFleet, password } from './fleet.mjs';
import { startServer } from './world.mjs';

const firefox = process.env.FIREFOX ?? '/usr/bin/firefox-esr';
let server, fleet, browser, page;

before(async () => {
  assert.ok(existsSync(firefox), `${firefox} is not there: install firefox-esr`);
  server = await startServer();
  fleet = await enterFleet(server);
  browser = await puppeteer.launch({ browser: 'firefox', executablePath: firefox, headless: true, args: ['--no-remote'] });
  page = await browser.newPage();
  page.setDefaultTimeout(20_000);
});

after(async () => {
  await browser?.close();
  server?.stop();
});

const at = (path) => new URL(path, server.url).href;
const text = (selector) => page.$eval(selector, (element) => element.innerText);
const put = (name, value) => page.$eval(`[name="${name}"]`, (field, typed) => {
  field.value = typed;
  field.dispatchEvent(new Event('input', { bubbles: true }));
}, value);

async function enter(selector, wanted) {
  await page.click(selector);
  await page.waitForFunction((path) => location.pathname.startsWith(path), {}, wanted);
}

test('signing in, a fill and a catch with a slip, on line', async () => {
  await page.goto(at('/sign-in'));
  await page.type('[name=email]', 'ben@example.org');
  await page.type('[name=password]', password);
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => location.pathname === '/');
  const { id, unit } = fleet.seeders[0];
  await page.goto(at(`/metering-units/${unit}/fills/new`));
  await page.select('[name=lot_id]', fleet.lot.id);
  await put('mass/value', '5 lb 8 oz');
  await enter('.bar-act button.act', `/seeders/${id}`);
  const fills = (await fleet.api(`/metering-units/${unit}/fills`)).items;
  assert.equal(fills.length, 2);

  await page.goto(at(`/metering-units/${unit}/catch`));
  await put('repeats/0/revolutions', '60');
  await put('repeats/0/catches/0/tare/value', '0.32');
  await put('repeats/0/catches/0/gross/value', '0.30');
  await page.click('button[value=save]');
  await page.waitForSelector('.errors');
  assert.match(await text('.errors'), /tare/i);
  // Left alone, it stands in the Outbox until it is mended or dropped.
  await page.goto(at('/outbox'));
  await page.waitForSelector('.waiting-list [data-drop]');
  await page.click('[data-drop]');
  await page.click('[data-drop]');
  await page.waitForFunction(() => document.querySelector('#waiting').innerText.includes('Nothing waits'));
});

test('a catch while the server is dead is kept, and stored once when it is back', async () => {
  const { unit } = fleet.seeders[1];
  await page.goto(at('/outbox'));
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  await page.click('[data-refresh]');
  await page.waitForFunction(async (sheet) => {
    const names = (await caches.keys()).filter((name) => name.startsWith('sowmark-pages '));
    return names.length === 1 && Boolean(await caches.match(sheet, { cacheName: names[0] }));
  }, { timeout: 60_000 }, `/metering-units/${unit}/catch`);
  await server.kill();
  await page.goto(at(`/metering-units/${unit}/catch`));
  assert.match(await text('main'), /No signal: this is the page of/);
  for (const repeat of [0, 1]) {
    await put(`repeats/${repeat}/revolutions`, '60');
    for (const run of [0, 1]) {
      await put(`repeats/${repeat}/catches/${run}/tare/value`, '0,32');
      await put(`repeats/${repeat}/catches/${run}/gross/value`, run ? '2,13' : '2,11');
    }
  }
  assert.match(await text('.running'), /3\.000 kg\/100rev/);
  await page.click('button[value=save]');
  await page.waitForSelector('.kept-note');
  await page.goto(at('/outbox'));
  await page.waitForFunction(() => document.querySelector('#waiting').innerText.includes('Waits to be sent'));
  await server.again();
  await page.click('[data-send]');
  await page.waitForFunction(() => document.querySelector('#waiting').innerText.includes('Nothing waits'));
  const stored = (await fleet.api(`/metering-units/${unit}/calibrations`)).items;
  assert.equal(stored.length, 1);
  // (2.11 + 2.13 - 2 x 0.32) kg / (2 runs x 60 revolutions).
  assert.ok(Math.abs(Number(stored[0].result.factor.value) - 3.6 / 120) < 1e-9);
});
