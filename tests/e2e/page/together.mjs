// Several people at one job, in their own language and units, each with what their role may do.
import assert from 'node:assert/strict';
import { openPage, signIn } from './browser.mjs';
import { passwords } from './program.mjs';

async function read(page, value) {
  await page.getByLabel('Reading', { exact: true }).fill(value);
  await page.keyboard.press('Enter');
}

/** The names of what the page keeps of one sort on the tablet. */
const kept = (page, sort) =>
  page.evaluate(
    (store) =>
      new Promise((done, failed) => {
        const opening = indexedDB.open('pumpwright');
        opening.onerror = () => failed(opening.error);
        opening.onsuccess = () => {
          const asking = opening.result.transaction(store).objectStore(store).getAllKeys();
          asking.onsuccess = () => done(asking.result);
          asking.onerror = () => failed(asking.error);
        };
      }),
    sort,
  );

async function signOut(page) {
  await page.click('.menu-button');
  await page.getByRole('button', { name: 'Sign out' }).click();
}

/** The keys of a scanner, as fast as one sends them: a busy machine does not slow them, as it would slow our own typing. */
async function scan(page, text) {
  await page.evaluate((keys) => {
    for (const key of keys)
      document.body.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
  }, [...text, 'Enter']);
}

export const promises = {
  'two tablets on one job see each other’s readings at once, and two readings of one check are both kept': async ({
    browser,
    shop,
  }) => {
    const client = await shop.signIn('L.H.');
    await client.openLike('G-2117', 'G-2204');
    const [first, second] = [await openPage(browser), await openPage(browser)];
    await signIn(first, shop.address, 'J.M.');
    await signIn(second, shop.address, 'R.S.');
    for (const page of [first, second]) {
      await page.goto(`${shop.address}/job/G-2204/step/end-float`);
      await page.getByLabel('Reading', { exact: true }).waitFor();
    }
    await read(first, '4.5');
    await second.locator('.standing', { hasText: 'J.M.' }).waitFor();
    assert.match(await second.locator('.standing').textContent(), /4\.5/);
    await second.getByRole('button', { name: 'Add a second reading' }).click();
    await read(second, '5');
    for (const page of [first, second]) {
      await page.getByText('More than one reading stands').waitFor();
      const standing = await page.locator('.standing li').allTextContents();
      assert.equal(standing.length, 2);
      assert.match(standing[0], /4\.5.*J\.M\./);
      assert.match(standing[1], /5.*R\.S\./);
    }
    const kept = await client.readings('G-2204', 'end-float');
    assert.deepEqual(
      kept.map((r) => [r.actor, r.payload.value, r.replaces]),
      [
        ['J.M.', '4.5', null],
        ['R.S.', '5', null],
      ],
    );
    assert.deepEqual([...first.faults, ...second.faults], []);
  },

  'the benches show a reading that somebody else takes': async ({ browser, shop }) => {
    const client = await shop.signIn('J.M.');
    await client.openLike('G-2117', 'G-2205');
    const page = await openPage(browser);
    await signIn(page, shop.address, 'R.S.');
    const card = page.locator('.bench-card', { hasText: 'G-2205' });
    await card.waitFor();
    const passed = (counts) => (/pass/.test(counts) ? parseInt(counts, 10) : 0);
    const before = await card.locator('.counts').textContent();
    const time = new Date().toISOString().replace(/\.\d+/, '');
    const body = { event: 'reading', id: 'b1', check: 'made-safe', time, actor: 'J.M.', done: true };
    await client.record('/api/jobs/G-2205/events', { type: 'reading', payload: body });
    await page.waitForFunction(
      ([number, text]) =>
        [...document.querySelectorAll('.bench-card')].some(
          (c) => c.textContent.includes(number) && c.querySelector('.counts').textContent !== text,
        ),
      ['G-2205', before],
    );
    assert.equal(parseInt(await card.locator('.counts').textContent(), 10), passed(before) + 1);
  },

  'language and units switch at any time and leave what is stored as it was written': async ({
    browser,
    shop,
  }) => {
    const client = await shop.signIn('J.M.');
    const before = await client.job('G-2117');
    const page = await openPage(browser);
    await signIn(page, shop.address, 'J.M.');
    await page.goto(`${shop.address}/job/G-2117/step/end-float`);
    await page.waitForSelector('.reading-value');
    assert.match(await page.textContent('.reading-value'), /4\.5 thou/);
    await page.click('.menu-button');
    await page.getByRole('radio', { name: 'Metric' }).check();
    await page.getByRole('radio', { name: 'Español' }).check();
    await page.keyboard.press('Escape');
    assert.match(await page.textContent('.reading-value'), /0\.114\d* mm/);
    assert.match(await page.textContent('.step-stage'), /paso/);
    assert.equal(await page.locator('html').getAttribute('lang'), 'es');
    assert.match(await page.locator('.standing .written').textContent(), /^4\.5/);
    const after = await client.job('G-2117');
    assert.deepEqual(after.readings, before.readings);
    assert.equal(after.head, before.head);
    assert.deepEqual(page.faults, []);
  },

  'a tag scanned anywhere opens its job, and a search finds by customer and serial': async ({ browser, shop }) => {
    const page = await openPage(browser);
    await signIn(page, shop.address, 'J.M.');
    await page.evaluate(() => document.activeElement?.blur());
    await scan(page, 'O-0518');
    await page.waitForURL(/\/job\/O-0518\//);
    await page.keyboard.press('g');
    await page.waitForSelector('.bench-card');
    await page.keyboard.press('/');
    for (const [asked, number] of [
      ['orch', 'O-0518'],
      ['AQ-0112', 'A-0309'],
    ]) {
      await page.locator('#find-input').fill(asked);
      await page.locator('.found a', { hasText: number }).waitFor();
      assert.equal(await page.locator('.found a').count(), 1);
    }
    await page.locator('#find-input').fill('no such pump');
    await page.getByText('Nothing found').first().waitFor();
    assert.deepEqual(page.faults, []);
  },

  'a wrong password says so, and who signs out is out': async ({ browser, shop }) => {
    const page = await openPage(browser);
    await page.goto(shop.address);
    await page.getByLabel('Initials').fill('J.M.');
    await page.getByLabel('Password').fill('something else entirely');
    await page.keyboard.press('Enter');
    await page.getByRole('alert').waitFor();
    assert.match(await page.getByRole('alert').textContent(), /password/i);
    assert.equal(await page.locator('.bench-card').count(), 0);
    // A password may come out of a safe by the clipboard.
    await page.getByLabel('Initials').fill('pasted sentence');
    await page.keyboard.press('Control+A');
    await page.keyboard.press('Control+X');
    await page.getByLabel('Password').fill('');
    await page.keyboard.press('Control+V');
    assert.equal(await page.getByLabel('Password').inputValue(), 'pasted sentence');
    await signIn(page, shop.address, 'J.M.');
    assert.notDeepEqual(await kept(page, 'views'), []);
    await signOut(page);
    await page.getByLabel('Password').waitFor();
    assert.deepEqual(await kept(page, 'views'), []);
    await page.goto(`${shop.address}/job/O-0518`);
    await page.getByLabel('Password').waitFor();
    assert.equal(await page.getByText('orchard').count(), 0);
    assert.deepEqual(page.faults, []);
  },

  'the office and who may only read see the work and none of its inputs': async ({ browser, shop }) => {
    const lead = await shop.signIn('L.H.');
    await lead.openLike('G-2117', 'G-2206');
    await lead.post('/api/shop/people', {
      key: 'reader',
      device: 'tests',
      device_seq: 900,
      id: 'V.R.',
      initials: 'V.R.',
      name: 'visitor',
      role: 'read-only',
      password: passwordOfReader,
    });
    for (const [id, password, opens] of [
      ['O.F.', undefined, true],
      ['V.R.', passwordOfReader, false],
    ]) {
      const page = await openPage(browser);
      await signIn(page, shop.address, id, password);
      const newJob = page.getByRole('link', { name: 'Set up a job' });
      assert.equal(await newJob.count(), opens ? 1 : 0);
      for (const step of ['end-float', 'shaft-size', 'shaft-runout-nema', 'make-safe']) {
        await page.goto(`${shop.address}/job/G-2206/step/${step}`);
        await page.locator('.check-card').waitFor();
        assert.equal(await page.locator('.check-card input, .check-card form').count(), 0, step);
        for (const name of ['Take the reading', 'Seen, it is so', 'Step done', 'Start the sweep'])
          assert.equal(await page.getByRole('button', { name }).count(), 0, `${id} ${step} ${name}`);
      }
      await page.goto(`${shop.address}/job/G-2117/release`);
      await page.getByText('The lead hand signs the release.').waitFor();
      assert.equal(await page.locator('input[type=password]').count(), 0);
      assert.deepEqual(page.faults, []);
    }
  },

  'an enrolled tablet shows who works here: a tile and a PIN, by keyboard, and only there': async ({ browser, shop }) => {
    const page = await openPage(browser);
    await signIn(page, shop.address, 'L.H.');
    await page.goto(`${shop.address}/shop/devices`);
    await page.getByLabel('Name of this tablet').fill('Bench 3');
    await page.keyboard.press('Enter');
    await page.getByText('this one').waitFor();
    await signOut(page);
    const tiles = page.locator('.person-tile');
    await tiles.first().waitFor();
    assert.deepEqual(await tiles.locator('strong').allTextContents(), ['J.M.', 'L.H.', 'O.F.', 'R.S.']);
    for (const tile of await tiles.all()) {
      const { width, height } = await tile.boundingBox();
      assert.ok(width >= 48 && height >= 48, `${width} × ${height}`);
    }
    const elsewhere = await openPage(browser);
    await elsewhere.goto(shop.address);
    await elsewhere.getByLabel('Initials').waitFor();
    assert.equal(await elsewhere.locator('.person-tile').count(), 0);

    await page.getByRole('button', { name: 'Use the password' }).click();
    await page.getByLabel('Initials').fill('J.M.');
    await page.getByLabel('Password').fill(passwords['J.M.']);
    await page.keyboard.press('Enter');
    await page.waitForSelector('.bench-card');
    await page.goto(`${shop.address}/me`);
    const form = page.locator('form', { hasText: 'PIN on Bench 3' });
    await form.getByLabel('Password now').fill(passwords['J.M.']);
    await form.getByLabel('New PIN').fill('481516');
    await page.keyboard.press('Enter');
    await form.getByText('Saved').waitFor();
    await signOut(page);
    await page.locator('.person-tile', { hasText: 'J.M.' }).focus();
    await page.keyboard.press('Enter');
    await page.getByLabel('PIN of J.M.').fill('481516');
    await page.keyboard.press('Enter');
    await page.waitForSelector('.bench-card');
    assert.deepEqual([...page.faults, ...elsewhere.faults], []);
  },

  'what people wrote is shown as they wrote it and runs nothing': async ({ browser, shop }) => {
    const written = '<img src=x onerror="window.ran=1"><script>window.ran=1</script> ’ " & ねこ';
    const client = await shop.signIn('L.H.');
    await client.openLike('G-2117', 'G-2232', { customer: written, pump: written, reason: written });
    const note = { step: 'make-safe', text: written };
    await client.record('/api/jobs/G-2232/events', { type: 'note', payload: note });
    const page = await openPage(browser);
    await signIn(page, shop.address, 'L.H.');
    for (const place of ['', 'job/G-2232', 'job/G-2232/step/make-safe', 'job/G-2232/release']) {
      await page.goto(`${shop.address}/${place}`);
      await page.getByText(written).first().waitFor();
      assert.equal(await page.evaluate(() => window.ran), undefined, place);
      assert.equal(await page.locator('img[src="x"]').count(), 0, place);
    }
    assert.deepEqual(page.faults, []);
  },
};

const passwordOfReader = 'only looking at the pumps';
