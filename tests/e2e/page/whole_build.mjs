// A pump built from the first step to the signed record by people who never touch the screen.
import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { openPage, pictures, typeReadings } from './browser.mjs';
import { Keyboard } from './keyboard.mjs';
import { passwords, root, run } from './program.mjs';

const demonstration = JSON.parse(readFileSync(path.join(root, 'demo/greenhouse-circulator.json'), 'utf8'));
const number = 'G-2200';
const spoiled = { check: 'impeller-sweep', angle: 90, reading: '+9.5' };

/** What the demonstration read for each check; of a corrected reading the correction. */
const readings = new Map(
  demonstration.events.filter((e) => e.event === 'reading').map((e) => [e.check, e]),
);

/** Instruments that stay in date whenever these tests run. */
async function calibrateAll(lead) {
  const day = (offset) => new Date(Date.now() + offset * 86_400_000).toISOString().slice(0, 10);
  await lead.record(
    '/api/shop/events',
    ...demonstration.shop.instruments.map((instrument) => ({
      type: 'instrument-set',
      payload: { instrument: { ...instrument, calibrated: day(-30), due: day(300) } },
    })),
  );
}

async function signInByKeyboard(page, address, id) {
  const hand = new Keyboard(page);
  await page.goto(address);
  await hand.write(page.getByLabel('Initials'), id);
  await hand.write(page.getByLabel('Password'), passwords[id]);
  await page.keyboard.press('Enter');
  await page.waitForSelector('.bench-card');
  return hand;
}

async function setUpJob(page, hand) {
  await hand.press(page.getByRole('link', { name: 'Set up a job' }));
  await hand.press(page.getByText('Copy from an earlier job'));
  await hand.write(page.locator('details').getByLabel('Job number'), 'G-2117');
  await hand.press(page.getByRole('button', { name: 'Copy', exact: true }));
  await page.getByText('Filled from G-2117').waitFor();
  const job = page.getByRole('group', { name: 'The job' });
  await hand.write(job.getByLabel('Job number'), number);
  await hand.write(job.getByLabel('Customer'), demonstration.job.customer);
  await hand.write(job.getByLabel('Pump'), demonstration.job.pump);
  await hand.write(job.getByLabel('Serial number'), demonstration.job.serial);
  await hand.write(job.getByLabel('Why it came in'), 'drips again');
  await hand.write(job.getByLabel('Bench'), '4');
  await page.waitForSelector('.plan-list li');
  await hand.press(page.getByRole('button', { name: 'Open the job' }));
  await page.waitForURL(`**/job/${number}/step/**`);
}

/** The inputs of a check, by its kind; each leaves the reading ready to be taken with one last key. */
const enter = {
  async confirmation(page, hand, card, reading) {
    if (reading.note) await hand.write(card.getByLabel('Note'), reading.note);
    await hand.press(card.getByRole('button', { name: 'Seen, it is so' }));
  },
  async value(page, hand, card, reading) {
    await hand.select(card.getByLabel('Instrument'), reading.instrument);
    const values = reading.values ?? [reading.value];
    for (let more = 1; more < values.length; more++)
      await hand.press(card.getByRole('button', { name: 'One more repeat' }));
    await hand.reach(card.getByLabel('Reading', { exact: true }));
    await typeReadings(page, values);
  },
  async size(page, hand, card, reading) {
    await hand.select(card.getByLabel('Instrument'), reading.instrument);
    const sections = [...new Set(reading.size.points.map((p) => p.section))];
    for (const [r, section] of sections.entries())
      await hand.write(card.locator('.size-grid tbody tr').nth(r).getByLabel('Section'), section);
    await hand.reach(card.locator('.cell').first());
    await typeReadings(page, reading.size.points.map((p) => p.diameter));
    if (sections.length === 1) await hand.press(card.getByRole('button', { name: 'Take the reading' }));
  },
  async sweep(page, hand, card, reading) {
    await readSweep(page, hand, card, reading);
    await hand.press(card.getByRole('button', { name: 'Send the sweep (13)' }));
  },
  async sheet(page, hand, card, reading, check) {
    await hand.select(card.getByLabel('Instrument'), reading.instrument);
    for (const field of check.form) {
      const value = field.at.split('/').slice(1).reduce((at, key) => at[key], reading.sheet);
      const name = field.title.en;
      if (field.kind === 'flag') await hand.choose(card.getByRole('group', { name }), value ? /^yes$/ : /^no$/);
      else await hand.write(card.getByLabel(name, { exact: true }), value);
    }
    await hand.press(card.getByRole('button', { name: 'Take the reading' }));
  },
};

