// Walks through the page as a person at the bench does, against the mock: a sweep by an indicator that acts as a
// keyboard, the network gone in the middle, a reload, the network back. Ends with 1 when a promise is not kept.
//   npm run build && node test/journeys.mjs
import assert from 'node:assert/strict';
import { chromium } from 'playwright-core';
import { startMock } from '../mock/serve.mjs';
import { typeReadings } from './screens.mjs';

const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox'],
});

async function withPage(settings, walk) {
  const mock = await startMock({ port: 0, ...settings });
  const context = await browser.newContext({
    viewport: { width: 1024, height: 768 },
    reducedMotion: 'reduce',
  });
  await context.addInitScript(() => localStorage.setItem('pumpwright/language', 'en'));
  const page = await context.newPage();
  const faults = [];
  page.on('pageerror', (e) => faults.push(String(e)));
  page.on('console', (m) => {
    if (m.type() === 'error' && !/ERR_|Failed to load resource/.test(m.text())) faults.push(m.text());
  });
  const base = `http://127.0.0.1:${mock.port}`;
  const cut = (off) => page.request.get(`${base}/mock/cut?off=${off ? 1 : 0}`);
  try {
    await walk({ page, base, jobs: mock.jobs, cut });
    assert.deepEqual(faults, []);
  } finally {
    await context.close();
    mock.server.closeAllConnections();
    mock.server.close();
  }
}

const sweepAddress = '/job/G-2117/step/shaft-runout-nema';

async function startSweep(page) {
  await page.waitForSelector('.setup');
  await page.fill('.setup .field-big input', '0');
  await page.keyboard.press('Escape');
  await page.click('.sweep > .button-main');
  await page.waitForSelector('.strip');
}

