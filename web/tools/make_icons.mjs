// Draws the icons' PNG sizes from icon.svg with a browser; run by hand when the drawing changes.
//   node tools/make_icons.mjs /path/to/chromium
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

const folder = new URL('../public/', import.meta.url);
const drawing = readFileSync(new URL('icon.svg', folder), 'utf8');
const browser = await chromium.launch({ executablePath: process.argv[2], args: ['--no-sandbox'] });
for (const size of [192, 512]) {
  const page = await browser.newPage({ viewport: { width: size, height: size } });
  await page.setContent(
    `<style>body{margin:0}svg{display:block;width:${size}px;height:${size}px}</style>${drawing}`,
  );
  await page.screenshot({ path: fileURLToPath(new URL(`icon-${size}.png`, folder)), omitBackground: true });
}
await browser.close();
