// The performance test: set up with the job, its points typed, brought by a logger or from a file, and shown against what
// was promised as they come.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { openPage, pictures, signIn } from './browser.mjs';
import { Keyboard } from './keyboard.mjs';
import { root } from './program.mjs';

const number = 'G-2214';
const example = JSON.parse(readFileSync(path.join(root, 'docs/examples/performance-orchard-wash.json'), 'utf8'));
const points = example.test.points;

// What is typed into the set-up's fields, by their titles. The grade is agreed closer than the pump keeps.
const plan = {
  'Rated speed': '3500 rpm',
  'Height of the bench over the sea (may stay empty)': '820 ft',
  'Suction gauge: height over the shaft': '-0.5 ft',
  'Suction: bore of the pipe at the tap': '2.067 in',
  'Discharge gauge: height over the shaft': '2 ft',
  'Discharge: bore of the pipe at the tap': '1.61 in',
  'Flow meter: error, of its reading': '0.5 %',
  'Suction gauge: range, end to end': '30 psi',
  'Suction gauge: error, of its range': '0.5 %',
  'Discharge gauge: range, end to end': '60 psi',
  'Discharge gauge: error, of its range': '0.25 %',
  'Tachometer: error': '1 rpm',
  'Voltmeter: error, of its reading': '0.5 %',
  'Clamp meter: error, of its reading': '1 %',
  'Power factor: error': '0.01',
  'Motor: efficiency, from its plate (may stay empty)': '84.5 %',
  'Promised flow': '120 gpm',
  'Promised head': '75.6 ft',
  'Who compared the grade with the standard (may stay empty)': 'lead hand (invented)',
  'Motor: rated power, from its plate (may stay empty)': '5 hp',
};

async function setUp(page) {
  await page.goto(`${page.address}/new`);
  await page.getByText('Copy from an earlier job').click();
  await page.locator('details').getByLabel('Job number').fill('G-2117');
  await page.getByRole('button', { name: 'Copy', exact: true }).click();
  await page.getByText('Filled from G-2117').waitFor();
  const job = page.getByRole('group', { name: 'The job' });
  await job.getByLabel('Job number').fill(number);
  await job.getByLabel('Serial number').fill('GH-0044');
  await job.getByLabel('Why it came in').fill('to be proven against its curve');
  await page.getByRole('group', { name: 'Performance test' }).getByRole('radio', { name: 'yes' }).check();
  await page.getByLabel('Liquid of the test').selectOption('water');
  await page.getByLabel('Power by volts, amps and power factor (may stay empty)').selectOption('yes');
  await page.getByLabel('Agreed grade').selectOption('1B');
  for (const [title, text] of Object.entries(plan)) await page.getByLabel(title, { exact: true }).fill(text);
  await page.locator('.plan-list', { hasText: 'Run it over its flows' }).waitFor();
  await page.screenshot({ path: `${pictures}performance-set-up.png`, fullPage: true });
  await page.getByRole('button', { name: 'Open the job' }).click();
  await page.waitForURL(`**/job/${number}/step/**`);
}

const items = [
  ['flow', 'Flow'],
  ['suction', 'Suction gauge'],
  ['discharge', 'Discharge gauge'],
  ['speed', 'Speed'],
  ['temperature', 'Liquid temperature'],
  ['voltage', 'Voltage (may stay empty)'],
  ['current', 'Current (may stay empty)'],
  ['power_factor', 'Power factor (may stay empty)'],
];