const journeys = {
  'a sweep typed by an indicator, sent, judged, and corrected by a reading that replaces it': async ({
    page,
    base,
    jobs,
  }) => {
    await page.goto(base + sweepAddress);
    await startSweep(page);
    await typeReadings(page, [
      '0',
      '0.1',
      '0.2',
      '0.4',
      '2.9',
      '0.5',
      '0.4',
      '0.3',
      '0.2',
      '0.1',
      '0',
      '-0.1',
      '0',
    ]);
    await page.waitForSelector('.live .polar >> visible=true');
    await page.click('.sweep .row-wide .button-main');
    await page.waitForSelector('.verdict-banner.verdict-fail');
    await page.click('.standing .button');
    await page.click('.sweep > .button-main');
    await page.waitForSelector('.strip');
    await page.click('.strip-cell >> nth=4');
    await page.fill('#sweep-typed', '0.5');
    await page.keyboard.press('Enter');
    await page.click('.sweep .row-wide .button-main');
    await page.waitForSelector('.verdict-banner.verdict-pass');
    const readings = jobs.get('G-2117').readings.filter((r) => r.check === 'shaft-runout');
    assert.equal(readings.length, 2);
    assert.equal(readings[1].replaces, readings[0].id);
    assert.equal(readings[1].payload.sweep.points[4].reading, '0.5');
    assert.equal(readings[1].payload.sweep.mount, 'shaft');
  },
  'the network gone in the middle of a sweep, a reload, the network back: every reading once': async ({
    page,
    base,
    jobs,
    cut,
  }) => {
    await page.goto(base + sweepAddress);
    await startSweep(page);
    const all = ['0', '0.1', '0.2', '0.4', '0.5', '0.5', '0.4', '0.3', '0.2', '0.1', '0', '-0.1', '0'];
    await typeReadings(page, all.slice(0, 5));
    await cut(true);
    await typeReadings(page, all.slice(5, 8));
    await page.waitForTimeout(300);
    await page.reload();
    await page.waitForSelector('.strip');
    assert.equal(await page.locator('.strip-reading', { hasText: /^[-+]?\d/ }).count(), 8);
    await page.focus('#sweep-typed');
    await typeReadings(page, all.slice(8));
    await page.click('.sweep .row-wide .button-main');
    await page.waitForSelector('.pending');
    assert.match(await page.textContent('.banner-cut'), /1 kept on this tablet/);
    assert.match(await page.textContent('.pending'), /not judged yet/);
    await cut(false);
    await page.waitForSelector('.verdict-banner.verdict-pass', { timeout: 60_000 });
    const readings = jobs.get('G-2117').readings.filter((r) => r.check === 'shaft-runout');
    assert.equal(readings.length, 1);
    assert.deepEqual(
      readings[0].payload.sweep.points.map((p) => p.reading),
      all,
    );
  },
  'a value refused by the server says so at its field, and the corrected one clears it': async ({
    page,
    base,
  }) => {
    await page.goto(`${base}/job/G-2117/step/end-float`);
    await page.fill('.field-big input', 'seven');
    await page.keyboard.press('Enter');
    await page.waitForSelector('.field-error');
    assert.match(await page.textContent('.banner-refused'), /refused 1/);
    await page.fill('.field-big input', '4.5');
    await page.keyboard.press('Enter');
    await page.waitForSelector('.verdict-banner');
    assert.equal(await page.locator('.banner-refused').count(), 0);
  },
  'a hold point is released by another person, whose reading shows at once on the first page': async ({
    page,
    base,
    jobs,
  }) => {
    await page.goto(`${base}/job/O-0518/step/sweep-impeller`);
    await page.waitForSelector('.hold .button-main');
    await page.click('.hold .button-main');
    await page.waitForFunction(() => document.querySelector('.hold') === null);
    assert.equal(jobs.get('O-0518').steps.find((s) => s.id === 'sweep-impeller').released.actor, 'L.H.');
  },
  'language and units switch at any time and leave the stored reading as it was written': async ({
    page,
    base,
    jobs,
  }) => {
    await page.goto(`${base}/job/G-2098/step/end-float`);
    await page.waitForSelector('.reading-value');
    const before = JSON.stringify(jobs.get('G-2098').readings);
    assert.match(await page.textContent('.reading-value'), /thou|in/);
    await page.click('.menu-button');
    await page.check('input[value=metric]');
    await page.check('input[value=es]');
    await page.keyboard.press('Escape');
    assert.match(await page.textContent('.reading-value'), /mm/);
    assert.match(await page.textContent('.step-stage'), /paso/);
    assert.equal(JSON.stringify(jobs.get('G-2098').readings), before);
  },
  'a tag scanned anywhere opens its job': async ({ page, base }) => {
    await page.goto(`${base}/`);
    await page.waitForSelector('.bench-card');
    await page.evaluate(() => {
      document.activeElement?.blur();
      for (const key of [...'O-0518', 'Enter'])
        document.body.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
    });
    await page.waitForURL(/\/job\/O-0518/);
  },
  'the page opens without a network, shows what it last knew, and keeps a reading': async ({
    page,
    base,
  }) => {
    await page.goto(`${base}/job/G-2117/step/end-float`);
    await page.waitForSelector('.check-card');
    await page.evaluate(() => navigator.serviceWorker.ready);
    await page.reload();
    await page.waitForSelector('.check-card');
    await page.context().setOffline(true);
    await page.reload();
    await page.waitForSelector('.banner-cut');
    await page.waitForSelector('.check-card');
    await page.fill('.field-big input', '4.5');
    await page.keyboard.press('Enter');
    await page.waitForSelector('.pending');
    await page.context().setOffline(false);
    await page.waitForSelector('.verdict-banner', { timeout: 60_000 });
  },
  'a release is signed when nothing stands open': async ({ page, base, jobs }) => {
    await page.goto(`${base}/job/G-2098/release`);
    await page.fill('input[type=password]', 'greenhouse lamp on bench three');
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => document.body.textContent.includes('This pump is released'));
    assert.equal(jobs.get('G-2098').signatures.length, 1);
  },
};

const wanted = process.argv.slice(2).join(' ');
let failed = 0;
for (const [name, walk] of Object.entries(journeys)) {
  if (wanted && !name.includes(wanted)) continue;
  const signedIn = /hold point|release is/.test(name) ? 'L.H.' : 'J.M.';
  try {
    await withPage({ signedIn }, walk);
    process.stdout.write(`kept   ${name}\n`);
  } catch (error) {
    failed++;
    process.stdout.write(
      `BROKEN ${name}\n       ${String(error.message).split('\n').slice(0, 6).join('\n       ')}\n`,
    );
  }
}
await browser.close();
process.exit(failed === 0 ? 0 : 1);
