// Measures, does not judge: how long after opening a job's address there is a focused input that takes a reading, with
// the processor slowed down fourfold, what the page weighs on the wire, and how long its main thread computes for it.
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

async function rest(page) {
  await page.goto('about:blank');
  await pause(restMs);
}

/**
 * Opens the address in `page`; milliseconds until a digit stands in its reading input. Looks often and with little:
 * Playwright's own way to an element waits up to half a second between two looks and first loads a script.
 */
async function untilTyped(page, address) {
  const began = performance.now();
  await page.goto(address, { waitUntil: 'commit' });
  while (!(await page.evaluate(goToInput))) await pause(lookEveryMs);
  await page.keyboard.type('4');
  if ((await page.evaluate(inputText)) !== '4') throw new Error('the input took no digit');
  return performance.now() - began;
}

/** Milliseconds the page's main thread computed until the digit stood there; hardly changes with what runs beside. */
async function computed(page, wire, address) {
  const taken = async () => {
    const { metrics } = await wire.send('Performance.getMetrics');
    return metrics.find((m) => m.name === 'TaskDuration').value * 1000;
  };
  await rest(page);
  const before = await taken();
  await untilTyped(page, address);
  return (await taken()) - before;
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
    await rest(page);
    bytes = 0;
    times.push(await untilTyped(page, address));
  }
  const weight = bytes;
  await wire.send('Emulation.setCPUThrottlingRate', { rate: 1 });
  await wire.send('Performance.enable', { timeDomain: 'threadTicks' });
  const computing = [];
  for (let run = 0; run < runs; run++) computing.push(await computed(page, wire, address));
  return { times, weight, computing };
}

const shop = await Shop.open();
const browser = await launch();
try {
  await (await shop.signIn('J.M.')).openLike('G-2117', 'G-2220');
  for (const [name, cached] of [
    ['nothing in the cache', false],
    ['opened before', true],
  ]) {
    const { times, weight, computing } = await measure(browser, shop, cached);
    const each = times.map((t) => Math.round(t)).join(', ');
    process.stdout.write(
      `${name}: median ${Math.round(median(times))} ms of ${runs} (${each}), processor ${slowdown}x slower, ` +
        `${(weight / 1000).toFixed(0)} kB on the wire in the last; main thread ${Math.round(median(computing))} ms ` +
        'where it is not slowed\n',
    );
  }
} finally {
  await browser.close();
  await shop.close();
}
