// Walks through the page of the real program in Chromium. One line for each promise; ends with 1 when one is broken.
//   node tests/e2e/page/run.mjs [WORDS OF A PROMISE]
// PUMPWRIGHT names the program (build/asan/cli/pumpwright), CHROMIUM the browser (/usr/bin/chromium). Pictures go to
// build/page-screenshots/.
import { promises as benchSheets } from './bench_sheets.mjs';
import { launch, pictures } from './browser.mjs';
import { promises as looks } from './looks.mjs';
import { promises as network } from './network.mjs';
import { promises as opening } from './opening.mjs';
import { Shop } from './program.mjs';
import { promises as returns } from './returns.mjs';
import { promises as sealSheet } from './seal_sheet.mjs';
import { promises as stripDown } from './strip_down.mjs';
import { promises as testLoop } from './test_loop.mjs';
import { promises as together } from './together.mjs';
import { promises as trueRunning } from './true_running.mjs';
import { promises as wholeBuild } from './whole_build.mjs';

const promises = { ...wholeBuild, ...benchSheets, ...looks, ...network, ...opening, ...returns, ...sealSheet, ...stripDown, ...testLoop, ...together, ...trueRunning };

const wanted = process.argv.slice(2).join(' ');
const waiting = Object.entries(promises).filter(([name]) => name.includes(wanted));
const count = waiting.length;
let broken = 0;

/** What every open page shows at the moment. */
async function photograph(browser, name) {
  const pages = browser.contexts().flatMap((context) => context.pages());
  for (const [i, page] of pages.entries())
    await page.screenshot({ path: `${pictures}${name}-${i + 1}.png` }).catch(() => {});
}

async function keep(browser, name, walk) {
  const began = Date.now();
  let shop = null;
  try {
    shop = await Shop.open();
    await walk({ browser, shop });
    if (shop.complaints.length > 0) throw new Error(shop.complaints.join('\n'));
    process.stdout.write(`kept   ${name} (${((Date.now() - began) / 1000).toFixed(1)} s)\n`);
  } catch (error) {
    broken++;
    const said = String(error.stack).split('\n').slice(0, 12).join('\n       ');
    process.stdout.write(`BROKEN ${name}\n       ${said}\n`);
    await photograph(browser, `broken-${broken}`);
  } finally {
    for (const context of browser.contexts()) await context.close();
    await shop?.close();
  }
}

/** Takes promises until none waits; each lane has a browser, each promise a shop of its own. */
async function lane() {
  const browser = await launch();
  for (let next = waiting.shift(); next; next = waiting.shift()) await keep(browser, ...next);
  await browser.close();
}

await Promise.all(Array.from({ length: 3 }, lane));
if (count === 0) process.stdout.write(`no promise is called ${wanted}\n`);
process.exit(broken === 0 && count > 0 ? 0 : 1);
