// The screens that are looked at, each with what a person did before.

const signedIn = { signedIn: 'J.M.' };
const lead = { signedIn: 'L.H.' };

/** Types numbers as an indicator that acts as a keyboard does. */
export async function typeReadings(page, readings) {
  for (const r of readings) {
    await page.keyboard.type(r, { delay: 2 });
    await page.keyboard.press('Enter');
  }
}

const startSweep = async (page) => {
  await page.waitForSelector('.setup');
  await page.fill('.setup .field-big input', '0');
  await page.click('.sweep > .button-main');
  await page.waitForSelector('.strip');
};

export const screens = {
  'first-start': { path: '/', mock: { firstStart: true } },
  'sign-in': { path: '/', mock: {} },
  'sign-in-tiles': { path: '/', mock: { device: true } },
  'sign-in-pin': {
    path: '/',
    mock: { device: true },
    arrange: async (page) => {
      await page.click('.person-tile >> nth=1');
    },
  },
  benches: { path: '/', mock: signedIn, arrange: (page) => page.waitForSelector('.bench-card') },
  find: {
    path: '/',
    mock: signedIn,
    arrange: async (page) => {
      await page.waitForSelector('.bench-card');
      await page.fill('#find-input', 'orchard');
      await page.waitForSelector('.found a');
    },
  },
  menu: {
    path: '/',
    mock: lead,
    arrange: async (page) => {
      await page.click('.menu-button');
    },
  },
  keys: {
    path: '/',
    mock: signedIn,
    arrange: async (page) => {
      await page.waitForSelector('.bench-card');
      await page.keyboard.press('?');
    },
  },
  'job-failing': { path: '/job/O-0518', mock: signedIn, arrange: (page) => page.waitForSelector('.polar') },
  'job-value': {
    path: '/job/G-2117/step/end-float',
    mock: signedIn,
    arrange: (page) => page.waitForSelector('.check-card'),
  },
  'job-refused': {
    path: '/job/G-2117/step/end-float',
    mock: signedIn,
    arrange: async (page) => {
      await page.fill('.field-big input', 'seven');
      await page.click('.check-card .button-main');
      await page.waitForSelector('.field-error');
    },
  },
  'job-confirm': {
    path: '/job/G-2117/step/seal-surface',
    mock: signedIn,
    arrange: (page) => page.waitForSelector('.check-card'),
  },
  'job-size': {
    path: '/job/G-2117/step/sleeve-fit',
    mock: signedIn,
    arrange: (page) => page.waitForSelector('.size-grid'),
  },
  'job-chain': {
    path: '/job/G-2098/step/stack-readings/check/working-length',
    mock: signedIn,
    arrange: (page) => page.waitForSelector('.chain-bar'),
  },
  'job-hold': {
    path: '/job/O-0518/step/sweep-impeller',
    mock: lead,
    arrange: (page) => page.waitForSelector('.hold'),
  },
  'job-seal': {
    path: '/job/O-0518',
    mock: signedIn,
    arrange: async (page) => {
      await page.click('.section-zoom');
    },
  },
  'job-fan': {
    path: '/job/O-0518',
    mock: signedIn,
    arrange: async (page) => {
      await page.waitForSelector('g.spot');
      await page.waitForTimeout(200);
      await page.focus('g.spot');
      await page.keyboard.press('Enter');
      await page.waitForSelector('.fan');
    },
  },
  'sweep-setup': {
    path: '/job/G-2117/step/shaft-runout-nema',
    mock: signedIn,
    arrange: (page) => page.waitForSelector('.setup'),
  },
  'sweep-face-setup': {
    path: '/job/G-2117/step/register-and-face/check/face-runout',
    mock: signedIn,
    arrange: (page) => page.waitForSelector('.setup'),
  },
  'sweep-strip': {
    path: '/job/G-2117/step/shaft-runout-nema',
    mock: signedIn,
    arrange: async (page) => {
      await startSweep(page);
      await typeReadings(page, ['0.0', '+0.2', '+0.5', '+0.7', '+2.9', '+0.8', '+0.5', '+0.3', '0']);
      await page.keyboard.type('-0.');
      await page.waitForSelector('.live .polar >> visible=true');
    },
  },
  'sweep-done': {
    path: '/job/G-2117/step/shaft-runout-nema',
    mock: signedIn,
    arrange: async (page) => {
      await startSweep(page);
      await typeReadings(page, [
        '0',
        '0.1',
        '0.2',
        '0.4',
        '0.5',
        '0.5',
        '0.4',
        '0.3',
        '0.2',
        '0.1',
        '0',
        '-0.1',
        '0',
      ]);
      await page.click('.sweep .row-wide .button-main');
      await page.waitForSelector('.verdict-banner');
    },
  },
  'cut-off': {
    path: '/job/G-2117/step/end-float',
    mock: signedIn,
    arrange: async (page, base) => {
      await page.waitForSelector('.check-card');
      await page.request.get(`${base}/mock/cut?off=1`);
      await page.fill('.field-big input', '4.5');
      await page.click('.check-card .button-main');
      await page.waitForSelector('.pending');
    },
  },
  kept: {
    path: '/job/G-2117/step/end-float',
    mock: signedIn,
    arrange: async (page, base) => {
      await page.fill('.field-big input', 'seven');
      await page.click('.check-card .button-main');
      await page.waitForSelector('.field-error');
      await page.request.get(`${base}/mock/cut?off=1`);
      await page.fill('.field-big input', '4.5');
      await page.click('.check-card .button-main');
      await page.waitForSelector('.pending');
      await page.click('.banner a');
      await page.waitForSelector('.kept-item');
    },
  },
  'release-open': {
    path: '/job/O-0518/release',
    mock: lead,
    arrange: (page) => page.waitForSelector('.open-points'),
  },
  'release-ready': {
    path: '/job/G-2098/release',
    mock: lead,
    arrange: (page) => page.waitForSelector('textarea'),
  },
  'set-up': { path: '/new', mock: lead, arrange: (page) => page.waitForSelector('.set-up-form') },
  'set-up-copied': {
    path: '/new',
    mock: lead,
    arrange: async (page) => {
      await page.waitForSelector('.set-up-form');
      await page.fill('fieldset.panel >> nth=0 >> input >> nth=2', 'end-suction circulator 2 x 1.5 x 6');
      await page.click('.earlier .button');
      await page.waitForSelector('.plan-list');
    },
  },
  me: { path: '/me', mock: { ...signedIn, device: true }, arrange: (page) => page.waitForSelector('form') },
  unknown: { path: '/nowhere', mock: signedIn },
  ...Object.fromEntries(
    ['people', 'devices', 'instruments', 'limits', 'sheets', 'texts', 'log'].map((part) => [
      `shop-${part}`,
      { path: `/shop/${part}`, mock: lead, arrange: (page) => page.waitForSelector('.panel') },
    ]),
  ),
};
