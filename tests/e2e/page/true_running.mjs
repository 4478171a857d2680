// Which part is out: a sweep beyond its limit says which part, which way and the least work that puts it right, and what
// turns is never told in the words of what stands.
import assert from 'node:assert/strict';
import { openPage, pictures, signIn } from './browser.mjs';

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

export const promises = {
  'an impeller beyond its limit is told which part is out, which way and what to do': impellerThatIsOut,
};
