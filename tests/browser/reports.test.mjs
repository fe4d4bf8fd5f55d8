// Every report on paper, A4 and Letter, out of the demonstration's records: how many pages, no row cut in two, no heading left
// alone at the foot of a page, and the stamp on the paper. SHOTS=folder keeps the PDFs.
import assert from 'node:assert/strict';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { startDemo } from './demo.mjs';
import { openPage, shots, startBrowser } from './world.mjs';

let demo, url, browser, view;

before(async () => {
  demo = await startDemo();
  url = demo.url;
  browser = await startBrowser();
  view = await openPage(browser);
  await demo.signIn(view.page, 'office');
});

after(async () => {
  await browser?.close();
  demo?.stop();
});

const close = (text) => text.normalize('NFKC').replace(/\s+/g, '');

/** A page's text lines from its head to its foot, by where they stand on the paper; the number of the page is none. */
function linesOf(items) {
  const lines = [];
  for (const item of items.filter(({ str }) => str.trim())) {
    const [y, size] = [item.transform[5], Math.hypot(item.transform[2], item.transform[3])];
    const line = lines.find((other) => Math.abs(other.y - y) < 1.5);
    if (line) {
      line.items.push(item);
    } else {
      lines.push({ y, size, items: [item] });
    }
  }
  const textOf = ({ items }) => close(items.toSorted((a, b) => a.transform[4] - b.transform[4]).map(({ str }) => str).join(''));
  const told = lines.map((line) => ({ ...line, text: textOf(line) })).toSorted((a, b) => b.y - a.y);
  return told.filter(({ text }) => !/^\d+\/\d+$/.test(text));
}

/** Each page of a PDF: its text without spaces in the order of the page, and its lines. */
async function pagesOf(pdf) {
  const document = await getDocument({ data: new Uint8Array(pdf), verbosity: 0 }).promise;
  const pages = [];
  for (let number = 1; number <= document.numPages; number += 1) {
    const { items } = await (await document.getPage(number)).getTextContent();
    const numbers = new RegExp(`^${number}/${document.numPages}|${number}/${document.numPages}$`);
    pages.push({ text: close(items.map((item) => item.str).join('')).replace(numbers, ''), lines: linesOf(items) });
  }
  return pages;
}

/** Prints the page that is open; answers its pages, and the rows, headings and digits that its printed form has. */
async function print(name, format, page = view.page) {
  const pdf = await page.pdf({ format });
  if (shots) {
    mkdirSync(shots, { recursive: true });
    writeFileSync(join(shots, `${name}-${format}.pdf`), pdf);
  }
  await page.emulateMedia({ media: 'print' });
  const texts = (selector) => page.locator(selector).evaluateAll((found) =>
    found.filter((element) => element.checkVisibility()).map((element) => element.innerText));
  const [rows, headings, digits] = [await texts('tbody tr, .entry'), await texts('h1, h2, h3, caption'), await texts('.stamp .digits')];
  const heads = await texts('thead tr');
  // Whatever a printer without colours makes of them: text is black or dark grey.
  const coloured = await page.locator('main *').evaluateAll((found) => found
    .filter((element) => element.checkVisibility() && [...element.childNodes].some((node) => node.nodeType === 3 && node.data.trim()))
    .filter((element) => {
      const [red, green, blue] = getComputedStyle(element).color.match(/\d+/g).map(Number);
      return red !== green || green !== blue || red > 0x55;
    })
    .map((element) => element.outerHTML.slice(0, 120)));
  await page.emulateMedia({ media: null });
  const pages = await pagesOf(pdf);
  return {
    pages: pages.map(({ text }) => text), lines: pages.map(({ lines }) => lines), coloured, heads: heads.map(close),
    rows: rows.map(close), headings: headings.map(close), digits: digits.map(close),
  };
}

/** What every report owes its reader. */
function isWhole(name, { pages, lines, rows, headings, heads, digits, coloured }) {
  for (const row of rows) assert.ok(pages.some((page) => page.includes(row)), `${name}: a row is cut: ${row}`);
  for (const heading of headings) {
    assert.ok(!pages.some((page) => page.endsWith(heading)), `${name}: a heading is the last line of a page: ${heading}`);
  }
  for (const head of heads) {
    assert.ok(!pages.some((page) => page.endsWith(head)), `${name}: a table's head is the last line of a page: ${head}`);
  }
  lines.forEach((page, number) => {
    const foot = page.at(-1);
    const lonely = headings.find((heading) => heading === foot?.text);
    assert.ok(foot && !lonely, `${name}: at the foot of page ${number + 1} stands ${lonely ?? 'nothing'}`);
  });
  assert.ok(digits.length > 0 && digits.every((head) => /^[0-9a-f]{64}$/.test(head)), `${name}: ${digits}`);
  assert.ok(pages.at(-1).includes(digits.at(-1)), `${name}: the last page has no stamp`);
  assert.deepEqual(coloured, [], `${name}: text that needs colour`);
}

async function closely(name, format) {
  const printed = await print('record', format);
  isWhole(name, printed);
  return printed.pages;
}

