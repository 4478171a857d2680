// Nothing entered is lost and nothing is there twice: the network cut, the server killed, with the page open.
import assert from 'node:assert/strict';
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { openPage, readyForTheCut, signIn, startSweep, typeReadings, written } from './browser.mjs';
import { Wire } from './cut.mjs';
import { run } from './program.mjs';

const sweep = ['0', '+0.5', '+1', '+1.5', '+1.5', '+1', '+0.5', '0', '-0.5', '-0.5', '-0.5', '0', '0'];

async function withWire(shop, walk) {
  const wire = await Wire.to(shop.port);
  try {
    await walk(wire);
  } finally {
    wire.close();
  }
}

/** A client and a page of J.M.'s, signed in at `address`, with a job of their own like the greenhouse's. */
async function atJob({ browser, shop }, number, { address = shop.address, ...context } = {}) {
  const client = await shop.signIn('J.M.');
  await client.openLike('G-2117', number);
  const page = await openPage(browser, context);
  await signIn(page, address, 'J.M.');
  return { client, page };
}

export const promises = {
  'the network is cut in a sweep, the page reloaded, the network back: every reading is there once': (at) =>
    withWire(at.shop, async (wire) => {
      const { client, page } = await atJob(at, 'G-2201', { address: wire.address });
      await readyForTheCut(page);
      await page.goto(`${wire.address}/job/G-2201/step/shaft-runout-nema`);
      await startSweep(page);
      await typeReadings(page, sweep.slice(0, 5));
      wire.cut();
      await typeReadings(page, sweep.slice(5, 8));
      await page.waitForFunction(
        () => [...document.querySelectorAll('.strip-reading')].filter((c) => /\d/.test(c.textContent)).length === 8,
      );
      await page.reload();
      await page.waitForSelector('.strip');
      assert.equal(await written(page).count(), 8);
      await page.focus('#sweep-typed');
      await typeReadings(page, sweep.slice(8));
      await page.getByRole('button', { name: 'Send the sweep (13)' }).click();
      await page.getByText('not judged yet').first().waitFor();
      await page.getByText(/Cut off — 1 kept on this tablet/).first().waitFor();
      assert.deepEqual(await client.readings('G-2201', 'shaft-runout'), []);
      wire.mend();
      await page.locator('.check-card .verdict-banner').waitFor({ timeout: 60_000 });
      const readings = await client.readings('G-2201', 'shaft-runout');
      assert.equal(readings.length, 1);
      assert.deepEqual(
        readings[0].payload.sweep.points.map((p) => p.reading),
        sweep,
      );
      assert.deepEqual(page.faults, []);
    }),

  'an answer lost on its way makes no second reading': (at) =>
    withWire(at.shop, async (wire) => {
      const { client, page } = await atJob(at, 'G-2202', { address: wire.address, serviceWorkers: 'block' });
      await page.goto(`${wire.address}/job/G-2202/step/end-float`);
      await page.getByLabel('Reading', { exact: true }).fill('4.5');
      // The server takes the reading; the wire is cut before its answer arrives.
      const lost = new Promise((resolve) => {
        const lose = async (route) => {
          await route.fetch();
          wire.cut();
          await route.abort();
          resolve();
        };
        void page.route('**/events', lose, { times: 1 });
      });
      await page.keyboard.press('Enter');
      await lost;
      await page.getByText('not judged yet').first().waitFor();
      assert.equal((await client.readings('G-2202', 'end-float')).length, 1);
      wire.mend();
      await page.locator('.check-card .verdict-banner').waitFor({ timeout: 60_000 });
      await page.waitForSelector('.pending', { state: 'detached' });
      assert.equal((await client.readings('G-2202', 'end-float')).length, 1);
      assert.deepEqual(page.faults, []);
    }),

  'the server is killed and started again under an open page: nothing acknowledged is lost, the rest goes out': async ({
    browser,
    shop,
  }) => {
    const { page } = await atJob({ browser, shop }, 'G-2203');
    await page.goto(`${shop.address}/job/G-2203/step/key`);
    const take = async (reading) => {
      await page.getByLabel('Reading', { exact: true }).fill(reading);
      await page.keyboard.press('Enter');
    };
    await take('1.250');
    await page.locator('.check-card .verdict-banner').waitFor();
    await shop.stop('SIGKILL');
    await page.getByRole('link', { name: /^Next: / }).click();
    await page.locator('#check-key-length').waitFor();
    await take('1.188');
    await page.getByText('not judged yet').first().waitFor();
    await shop.start();
    await page.locator('.check-card .verdict-banner').waitFor({ timeout: 60_000 });
    await page.locator('.link-here').waitFor();
    const { readings } = await (await shop.signIn('J.M.')).job('G-2203');
    assert.deepEqual(
      readings.map((r) => [r.check, r.payload.value]),
      [
        ['keyway-length', '1.250'],
        ['key-length', '1.188'],
      ],
    );
    assert.deepEqual(page.faults, []);
  },

  'the server’s disk is full: the page says so, the reading stays on the tablet and goes out once there is room': async ({
    browser,
    shop,
  }) => {
    const { client, page } = await atJob({ browser, shop }, 'G-2231');
    await page.goto(`${shop.address}/job/G-2231/step/end-float`);
    const reading = page.getByLabel('Reading', { exact: true });
    await reading.waitFor();
    await shop.letFilesGrowTo(0);
    await reading.fill('4.5');
    await page.keyboard.press('Enter');
    const said = page.locator('.banner', { hasText: 'The server\'s disk is full' });
    await said.waitFor();
    await page.getByText('not judged yet').first().waitFor();
    await page.reload();
    await said.waitFor();
    await page.getByText('not judged yet').first().waitFor();
    assert.equal(await page.locator('.banner-refused').count(), 0);
    assert.deepEqual(await client.readings('G-2231', 'end-float'), []);
    await shop.letFilesGrowTo(Number.POSITIVE_INFINITY);
    await page.locator('.check-card .verdict-banner').waitFor({ timeout: 60_000 });
    await said.waitFor({ state: 'detached' });
    assert.deepEqual(
      (await client.readings('G-2231', 'end-float')).map((r) => r.payload.value),
      ['4.5'],
    );
    await shop.stop();
    const record = path.join(shop.directory, 'record.json');
    const key = path.join(shop.directory, 'shop.pub');
    writeFileSync(record, (await run('export', 'G-2231', '--data', shop.data)).out);
    writeFileSync(key, (await run('public-key', '--data', shop.data)).out);
    assert.equal((await run('verify', record, '--trust', key)).status, 0);
    assert.deepEqual(page.faults, []);
  },
};
