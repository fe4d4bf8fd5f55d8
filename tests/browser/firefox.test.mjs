// A second engine: Debian's Firefox, driven by WebDriver BiDi.
import assert from 'node:assert/strict';
import { existsSync } from 'node:fs';
import { after, before } from 'node:test';
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

const browser = {
  opens: (url) => page.goto(url),
  click: (selector) => page.click(selector),
  types: (selector, text) => page.type(selector, text),
  puts: (name, value) => page.$eval(`[name="${name}"]`, (field, typed) => {
    field.value = typed;
    field.dispatchEvent(new Event('input', { bubbles: true }));
  }, value),
  waits: (holds, given) => page.waitForFunction(holds, {}, given),
};

mainPaths(() => ({ server, fleet, browser }));
