// Every kind of page that can be reached by links in a full organization, as the office, an agronomist and a crew member see
// it: it fits a phone and a desk, axe finds nothing, and the content security policy has nothing to say. SHOTS=folder keeps
// pictures.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { after, before, test } from 'node:test';
import { startDemo } from './demo.mjs';
import { allRules, contrast, isSound, openPage, startBrowser } from './world.mjs';

let demo, browser;

before(async () => {
  demo = await startDemo();
  browser = await startBrowser();
});

after(async () => {
  await browser?.close();
  demo?.stop();
});

/** The kind of page behind a path: its route, with the names of what is asked. */
const kindOf = (url) =>
  url.pathname.replace(/[0-9a-f]{8}-[0-9a-f-]{27}/g, '{id}').replace(/^\/c\/.*/, '/c/{code}')
  + [...new Set(url.searchParams.keys())].sort().map((key) => `?${key}`).join('');

/** Files and what ends a session are no pages. */
const isPage = (url) => url.origin === demo.url && !/\.(csv|ics|atom|svg|jsonl?|webmanifest)$|^\/(api|feeds|static|sign-out)/.test(url.pathname);

/** One address of each kind of page that links lead to. */
async function kinds(page, from) {
  const found = new Map(from.map((path) => [kindOf(new URL(path, demo.url)), path]));
  for (const path of found.values()) {
    await page.goto(demo.url + path);
    const links = await page.locator('a[href]').evaluateAll((all) => all.filter((link) => !link.hasAttribute('download') && !link.closest('[hidden]')).map((link) => link.href));
    for (const url of links.map((link) => new URL(link)).filter(isPage)) {
      if (!found.has(kindOf(url))) found.set(kindOf(url), url.pathname + url.search);
    }
  }
  return found;
}

/** Sends a file by a page's form and waits for the page that it leads to. */
async function send(page, path, file, to) {
  await page.goto(demo.url + path);
  await page.setInputFiles('[type=file]', file);
  await page.locator('form[enctype]').evaluate((form) => form.requestSubmit());
  await page.waitForURL(to);
}

// A kind of page that one role saw is made of the same parts for another: it is opened and measured, and axe is not asked again.
const known = new Set();

async function sweep(role, from, least) {
  const walker = await openPage(browser);
  await demo.signIn(walker.page, role);
  const storageState = await walker.context.storageState();
  const found = await kinds(walker.page, from);
  assert.ok(found.size >= least, `${role} reaches ${[...found.keys()].join(' ')}`);
  const faults = [];
  // What is wrong with a page's structure is wrong at any width. A phone and a desk look at the same time.
  await Promise.all([[360, 'light', allRules], [1280, 'dark', contrast]].map(async ([width, colorScheme, rules]) => {
    const view = await openPage(browser, { colorScheme, storageState, viewport: { width, height: 800 } });
    for (const [kind, path] of found) {
      const answer = await view.page.goto(demo.url + path);
      assert.equal(answer.status(), 200, `${path} answers ${answer.status()}`);
      // All of them are told, not the first alone.
      const asked = known.has(kind) ? null : rules;
      await isSound(view.page, `${role}${kind}`, width, colorScheme, asked).catch((error) => faults.push(error.message));
    }
    faults.push(...view.complaints);
    await view.context.close();
  }));
  await walker.context.close();
  for (const kind of found.keys()) known.add(kind);
  assert.deepEqual(faults, []);
}

test('every page of the office, files taken in among them', async () => {
  const { page, context } = await openPage(browser);
  await demo.signIn(page, 'office');
  const list = { name: 'fields.csv', mimeType: 'text/csv', buffer: Buffer.from('field,area [ha]\nHollow,1\nStony piece,x\n') };
  await send(page, '/exchange/import/fields', list, /imports\/[0-9a-f-]{36}/);
  const task = { name: 'TASKDATA.XML', mimeType: 'text/xml', buffer: readFileSync('tests/task_data/example/TASKDATA/TASKDATA.XML') };
  await send(page, '/exchange/task-data', task, /task-data\/[0-9a-f-]{36}/);
  await context.close();
  await sweep('office', ['/', '/account', '/exchange/task-data', '/reports/season', '/reports/check?head=0123456789abcdef'], 40);
});

test('every page of the agronomist, a signed audit among them', async () => {
  const { page, context } = await openPage(browser);
  await demo.signIn(page, 'agronomist');
  await page.goto(`${demo.url}/usage/signatures/new`);
  await page.fill('[name=remark]', 'Read with the slips of the weighbridge.');
  await page.locator('#form').evaluate((form) => form.requestSubmit());
  await page.waitForURL(/signatures\/[0-9a-f-]{36}/);
  await context.close();
  await sweep('agronomist', ['/', '/usage/signatures/new', '/usage/signatures', '/reports/season'], 15);
});

test('every page of a crew member', () => sweep('crew', ['/', '/outbox', '/offline', '/reports/season'], 15));
