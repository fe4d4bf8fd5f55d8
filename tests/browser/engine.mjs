// The main paths of somebody who logs in the field, for a browser of any engine: the forms on line, and a catch while the
// server is dead. How a browser is driven stands in the file of each.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { password } from './fleet.mjs';

/** Registers the tests. `given()` answers the server, the fleet and the browser, with what a browser can do: see webkit.test.mjs. */
export function mainPaths(given) {
  const at = (path) => new URL(path, given().server.url).href;

  async function enter(selector, wanted) {
    const { browser } = given();
    await browser.click(selector);
    await browser.waits((path) => location.pathname.startsWith(path), wanted);
  }

  const waitsFor = (selector, words) =>
    given().browser.waits(([where, said]) => document.querySelector(where)?.innerText.includes(said) ?? false, [selector, words]);

  test('signing in, a fill and a catch with a slip, on line', async () => {
    const { browser, fleet } = given();
    await browser.opens(at('/sign-in'));
    await browser.types('[name=email]', 'ben@example.org');
    await browser.types('[name=password]', password);
    await browser.click('button.act');
    await browser.waits(() => location.pathname === '/');
    const { id, unit } = fleet.seeders[0];
    await browser.opens(at(`/metering-units/${unit}/fills/new`));
    await browser.puts('lot_id', fleet.lot.id);
    await browser.puts('mass/value', '5 lb 8 oz');
    await enter('.bar-act button.act', `/seeders/${id}`);
    const fills = (await fleet.api(`/metering-units/${unit}/fills`)).items;
    assert.equal(fills.length, 2);

    await browser.opens(at(`/metering-units/${unit}/catch`));
    await browser.puts('repeats/0/revolutions', '60');
    await browser.puts('repeats/0/catches/0/tare/value', '0.32');
    await browser.puts('repeats/0/catches/0/gross/value', '0.30');
    await browser.click('button[value=save]');
    await browser.waits(() => /tare/i.test(document.querySelector('.errors')?.innerText ?? ''));
    // Left alone, it stands in the Outbox until it is mended or dropped.
    await browser.opens(at('/outbox'));
    await browser.waits(() => document.querySelector('.waiting-list [data-drop]') !== null);
    // Twice: the first click asks whether it is meant; a list that was drawn anew meanwhile asks again.
    await browser.waits(() => {
      document.querySelector('.waiting-list [data-drop]')?.click();
      return document.querySelector('#waiting').innerText.includes('Nothing waits');
    });
  });

  test('a catch while the server is dead is kept, and stored once when it is back', async () => {
    const { browser, fleet, server } = given();
    const { unit } = fleet.seeders[1];
    const sheet = `/metering-units/${unit}/catch`;
    await browser.opens(at('/outbox'));
    await browser.waits(() => navigator.serviceWorker.ready.then(() => true));
    await browser.click('[data-refresh]');
    await browser.waits(async (path) => {
      const names = (await caches.keys()).filter((name) => name.startsWith('sowmark-pages '));
      return names.length === 1 && Boolean(await caches.match(path, { cacheName: names[0] }));
    }, sheet);
    await server.kill();
    await browser.opens(at(sheet));
    await waitsFor('main', 'No signal: this is the page of');
    for (const repeat of [0, 1]) {
      await browser.puts(`repeats/${repeat}/revolutions`, '60');
      for (const run of [0, 1]) {
        await browser.puts(`repeats/${repeat}/catches/${run}/tare/value`, '0,32');
        await browser.puts(`repeats/${repeat}/catches/${run}/gross/value`, run ? '2,13' : '2,11');
      }
    }
    await waitsFor('.running', '3.000 kg/100rev');
    await browser.click('button[value=save]');
    await browser.waits(() => document.querySelector('.kept-note') !== null);
    await browser.opens(at('/outbox'));
    await waitsFor('#waiting', 'Waits to be sent');
    await server.again();
    await browser.click('[data-send]');
    await waitsFor('#waiting', 'Nothing waits');
    const stored = (await fleet.api(`/metering-units/${unit}/calibrations`)).items;
    assert.equal(stored.length, 1);
    // (2.11 + 2.13 - 2 x 0.32) kg / (2 runs x 60 revolutions).
    assert.ok(Math.abs(Number(stored[0].result.factor.value) - 3.6 / 120) < 1e-9);
  });
}
