// Takes the pictures of the documentation from the made-up fleet, on a day of its spring so that they come out alike.
import { spawn } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { startBrowser } from './world.mjs';

const program = process.env.SOWMARK ?? 'target/debug/sowmark';
const into = process.argv[2] ?? 'docs';
const desk = { viewport: { width: 1280, height: 860 }, colorScheme: 'light' };
const phone = { viewport: { width: 390, height: 844 }, colorScheme: 'light', deviceScaleFactor: 2, hasTouch: true, isMobile: true };

/** Starts the made-up fleet; answers its address and who can sign in, by role. */
async function startDemo() {
  const server = spawn(program, ['demo', '--date', '2027-04-20', '--listen', '127.0.0.1:0'], { stdio: ['ignore', 'pipe', 'ignore'] });
  const printed = await new Promise((resolve, reject) => {
    let text = '';
    const late = setTimeout(() => reject(new Error(`nothing useful in 5 minutes: ${text}`)), 300_000);
    server.stdout.on('data', (data) => {
      text += data;
      // The last account, and the empty line after it.
      if (/agronomist[^\n]*\n(?:[^\n]+\n)*\n/.test(text)) {
        clearTimeout(late);
        resolve(text);
      }
    });
    server.on('exit', (code) => reject(new Error(`the program ended with ${code}`)));
  });
  const people = [...printed.matchAll(/^ +(office|crew|agronomist) .* (\S+@\S+) +(\S+)$/gm)];
  const who = (role) => people.find((person) => person[1] === role).slice(2, 4);
  const stop = () => { server.removeAllListeners('exit'); server.kill(); };
  return { url: printed.match(/http:\/\/[\d.:]+/)[0], who, stop };
}

const demo = await startDemo();
const browser = await startBrowser();
try {
  mkdirSync(into, { recursive: true });
  const signedIn = async (role, options) => {
    const page = await (await browser.newContext({ ...options, locale: 'en-GB', reducedMotion: 'reduce' })).newPage();
    const [email, password] = demo.who(role);
    await page.goto(`${demo.url}/sign-in`);
    await page.fill('[name=email]', email);
    await page.fill('[name=password]', password);
    await page.press('[name=password]', 'Enter');
    await page.waitForURL((url) => !url.pathname.startsWith('/sign-in'));
    return page;
  };
  const shot = (page, name) => page.screenshot({ path: join(into, `${name}.png`) });

  const office = await signedIn('office', desk);
  await shot(office, 'readiness');
  await office.goto(`${demo.url}/usage`);
  await shot(office, 'usage');
  await office.goto(`${demo.url}/seeders`);
  await office.click('main table a, main .ledger a');
  await office.waitForURL(/\/seeders\/[0-9a-f-]{36}/);
  await office.locator('.chart').first().scrollIntoViewIfNeeded();
  await shot(office, 'seeder');

  const crew = await signedIn('crew', phone);
  await crew.click('a[href*="/seeders/"]');
  await crew.waitForURL(/\/seeders\/[0-9a-f-]{36}/);
  await crew.click('a[href$="/catch"]');
  await crew.waitForURL(/\/catch$/);
  await crew.fill('[name="repeats/0/revolutions"]', '60');
  for (const [i, gross] of ['2.110', '2.136', '2.095'].entries()) {
    await crew.fill(`[name="repeats/0/catches/${i}/tare/value"]`, '0.320');
    await crew.fill(`[name="repeats/0/catches/${i}/gross/value"]`, gross);
  }
  await crew.locator('.repeat').first().scrollIntoViewIfNeeded();
  await shot(crew, 'catch');
} finally {
  await browser.close();
  demo.stop();
}
