// A server of its own on a throw-away database, and a Chromium to look at it with. Every bound on time is stated here.
import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';

const program = process.env.SOWMARK ?? 'target/debug/sowmark';

/** Starts a server on an empty database, SQLite unless BROWSER_DATABASE names another; answers its address and the
 *  one-time set-up link. */
export async function startServer() {
  const folder = mkdtempSync(join(tmpdir(), 'sowmark-browser-'));
  const database = process.env.BROWSER_DATABASE ?? `sqlite://${join(folder, 'sowmark.db')}`;
  const server = spawn(program, ['--listen', '127.0.0.1:0', '--database', database], { stdio: ['ignore', 'pipe', 'pipe'] });
  const log = [];
  server.stderr.on('data', (data) => log.push(data.toString()));
  const printed = await new Promise((resolve, reject) => {
    let text = '';
    const late = setTimeout(() => reject(new Error(`the server said nothing useful in 20 s: ${text}${log.join('')}`)), 20_000);
    server.stdout.on('data', (data) => {
      text += data;
      if (/\/set-up\/\S+/.test(text)) {
        clearTimeout(late);
        resolve(text);
      }
    });
    server.on('exit', (code) => reject(new Error(`the server ended with ${code}: ${log.join('')}`)));
  });
  const stop = () => {
    server.removeAllListeners('exit');
    server.kill('SIGTERM');
    rmSync(folder, { recursive: true, force: true });
  };
  const cli = (...words) => execFileSync(program, ['--database', database, ...words], { encoding: 'utf8' }).trim();
  return { url: printed.match(/http:\/\/[\d.:]+/)[0], setUp: printed.match(/http\S+\/set-up\/\S+/)[0], cli, log, stop };
}

/** Starts Chromium without anything that reaches out. */
export function startBrowser() {
  return chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: [
      '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
      '--disable-component-update', '--disable-sync',
    ],
  });
}

/** A page whose console and failed requests are watched: the content security policy must have nothing to say. */
export async function openPage(browser, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
  const page = await context.newPage();
  const complaints = [];
  page.on('console', (message) => {
    if (/Content Security Policy|Refused to/i.test(message.text())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.setDefaultTimeout(10_000);
  return { context, page, complaints };
}
