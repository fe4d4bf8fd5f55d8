// Takes the pictures of the documentation from the made-up fleet, on a day of its spring so that they come out alike.
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { startDemo } from './demo.mjs';
import { startBrowser } from './world.mjs';

const into = process.argv[2] ?? 'docs';
const desk = { viewport: { width: 1280, height: 860 }, colorScheme: 'light' };
const phone = { viewport: { width: 390, height: 844 }, colorScheme: 'light', deviceScaleFactor: 2, hasTouch: true, isMobile: true };

const demo = await startDemo('--date', '2027-04-20');
const browser = await startBrowser();
try {
  mkdirSync(into, { recursive: true });
  const signedIn = async (role, options) => {
    const page = await (await browser.newContext({ ...options, locale: 'en-GB', reducedMotion: 'reduce' })).newPage();
    await demo.signIn(page, role);
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