async function readSweep(page, hand, card, reading) {
  await hand.select(card.getByLabel('Instrument'), reading.instrument);
  const { points, ...sits } = reading.sweep;
  await sit(hand, card, sits);
  await hand.press(page.getByRole('button', { name: 'Start the sweep' }));
  await page.waitForSelector('.strip');
  await typeReadings(page, points.map((p) => p.reading));
}

const bases = { 'motor-face': 'On the motor', shaft: 'On the shaft' };

async function sit(hand, card, sits) {
  const group = (name) => card.getByRole('group', { name });
  await hand.choose(group('How the indicator sits'), sits.mount === 'shaft' ? /Base stands/ : /Base turns/);
  await hand.select(card.getByLabel('The base sits'), bases[sits.base]);
  await hand.choose(group('Plunger pushed in'), sits.plunger_in);
  if (sits.surface) await hand.choose(group('The surface is'), sits.surface === 'inside' ? /inside/ : /outside/);
  if (sits.held_toward) await hand.choose(group('While turning'), new RegExp(sits.held_toward));
  if (sits.radius) await hand.write(card.getByLabel('Radius of the sweep'), sits.radius);
  await hand.choose(group('Places round'), '12');
  await hand.write(card.getByLabel('Push, release, tap'), sits.zero_return);
  if (sits.bar_sag) await hand.write(card.getByLabel('Sag of the bar'), sits.bar_sag);
}

async function seeVerdict(card, verdict) {
  await card.locator(`.verdict-banner.verdict-${verdict}`).waitFor();
}

/** The impeller sweep with one place read wrong, the verdict on it, and the reading that takes its place. */
async function spoilAndCorrect(page, hand, card, reading) {
  const points = reading.sweep.points.map((p) =>
    p.angle_deg === spoiled.angle ? { ...p, reading: spoiled.reading } : p,
  );
  await readSweep(page, hand, card, { ...reading, sweep: { ...reading.sweep, points } });
  const suspect = page.getByText(`The reading at ${spoiled.angle}° does not belong`);
  await suspect.filter({ visible: true }).waitFor();
  await hand.press(card.getByRole('button', { name: 'Send the sweep (13)' }));
  await seeVerdict(card, 'fail');
  await page.locator('.proof .remarks', { hasText: `${spoiled.angle}°` }).waitFor();
  await page.screenshot({ path: `${pictures}build-sweep-fails.png` });
  await hand.press(card.getByRole('button', { name: 'Correct it' }));
  await hand.press(card.getByRole('button', { name: 'Start the sweep' }));
  await hand.press(card.locator('.strip-cell').nth(spoiled.angle / 30));
  const right = reading.sweep.points.find((p) => p.angle_deg === spoiled.angle).reading;
  await typeReadings(page, [right]);
  await hand.press(card.getByRole('button', { name: 'Send the sweep (13)' }));
}

async function doStep(page, hand, step, checks) {
  // A section may be named as its one step is: the step's own heading says that it is open.
  await page.getByRole('heading', { name: step.title.en, exact: true, level: 2 }).waitFor();
  const taken = checks.filter((c) => c.step === step.id && c.takes_reading);
  for (const [i, check] of taken.entries()) {
    const card = page.locator('.check-card', { has: page.locator(`#check-${check.id}`) });
    await card.waitFor();
    const take = check.id === spoiled.check ? spoilAndCorrect : enter[check.kind];
    await take(page, hand, card, readings.get(check.id), check);
    await seeVerdict(card, 'pass');
    if (i + 1 < taken.length) await hand.press(page.getByRole('link', { name: /^Next: / }));
  }
  await hand.press(page.getByRole('button', { name: 'Step done' }));
}

