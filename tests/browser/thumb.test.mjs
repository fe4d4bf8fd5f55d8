// Forms for a gloved thumb in the sun: large targets, strong contrast, usable at 320 px and with text at 200 %.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { after, before, test } from 'node:test';
import { enterFleet, signIn } from './fleet.mjs';
import { openPage, startBrowser, startServer } from './world.mjs';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
let server, fleet, browser, forms;

before(async () => {
  server = await startServer();
  fleet = await enterFleet(server);
  browser = await startBrowser();
  const { id, unit } = fleet.seeders[0];
  forms = [
    `/seeders/${id}`, `/metering-units/${unit}/catch`, `/metering-units/${unit}/setups/new`, `/metering-units/${unit}/fills/new`,
    `/metering-units/${unit}/emptyings/new`, `/metering-units/${unit}/jobs/new`, `/seeders/${id}/services/new`,
    `/scales/${fleet.scale.id}/checks/new`, '/outbox', '/offline',
  ];
});

after(async () => {
  await browser?.close();
  server?.stop();
});

async function eachForm(options, look) {
  const view = await openPage(browser, { hasTouch: true, ...options });
  await signIn(view.page, server, 'ben@example.org');
  for (const path of forms) {
    await view.page.goto(server.url + path);
    await look(view.page, path);
  }
  assert.deepEqual(view.complaints, []);
  await view.context.close();
}

const sideways = (page) => page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);

test('at 320 px nothing scrolls sideways', () =>
  eachForm({ viewport: { width: 320, height: 640 } }, async (page, path) => assert.ok((await sideways(page)) <= 0, `${path}: ${await sideways(page)} px`)));

test('with text at 200 % nothing scrolls sideways or is cut', () =>
  eachForm({ viewport: { width: 360, height: 740 } }, async (page, path) => {
    await page.evaluate(() => { document.documentElement.style.fontSize = '200%'; });
    assert.ok((await sideways(page)) <= 0, `${path}: ${await sideways(page)} px`);
    const cut = await page.evaluate(() => [...document.querySelectorAll('main .act, main label, main h1, main h2')]
      .filter((element) => element.checkVisibility() && !element.closest('.only-read') && element.scrollWidth > element.clientWidth + 1 && element.clientWidth > 1)
      .map((element) => element.outerHTML.slice(0, 80)));
    assert.deepEqual(cut, [], path);
  }));

test('what is touched is at least 48 px high', () =>
  eachForm({ viewport: { width: 360, height: 740 } }, async (page, path) => {
    const small = await page.evaluate(() => {
      const touched = [...document.querySelectorAll('main input, main select, main textarea, main button, main a.act, main .acts a, .bar .act')];
      return touched
        .filter((element) => element.checkVisibility() && element.type !== 'hidden' && !element.classList.contains('only-read'))
        .map((element) => ({ element, box: (element.type === 'checkbox' ? element.parentElement : element).getBoundingClientRect() }))
        .filter(({ box }) => box.height < 47.5 || box.width < 47.5)
        .map(({ element, box }) => `${element.outerHTML.slice(0, 80)} ${Math.round(box.width)}x${Math.round(box.height)}`);
    });
    assert.deepEqual(small, [], path);
  }));

for (const colorScheme of ['light', 'dark']) {
  test(`text has a contrast of 7 to 1, ${colorScheme}`, () =>
    eachForm({ viewport: { width: 360, height: 740 }, colorScheme }, async (page, path) => {
      const height = await page.evaluate(() => document.documentElement.scrollHeight);
      await page.setViewportSize({ width: 360, height: Math.max(740, height) });
      await page.evaluate(axe);
      const { violations } = await page.evaluate(() =>
        globalThis.axe.run({ runOnly: { type: 'rule', values: ['color-contrast-enhanced', 'target-size'] } }));
      assert.deepEqual(violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html).slice(0, 3).join(' ')}`), [], path);
      await page.setViewportSize({ width: 360, height: 740 });
    }));
}
