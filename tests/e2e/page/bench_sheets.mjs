// Bench tests that are no part of the demonstration: set up with a job of their own, typed where they are read, and
// answered with what to do and a picture to scale.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { openPage, pictures, signIn } from './browser.mjs';
import { Keyboard } from './keyboard.mjs';
import { root } from './program.mjs';

const example = (name) => {
  const { format: _f, version: _v, name: _n, note: _o, ...file } = JSON.parse(
    readFileSync(path.join(root, `docs/examples/${name}.json`), 'utf8'),
  );
  return file;
};
const split = (file, read) => [
  Object.fromEntries(Object.entries(file).filter(([key]) => !read.includes(key))),
  Object.fromEntries(Object.entries(file).filter(([key]) => read.includes(key))),
];

const [alignment, swept] = split(example('align-greenhouse-rim-and-face'), ['dials', 'soft_foot', 'indicator']);
const [balance, ran] = split(example('balance-greenhouse-rotor'), ['sensors', 'runs']);
const rotor = example('rotor-greenhouse-circulator');
const [vibration, felt] = split(example('vibration-orchard-wash'), ['overall']);
const { test, npsh: _npsh, ...promised } = example('performance-orchard-wash');
const { points, ...loop } = test;
const { motor: running, ...loopOfPipes } = example('system-greenhouse');
const { measured, ...motor } = running;
const system = { ...loopOfPipes, motor };
const performance = { ...promised, test: loop };

/** A job with every bench test to look at; `number` is a new one. */
export async function openWithSheets(lead, number) {
  await lead.openLike('G-2117', number, {}, (makeUp) => ({
    ...makeUp,
    sheets: { ...makeUp.sheets, alignment, balance, rotor, performance, vibration, system, 'strip-down': { complaint: 'drips again' } },
  }));
}

const meter = {
  id: 'meter-1',
  kind: 'vibration-meter',
  measures: 'velocity',
  unit: 'mm/s',
  graduation: '0.01',
  calibrated: '2026-06-01',
  due: '2099-06-01',
};

/** All of them read, without the page. */
export async function readSheets(lead, number) {
  await lead.record('/api/shop/events', { type: 'instrument-set', payload: { instrument: meter } });
  const { indicator: _shops, ...dials } = swept;
  const time = new Date().toISOString().replace(/\.\d+/, '');
  const reading = (id, check, instrument, sheet) => ({
    type: 'reading',
    payload: { event: 'reading', id, check, instrument, sheet, time, actor: 'L.H.' },
  });
  await lead.record(
    `/api/jobs/${number}/events`,
    reading('b1', 'balanced', 'meter-1', ran),
    reading('b2', 'aligned', 'dial-1', dials),
    reading('b3', 'guarantee', 'gauge-1', { test: { points } }),
    reading('b4', 'vibration', 'meter-1', felt),
    reading('b6', 'strip-down', undefined, { found: ['heat-checks', 'lost-prime'], not_found: ['track-wide'] }),
    reading('b5', 'operating-point', 'meter-1', { motor: { measured } }),
  );
}

const valueAt = (sheet, at) => at.split('/').slice(1).reduce((value, key) => value?.[key], sheet);

async function typeSheet(hand, card, form, sheet) {
  for (const field of form) {
    const value = valueAt(sheet, field.at);
    if (field.kind === 'fixed' || value === undefined) continue;
    const label = field.optional ? new RegExp(`^${field.title.en.replace(/[()]/g, '\\$&')} \\(`) : field.title.en;
    const input = card.getByLabel(label, { exact: true });
    if (field.kind === 'word') {
      const choice = field.choices.find((c) => c.word === value).title.en;
      await hand.select(input, choice);
    } else await hand.write(input, field.bare ? value.replace(' thou', '') : value);
  }
}

async function couplingOutOfLine({ browser, shop }) {
  const lead = await shop.signIn('L.H.');
  const number = 'G-2212';
  await openWithSheets(lead, number);
  const page = await openPage(browser);
  await signIn(page, shop.address, 'L.H.');
  await page.goto(`${shop.address}/job/${number}/step/align/check/aligned`);
  const card = page.locator('.check-card');
  await card.getByRole('button', { name: 'Take the reading' }).waitFor();
  const check = (await lead.job(number)).checks.find((c) => c.id === 'aligned');
  const hand = new Keyboard(page);
  await hand.select(card.getByLabel('Instrument'), 'dial-1');
  await typeSheet(hand, card, check.form, swept);
  await hand.press(card.getByRole('button', { name: 'Take the reading' }));
  await card.locator('.verdict-banner.verdict-fail').waitFor();

  const proof = page.locator('.proof');
  await proof.getByText(/Front feet: lower .* thou/).first().waitFor();
  await proof.locator('.sheet-picture').waitFor();
  assert.match(await proof.locator('.sheet-figure figcaption').textContent(), /drawn \d+ times larger/);
  await page.screenshot({ path: `${pictures}alignment-typed.png`, fullPage: true });
  // What was typed with bare numbers is kept in the dial's unit, at the clock positions that were asked.
  const [kept] = await lead.readings(number, 'aligned');
  assert.deepEqual(kept.payload.sheet.dials[0].readings, swept.dials[0].readings);
  assert.deepEqual(page.faults, []);
}

export const promises = {
  'a coupling typed by keyboard as its dials read is told which feet to move, by how much, with a picture to scale':
    couplingOutOfLine,
};
