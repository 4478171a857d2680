// Every screen of the real shop at three widths in both lights: axe-core finds nothing against WCAG 2.2 A and AA, nothing
// scrolls sideways, and a picture is left to be looked at.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { openWithSheets, readSheets } from './bench_sheets.mjs';
import { axePath, openPage, pictures, signIn, startSweep, typeReadings } from './browser.mjs';

const axe = readFileSync(axePath, 'utf8');
const wcag = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22a', 'wcag22aa'];
const sizes = [
  { width: 390, height: 844 },
  { width: 1024, height: 768 },
  { width: 1440, height: 900 },
];

const shows = (selector) => (page) => page.waitForSelector(selector);

/** What is looked at once somebody is signed in: an address, and what the person did there. */
const screens = {
  benches: ['/', shows('.bench-card')],
  'job-failing': ['/job/O-0518', shows('.proof .polar')],
  'job-chain': ['/job/G-2117/step/stack-readings/check/working-length', shows('.chain-bar')],
  'job-seal': ['/job/G-2117/step/seal-service/check/vapour-margin', shows('.map-picture')],
  'job-true-running': ['/job/O-0518/step/sweep-impeller/check/impeller-sweep', shows('.true-picture')],
  'job-confirmation': ['/job/G-2210/step/make-safe', shows('.check-card input')],
  'job-value': ['/job/G-2210/step/end-float', shows('.check-card input')],
  'job-size': ['/job/G-2210/step/shaft-size', shows('.size-grid')],
  'job-rotor': ['/job/G-2211/step/shaft-under-load/check/deflection-at-seal', shows('.sheet-picture')],
  'job-balance': ['/job/G-2211/step/balance/check/balanced', shows('.sheet-picture')],
  'job-alignment': ['/job/G-2211/step/align/check/aligned', shows('.sheet-picture')],
  'job-performance': ['/job/G-2211/step/performance/check/guarantee', shows('.sheet-picture')],
  'job-vibration': ['/job/G-2211/step/vibration/check/vibration', shows('.sheet-picture')],
  'job-system': ['/job/G-2211/step/operating-point/check/operating-point', shows('.sheet-picture')],
  'job-strip-down': ['/job/G-2211/step/strip-down/check/strip-down', shows('.cause-headline')],
  'strip-down-open': [
    '/job/G-2212/step/strip-down/check/strip-down',
    async (page) => {
      await page.locator('.strip-part summary').first().click();
      await page.locator('.finding button').first().click();
      await page.locator('.cause-headline').first().waitFor({ state: 'attached' });
    },
  ],
  'system-open': ['/job/G-2212/step/operating-point/check/operating-point', shows('.check-card input')],
  'performance-open': ['/job/G-2212/step/performance/check/guarantee', shows('.check-card input')],
  'alignment-open': ['/job/G-2212/step/align/check/aligned', shows('.check-card input')],
  'balance-open': ['/job/G-2212/step/balance/check/balanced', shows('.check-card input')],
  'sweep-set-up': ['/job/G-2210/step/shaft-runout-nema', shows('.setup')],
  'sweep-half-read': [
    '/job/G-2210/step/sweep-impeller',
    async (page) => {
      if (await page.locator('.setup, .strip').first().waitFor().then(() => page.locator('.setup').count()))
        await startSweep(page);
      if ((await page.locator('.strip-reading', { hasText: /\d/ }).count()) === 0)
        await typeReadings(page, ['0', '+0.5', '+1', '+9', '+2', '+1.5', '+1', '+0.5', '0']);
      await page.locator('.live .polar').filter({ visible: true }).waitFor();
    },
  ],
  hold: ['/job/G-2117/step/sweep-impeller', shows('.polar')],
  'set-up': [
    '/new',
    async (page) => {
      await page.getByText('Copy from an earlier job').or(page.getByText('Copiar de')).first().click();
      await page.locator('details input').first().fill('A-0309');
      await page.locator('details .button').first().click();
      await page.waitForSelector('.plan-list li');
    },
  ],
  'release-open': ['/job/O-0518/release', shows('.open-points li')],
  'release-ready': ['/job/G-2117/release', shows('textarea')],
  'shop-people': ['/shop/people', shows('.panel')],
  'shop-instruments': ['/shop/instruments', shows('.panel')],
  'shop-limits': ['/shop/limits', shows('.panel')],
  'shop-old': [
    '/shop/old',
    async (page) => {
      const csv = 'Job,S/N,In,Kind\nL-1,GH-0500,3/31/2024,repair\nL-2,GH-0501,soon,??\n';
      const file = { name: 'book.csv', mimeType: 'text/csv', buffer: Buffer.from(csv) };
      await page.locator('input[type=file]').setInputFiles(file);
      await page.locator('select').nth(0).selectOption('S/N');
      await page.locator('select').nth(1).selectOption('In');
      await page.getByRole('radio', { name: '3/31/2024' }).check();
      await page.waitForSelector('.old-wrong li');
    },
  ],
  returns: ['/returns', shows('.out-curve')],
  'returns-compared': [
    '/returns',
    async (page) => {
      await page.waitForSelector('.out-curve');
      await page.locator('.choice').first().getByRole('radio').nth(3).check();
      await page.locator('input[type=checkbox]').first().check();
      await page.waitForSelector('.out-names li');
    },
  ],
  'shop-log': ['/shop/log', shows('.panel')],
};