/** A long report: its sheets are numbered, and nothing on them is smaller than a newspaper's notices. */
function isLong(name, printed) {
  isWhole(name, printed);
  const smallest = Math.min(...printed.lines.flat().map(({ size }) => size));
  assert.ok(smallest >= 6.9, `${name}: ${smallest} points`);
  assert.ok(printed.pages.at(-1).includes('Endofthereport.'), `${name} has no end`);
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
    isLong('usage audit', printed);
    assert.ok(printed.rows.length > 20 && printed.pages.length < 25, `${printed.rows.length} rows on ${printed.pages.length} pages`);
  });

  test(`the season report, ${format}`, async () => {
    await view.page.goto(`${url}/reports/season`);
    const printed = await print('season', format);
    isLong('season report', printed);
    assert.ok(printed.rows.length > 10 && printed.pages.length < 25, `${printed.rows.length} rows on ${printed.pages.length} pages`);
  });

  test(`a calibration record: one page, two at most with all its doubts, ${format}`, async () => {
    const records = await view.page.evaluate(async () => {
      const read = async (path) => (await (await fetch(`/api/v1${path}?limit=200`)).json()).items;
      const units = (await read('/seeders')).flatMap((seeder) => seeder.metering_units);
      return Promise.all(units.map(({ id }) => read(`/metering-units/${id}/calibrations`)));
    });
    const usual = ({ repeats }) => repeats.length === 3 && repeats.every(({ catches }) => catches.length === 4);
    let passed = 0;
    for (const ofUnit of records) {
      for (const [number, { id, result }] of ofUnit.filter(usual).entries()) {
        await view.page.goto(`${url}/calibrations/${id}`);
        const name = `record ${id}`;
        // One of each unit is looked at closely; of the others how many sheets they take.
        const pages = number === 0 ? await closely(name, format) : (await pagesOf(await view.page.pdf({ format }))).map(({ text }) => text);
        // What failed says at length what may have gone wrong.
        const most = result.verdict === 'fail' ? 2 : 1;
        assert.ok(pages.length <= most, `${name}: ${pages.length} pages`);
        assert.ok(pages.at(-1).includes('Caughtby'), `${name}: the stamp stands alone on its sheet`);
        passed += 2 - most;
      }
    }
    assert.ok(passed > 50, `${passed} records that passed`);
  });
}

for (const format of ['A4', 'Letter']) {
  test(`a seeder's book, ${format}`, async () => {
    await view.page.goto(`${url}/reports/seeder-book`);
    const seeders = await view.page.locator('[name=seeder_id] option').evaluateAll((options) => options.map(({ value }) => value));
    for (const [number, seeder] of seeders.entries()) {
      await view.page.goto(`${url}/reports/seeder-book?seeder_id=${seeder}`);
      isLong(`book ${number + 1}`, await print(`book-${number + 1}`, format));
    }
  });
}

test('a signed audit, as it was signed and when it is so no more', async () => {
  const agronomist = await openPage(browser);
  const { page } = agronomist;
  await demo.signIn(page, 'agronomist');
  await page.goto(`${url}/usage/signatures/new`);
  await page.fill('[name=remark]', 'Gone through with the office.');
  await page.getByRole('button', { name: 'Sign', exact: true }).click();
  await page.waitForURL(/signatures\/[0-9a-f-]{36}$/);
  const prints = async (name) => {
    for (const format of ['A4', 'Letter']) {
      const printed = await print(name, format, page);
      isWhole(name, printed);
      assert.ok(printed.rows.length > 100 && printed.pages.length < 8, `${name}: ${printed.rows.length} rows on ${printed.pages.length} pages`);
      assert.ok(printed.rows.some((row) => printed.pages.at(-1).includes(row)), `${name}: the stamp stands alone on its sheet`);
    }
  };
  assert.match(await page.locator('main').innerText(), /Nothing of it has changed since it was signed/);
  await prints('signed');
  const job = await view.page.evaluate(async () => (await (await fetch('/api/v1/usage')).json()).jobs.at(-4).id);
  await view.page.goto(`${url}/records/${job}/void`);
  await view.page.fill('[name=reason]', 'Entered twice.');
  await view.page.locator('button.grave').click();
  await view.page.waitForURL((at) => !at.pathname.endsWith('/void'));
  await page.reload();
  assert.match(await page.locator('main').innerText(), /no longer what was signed/);
  await prints('signed-changed');
  assert.deepEqual(agronomist.complaints, []);
});

test('a print-out is checked by its short address', async () => {
  await view.page.goto(`${url}/reports/cab-card`);
  const short = await view.page.locator('.stamp a').first().getAttribute('href');
  await view.page.goto(url + short);
  assert.match(await view.page.locator('main').innerText(), /This trail contains it/);
  assert.deepEqual(view.complaints, []);
});

test('a long report says that it is not whole until its end has come', async () => {
  await view.page.goto(`${url}/reports/season`);
  const notice = view.page.locator('.report-unfinished');
  for (const media of ['screen', 'print']) {
    await view.page.emulateMedia({ media });
    assert.equal(await notice.isVisible(), false, media);
  }
  // As it stands when the connection broke off before the end.
  await view.page.evaluate(() => document.querySelector('.report-end').remove());
  for (const media of ['screen', 'print']) {
    await view.page.emulateMedia({ media });
    assert.equal(await notice.isVisible(), true, media);
  }
  await view.page.emulateMedia({ media: null });
});

test('on a phone a chart over time opens at its newest end, without a script, and what scrolls shows it', async () => {
  const phone = await openPage(browser, { viewport: { width: 360, height: 700 }, storageState: await view.context.storageState(), javaScriptEnabled: false });
  await phone.page.goto(`${url}/usage`);
  const region = phone.page.locator('.plot > .newest').first();
  await region.scrollIntoViewIfNeeded();
  const [shown, drawn] = [await region.boundingBox(), await region.locator('svg').boundingBox()];
  const right = ({ x, width }) => Math.round(x + width);
  assert.ok(drawn.width > shown.width + 100, `${drawn.width} in ${shown.width}`);
  assert.equal(right(drawn), right(shown), 'its right end is in sight');
  const sign = await region.evaluate((element) => getComputedStyle(element).backgroundAttachment);
  assert.equal(sign, 'local, local, scroll, scroll');
  await phone.context.close();
});
