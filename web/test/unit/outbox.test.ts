// The promise to the person at the bench: what was entered is kept, sent in order, once each, and never lost silently.
import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { Session } from '../../src/api/types';

interface Call {
  path: string;
  body: { device: string; events: { key: string; device_seq: number; type: string; payload: string }[] };
}

const calls: Call[] = [];
const server = { up: true, answers: new Set<string>(), refuse: '' };
let losesAnswer = false;

function json(status: number, body: unknown): Response {
  return new Response(JSON.stringify(body), { status, headers: { 'content-type': 'application/json' } });
}

/** Idempotent by key, as the real one; refuses events of the type named in `refuse`. */
async function fakeFetch(path: string, init: RequestInit = {}): Promise<Response> {
  if (!server.up) throw new TypeError('no network');
  if (path.endsWith('/attachments')) return json(201, { hash: 'abc123' });
  const body = JSON.parse(String(init.body)) as Call['body'];
  calls.push({ path, body });
  const accepted = body.events
    .filter((e) => e.type !== server.refuse)
    .map((e) => ({ key: e.key, seq: 1, hash: '' }));
  const text = { en: 'no', es: 'no' };
  const refused = body.events
    .filter((e) => e.type === server.refuse)
    .map((e) => ({ key: e.key, error: { code: 'bad-input', text, field: '/value', value: '', valid: '' } }));
  for (const a of accepted) server.answers.add(a.key);
  if (losesAnswer) {
    losesAnswer = false;
    throw new TypeError('answer lost');
  }
  return json(200, { accepted, refused, head: '', seq: 1 });
}

vi.stubGlobal('fetch', fakeFetch);
vi.stubGlobal('window', { isSecureContext: false, addEventListener: () => {} });
vi.stubGlobal('document', {
  addEventListener: () => {},
  visibilityState: 'visible',
  documentElement: { dataset: {} },
});

const outbox = await import('../../src/outbox/outbox');
const { session } = await import('../../src/session/session');
const { readAll } = await import('../../src/outbox/database');

const signedIn = (id: string): Session => ({
  person: { id, initials: id, name: id, role: 'technician' },
  token: 't',
  device: { id: 'bench-3', name: 'bench 3' },
  shop: { name: '', invented: true },
  first_start: false,
  secure: false,
  version: '',
});

const note = (text: string) =>
  outbox.record({ stream: 'job/G-1', type: 'note', payload: { step: 's', text } });
const sentTexts = () =>
  calls.flatMap((c) => c.body.events.map((e) => (JSON.parse(e.payload) as { text?: string }).text));

beforeEach(async () => {
  for (const k of outbox.kept.value) await outbox.dismiss(k);
  calls.length = 0;
  Object.assign(server, { up: true, refuse: '' });
  server.answers.clear();
  session.value = signedIn('J.M.');
});

describe('the outbox', () => {
  it('sends at once when the server is there, and keeps nothing', async () => {
    expect(await note('a')).toEqual({ state: 'accepted' });
    expect(await readAll('outbox')).toEqual([]);
  });

  it('keeps while cut off and sends in order, once each, when the server is back', async () => {
    server.up = false;
    for (const text of ['a', 'b', 'c']) expect(await note(text)).toEqual({ state: 'kept' });
    expect(await readAll('outbox')).toHaveLength(3);
    server.up = true;
    await outbox.flush();
    expect(sentTexts()).toEqual(['a', 'b', 'c']);
    expect(await readAll('outbox')).toEqual([]);
  });

  it('survives a reload: what is in the database is read again', async () => {
    server.up = false;
    await note('a');
    outbox.kept.value = [];
    await outbox.loadKept();
    server.up = true;
    await outbox.flush();
    expect(sentTexts()).toEqual(['a']);
  });

  it('sends under the same key again when the answer was lost', async () => {
    losesAnswer = true;
    expect(await note('a')).toEqual({ state: 'kept' });
    await outbox.flush();
    expect(sentTexts()).toEqual(['a', 'a']);
    expect(server.answers.size).toBe(1);
    expect(await readAll('outbox')).toEqual([]);
  });

  it('counts on the device without a gap or a repeat', async () => {
    await Promise.all(['a', 'b', 'c', 'd'].map(note));
    const seqs = calls.flatMap((c) => c.body.events.map((e) => e.device_seq));
    expect(new Set(seqs).size).toBe(4);
    expect(Math.max(...seqs) - Math.min(...seqs)).toBe(3);
  });

  it('keeps what was refused, with the reason, and goes on with the rest', async () => {
    server.refuse = 'reading';
    const outcome = await outbox.record({ stream: 'job/G-1', type: 'reading', payload: { check: 'x' } });
    expect(outcome.state).toBe('refused');
    expect(await note('after')).toEqual({ state: 'accepted' });
    expect(outbox.refused.value.map((k) => k.error?.field)).toEqual(['/value']);
    expect(await readAll('outbox')).toHaveLength(1);
  });

  it('does not send one person’s work under another’s name', async () => {
    server.up = false;
    await note('mine');
    server.up = true;
    session.value = signedIn('A.R.');
    await outbox.flush();
    expect(calls).toHaveLength(0);
    session.value = signedIn('J.M.');
    await outbox.flush();
    expect(sentTexts()).toEqual(['mine']);
  });

  it('puts a photo up first and names it by the hash it got', async () => {
    const outcome = await outbox.record({
      stream: 'job/G-1',
      type: 'attachment-added',
      payload: { hash: '', media_type: 'image/jpeg', name: 'p', step: 's' },
      file: new Blob(['x'], { type: 'image/jpeg' }),
    });
    expect(outcome).toEqual({ state: 'accepted' });
    expect(JSON.parse(calls[0]?.body.events[0]?.payload ?? '{}').hash).toBe('abc123');
  });
});
