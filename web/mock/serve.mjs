// A server with the real one's addresses, for building and looking at the page without it. Development and tests
// only: no password is kept, nothing is stored.
//   PORT=8765 node mock/serve.mjs        (serves dist when built)
// Settings: MOCK_FIRST_START=1, MOCK_DEVICE=1 (an enrolled tablet), MOCK_SIGNED_IN=J.M., MOCK_DIST=another build/
import { createReadStream, existsSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { card, hash, startJobs, take } from './jobs.mjs';
import { judge, Refusal } from './judge.mjs';
import { makeUpForm, password, people, pin, shopView } from './shop.mjs';

const dist = process.env.MOCK_DIST ?? fileURLToPath(new URL('../dist/', import.meta.url));
const types = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.webmanifest': 'application/manifest+json',
};
const both = (en, es) => ({ en, es: es ?? en });

export function startMock({ port = 8765, firstStart = false, device = false, signedIn = null } = {}) {
  const jobs = startJobs();
  const shop = shopView([...jobs.values()][0].instruments.map((i) => ({ ...i })));
  const attachments = new Map();
  const accepted = new Map();
  const listeners = new Set();
  const sessions = new Map();
  let firstPersonWanted = firstStart;
  let enrolled = device ? { id: 'bench-3', name: 'Tablet, bench 3' } : null;
  let cutOff = false;

  const cookie = (req) => /pumpwright_session=(\w+)/.exec(req.headers.cookie ?? '')?.[1];
  const personOf = (req) => {
    const id = sessions.get(cookie(req)) ?? signedIn;
    return people.find((p) => p.id === id) ?? null;
  };
  const session = (person) => ({
    person,
    token: 'mock-token',
    device: enrolled,
    people: enrolled ? people.map(({ id, initials, name }) => ({ id, initials, name })) : undefined,
    shop: { name: shop.name, invented: true },
    first_start: firstPersonWanted,
    secure: false,
    version: '0.2.0-mock',
  });
  const fail = (status, code, text, more = {}) => ({
    status,
    body: { error: { code, text, field: '', value: '', valid: '', ...more } },
  });
  const tell = (view, type, actor) => {
    for (const l of listeners)
      if (l.number === view.number || l.number === null)
        l.res.write(
          `event: change\nid: ${view.seq}\ndata: ${JSON.stringify({ stream: `job/${view.number}`, seq: view.seq, head: view.head, type, actor })}\n\n`,
        );
  };

  function signIn(body, res) {
    const who = people.find((p) => p.id === body.id);
    if (!who || (body.password !== undefined ? body.password !== password : body.pin !== pin))
      return fail(401, 'not-signed-in', both('Name or password is wrong.', 'Nombre o contraseña no valen.'), {
        field: 'password',
      });
    const key = hash().slice(0, 20);
    sessions.set(key, who.id);
    res.setHeader('Set-Cookie', `pumpwright_session=${key}; HttpOnly; SameSite=Strict; Path=/`);
    return { status: 200, body: session(who) };
  }

  function takeEvents(view, body, person) {
    const out = { accepted: [], refused: [] };
    for (const e of body.events) {
      const old = accepted.get(e.key);
      if (old) out.accepted.push(old);
      else
        try {
          take(view, e, person, body.device);
          const a = { key: e.key, seq: view.seq, hash: view.head };
          accepted.set(e.key, a);
          out.accepted.push(a);
          tell(view, e.type, person.id);
        } catch (error) {
          if (!(error instanceof Refusal)) throw error;
          out.refused.push({ key: e.key, error: error.body });
        }
    }
    return { status: 200, body: { ...out, head: view.head, seq: view.seq } };
  }

  function preview(body) {
    const base = [...jobs.values()][body.make_up.driver?.standard === 'iec' ? 1 : 0];
    const sleeve = body.make_up.sleeve !== 'none';
    const steps = base.steps
      .filter((s) => sleeve || !s.id.includes('sleeve'))
      .map((s) => ({ ...s, done: null, released: null, state: 'open' }));
    const ids = new Set(steps.flatMap((s) => s.checks));
    const checks = base.checks
      .filter((c) => ids.has(c.id))
      .map((c) => ({ ...c, finding: { ...c.finding, verdict: 'not-taken', readings: [], chain: [] } }));
    const given = Object.keys(body.make_up.dimensions ?? {});
    const needed = [
      'shaft_shoulder',
      'seal_working_length',
      'seat_depth',
      'seat_thickness',
      ...(sleeve ? ['sleeve_bore', 'sleeve_length'] : []),
      'gasket_thickness',
    ];
    return { steps, checks, section: base.section, needed: needed.filter((n) => !given.includes(n)) };
  }

  const routes = [
    [
      'GET',
      /^\/api\/jobs$/,
      () => ({ status: 200, body: { jobs: [...jobs.values()].map(card), at: new Date().toISOString() } }),
    ],
    [
      'GET',
      /^\/api\/search$/,
      ({ query }) => {
        const q = (query.get('q') ?? '').toLowerCase();
        return {
          status: 200,
          body: {
            jobs: [...jobs.values()]
              .map(card)
              .filter((c) => [c.number, c.customer, c.pump, c.serial].join(' ').toLowerCase().includes(q)),
          },
        };
      },
    ],
    ['GET', /^\/api\/make-up-form$/, () => ({ status: 200, body: makeUpForm })],
    ['POST', /^\/api\/plan-preview$/, ({ body }) => ({ status: 200, body: preview(body) })],
    [
      'GET',
      /^\/api\/earlier$/,
      ({ query }) => ({
        status: 200,
        body: {
          jobs: [...jobs.values()]
            .filter((v) => v.header.pump === query.get('pump') || v.header.serial === query.get('serial'))
            .map((v) => ({ number: v.number, make_up: v.make_up, opened: v.header.opened })),
        },
      }),
    ],
    [
      'POST',
      /^\/api\/jobs$/,
      ({ body }) => {
        if (jobs.has(body.job.number))
          return fail(
            409,
            'conflict',
            both('There is a job with this number.', 'Ya hay un trabajo con este número.'),
            { field: 'number', value: body.job.number },
          );
        const view = structuredClone([...jobs.values()][0]);
        Object.assign(view, {
          number: body.job.number,
          bench: body.bench ?? null,
          make_up: body.make_up,
          readings: [],
          signatures: [],
          seq: 3,
          state: 'open',
        });
        view.header = { ...view.header, ...body.job, opened: new Date().toISOString() };
        for (const s of view.steps)
          Object.assign(s, { done: null, released: null, notes: [], attachments: [], state: 'open' });
        for (const c of view.checks)
          Object.assign(c.finding, {
            verdict: 'not-taken',
            readings: [],
            chain: [],
            deviation: null,
            reason: 'not-taken',
            reason_title: both('no reading yet', 'todavía sin lectura'),
            verdict_title: both('not taken', 'sin tomar'),
          });
        jobs.set(view.number, view);
        return { status: 201, body: { number: view.number } };
      },
    ],
    ['GET', /^\/api\/jobs\/([^/]+)$/, ({ view }) => ({ status: 200, body: view })],
    ['POST', /^\/api\/jobs\/([^/]+)\/events$/, ({ view, body, person }) => takeEvents(view, body, person)],
    [
      'POST',
      /^\/api\/jobs\/([^/]+)\/try$/,
      ({ view, body }) => {
        const payload = JSON.parse(body.payload);
        const check = view.checks.find((c) => c.id === payload.check);
        return { status: 200, body: judge(payload, check, view.instruments) };
      },
    ],
    [
      'POST',
      /^\/api\/jobs\/([^/]+)\/sign$/,
      ({ view, body, person }) => {
        if (body.password !== password)
          return fail(403, 'not-allowed', both('The password is wrong.', 'La contraseña no vale.'), {
            field: 'password',
          });
        if (view.open.length)
          return fail(409, 'conflict', both('Open points stand.', 'Quedan puntos abiertos.'));
        view.state = 'released';
        view.signatures.push({
          seq: ++view.seq,
          person: person.id,
          initials: person.initials,
          at: new Date().toISOString(),
          statement: body.statement,
          head: view.head,
        });
        tell(view, 'signed', person.id);
        return { status: 200, body: { seq: view.seq, head: view.head } };
      },
    ],
    ['GET', /^\/api\/shop$/, () => ({ status: 200, body: shop })],
    [
      'POST',
      /^\/api\/shop\/events$/,
      ({ body, person }) => {
        const out = { accepted: [], refused: [], head: hash(), seq: shop.log.length };
        for (const e of body.events) {
          const p = JSON.parse(e.payload);
          if (e.type === 'instrument-set')
            shop.instruments = [
              ...shop.instruments.filter((i) => i.id !== p.instrument.id),
              { in_date: true, quantity: 'length', ...p.instrument },
            ];
          if (e.type === 'limit-adopted') shop.adoptable = shop.adoptable.filter((l) => l.limit !== p.limit);
          shop.log.unshift({
            seq: shop.log.length + 1,
            at: new Date().toISOString(),
            actor: person.id,
            type: e.type,
            text: both(`${e.type} ${p.id ?? p.limit ?? ''}`),
          });
          out.accepted.push({ key: e.key, seq: shop.log.length, hash: hash() });
        }
        return { status: 200, body: out };
      },
    ],
    [
      'POST',
      /^\/api\/shop\/people$/,
      ({ body }) => {
        people.push({ id: body.id, initials: body.initials, name: body.name, role: body.role, active: true });
        return { status: 201, body: {} };
      },
    ],
    [
      'POST',
      /^\/api\/shop\/devices$/,
      ({ body }) => {
        enrolled = { id: 'this-tablet', name: body.name };
        shop.devices.push(enrolled);
        return { status: 201, body: enrolled };
      },
    ],
    ['GET', /^\/api\/health$/, () => ({ status: 200, body: { ok: true, version: '0.2.0-mock' } })],
    ['POST', /^\/api\/session\/(pin|password)$/, () => ({ status: 204 })],
  ];

  function stream(req, res, number) {
    res.writeHead(200, { 'content-type': 'text/event-stream', 'cache-control': 'no-store' });
    res.write(': here\n\n');
    const listener = { res, number };
    listeners.add(listener);
    req.on('close', () => listeners.delete(listener));
  }

  function sendFile(path, res) {
    const file = join(dist, normalize(path));
    const found =
      file.startsWith(dist) && existsSync(file) && statSync(file).isFile() ? file : join(dist, 'index.html');
    res.writeHead(200, {
      'content-type': types[extname(found)] ?? 'application/octet-stream',
      'content-security-policy': "default-src 'self'; frame-ancestors 'none'",
    });
    createReadStream(found).pipe(res);
  }

  async function readBody(req) {
    const parts = [];
    for await (const p of req) parts.push(p);
    return Buffer.concat(parts);
  }

  function answer(res, { status, body }) {
    res.writeHead(status, { 'content-type': 'application/json; charset=utf-8', 'cache-control': 'no-store' });
    res.end(status === 204 ? undefined : JSON.stringify(body));
  }

  async function api(req, res, url) {
    const raw = await readBody(req);
    const person = personOf(req);
    const path = url.pathname;
    if (req.method !== 'GET' && req.headers['x-pumpwright-token'] !== 'mock-token')
      return answer(res, fail(403, 'not-allowed', both('No token.', 'Sin testigo.')));
    const isJson = (req.headers['content-type'] ?? '').startsWith('application/json');
    const body = isJson && raw.length ? JSON.parse(raw.toString()) : null;
    if (path === '/api/session' && req.method === 'GET')
      return answer(res, { status: 200, body: session(person) });
    if (path === '/api/session' && req.method === 'POST') return answer(res, signIn(body, res));
    if (path === '/api/session' && req.method === 'DELETE') {
      sessions.delete(cookie(req));
      return answer(res, { status: 204 });
    }
    if (path === '/api/first-person') {
      if (body.code !== '123-456-789')
        return answer(
          res,
          fail(
            403,
            'not-allowed',
            both('The code is not the one that was printed.', 'El código no es el impreso.'),
            { field: 'code', value: body.code },
          ),
        );
      firstPersonWanted = false;
      people.push({ id: body.id, initials: body.initials, name: body.name, role: 'lead-hand', active: true });
      return answer(res, signIn({ id: body.id, password }, res));
    }
    if (!person)
      return answer(res, fail(401, 'not-signed-in', both('Sign in first.', 'Primero iniciar sesión.')));
    const number = /^\/api\/jobs\/([^/]+)/.exec(path)?.[1];
    const view = number ? jobs.get(decodeURIComponent(number)) : null;
    if (number && !view)
      return answer(res, fail(404, 'not-found', both('There is no such job.', 'No hay tal trabajo.')));
    if (path === '/api/changes') return stream(req, res, null);
    if (path.endsWith('/changes')) return stream(req, res, view.number);
    if (path.endsWith('/attachments') && req.method === 'POST') {
      const id = hash();
      attachments.set(id, { type: req.headers['content-type'], bytes: raw });
      return answer(res, { status: 201, body: { hash: id } });
    }
    const held = attachments.get(path.split('/').at(-1));
    if (path.startsWith('/api/attachments/') && held) {
      res.writeHead(200, { 'content-type': held.type });
      return res.end(held.bytes);
    }
    for (const [method, pattern, act] of routes)
      if (method === req.method && pattern.test(path))
        return answer(res, act({ view, body, person, query: url.searchParams }));
    return answer(res, fail(404, 'not-found', both('There is no such thing here.', 'Aquí no hay tal cosa.')));
  }

  const server = createServer((req, res) => {
    const url = new URL(req.url, 'http://mock');
    if (url.pathname === '/mock/cut') {
      cutOff = url.searchParams.get('off') === '1';
      if (cutOff) for (const l of listeners) l.res.destroy();
      return res.end('ok');
    }
    if (!url.pathname.startsWith('/api/')) return sendFile(url.pathname, res);
    if (cutOff) return req.socket.destroy();
    api(req, res, url).catch((error) => {
      if (error instanceof Refusal) answer(res, { status: 422, body: { error: error.body } });
      else answer(res, fail(500, 'internal', both(String(error.message))));
    });
  });
  return new Promise((ready) =>
    server.listen(port, '127.0.0.1', () => ready({ server, jobs, port: server.address().port })),
  );
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const started = await startMock({
    port: Number(process.env.PORT ?? 8765),
    firstStart: process.env.MOCK_FIRST_START === '1',
    device: process.env.MOCK_DEVICE === '1',
    signedIn: process.env.MOCK_SIGNED_IN ?? null,
  });
  process.stdout.write(`mock on http://127.0.0.1:${started.port}/ · sign in as J.M. with: ${password}\n`);
}
