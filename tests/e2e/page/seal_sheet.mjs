// The seal's service sheet: a seal that does not suit its service is refused with the suction pressure that would do, and
// what is tried on the page is judged at once and kept nowhere.
import assert from 'node:assert/strict';
import { openPage, pictures, signIn } from './browser.mjs';

const word = (page) => page.locator('.seal-words strong').first();

async function tooLittleSuction({ browser, shop }) {
  const lead = await shop.signIn('L.H.');
  await lead.openLike('G-2117', 'H-0105', {}, (makeUp) => ({
    ...makeUp,
    service: { fluid: 'water', temperature: '105 degC', suction_pressure: '0.05 bar(g)' },
  }));
  const before = await lead.job('H-0105');
  const page = await openPage(browser);
  await signIn(page, shop.address, 'L.H.');
  await page.goto(`${shop.address}/job/H-0105/step/seal-service/check/vapour-margin`);

  await page.getByText('not fit', { exact: true }).waitFor();
  await page.locator('.check-card .verdict-fail').first().waitFor();
  const named = await page.getByText(/A suction pressure of .* psig would do/).first().textContent();
  const suction = Number(/of ([\d.]+) psig/.exec(named)[1]);
  assert.ok(suction > 1 && suction < 60, named);
  await page.screenshot({ path: `${pictures}seal-not-fit.png` });

  const field = page.getByRole('textbox', { name: 'Suction pressure' });
  await field.fill('12 furlongs');
  await page.locator('.field-error', { hasText: 'furlongs' }).waitFor();

  // The button by keyboard, as everything on the page.
  const button = page.getByRole('button', { name: 'Try this suction pressure' });
  await button.focus();
  await page.keyboard.press('Enter');
  await page.getByText('fit', { exact: true }).waitFor();
  assert.equal(await field.inputValue(), `${/of ([\d.]+ psig)/.exec(named)[1]}`);
  await page.getByText('these are not the job’s conditions').waitFor();
  await page.locator('.face-picture').waitFor();
  await page.locator('.map-picture').waitFor();
  await page.screenshot({ path: `${pictures}seal-tried.png` });

  // A third of it is not enough: the word follows what is written, not the button.
  await field.fill(`${(suction / 3).toFixed(2)} psig`);
  await page.getByText('not fit', { exact: true }).waitFor();

  await page.getByRole('button', { name: 'Back to the job’s own' }).click();
  await page.getByText('these are not the job’s conditions').waitFor({ state: 'detached' });
  assert.equal(await word(page).textContent(), 'not fit');
  const after = await lead.job('H-0105');
  assert.equal(after.seq, before.seq);
  assert.deepEqual(after.make_up, before.make_up);
  assert.deepEqual(page.faults, []);
}

export const promises = {
  'hot water with too little suction pressure is refused, and the suction pressure that would do is named and fits':
    tooLittleSuction,
};
