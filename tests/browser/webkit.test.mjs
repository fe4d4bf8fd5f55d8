// A third engine: WebKit as Debian packages it (WebKitGTK), driven by its own WebDriver on a screen that nobody sees.
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createServer } from 'node:net';
import { after, before } from 'node:test';
import { setTimeout as pause } from 'node:timers/promises';
import { Builder, By, Capabilities } from 'selenium-webdriver';
import { mainPaths } from './engine.mjs';
import { enterFleet } from './fleet.mjs';
import { startServer } from './world.mjs';

let server, fleet, screen, engine, driver;

/** A port that nothing listens on. */
async function freePort() {
  const probe = createServer().listen(0, '127.0.0.1');
  await once(probe, 'listening');
  const { port } = probe.address();
  probe.close();
  await once(probe, 'close');
  return port;
}

/** Starts a program; fails with its name where it cannot be started. */
async function start(program, words, options) {
  const started = spawn(program, words, options);
  await once(started, 'spawn').catch((error) => { throw new Error(`${program}: ${error.message}`); });
  return started;
}

/** Asks again and again until it answers something true. */
async function until(what, ask) {
  const end = Date.now() + 60_000;
  for (;;) {
    const answer = await ask().catch(() => null);
    if (answer) return answer;
    if (Date.now() > end) throw new Error(`in vain for a minute: ${what}`);
    await pause(100);
  }
}

before(async () => {
  server = await startServer();
  fleet = await enterFleet(server);
  screen = await start('Xvfb', ['-displayfd', '3', '-screen', '0', '1280x900x24', '-nolisten', 'tcp'], { stdio: ['ignore', 'ignore', 'ignore', 'pipe'] });
  const [number] = await once(screen.stdio[3], 'data');
  const port = await freePort();
  engine = await start('WebKitWebDriver', [`--port=${port}`], {
    stdio: 'ignore', env: { ...process.env, DISPLAY: `:${number.toString().trim()}`, WEBKIT_DISABLE_COMPOSITING_MODE: '1' },
  });
  const at = `http://127.0.0.1:${port}`;
  await until('the driver answers', async () => (await fetch(`${at}/status`)).ok);
  driver = await new Builder().usingServer(at).withCapabilities(new Capabilities({ browserName: 'MiniBrowser' })).build();
});

after(async () => {
  await driver?.quit().catch(() => {});
  engine?.kill();
  screen?.kill();
  server?.stop();
});

const find = (selector) => until(selector, () => driver.findElement(By.css(selector)));
const run = (told, given) => driver.executeScript(`return (${told})(arguments[0])`, given);

const browser = {
  opens: (url) => driver.get(url),
  // By the page itself: what is clicked by its place on the screen is another thing once a list has moved.
  click: async (selector) => {
    await find(selector);
    await run((of) => { document.querySelector(of).click(); }, selector);
  },
  types: async (selector, text) => (await find(selector)).sendKeys(text),
  puts: (name, value) => run(([of, typed]) => {
    const field = document.querySelector(`[name="${of}"]`);
    field.value = typed;
    field.dispatchEvent(new Event('input', { bubbles: true }));
  }, [name, value]),
  waits: (holds, given) => until(holds, () => run(holds, given)),
};

mainPaths(() => ({ server, fleet, browser }));
