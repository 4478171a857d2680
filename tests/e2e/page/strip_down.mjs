// A pump that came back is stripped: what is found is marked part by part, and the page says meanwhile what it speaks for
// and what to look at next.
import assert from 'node:assert/strict';
import { openPage, pictures, signIn } from './browser.mjs';
import { Keyboard } from './keyboard.mjs';

export async function openStripDown(lead, number) {
  await lead.openLike('G-2117', number, {}, (makeUp) => ({
    ...makeUp,
    sheets: { ...makeUp.sheets, 'strip-down': { complaint: 'leaks again after seven months', hours_run: '5100 h' } },
  }));
}

const row = (card, title) => card.locator('.finding', { hasText: title });

async function mark(hand, card, part, title, press) {
  const group = card.locator('.strip-part', { has: card.page().getByText(part, { exact: true }) });
  if (!(await group.evaluate((details) => details.open))) await hand.press(group.locator('summary'));
  await hand.press(row(card, title).getByRole('button', { name: press, exact: true }));
}

async function strippedByKeyboard({ browser, shop }) {
  const lead = await shop.signIn('L.H.');
  const number = 'G-2218';
  await openStripDown(lead, number);
  const page = await openPage(browser);
  await signIn(page, shop.address, 'L.H.');
  await page.goto(`${shop.address}/job/${number}/step/strip-down/check/strip-down`);
  const card = page.locator('.check-card');
  await card.locator('.strip-part').first().waitFor();
  const hand = new Keyboard(page);

  // A place on the half-section opens its part.
  const bearings = card.locator('#strip-part-bearings');
  await hand.press(card.getByRole('button', { name: /^bearings: / }));
  assert.equal(await bearings.evaluate((details) => details.open), true);

  // One finding alone does not tell, and the page says what would.
  await mark(hand, card, 'faces', 'fine cracks across the hard face', 'There');
  const proof = page.locator('.proof');
  await proof.getByText(/Can not tell yet/).waitFor();
  await proof.getByText(/lost its liquid, or was started unvented\?/).waitFor();

  await mark(hand, card, 'told by who ran it', 'lost its liquid, or was started unvented', 'There');
  await mark(hand, card, 'faces', 'grains bedded in the soft face', 'Not there');
  await proof.getByText(/Most likely: faces ran dry/).waitFor();
  await proof.getByText(/filled and vented before it turns/).waitFor();
  await hand.write(row(card, 'fine cracks across the hard face').getByLabel(/^Where, how much/), 'all round');
  await page.screenshot({ path: `${pictures}strip-down-marked.png`, fullPage: true });

  await hand.press(card.getByRole('button', { name: 'Take the reading' }));
  await card.locator('.verdict-banner.verdict-pass').waitFor();
  const [kept] = await lead.readings(number, 'strip-down');
  assert.deepEqual(kept.payload.sheet.found[0], {
    finding: 'heat-checks',
    said: 'fine cracks across the hard face',
    where: 'all round',
  });
  assert.equal(kept.payload.sheet.not_found[0].finding, 'solids-bedded');
  assert.equal(kept.instrument, null);
  await proof.getByText(/Most likely: faces ran dry/).waitFor();
  await proof.getByText('all round').first().waitFor();
  const [letter] = await Promise.all([
    page.waitForEvent('download'),
    proof.getByRole('link', { name: /Letter to the pump’s owner/ }).click(),
  ]);
  assert.match(letter.suggestedFilename(), /letter\.pdf$/);

  // The same pump in a job after that: what was said to change is not forgotten.
  await lead.openLike('G-2117', 'G-2219');
  await page.goto(`${shop.address}/job/G-2219`);
  const past = page.locator('.past');
  await hand.press(past.locator('summary'));
  await past.getByText(/Most likely: faces ran dry/).waitFor();
  await past.getByText(/Then said to change: Prove it filled and vented/).waitFor();
  await past.locator('caption', { hasText: 'From build to build' }).waitFor();
  await page.screenshot({ path: `${pictures}pump-past.png`, fullPage: true });
  assert.deepEqual(page.faults, []);
}

export const promises = {
  'a strip-down marked by keyboard says what the evidence speaks for, and what to look at next, while it is marked':
    strippedByKeyboard,
};
