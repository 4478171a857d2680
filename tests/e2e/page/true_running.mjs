// Which part is out: a sweep beyond its limit says which part, which way and the least work that puts it right, and what
// turns is never told in the words of what stands.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { openPage, pictures, signIn, startSweep, typeReadings } from './browser.mjs';
import { root } from './program.mjs';

const sheet = (page) => page.locator('section[aria-labelledby="true-sheet-title"]');

async function impellerThatIsOut({ browser, shop }) {
  const page = await openPage(browser);
  await signIn(page, shop.address, 'L.H.');
  await page.goto(`${shop.address}/job/O-0518/step/sweep-impeller/check/impeller-sweep`);

  const turning = sheet(page);
  await turning.locator('.verdict-fail').waitFor();
  const found = await turning.locator('.verdict-banner span').first().textContent();
  assert.match(found, /impeller .* toward \d+° from the keyway/);
  await turning.getByText('Do this:').waitFor();
  await turning.locator('.true-picture').waitFor();
  assert.match(await turning.locator('figcaption').textContent(), /drawn \d+ × as large/);
  assert.doesNotMatch(await turning.textContent(), /o'clock/);
  await turning.scrollIntoViewIfNeeded();
  await page.screenshot({ path: `${pictures}true-turning.png` });

  await page.goto(`${shop.address}/job/O-0518/step/fit-bracket/check/bracket-bore-runout`);
  await sheet(page).getByText('What stands: which part is out').waitFor();
  assert.doesNotMatch(await sheet(page).textContent(), /from the keyway/);
  assert.deepEqual(page.faults, []);
}

async function sweptAfterTheRemedy({ browser, shop }) {
  const page = await openPage(browser);
  await signIn(page, shop.address, 'L.H.');
  await page.goto(`${shop.address}/job/O-0518/step/sweep-impeller/check/impeller-sweep`);
  await sheet(page).getByText('Do this:').waitFor();
  const card = page.locator('.check-card');
  await card.getByRole('button', { name: 'Add a second reading' }).click();
  await card
    .getByLabel('What was done since it was last swept')
    .selectOption({ label: 'Draw the impeller, clean, fit the impeller as it was.' });
  await startSweep(page);
  const cleaned = ['0', '0', '+0.01', '+0.01', '+0.02', '+0.02', '+0.02', '+0.01', '+0.01', '0', '0', '0', '0'];
  await typeReadings(page, cleaned);
  await card.getByRole('button', { name: 'Send the sweep (13)' }).click();
  await card.locator('.verdict-banner.verdict-pass').waitFor();
  await sheet(page).getByText(/foretold .* mm ± .* mm, read .* mm: as foretold/).waitFor();
  await sheet(page).locator('.verdict-pass').waitFor();
  await page.screenshot({ path: `${pictures}true-after.png`, fullPage: true });
  assert.deepEqual(page.faults, []);
}

const demonstration = JSON.parse(readFileSync(path.join(root, 'demo/greenhouse-circulator.json'), 'utf8'));

/** The demonstration's sweep of a check, every deviation so many times as large. */
function swept(check, times) {
  const { id: _id, replaces: _replaces, ...reading } = demonstration.events.findLast(
    (e) => e.event === 'reading' && e.check === check,
  );
  const points = reading.sweep.points.map((p) => ({ ...p, reading: String(times * Number(p.reading)) }));
  return { ...reading, id: 'b1', actor: 'L.H.', sweep: { ...reading.sweep, points } };
}

async function bracketTappedOver({ browser, shop }) {
  const lead = await shop.signIn('L.H.');
  await lead.openLike('G-2117', 'G-2213');
  for (const check of ['register-runout', 'face-runout'])
    await lead.record('/api/jobs/G-2213/events', {
      type: 'reading',
      payload: { ...swept(check, 1), id: check },
    });
  await lead.record('/api/jobs/G-2213/events', { type: 'reading', payload: swept('bracket-bore-runout', 5) });
  const page = await openPage(browser);
  await signIn(page, shop.address, 'L.H.');
  await page.goto(`${shop.address}/job/G-2213/step/fit-bracket/check/bracket-bore-runout`);
  const standing = sheet(page);
  const until = standing.getByText(/Tap the bracket toward .* until the dial reads −[\d.]+ thou\./);
  const wanted = Number(/reads −([\d.]+) thou/.exec(await until.textContent())[1]);
  assert.ok(wanted > 2, `${wanted}`);
  await standing.getByLabel('It reads now').fill('-1');
  await standing.getByText(`${(wanted - 1).toFixed(1)} thou to go.`).waitFor();
  await standing.getByLabel('It reads now').fill(`-${(wanted + 1.5).toFixed(1)}`);
  await standing.getByText('1.5 thou too far').waitFor();
  await page.screenshot({ path: `${pictures}true-tapping.png`, fullPage: true });
  assert.deepEqual(page.faults, []);
}

export const promises = {
  'a bracket off centre is tapped over by what the dial has to read, with how far there is to go':
    bracketTappedOver,
  'a sweep taken after the remedy says whether it came out as foretold, and decides in place of the one before':
    sweptAfterTheRemedy,
  'an impeller beyond its limit is told which part is out, which way and what to do': impellerThatIsOut,
};