/** The first point with its units, the others as bare numbers. */
async function typePoint(hand, card, i) {
  const row = card.locator('fieldset.sheet-item').nth(i);
  for (const [key, title] of items) {
    const text = String(points[i][key]);
    const unit = String(points[0][key]).replace(/^[\d.]+ ?/, '');
    const label = i === 0 || unit === '' ? title : title.replace(/( \(|$)/, `, ${unit}$1`);
    await hand.write(row.getByLabel(label, { exact: true }), i === 0 ? text : text.replace(/[^\d.].*$/, ''));
  }
}

async function typedAtTheLoop({ browser, shop }) {
  const lead = await shop.signIn('L.H.');
  const page = await openPage(browser, { viewport: { width: 1440, height: 900 } });
  page.address = shop.address;
  await signIn(page, shop.address, 'L.H.');
  await setUp(page);
  const planned = (await lead.job(number)).make_up.sheets.performance;
  assert.deepEqual(
    planned.test.instruments.map((i) => i.id),
    ['flow meter', 'suction gauge', 'discharge gauge', 'tachometer', 'voltmeter', 'clamp meter', 'power factor meter'],
  );

  await page.goto(`${shop.address}/job/${number}/step/performance/check/guarantee`);
  const card = page.locator('.check-card', { has: page.locator('#check-guarantee') });
  const hand = new Keyboard(page);
  await hand.select(card.getByLabel('Instrument'), 'gauge-1');
  for (let i = 0; i < 3; i++) {
    if (i > 0) await hand.press(card.getByRole('button', { name: 'One more: Point' }));
    await typePoint(hand, card, i);
  }
  // Three points: a curve, but not yet as far as the promised flow.
  const beside = page.locator('.proof .live-beside');
  await beside.getByText(/flow.*tested/).waitFor();

  // The others come from a logger, while the check is open.
  const rows = points.slice(3).map((row) => ({ type: 'row-logged', payload: { check: 'guarantee', row } }));
  await lead.record(`/api/jobs/${number}/events`, ...rows.slice(0, 2));
  await lead.record(`/api/jobs/${number}/events`, ...rows.slice(2));
  await card.getByText('Rows of the logger are filled in').waitFor();
  await beside.locator('.verdict-tag', { hasText: 'fail' }).waitFor();
  await beside.locator('.sheet-picture').waitFor();
  await beside.getByText('grade 3B').waitFor();
  assert.equal((await lead.readings(number, 'guarantee')).length, 0);
  await page.screenshot({ path: `${pictures}performance-live.png`, fullPage: true });

  await hand.press(card.getByRole('button', { name: 'Take the reading' }));
  await card.locator('.verdict-banner.verdict-fail').waitFor();
  const proof = page.locator('.proof');
  await proof.getByText(/The pump gives too little\. \d+ rpm/).first().waitFor();
  await proof.getByText(/with a chance of 5 %/).first().waitFor();
  await page.screenshot({ path: `${pictures}performance-taken.png`, fullPage: true });
  const [kept] = await lead.readings(number, 'guarantee');
  assert.deepEqual(kept.payload.sheet.test.points, points);
  assert.equal(kept.payload.sheet.npsh, undefined);

  // A suppression run beside them: NPSH3 by the code of the command, 7.9 ft in docs/examples.
  await hand.press(card.getByRole('button', { name: 'Correct it' }));
  const { points: run, plateau, npsh_error, head_error } = example.npsh.suppression;
  for (let i = 0; i < run.length; i++) {
    if (i > 0) await hand.press(card.getByRole('button', { name: 'One more: Suppression run' }));
    const point = card.locator('fieldset.sheet-item', { hasText: `Suppression run at one flow: point ${i + 1}` });
    await hand.write(point.getByLabel(/^NPSH then/), run[i].npsh);
    await hand.write(point.getByLabel(/^Head then/), run[i].head);
  }
  await hand.write(card.getByLabel(/how many points stand on the level part/), String(plateau));
  await hand.write(card.getByLabel(/error of NPSH/), npsh_error);
  await hand.write(card.getByLabel(/error of head/), head_error);
  await beside.getByText('NPSH3 (head 3 % down)').waitFor();
  await hand.press(card.getByRole('button', { name: 'Take the reading' }));
  await card.getByRole('button', { name: 'Correct it' }).waitFor();
  const last = (await lead.readings(number, 'guarantee')).find((reading) => reading.replaces === kept.id);
  assert.deepEqual(last.payload.sheet.npsh.suppression, example.npsh.suppression);
  const { checks } = await lead.job(number);
  assert.equal(checks.find((c) => c.id === 'motor-load').finding.verdict, 'pass');
  assert.deepEqual(page.faults, []);
}

async function fromAFile({ browser, shop }) {
  const lead = await shop.signIn('L.H.');
  const { points: _points, ...test } = example.test;
  await lead.openLike('G-2117', number, {}, (makeUp) => ({
    ...makeUp,
    sheets: { ...makeUp.sheets, performance: { test, guarantee: example.guarantee } },
  }));
  const page = await openPage(browser);
  await signIn(page, shop.address, 'L.H.');
  await page.goto(`${shop.address}/job/${number}/step/performance/check/guarantee`);
  const card = page.locator('.check-card', { has: page.locator('#check-guarantee') });
  const units = { flow: 'gpm', suction: 'inHg vacuum', discharge: 'psig', speed: 'rpm', temperature: '°F', voltage: 'V', current: 'A' };
  const number_ = (text) => String(text).replace(/[^\d.].*$/, '');
  const names = items.map(([key, title]) => [key, title.replace(' (may stay empty)', ''), key in units ? `${key} [${units[key]}]` : key]);
  const lines = [names.map((n) => n[2]), ...points.map((p) => names.map(([key]) => number_(p[key])))];
  await card.getByText('Point: from a CSV file', { exact: true }).click();
  await card.locator('input[type="file"]').first().setInputFiles({
    name: 'loop.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(lines.map((cells) => cells.join(';')).join('\r\n')),
  });
  for (const [, title, column] of names) await card.getByLabel(`Column of: ${title}`, { exact: true }).selectOption(column);
  await page.screenshot({ path: `${pictures}performance-file.png`, fullPage: true });
  await card.getByRole('button', { name: 'Fill in 8 rows' }).click();
  await page.locator('.proof .live .verdict-tag', { hasText: 'pass' }).waitFor();
  await card.getByRole('button', { name: 'Take the reading' }).click();
  await card.locator('.verdict-banner.verdict-pass').waitFor();
  const [kept] = await lead.readings(number, 'guarantee');
  assert.deepEqual(kept.payload.sheet.test.points.map((p) => p.flow), points.map((p) => p.flow));
  // The next file is read without asking again.
  await card.getByRole('button', { name: 'Correct it' }).click();
  await card.getByText('Point: from a CSV file', { exact: true }).click();
  await card.locator('input[type="file"]').first().setInputFiles({ name: 'again.csv', mimeType: 'text/csv', buffer: Buffer.from(lines.map((c) => c.join(';')).join('\n')) });
  assert.equal(await card.getByLabel('Column of: Flow', { exact: true }).inputValue(), 'flow [gpm]');
  assert.deepEqual(page.faults, []);
}

/** A WAV of 16 bits: 1 × turning at 2920 rpm and vane pass of six, in full scales of 50 m/s². */
function wavOf(seconds) {
  const rate = 6400;
  const count = rate * seconds;
  const bytes = Buffer.alloc(44 + 2 * count);
  bytes.write('RIFF', 0);
  bytes.writeUInt32LE(36 + 2 * count, 4);
  bytes.write('WAVEfmt ', 8);
  [16, 0x10001, rate, 2 * rate, 0x100002].forEach((word, i) => bytes.writeUInt32LE(word, 16 + 4 * i));
  bytes.write('data', 36);
  bytes.writeUInt32LE(2 * count, 40);
  const turning = (2 * Math.PI * 2920) / 60 / rate;
  for (let i = 0; i < count; i++) {
    const value = 2 * Math.cos(turning * i) + 3 * Math.cos(6 * turning * i) + 0.5 * (Math.sin(i * i * 0.37) + Math.sin(i * 7.1));
    bytes.writeInt16LE(Math.round((value / 50) * 32767), 44 + 2 * i);
  }
  return bytes;
}

async function recorded({ browser, shop }) {
  const lead = await shop.signIn('L.H.');
  const vibration = JSON.parse(readFileSync(path.join(root, 'docs/examples/vibration-orchard-wash.json'), 'utf8'));
  const { speed, vanes, category, power } = vibration;
  const planned = { speed, vanes, category, power, meter_error: '2 %', confirmed_by: 'lead hand (invented)' };
  await lead.openLike('G-2117', number, {}, (makeUp) => ({ ...makeUp, sheets: { ...makeUp.sheets, vibration: planned } }));
  await lead.record('/api/shop/events', { type: 'instrument-set', payload: { instrument: { id: 'meter-1', kind: 'vibration-meter', measures: 'velocity', unit: 'mm/s', graduation: '0.01', calibrated: '2026-06-01', due: '2099-06-01' } } });
  const page = await openPage(browser, { viewport: { width: 1024, height: 768 } });
  await signIn(page, shop.address, 'L.H.');
  await page.goto(`${shop.address}/job/${number}/step/vibration/check/vibration`);
  const card = page.locator('.check-card', { has: page.locator('#check-vibration') });
  await card.getByLabel('Instrument').selectOption('meter-1');
  await card.getByText('A recording: spectrum and tones').click();
  await card.getByLabel('WAV file, at most 12 MiB').setInputFiles({ name: 'pump.wav', mimeType: 'audio/wav', buffer: wavOf(30) });
  await card.getByLabel('Recorded at').fill('pump bearing, horizontal');
  await card.getByLabel('Unit of the recording').selectOption('m/s2');
  await card.getByLabel('Full scale, in that unit').fill('50');
  await card.getByRole('button', { name: 'Look at it' }).click();
  await card.getByText(/: 1 × turning/).waitFor();
  await card.getByText(/: vane pass/).waitFor();
  await card.getByText('unbalance first').waitFor();
  await card.locator('.sheet-picture').first().scrollIntoViewIfNeeded();
  await page.screenshot({ path: `${pictures}vibration-recording.png`, fullPage: true });
  await card.getByRole('button', { name: /^Put .* mm\/s among the readings/ }).click();
  await card.getByRole('button', { name: 'Take the reading' }).click();
  await card.locator('.verdict-banner.verdict-pass').waitFor();
  const [kept] = await lead.readings(number, 'vibration');
  assert.equal(kept.payload.sheet.overall[0].place, 'pump bearing, horizontal');
  assert.match(kept.payload.sheet.overall[0].velocity, /^4\.\d+ mm\/s$/);
  const step = (await lead.job(number)).steps.find((s) => s.id === 'vibration');
  assert.deepEqual(
    step.attachments.map((a) => a.name),
    ['pump.wav'],
  );
  assert.deepEqual(page.faults, []);
}

export const promises = {
  'a recording shows its spectrum with what its tones may be, and its velocity joins the readings': recorded,
  'a performance test typed at the loop and fed by a logger is shown against what was promised before it is sent':
    typedAtTheLoop,
  'the points of a test come from a CSV file whose columns are named once': fromAFile,
};
