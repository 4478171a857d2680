// Measures, does not judge: how long after opening a job's address there is a focused input that takes a reading, with
// the processor slowed down fourfold, and what the page weighs on the wire.
//   node tests/e2e/page/first_reading.mjs [RUNS]
import { setTimeout as pause } from 'node:timers/promises';
import { launch, openPage, readyForTheCut, signIn } from './browser.mjs';
import { Shop } from './program.mjs';

const slowdown = 4;
const lookEveryMs = 10;
// What the page did last, and the service worker taking in the page, is over before the next opening.
const restMs = 1000;
const runs = Number(process.argv[2] ?? 5);

const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];

/** Goes to the input as the key for it does; whether it was there. */
const goToInput = () => {
  const label = [...document.querySelectorAll('.check-card label')].find((l) => l.textContent === 'Reading');
  label?.control?.focus();
  return document.activeElement === label?.control;
};
const inputText = () => document.activeElement.value;

/**
 * Opens the address in `page`; milliseconds until a digit stands in its reading input. Looks often and with little:
 * Playwright's own way to an element waits up to half a second between two looks and first loads a script.
 */
async function untilTyped(page, address) {
  await page.goto('about:blank');
  await pause(restMs);
  const began = performance.now();
  await page.goto(address, { waitUntil: 'commit' });
  while (!(await page.evaluate(goToInput))) await pause(lookEveryMs);
  await page.keyboard.type('4');
  if ((await page.evaluate(inputText)) !== '4') throw new Error('the input took no digit');
  return performance.now() - began;
}

async function measure(browser, shop, cached) {
  const page = await openPage(browser, { serviceWorkers: cached ? 'allow' : 'block' });
  await signIn(page, shop.address, 'J.M.');
  const wire = await page.context().newCDPSession(page);
  await wire.send('Network.enable');
  await wire.send('Network.setCacheDisabled', { cacheDisabled: !cached });
  await wire.send('Emulation.setCPUThrottlingRate', { rate: slowdown });
  let bytes = 0;
  wire.on('Network.loadingFinished', (e) => {
    bytes += e.encodedDataLength;
  });
  const address = `${shop.address}/job/G-2220/step/end-float`;
  if (cached) {
    await readyForTheCut(page);
    await untilTyped(page, address);
  }
  const times = [];
  for (let run = 0; run < runs; run++) {
    bytes = 0;
    times.push(await untilTyped(page, address));
  }
  return { times, bytes };
}

const shop = await Shop.open();
const browser = await launch();
try {
  await (await shop.signIn('J.M.')).openLike('G-2117', 'G-2220');
  for (const [name, cached] of [
    ['nothing in the cache', false],
    ['opened before', true],
  ]) {
    const { times, bytes } = await measure(browser, shop, cached);
    const each = times.map((t) => Math.round(t)).join(', ');
    process.stdout.write(
      `${name}: median ${Math.round(median(times))} ms of ${runs} (${each}), processor ${slowdown}x slower, ` +
        `${(bytes / 1000).toFixed(0)} kB on the wire in the last\n`,
    );
  }
} finally {
  await browser.close();
  await shop.close();
}
