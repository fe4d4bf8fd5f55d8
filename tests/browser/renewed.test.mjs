// A phone whose server is renewed, and one that meets a proxy's error page: both served through a proxy of this test's own,
// which can give the files another version, and fail as proxies do.
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync } from 'node:fs';
import http from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { enterFleet, signIn } from './fleet.mjs';
import { openPhone, reads, startServer } from './world.mjs';

let server, fleet, proxy;
const folders = [];
const open = [];

/** Passes everything on; what the server calls its files by (a hash of them all) is another word here. */
async function startProxy(target) {
  const own = (await (await fetch(`${target}/worker.js`)).text()).match(/VERSION = "(\w+)"/)[1];
  const state = { version: '0000000000a1', fails: 0 };
  const listener = http.createServer((asked, answer) => {
    if (state.fails) {
      answer.writeHead(state.fails, { 'content-type': 'text/html' });
      answer.end('<!doctype html><title>Bad gateway</title><h1>The machine in front of it says no</h1>');
      return;
    }
    const headers = { ...asked.headers };
    delete headers['accept-encoding'];
    // As a server that was renewed: the files of before are not there.
    const path = asked.url.replace(/^\/static\/(\w+)\//, (all, version) => `/static/${version === state.version ? own : version}/`);
    const gone = path.startsWith('/static/') && !path.startsWith(`/static/${own}/`);
    if (gone) {
      answer.writeHead(404);
      answer.end();
      return;
    }
    const passed = http.request(new URL(path, target), { method: asked.method, headers }, (came) => {
      const parts = [];
      came.on('data', (part) => parts.push(part));
      came.on('end', () => {
        const isText = /text|javascript|json|xml/.test(came.headers['content-type'] ?? '');
        const body = isText ? Buffer.from(Buffer.concat(parts).toString().replaceAll(own, state.version)) : Buffer.concat(parts);
        const { 'content-length': _, 'transfer-encoding': __, ...kept } = came.headers;
        answer.writeHead(came.statusCode, { ...kept, 'content-length': body.length });
        answer.end(body);
      });
    });
    passed.on('error', () => answer.destroy());
    asked.pipe(passed);
  });
  await new Promise((resolve) => listener.listen(0, '127.0.0.1', resolve));
  return { state, url: `http://127.0.0.1:${listener.address().port}`, stop: () => { listener.closeAllConnections(); listener.close(); } };
}

before(async () => {
  server = await startServer();
  fleet = await enterFleet(server);
  proxy = await startProxy(server.url);
});

after(async () => {
  await Promise.allSettled(open.map((context) => context.close()));
  proxy?.stop();
  server?.stop();
  folders.forEach((folder) => rmSync(folder, { recursive: true, force: true, maxRetries: 5 }));
});

const at = (path) => new URL(path, proxy.url).href;

/** Asks the page until it says yes. */
async function until(page, ask) {
  for (const end = Date.now() + 20_000; Date.now() < end;) {
    if (await page.evaluate(ask)) return;
    await page.waitForTimeout(100);
  }
  assert.fail(`20 s passed without: ${ask}`);
}

async function phoneOf(email) {
  const folder = mkdtempSync(join(tmpdir(), 'sowmark-phone-'));
  folders.push(folder);
  const phone = await openPhone(folder);
  open.push(phone.context);
  await signIn(phone.page, proxy, email);
  await phone.page.evaluate(() => navigator.serviceWorker.ready);
  // Every page is kept, and that is noted: nothing is fetched again for a while.
  await until(phone.page, async () => {
    const { take } = await import(document.querySelector('script[src*="phone.js"]').src.replace('phone.js', 'store.js'));
    return Boolean(navigator.serviceWorker.controller && (await take('bags', `kept ${document.documentElement.dataset.reader}`)));
  });
  return phone;
}

test('pages kept before the server was renewed work with the new files, off line', async () => {
  const unit = fleet.seeders[0].unit;
  const phone = await phoneOf('ben@example.org');
  const { page } = phone;
  proxy.state.version = '0000000000b2';
  await page.goto(at('/seeders'));
  await until(page, async () => {
    const names = await caches.keys();
    return names.includes('sowmark-shell 0000000000b2') && !names.includes('sowmark-shell 0000000000a1');
  });
  await phone.context.setOffline(true);
  await page.goto(at(`/metering-units/${unit}/catch`));
  const scripts = await page.evaluate(() => [...document.scripts].map((script) => script.src));
  assert.ok(scripts.length > 0 && scripts.every((src) => src.includes('/0000000000a1/')), `the page is of before: ${scripts}`);
  const painted = await page.evaluate(() => getComputedStyle(document.querySelector('.act')).minHeight);
  assert.ok(Number.parseFloat(painted) >= 48, `the style sheet is there: ${painted}`);
  await page.fill('[name="repeats/0/revolutions"]', '60');
  await page.fill('[name="repeats/0/catches/0/tare/value"]', '0.320');
  await page.fill('[name="repeats/0/catches/0/gross/value"]', '2.110');
  await reads(page, '.running', /kg\/100rev/);
  await page.goto(at(`/metering-units/${unit}/fills/new`));
  await page.selectOption('[name=lot_id]', fleet.lot.id);
  await page.fill('[name="mass/value"]', '444');
  await page.click('.bar-act button.act');
  await page.waitForSelector('.kept-note');
  await phone.context.setOffline(false);
  await until(page, async () => {
    const { entries } = await import(document.querySelector('script[src*="phone.js"]').src.replace('phone.js', 'outbox.js'));
    return (await entries()).length === 0;
  });
  const fills = (await fleet.api(`/metering-units/${unit}/fills`)).items;
  assert.equal(fills.filter((fill) => fill.mass?.value === '444').length, 1);
  await phone.context.close();
});

test('a proxy\'s error page is no answer: the kept page is shown, and an entry waits', async () => {
  const unit = fleet.seeders[1].unit;
  const phone = await phoneOf('cora@example.org');
  const { page } = phone;
  for (const fails of [502, 503, 504]) {
    proxy.state.fails = fails;
    await page.goto(at('/seeders'));
    await reads(page, 'main', /No signal: this is the page of/);
    assert.ok((await page.innerText('main')).includes('Drill on the hill'), `${fails}`);
  }
  await page.goto(at(`/metering-units/${unit}/fills/new`));
  await page.selectOption('[name=lot_id]', fleet.lot.id);
  await page.fill('[name="mass/value"]', '555');
  await page.click('.bar-act button.act');
  await page.waitForSelector('.kept-note');
  await reads(page, '#outbox-line', /wait/i);
  proxy.state.fails = 0;
  await page.click('#outbox-line [data-send]');
  await until(page, () => document.getElementById('outbox-line').hidden);
  const fills = (await fleet.api(`/metering-units/${unit}/fills`)).items;
  assert.equal(fills.filter((fill) => fill.mass?.value === '555').length, 1);
  await phone.context.close();
});
