// A second engine: Debian's Firefox, driven by WebDriver BiDi.
import assert from 'node:assert/strict';
import { existsSync } from 'node:fs';
import { after, before } from 'node:test';
import { setTimeout } from 'node:timers/promises';
import puppeteer from 'puppeteer-core';
import { mainPaths } from './engine.mjs';
import { enterFleet } from './fleet.mjs';
import { startServer } from './world.mjs';

const firefox = process.env.FIREFOX ?? '/usr/bin/firefox-esr';
let server, fleet, program, page;

before(async () => {
  assert.ok(existsSync(firefox), `${firefox} is not there: install firefox-esr`);
  server = await startServer();
  fleet = await enterFleet(server);
  program = await puppeteer.launch({ browser: 'firefox', executablePath: firefox, headless: true, args: ['--no-remote'] });
  page = await program.newPage();
  page.setDefaultTimeout(60_000);
});

after(async () => {
  await program?.close();
  server?.stop();
});

// The driver's own way to wait makes a function in the page, which the content security policy refuses in newer versions.
async function waits(holds, given) {
  for (const began = Date.now(); Date.now() - began < 60_000; await setTimeout(100)) {
    // A page that goes to another one is asked again.
    if (await page.evaluate(holds, given).catch(() => false)) return;
  }
  assert.fail(`60 s passed without: ${holds}`);
}

const browser = {
  opens: (url) => page.goto(url),
  click: (selector) => page.click(selector),
  types: (selector, text) => page.type(selector, text),
  puts: (name, value) => page.$eval(`[name="${name}"]`, (field, typed) => {
    field.value = typed;
    field.dispatchEvent(new Event('input', { bubbles: true }));
  }, value),
  waits,
};

mainPaths(() => ({ server, fleet, browser }));
