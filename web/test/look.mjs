// Looks at every screen in the mock: takes pictures at three widths in both lights and both languages, and asks axe-core
// for violations of WCAG 2.2 A/AA. Ends with 1 when there are any.
//   npm run build && npm run look [-- NAME…]     (CHROMIUM names the browser, else /usr/bin/chromium)
import { mkdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { startMock } from '../mock/serve.mjs';
import { screens } from './screens.mjs';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const out = fileURLToPath(new URL('../screenshots/', import.meta.url));
mkdirSync(out, { recursive: true });
const wanted = process.argv.slice(2);
const sizes = [
  [390, 844],
  [1024, 768],
  [1440, 900],
];
const looks = [
  { theme: 'bright', language: 'en', units: 'inch' },
  { theme: 'dark', language: 'es', units: 'metric' },
];
const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22a', 'wcag22aa'];

const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox'],
});
let violations = 0;
for (const [name, screen] of Object.entries(screens)) {
  if (wanted.length > 0 && !wanted.includes(name)) continue;
  for (const [width, height] of sizes)
    for (const look of looks) {
      const mock = await startMock({ port: 0, ...screen.mock });
      const context = await browser.newContext({
        viewport: { width, height },
        reducedMotion: 'reduce',
        bypassCSP: true,
      });
      await context.addInitScript((l) => {
        for (const [key, value] of Object.entries(l)) localStorage.setItem(`pumpwright/${key}`, value);
      }, look);
      const page = await context.newPage();
      const faults = [];
      page.on('pageerror', (e) => faults.push(String(e)));
      page.on('console', (m) => {
        if (m.type() === 'error' && !/ERR_|Failed to load resource/.test(m.text())) faults.push(m.text());
      });
      const base = `http://127.0.0.1:${mock.port}`;
      await page.goto(base + screen.path);
      await screen.arrange?.(page, base);
      await page.waitForTimeout(150);
      const label = `${name}-${width}-${look.theme}`;
      await page.screenshot({ path: `${out}${label}.png` });
      await page.evaluate(axeSource);
      const found = await page.evaluate((t) => globalThis.axe.run(document, { runOnly: t }), tags);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      if (wide > 0) faults.push(`scrolls sideways by ${wide} px`);
      for (const v of found.violations)
        faults.push(
          `${v.id}: ${v.nodes
            .map((n) => `${n.target.join(' ')} — ${n.failureSummary?.split('\n')[1] ?? ''}`)
            .slice(0, 4)
            .join(' | ')}`,
        );
      for (const f of faults) process.stdout.write(`${label}: ${f}\n`);
      violations += faults.length;
      await context.close();
      mock.server.closeAllConnections();
      mock.server.close();
    }
}
await browser.close();
process.stdout.write(`${violations} faults\n`);
process.exit(violations === 0 ? 0 : 1);
