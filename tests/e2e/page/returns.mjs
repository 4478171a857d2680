// What comes back: the shop's older records come in from a file, and the page says what they show and what they do not.
import assert from 'node:assert/strict';
import { openPage, pictures, signIn } from './browser.mjs';

const header = 'Book no,Serial,Model,Came,Left,What for,Sweep';
const rows = [
  'B-1,GH-0700,end-suction circulator 2 x 1.5 x 6,2/1/2024,2/3/2024,new,3',
  'B-2,GH-0700,end-suction circulator 2 x 1.5 x 6,6/1/2024,6/2/2024,leak,4',
  'B-3,GH-0701,end-suction circulator 2 x 1.5 x 6,2/30/2024,3/1/2024,new,3',
];

const fileOf = (lines) => ({
  name: 'second-book.csv',
  mimeType: 'text/csv',
  buffer: Buffer.from(`${[header, ...lines].join('\n')}\n`),
});

async function counts(page) {
  const text = await page.locator('.returns-counts').textContent();
  return Object.fromEntries([...text.matchAll(/([A-Z][a-z ]+): (\d+)/g)].map(([, word, n]) => [word, Number(n)]));
}

async function broughtIn({ browser, shop }) {
  const page = await openPage(browser);
  await signIn(page, shop.address, 'L.H.');
  await page.goto(`${shop.address}/returns`);
  await page.locator('.out-curve').waitFor();
  const before = await counts(page);

  // The columns are named once; what would come of it stands there before anything is kept.
  await page.getByRole('link', { name: 'Older records' }).click();
  await page.getByLabel('File with a line of names first').setInputFiles(fileOf(rows));
  for (const [field, column] of [
    ['Serial number', 'Serial'],
    ['Came in on', 'Came'],
    ['Went out on', 'Left'],
    ['Job number', 'Book no'],
    ['Pump family', 'Model'],
    ['Came in for (column of words)', 'What for'],
  ])
    await page.getByLabel(field, { exact: true }).selectOption(column);
  await page.getByRole('radio', { name: '3/31/2024' }).check();
  await page.getByText('These words say neither a fault nor another reason: “leak” (1), “new” (1).').waitFor();
  await page.getByLabel('Words that mean a fault').fill('leak, noisy');
  await page.getByText('Rows that fit: 2. Rows that do not: 1.').waitFor();
  await page.getByText(/line 4/).waitFor();
  await page.getByText('Readings at the build', { exact: true }).click();
  await page.getByLabel('Impeller sweep', { exact: true }).selectOption('Sweep');
  await page.getByLabel(/Keep these columns/).fill('second book');
  await page.screenshot({ path: `${pictures}old-records.png`, fullPage: true });
  await page.getByRole('button', { name: 'Take in 2 rows' }).click();
  await page.getByText('Taken in: 2. Known already: 0.').waitFor();

  // The next file is read the same way, and what is known changes nothing.
  await page.reload();
  await page.getByLabel('File with a line of names first').setInputFiles(fileOf([...rows.slice(0, 2), rows[2].replace('2/30', '2/28')]));
  await page.getByText('Rows that fit: 3. Rows that do not: 0.').waitFor();
  assert.equal(await page.getByLabel(/Keep these columns/).inputValue(), 'second book');
  await page.getByRole('button', { name: 'Take in 3 rows' }).click();
  await page.getByText('Taken in: 1. Known already: 2.').waitFor();

  await page.goto(`${shop.address}/returns`);
  await page.locator('.out-curve').waitFor();
  const after = await counts(page);
  assert.equal(after['Went out'], before['Went out'] + 3);
  assert.equal(after['Came back'], before['Came back'] + 1);
  assert.equal(after['Still out'], before['Still out'] + 2);

  // Did the change of the elastomer help the circulators? The book says so.
  await page.getByLabel('Pump family').selectOption({ index: 1 });
  await page.getByRole('radio', { name: 'before and after a change' }).check();
  await page.getByLabel('Changed on').fill('2025-03-03');
  const change = page.locator('.panel', { hasText: 'Did the change help?' });
  await change.locator('.verdict-tag').waitFor();
  await change.getByText(/Rate of return: 0\.\d\d times as often after as before/).waitFor();
  await page.getByRole('checkbox', { name: 'Impeller sweep' }).check();
  const readings = page.locator('.panel', { hasText: '1 thou more of' });
  await readings.getByRole('row', { name: /Impeller sweep/ }).waitFor();
  await readings.getByText('A reading that goes with returns need not be their cause.').waitFor();
  await page.screenshot({ path: `${pictures}returns.png`, fullPage: true });
  assert.deepEqual(page.faults, []);

  // An old job is found, and is no door to nowhere.
  await page.goto(shop.address);
  await page.locator('#find-input').fill('GH-0700');
  await page.locator('.found-old', { hasText: 'B-2' }).waitFor();
  assert.equal(await page.locator('.found a').count(), 0);
}

export const promises = {
  'older records come in once their columns are named, and the page says what comes back and whether a change helped':
    broughtIn,
};
