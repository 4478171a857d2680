// The real program as these tests use it: a demonstration shop in a directory of its own, served, killed, served again;
// the command line; and the same addresses the page asks, to see what the server really has.
import { execFile, spawn } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('../../../', import.meta.url));
const program = path.resolve(root, process.env.PUMPWRIGHT ?? 'build/asan/cli/pumpwright');

// Sanitizers must not end the program with a status that means something else.
const environment = {
  PATH: process.env.PATH ?? '/usr/bin:/bin',
  LC_ALL: 'C.UTF-8',
  ASAN_OPTIONS: 'exitcode=99',
  LSAN_OPTIONS: 'exitcode=99:print_suppressions=0',
  UBSAN_OPTIONS: 'exitcode=99:print_stacktrace=1',
};

/** One run of the command line: {status, out, err}. */
export function run(...args) {
  return new Promise((resolve) => {
    const limits = { cwd: root, env: environment, timeout: 120_000, maxBuffer: 64 << 20 };
    execFile(program, args, limits, (error, out, err) =>
      resolve({ status: error ? (error.code ?? String(error.signal)) : 0, out, err }),
    );
  });
}

/** As `pumpwright demo --people` lists them: password by initials. */
export const passwords = {
  'L.H.': 'steady hands at the lathe',
  'J.M.': 'clean faces run dry never',
  'R.S.': 'count the turns of the nut',
  'O.F.': 'every pump has its paper',
};

export class Shop {
  #process = null;
  #errors = [];

  /** A new demonstration shop, being served. */
  static async open() {
    const shop = new Shop();
    shop.directory = mkdtempSync(path.join(tmpdir(), 'pumpwright-page-'));
    shop.data = path.join(shop.directory, 'data');
    const made = await run('demo', '--data', shop.data, '--jobs', 'demo');
    if (made.status !== 0) throw new Error(`no demonstration shop: ${made.err}`);
    await shop.start();
    return shop;
  }

  /** Serves the shop; again at the same port, so that an open page finds it. */
  async start() {
    const listen = `127.0.0.1:${this.port ?? 0}`;
    // A file that may not grow is an error to the server, as on a full disk, not a signal.
    const command = ['-c', 'trap "" XFSZ; exec "$@"', 'sh', program];
    const served = spawn('sh', [...command, 'serve', '--data', this.data, '--listen', listen, '--quiet'], {
      cwd: root,
      env: environment,
      stdio: ['ignore', 'ignore', 'pipe'],
    });
    this.#process = served;
    const address = await new Promise((resolve, reject) => {
      const lines = createInterface({ input: served.stderr });
      lines.on('line', (line) => {
        this.#errors.push(line);
        const found = /^Listening on (http:\S+)$/.exec(line);
        if (found) resolve(found[1]);
      });
      served.once('exit', () => reject(new Error(`the server ended: ${this.#errors.join('\n')}`)));
    });
    this.address = address;
    this.port = Number(new URL(address).port);
  }

  /** What the program wrote when a sanitizer or an assertion spoke. */
  get complaints() {
    return this.#errors.filter((line) => /Sanitizer|runtime error|ssertion/.test(line));
  }

  /** From now on the server can write no file beyond that many bytes; Infinity: there is room again. */
  async letFilesGrowTo(bytes) {
    const size = bytes === Number.POSITIVE_INFINITY ? 'unlimited' : String(bytes);
    const args = ['--pid', String(this.#process.pid), `--fsize=${size}:`];
    await new Promise((resolve, reject) => execFile('prlimit', args, (e) => (e ? reject(e) : resolve())));
  }

  /** Ends the server; SIGKILL is what a power cut looks like to it. */
  async stop(signal = 'SIGINT') {
    const served = this.#process;
    if (!served || served.exitCode !== null || served.signalCode !== null) return;
    const gone = new Promise((resolve) => served.once('exit', resolve));
    served.kill(signal);
    await gone;
  }

  async close() {
    await this.stop();
    rmSync(this.directory, { recursive: true, force: true });
  }

  signIn(id) {
    return Client.signIn(this.address, id);
  }
}

/** Asks the server without a page. */
export class Client {
  static async signIn(address, id) {
    const client = new Client();
    client.address = address;
    client.cookies = new Map();
    client.token = (await client.get('/api/session')).token;
    client.token = (await client.post('/api/session', { id, password: passwords[id] })).token;
    return client;
  }

  async ask(method, where, body) {
    const response = await fetch(this.address + where, {
      method,
      headers: {
        Cookie: [...this.cookies].map(([name, value]) => `${name}=${value}`).join('; '),
        ...(method === 'GET' ? {} : { 'X-Pumpwright-Token': this.token, 'Content-Type': 'application/json' }),
      },
      body: body === undefined ? undefined : JSON.stringify(body),
    });
    for (const cookie of response.headers.getSetCookie()) {
      const [, name, value] = /^([^=]+)=([^;]*)/.exec(cookie);
      this.cookies.set(name, value);
    }
    return response;
  }

  async get(where) {
    const response = await this.ask('GET', where);
    if (!response.ok) throw new Error(`${where}: ${response.status} ${await response.text()}`);
    return response.json();
  }

  async post(where, body) {
    const response = await this.ask('POST', where, body);
    if (!response.ok) throw new Error(`${where}: ${response.status} ${await response.text()}`);
    return response.json();
  }

  job(number) {
    return this.get(`/api/jobs/${number}`);
  }

  /** The readings of one check, in the order they were taken. */
  async readings(number, check) {
    return (await this.job(number)).readings.filter((r) => r.check === check);
  }

  /** A job built like an earlier one, opened without the page; `other` and `change` say what of it differs. */
  async openLike(earlier, number, other = {}, change = (makeUp) => makeUp) {
    const { make_up, header } = await this.job(earlier);
    const { customer, pump, serial, reason } = header;
    await this.post('/api/jobs', {
      key: randomUUID(),
      device: 'tests',
      device_seq: this.#next(),
      job: { number, customer, pump, serial, reason, ...other },
      make_up: change(make_up),
    });
  }

  /** Puts events into a stream; all must be accepted. */
  async record(where, ...events) {
    const receipt = await this.post(where, {
      device: 'tests',
      events: events.map(({ type, payload }) => ({
        key: randomUUID(),
        device_seq: this.#next(),
        type,
        payload: JSON.stringify(payload),
      })),
    });
    if (receipt.refused.length > 0) throw new Error(JSON.stringify(receipt.refused));
  }

  #count = 0;
  #next() {
    return ++this.#count;
  }
}