/** Another person looks at the step and releases it; the first page shows that by itself. */
async function releaseHold(first, second, step) {
  const { page, hand, address } = second;
  await page.goto(`${address}/job/${number}/step/${step.id}`);
  await hand.press(page.getByRole('button', { name: 'Release the hold point' }));
  await first.getByText('Hold point released by L.H.').waitFor();
}

async function download(page, hand, link) {
  const coming = page.waitForEvent('download');
  await hand.press(link);
  return readFileSync(await (await coming).path());
}

/** One digit of one reading in the payload of one event, as by somebody who wants it to look better. */
function withOneByteChanged(record, seq) {
  const text = record.toString('utf8');
  const event = text.search(new RegExp(`"seq": ?${seq},`));
  const at = text.indexOf('+2.5', event) + 3;
  assert.ok(event > 0 && at > event);
  return `${text.slice(0, at)}4${text.slice(at + 1)}`;
}

/** The record proves itself and is judged again to the end; with a byte of event `seq` changed it proves nothing. */
async function proveRecord(shop, record, seq) {
  const file = (name) => path.join(shop.directory, name);
  writeFileSync(file('shop.pub'), (await run('public-key', '--data', shop.data)).out);
  writeFileSync(file('record.json'), record);
  writeFileSync(file('changed.json'), withOneByteChanged(record, seq));
  const proven = await run('verify', file('record.json'), '--trust', file('shop.pub'));
  assert.equal(proven.status, 0, proven.out + proven.err);
  const judged = await run('judge', file('record.json'));
  assert.equal(judged.status, 0, judged.out + judged.err);
  const changed = await run('verify', file('changed.json'), '--trust', file('shop.pub'), '--json');
  assert.equal(changed.status, 1, changed.out + changed.err);
  assert.deepEqual(
    JSON.parse(changed.out).faults.map((f) => f.seq),
    [seq],
  );
}

export const promises = {
  'a pump is built by keyboard alone by two people, signed, and its record proves itself': async ({
    browser,
    shop,
  }) => {
    const lead = await shop.signIn('L.H.');
    await calibrateAll(lead);
    const page = await openPage(browser, { viewport: { width: 1440, height: 900 } });
    const hand = await signInByKeyboard(page, shop.address, 'J.M.');
    const other = await openPage(browser);
    const second = { page: other, hand: await signInByKeyboard(other, shop.address, 'L.H.'), address: shop.address };
    await setUpJob(page, hand);
    let loads = 0;
    page.on('domcontentloaded', () => loads++);
    const { steps, checks } = await lead.job(number);
    for (const step of steps) {
      await doStep(page, hand, step, checks);
      if (!step.hold) continue;
      await page.getByText('It waits for another person').waitFor();
      await releaseHold(page, second, step);
      await hand.press(page.locator('.step-nav [data-next]'));
    }
    assert.equal(loads, 0, 'the first page was never loaded again');

    await second.page.goto(`${shop.address}/job/${number}/release`);
    await second.page.getByText('Nothing stands open').waitFor();
    await second.hand.write(second.page.getByLabel('Password'), passwords['L.H.']);
    await second.page.keyboard.press('Enter');
    await second.page.getByText('This pump is released.').waitFor();
    await page.getByText('This pump is released.').waitFor();
    await page.screenshot({ path: `${pictures}build-released.png` });

    const pdf = await download(page, hand, page.getByRole('link', { name: 'Build record (PDF)' }));
    assert.equal(pdf.subarray(0, 4).toString(), '%PDF');
    const record = await download(page, hand, page.getByRole('link', { name: 'Record (JSON)' }));
    const sweeps = await lead.readings(number, spoiled.check);
    assert.equal(sweeps.length, 2);
    assert.equal(sweeps[1].replaces, sweeps[0].id);
    for (const [check, reading] of readings) {
      const last = (await lead.readings(number, check)).at(-1);
      const { value, values, sweep, size, done } = last.payload;
      assert.deepEqual(
        { value, values, done, size, points: sweep?.points.map((p) => p.reading) },
        {
          value: reading.value,
          values: reading.values,
          done: reading.done,
          size: reading.size,
          points: reading.sweep?.points.map((p) => p.reading),
        },
        check,
      );
    }
    await proveRecord(shop, record, sweeps[1].seq);
    assert.deepEqual([...page.faults, ...other.faults], []);
  },
};
