// Every report on paper, A4 and Letter, out of the demonstration's records: how many pages, no row cut in two, no heading left
// alone at the foot of a page, and the stamp on the paper. SHOTS=folder keeps the PDFs.
import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { openPage, startBrowser } from './world.mjs';

const shots = process.env.SHOTS;
let demo, url, browser, view;

/** The demonstration on a free port; answers its address and the password of its people. */
function startDemo() {
  demo = spawn(process.env.SOWMARK ?? 'target/debug/sowmark', ['demo', '--listen', '127.0.0.1:0'], { stdio: ['ignore', 'pipe', 'ignore'] });
  return new Promise((resolve, reject) => {
    let text = '';
    const late = setTimeout(() => reject(new Error(`the demonstration said nothing useful in 180 s: ${text}`)), 180_000);
    demo.stdout.on('data', (data) => {
      text += data;
      const found = text.match(/(http:\/\/[\d.:]+)[^]*marta@\S+\s+(\S+)/);
      if (found) {
        clearTimeout(late);
        resolve([found[1], found[2]]);
      }
    });
  });
}

before(async () => {
  const [address, password] = await startDemo();
  url = address;
  browser = await startBrowser();
  view = await openPage(browser);
  await view.page.goto(`${url}/sign-in`);
  await view.page.fill('[name=email]', 'marta@fallowmere.example');
  await view.page.fill('[name=password]', password);
  await view.page.click('button.act');
  await view.page.waitForURL(`${url}/`);
});

after(async () => {
  await browser?.close();
  demo?.kill('SIGTERM');
});

const close = (text) => text.normalize('NFKC').replace(/\s+/g, '');

/** The text of each page of a PDF, without its spaces. */
async function pagesOf(pdf) {
  const document = await getDocument({ data: new Uint8Array(pdf), verbosity: 0 }).promise;
  const pages = [];
  for (let number = 1; number <= document.numPages; number += 1) {
    const { items } = await (await document.getPage(number)).getTextContent();
    pages.push(close(items.map((item) => item.str).join('')));
  }
  return pages;
}

/** Prints the page that is open; answers its pages, and the rows, headings and digits that its printed form has. */
async function print(name, format) {
  const { page } = view;
  const pdf = await page.pdf({ format });
  if (shots) {
    mkdirSync(shots, { recursive: true });
    writeFileSync(join(shots, `${name}-${format}.pdf`), pdf);
  }
  await page.emulateMedia({ media: 'print' });
  const texts = (selector) => page.locator(selector).evaluateAll((found) =>
    found.filter((element) => element.checkVisibility()).map((element) => element.innerText));
  const [rows, headings, digits] = [await texts('tbody tr'), await texts('h1, h2, h3, caption'), await texts('.stamp .digits')];
  await page.emulateMedia({ media: null });
  return { pages: await pagesOf(pdf), rows: rows.map(close), headings: headings.map(close), digits: digits.map(close) };
}

/** What every report owes its reader. */
function isWhole(name, { pages, rows, headings, digits }) {
  for (const row of rows) assert.ok(pages.some((page) => page.includes(row)), `${name}: a row is cut: ${row}`);
  for (const heading of headings) {
    assert.ok(!pages.some((page) => page.endsWith(heading)), `${name}: a heading is the last line of a page: ${heading}`);
  }
  assert.ok(digits.length > 0 && digits.every((head) => /^[0-9a-f]{64}$/.test(head)), `${name}: ${digits}`);
  assert.ok(pages.at(-1).includes(digits.at(-1)), `${name}: the last page has no stamp`);
}

for (const format of ['A4', 'Letter']) {
  test(`cab cards: a page for each seeder, ${format}`, async () => {
    await view.page.goto(`${url}/reports/cab-card`);
    const printed = await print('cab-card', format);
    isWhole('cab card', printed);
    const names = await view.page.locator('.cab-card h2').allInnerTexts();
    assert.ok(names.length > 2 && printed.rows.length > 20, `${names} ${printed.rows.length}`);
    assert.equal(printed.pages.length, names.length, 'a card that takes more than its page');
    names.forEach((seeder, place) => {
      assert.ok(printed.pages[place].includes(close(seeder)) && printed.pages[place].includes(printed.digits[place]), seeder);
    });
  });

  test(`a lot card: everything about a lot on two sheets at most, ${format}`, async () => {
    await view.page.goto(`${url}/reports/lot-card`);
    const lot = await view.page.locator('option', { hasText: 'TS-4101' }).getAttribute('value');
    await view.page.goto(`${url}/reports/lot-card?lot_id=${lot}`);
    const printed = await print('lot-card', format);
    isWhole('lot card', printed);
    assert.ok(printed.rows.length > 4 && printed.pages.length <= 2, `${printed.rows.length} rows on ${printed.pages.length} pages`);
    assert.ok(printed.pages[0].includes('TarnshireSeedOffice'), 'the label is on the first sheet');
  });

  test(`the usage audit of everything, ${format}`, async () => {
    await view.page.goto(`${url}/usage`);
    const printed = await print('usage', format);
    isWhole('usage audit', printed);
    assert.ok(printed.rows.length > 20 && printed.pages.length < 25, `${printed.rows.length} rows on ${printed.pages.length} pages`);
  });

  test(`a calibration record with all its doubts: two pages at most, ${format}`, async () => {
    await view.page.goto(`${url}/`);
    const seeder = await view.page.locator('a[href^="/seeders/"]').first().getAttribute('href');
    await view.page.goto(url + seeder);
    const record = await view.page.locator('a[href^="/calibrations/"]').first().getAttribute('href');
    await view.page.goto(url + record);
    const printed = await print('record', format);
    isWhole('record', printed);
    // A catch that passed takes one: story.test.mjs.
    assert.ok(printed.pages.length <= 2, `${printed.pages.length} pages`);
  });
}

test('a print-out is checked by its short address', async () => {
  await view.page.goto(`${url}/reports/cab-card`);
  const short = await view.page.locator('.stamp a').first().getAttribute('href');
  await view.page.goto(url + short);
  assert.match(await view.page.locator('main').innerText(), /This trail contains it/);
  assert.deepEqual(view.complaints, []);
});
