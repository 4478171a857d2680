// Chromium as these tests use it, and a page of the shop that remembers what went wrong on it.
import { existsSync, mkdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { passwords, root } from './program.mjs';

const fromPage = createRequire(path.join(root, 'web/package.json'));
const { chromium } = fromPage('playwright-core');

export const axePath = fromPage.resolve('axe-core/axe.min.js');
export const pictures = path.join(root, 'build/page-screenshots/');
mkdirSync(pictures, { recursive: true });

export const launch = () =>
  chromium.launch({ executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args: ['--no-sandbox'] });

/** With PUMPWRIGHT_PAGE the page comes from that directory (web/dist) instead of out of the program. */
async function servePageFrom(profile, directory) {
  await profile.route(/^http:\/\/127\.0\.0\.1:\d+\/(?!api\/)/, async (route) => {
    const { pathname } = new URL(route.request().url());
    const file = path.join(root, directory, pathname);
    const known = pathname !== '/' && existsSync(file);
    await route.fulfill({ path: known ? file : path.join(root, directory, 'index.html') });
  });
}

/**
 * A page in a browser profile of its own. `page.faults` collects scripts that failed and what the page complained of;
 * a request that found no server is not one.
 */
export async function openPage(browser, { preferences = {}, ...context } = {}) {
  const profile = await browser.newContext({
    viewport: { width: 1024, height: 768 },
    reducedMotion: 'reduce',
    locale: 'en-GB',
    ...(process.env.PUMPWRIGHT_PAGE ? { serviceWorkers: 'block' } : {}),
    ...context,
  });
  if (process.env.PUMPWRIGHT_PAGE) await servePageFrom(profile, process.env.PUMPWRIGHT_PAGE);
  await profile.addInitScript(
    (wanted) => {
      for (const [key, value] of Object.entries(wanted))
        if (localStorage.getItem(`pumpwright/${key}`) === null) localStorage.setItem(`pumpwright/${key}`, value);
    },
    { language: 'en', theme: 'bright', ...preferences },
  );
  const page = await profile.newPage();
  page.setDefaultTimeout(20_000);
  page.faults = [];
  page.on('pageerror', (e) => page.faults.push(String(e)));
  page.on('console', (m) => {
    if (m.type() === 'error' && !/ERR_|Failed to load resource/.test(m.text())) page.faults.push(m.text());
  });
  return page;
}

/** Signs in with the form, as on a tablet that nobody enrolled. */
export async function signIn(page, address, id, password = passwords[id]) {
  await page.goto(address);
  await page.getByLabel('Initials').fill(id);
  await page.getByLabel('Password').fill(password);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await page.waitForSelector('.bench-card');
}

/** Waits until the page would open without a server, which is its service worker's part. */
export async function readyForTheCut(page) {
  if (!process.env.PUMPWRIGHT_PAGE) await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
}

/** Numbers as an indicator that acts as a keyboard sends them: fast, each with Enter. */
export async function typeReadings(page, readings) {
  for (const reading of readings) {
    await page.keyboard.type(reading);
    await page.keyboard.press('Enter');
  }
}

/** Looks at how the indicator sits, notes that its zero came back, and starts the strip. */
export async function startSweep(page) {
  await page.getByLabel('Push, release, tap').fill('0');
  await page.getByRole('button', { name: 'Start the sweep' }).click();
  await page.waitForSelector('.strip');
}

/** Numbers that stand in the strip. */
export const written = (page) => page.locator('.strip-reading', { hasText: /^[-+]?\d/ });
