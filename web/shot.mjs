import { launch, openPage, signIn } from '../tests/e2e/page/browser.mjs';
const [addr] = process.argv.slice(2);
const b = await launch();
for (const [w, h] of [[390, 844], [1024, 768], [1440, 900]]) {
  const p = await openPage(b);
  await p.setViewportSize({ width: w, height: h });
  await signIn(p, addr, 'L.H.');
  await p.goto(addr + '/returns');
  await p.waitForSelector('.out-curve');
  await p.locator('.choice').first().getByRole('radio').nth(3).check();
  await p.locator('input[type=checkbox]').first().check();
  await p.waitForSelector('.out-names li');
  await p.waitForTimeout(900);
  console.log(w, await p.evaluate(() => [document.documentElement.scrollWidth, innerWidth]));
  await p.screenshot({ path: `/tmp/shot-${w}.png`, fullPage: true });
  await p.context().close();
}
await b.close();
