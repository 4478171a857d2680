// How little must have come before the first reading can be typed: told by holding everything else back, not by a clock.
import assert from 'node:assert/strict';
import { openPage, signIn } from './browser.mjs';

const job = 'G-2230';
const pageScript = /^\/assets\/page-[\w-]+\.js$/;
const needed = [
  /^\/job\/G-2230\/step\/end-float$/,
  /^\/assets\/early-[\w-]+\.js$/,
  pageScript,
  /^\/assets\/page-[\w-]+\.css$/,
  /^\/api\/session$/,
  /^\/api\/jobs\/G-2230$/,
];

export const promises = {
  'the first reading waits for the markup, a small script, and what that and the markup ask for at once': async ({
    browser,
    shop,
  }) => {
    await (await shop.signIn('J.M.')).openLike('G-2117', job);
    const page = await openPage(browser, { serviceWorkers: 'block' });
    await signIn(page, shop.address, 'J.M.');
    const asked = [];
    let letPageCome = () => {};
    const pageMayCome = new Promise((done) => {
      letPageCome = done;
    });
    await page.route('**', async (route) => {
      const { pathname } = new URL(route.request().url());
      asked.push(pathname);
      // Whatever is not needed for the input never gets an answer.
      if (!needed.some((pattern) => pattern.test(pathname))) return;
      if (pageScript.test(pathname)) await pageMayCome;
      await route.fallback();
    });
    const data = ['/api/session', `/api/jobs/${job}`].map((where) =>
      page.waitForResponse((response) => new URL(response.url()).pathname === where),
    );
    const listening = page.waitForRequest((request) => /\/changes\?after=\d+$/.test(request.url()));
    await page.goto(`${shop.address}/job/${job}/step/end-float`, { waitUntil: 'commit' });
    for (const response of await Promise.all(data)) assert.equal(response.status(), 200);
    letPageCome();
    const input = page.getByLabel('Reading', { exact: true });
    await input.focus();
    await page.keyboard.type('4');
    assert.equal(await input.inputValue(), '4');
    await page.waitForSelector('.section .outline');
    // The page takes the answers that were asked for early and, with the view's number, starts listening where it ends.
    await listening;
    for (const path of ['/api/session', `/api/jobs/${job}`])
      assert.equal(asked.filter((a) => a === path).length, 1, `${path} of ${asked.join(' ')}`);
    assert.deepEqual(page.faults, []);
  },
};