/** The drawings come after the first picture. */
const allDrawn = () =>
  [...document.querySelectorAll('.section, .where svg')].every((drawing) => drawing.querySelector('.outline')) &&
  [...document.querySelectorAll('.steps')].every((steps) => steps.querySelector('li'));

async function look(page, name, light) {
  await page.waitForFunction(allDrawn);
  const found = [];
  for (const size of sizes) {
    await page.setViewportSize(size);
    await page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))));
    await page.evaluate(() => document.querySelector('.typing')?.scrollIntoView());
    const label = `${name}-${size.width}-${light}`;
    await page.screenshot({ path: `${pictures}${label}.png` });
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    if (wide > 0) found.push(`${label}: scrolls sideways by ${wide} px`);
    if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(axe);
    const { violations, passes } = await page.evaluate(
      (tags) => globalThis.axe.run(document, { runOnly: tags, resultTypes: ['violations'] }),
      wcag,
    );
    assert.ok(passes.length > 5, `${label}: axe-core has looked at the page`);
    for (const { id, nodes } of violations)
      found.push(`${label}: ${id}: ${nodes.map((n) => n.target.join(' ')).slice(0, 4).join(' | ')}`);
  }
  return found;
}

/** One job like the demonstration's, and two with more bench tests, read and unread. */
async function openJobs(lead) {
  await lead.openLike('G-2117', 'G-2210');
  for (const number of ['G-2211', 'G-2212']) await openWithSheets(lead, number);
  await readSheets(lead, 'G-2211');
}

async function lookAtAll({ browser, shop }, preferences) {
  const lead = await shop.signIn('L.H.');
  await openJobs(lead);
  const page = await openPage(browser, { preferences });
  await page.goto(shop.address);
  await page.waitForSelector('input[type=password]');
  const found = await look(page, 'sign-in', preferences.theme);
  await signIn(page, shop.address, 'L.H.');
  for (const [name, [address, arrange]] of Object.entries(screens)) {
    await page.setViewportSize(sizes[2]);
    await page.goto(shop.address + address);
    await arrange(page);
    found.push(...(await look(page, name, preferences.theme)));
  }
  assert.deepEqual([...found, ...page.faults], []);
}

/** Texts of which a part can not be seen: cut off by a box, standing out of a button, or beyond the screen. */
function clippedTexts() {
  const scrolls = (value) => value === 'auto' || value === 'scroll';
  const found = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const text = node.textContent.trim();
    const holder = node.parentElement;
    if (text === '' || !holder.checkVisibility() || holder.closest('.skip, script, style, select')) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const word of range.getClientRects()) {
      let within = { left: 0, right: window.innerWidth };
      for (let box = holder; box && box !== document.body; box = box.parentElement) {
        const style = getComputedStyle(box);
        // What scrolls can be reached; what is clipped away as a whole is there for screen readers.
        if (scrolls(style.overflowX) || style.clipPath !== 'none') {
          within = null;
          break;
        }
        if (style.overflowX !== 'visible' || box.matches('button, .button')) {
          within = box.getBoundingClientRect();
          break;
        }
      }
      if (within && (word.left < within.left - 1 || word.right > within.right + 1)) {
        found.push(`${holder.tagName.toLowerCase()}.${holder.className}: ${text.slice(0, 60)}`);
        break;
      }
    }
  }
  return found;
}

async function nothingIsClipped({ browser, shop }, language, width) {
  const lead = await shop.signIn('L.H.');
  await openJobs(lead);
  const page = await openPage(browser);
  await page.setViewportSize({ width, height: 844 });
  await signIn(page, shop.address, 'L.H.');
  const [sweepAddress, readHalf] = screens['sweep-half-read'];
  await page.goto(shop.address + sweepAddress);
  await readHalf(page);
  await page.evaluate((wanted) => localStorage.setItem('pumpwright/language', wanted), language);
  const found = [];
  for (const [name, [address, arrange]] of Object.entries(screens)) {
    await page.goto(shop.address + address);
    await arrange(page);
    assert.equal(await page.locator('html').getAttribute('lang'), language);
    await page.screenshot({ path: `${pictures}${name}-${width}-${language}.png`, fullPage: true });
    found.push(...(await page.evaluate(clippedTexts)).map((what) => `${name}: ${what}`));
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    if (wide > 0) found.push(`${name}: scrolls sideways by ${wide} px`);
  }
  // The look itself is tried: a word in a box too small for it is found.
  await page.evaluate(() => {
    const box = document.createElement('div');
    box.style.cssText = 'width: 20px; overflow: hidden; white-space: nowrap';
    box.textContent = 'demasiado';
    document.querySelector('main').append(box);
  });
  assert.ok((await page.evaluate(clippedTexts)).some((what) => what.includes('demasiado')));
  assert.deepEqual([...found, ...page.faults], []);
}

export const promises = {
  'every screen is usable by WCAG 2.2 AA and fits at 390, 1024 and 1440 px in bright light': (at) =>
    lookAtAll(at, { theme: 'bright' }),
  'every screen is usable by WCAG 2.2 AA and fits at 390, 1024 and 1440 px in the dark': (at) =>
    lookAtAll(at, { theme: 'dark', units: 'metric' }),
  'no word is clipped in Spanish at 390 px': (at) => nothingIsClipped(at, 'es', 390),
};
