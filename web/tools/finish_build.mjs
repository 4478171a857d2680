// After the build: tells the service worker which files the page is made of, writes gzip and brotli copies beside them,
// and fails when what a first visit loads is too heavy for a shop's Wi-Fi.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { brotliCompressSync, constants, gzipSync } from 'node:zlib';

const dist = fileURLToPath(new URL('../dist/', import.meta.url));
const heaviestFirstVisit = 150_000;
const worthPacking = new Set(['.html', '.js', '.css', '.svg', '.webmanifest']);

const walk = (folder) =>
  readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? walk(path) : [path];
  });

const files = walk(dist)
  .filter((f) => !f.endsWith('.gz') && !f.endsWith('.br') && !f.endsWith('.map'))
  .sort();
const addressOf = (file) => `/${file.slice(dist.length)}`;
const shellFiles = files
  .map(addressOf)
  .filter((a) => a !== '/sw.js')
  .map((a) => (a === '/index.html' ? '/' : a));
const digest = createHash('sha256');
for (const file of files) digest.update(file).update(readFileSync(file));
const shell = { name: `page-${digest.digest('hex').slice(0, 16)}`, files: shellFiles };

const worker = join(dist, 'sw.js');
const source = readFileSync(worker, 'utf8');
const place = /(["'`])__SHELL__\1/;
if (!place.test(source)) throw new Error('the service worker has no place for its list of files');
writeFileSync(
  worker,
  source.replace(place, () => JSON.stringify(JSON.stringify(shell))),
);

let firstVisit = 0;
for (const file of files) {
  const bytes = readFileSync(file);
  const packs = worthPacking.has(extname(file));
  const gzip = packs ? gzipSync(bytes, { level: 9 }) : bytes;
  if (packs) {
    writeFileSync(`${file}.gz`, gzip);
    writeFileSync(
      `${file}.br`,
      brotliCompressSync(bytes, { params: { [constants.BROTLI_PARAM_QUALITY]: 11 } }),
    );
  }
  firstVisit += gzip.length;
}
process.stdout.write(
  `page: ${files.length} files, ${firstVisit} bytes compressed (gzip), all screens and icons included\n`,
);
if (firstVisit > heaviestFirstVisit)
  throw new Error(`the page weighs ${firstVisit} bytes, more than ${heaviestFirstVisit}`);
