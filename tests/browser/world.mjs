// A server of its own on a throw-away database, and a Chromium to look at it with. Every bound on time is stated here.
import assert from 'node:assert/strict';
import { execFileSync, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
// Where pictures go, if somebody wants to look: SHOTS=folder.
export const shots = process.env.SHOTS;
const program = process.env.SOWMARK ?? 'target/debug/sowmark';

/** Starts a server on an empty database, SQLite unless BROWSER_DATABASE names another; answers its address and the
 *  one-time set-up link. It can be killed and started again on the same address. */
export async function startServer() {
  const folder = mkdtempSync(join(tmpdir(), 'sowmark-browser-'));
  const database = process.env.BROWSER_DATABASE ?? `sqlite://${join(folder, 'sowmark.db')}`;
  const log = [];
  let server;
  const start = async (listen, wanted) => {
    server = spawn(program, ['--listen', listen, '--database', database], { stdio: ['ignore', 'pipe', 'pipe'] });
    server.stderr.on('data', (data) => log.push(data.toString()));
    return new Promise((resolve, reject) => {
      let text = '';
      const late = setTimeout(() => reject(new Error(`the server said nothing useful in 20 s: ${text}${log.join('')}`)), 20_000);
      server.stdout.on('data', (data) => {
        text += data;
        if (wanted.test(text)) {
          clearTimeout(late);
          resolve(text);
        }
      });
      server.on('exit', (code) => reject(new Error(`the server ended with ${code}: ${log.join('')}`)));
    });
  };
  const printed = await start('127.0.0.1:0', /\/set-up\/\S+/);
  const url = printed.match(/http:\/\/[\d.:]+/)[0];
  const end = (signal) => new Promise((resolve) => {
    server.removeAllListeners('exit');
    if (server.exitCode !== null || server.signalCode !== null) resolve();
    server.on('exit', resolve);
    server.kill(signal);
  });
  const stop = () => {
    end('SIGTERM');
    rmSync(folder, { recursive: true, force: true });
  };
  const cli = (...words) => execFileSync(program, ['--database', database, ...words], { encoding: 'utf8' }).trim();
  const cliWith = (input, ...words) => execFileSync(program, ['--database', database, ...words], { encoding: 'utf8', input }).trim();
  return {
    url, setUp: printed.match(/http\S+\/set-up\/\S+/)[0], cli, cliWith, log, stop,
    kill: () => end('SIGKILL'),
    again: () => start(new URL(url).host, /http:/),
  };
}

const chromiumOptions = {
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: [
    '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
    '--disable-component-update', '--disable-sync',
  ],
};

/** Starts Chromium without anything that reaches out. */
export const startBrowser = () => chromium.launch(chromiumOptions);

/** A phone: a Chromium that keeps what it is told in a folder, so that it can be closed and opened again. */
export async function openPhone(folder) {
  const context = await chromium.launchPersistentContext(folder, {
    ...chromiumOptions, viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true,
  });
  return { context, ...watched(context.pages()[0] ?? (await context.newPage())) };
}

/** Waits until a part of a page says something: what a script fills in is not there when the page is. */
export async function reads(page, selector, pattern, says = '') {
  const found = async () => page.locator(selector).first().innerText({ timeout: 1000 }).catch(() => '');
  let text = await found();
  for (const end = Date.now() + 10_000; !pattern.test(text) && Date.now() < end; text = await found()) await page.waitForTimeout(100);
  assert.match(text, pattern, says || undefined);
}

/** A page whose console and failed requests are watched: the content security policy must have nothing to say. */
export async function openPage(browser, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
  return { context, ...watched(await context.newPage()) };
}

function watched(page) {
  const complaints = [];
  page.on('console', (message) => {
    if (/Content Security Policy|Refused to/i.test(message.text())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.setDefaultTimeout(10_000);
  return { page, complaints };
}

/** All that axe knows of, and what of it depends on colours alone. */
export const allRules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
export const contrast = { type: 'rule', values: ['color-contrast'] };
// Of a long list the first rows stand for all.
const alike = ['tbody > tr', 'ol.ledger > li', 'ul.ledger > li'].map((row) => [`${row}:nth-child(n+25)`]);

/** What every page owes its reader at any width: nothing scrolls sideways, and axe finds nothing; null asks it nothing. */
export async function isSound(page, name, width, colorScheme, runOnly = allRules) {
  // A sticky bar covers what lies under it in a short window; axe would blame the page's own targets.
  const height = await page.evaluate(() => document.documentElement.scrollHeight);
  await page.setViewportSize({ width, height: Math.max(800, height) });
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  assert.ok(wide <= 0, `${name} scrolls sideways by ${wide} px at ${width} px`);
  if (shots) {
    mkdirSync(shots, { recursive: true });
    await page.screenshot({ path: join(shots, `${name.replace(/[^\w-]+/g, '_')}-${width}-${colorScheme}.png`), fullPage: true });
  }
  if (runOnly) {
    await page.evaluate(axe);
    const { violations } = await page.evaluate(([exclude, rules]) => globalThis.axe.run({ exclude }, { runOnly: rules }), [alike, runOnly]);
    const told = violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html).slice(0, 3).join(' ')}`);
    assert.deepEqual(told, [], `${name} at ${width} px, ${colorScheme}`);
  }
  await page.setViewportSize({ width, height: 800 });
}
