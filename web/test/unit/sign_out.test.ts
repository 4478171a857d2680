// Whoever picks up a tablet that was signed out finds no job on it; what waits to be sent is still there.
import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { Session } from '../../src/api/types';

const remembered = new Map<string, string>();
vi.stubGlobal('localStorage', {
  getItem: (key: string) => remembered.get(key) ?? null,
  setItem: (key: string, value: string) => remembered.set(key, value),
});
vi.stubGlobal('window', { isSecureContext: false, addEventListener: () => {} });
vi.stubGlobal('document', {
  addEventListener: () => {},
  visibilityState: 'visible',
  documentElement: { dataset: {} },
});

const technician = { id: 'J.M.', initials: 'J.M.', name: 'technician', role: 'technician' as const };
const server = { up: true, person: technician as Session['person'] };

const state = (): Session => ({
  person: server.person,
  token: 't',
  device: null,
  shop: { name: '', invented: true },
  first_start: false,
  secure: false,
  version: '',
});

vi.stubGlobal('fetch', async (path: string, init: RequestInit = {}) => {
  if (!server.up) throw new TypeError('no network');
  if (init.method === 'DELETE') {
    server.person = null;
    return new Response(null, { status: 204 });
  }
  if (path === '/api/session') return new Response(JSON.stringify(state()), { status: 200 });
  const text = { en: 'The disk is full.', es: 'El disco está lleno.' };
  return new Response(JSON.stringify({ error: { code: 'disk-full', text } }), { status: 507 });
});

const { loadSession, me, signOut } = await import('../../src/session/session');
const { keepView, keptView } = await import('../../src/outbox/kept_views');
const { readAll } = await import('../../src/outbox/database');
const outbox = await import('../../src/outbox/outbox');

beforeEach(async () => {
  Object.assign(server, { up: true, person: technician });
  await loadSession();
  await keepView('G-1', { view: { number: 'G-1', customer: 'orchard' } });
  await keepView('benches', { jobs: [] });
});

describe('signing out', () => {
  it('leaves no job on the tablet, and nobody to go on as while cut off', async () => {
    expect(await readAll('views')).toHaveLength(2);
    await signOut();
    expect(await readAll('views')).toEqual([]);
    expect([...remembered.values()].join()).not.toContain('J.M.');
    expect(me.value).toBeNull();
    server.up = false;
    await loadSession();
    expect(me.value).toBeNull();
  });

  it('keeps what was not sent yet, and it is still that person’s', async () => {
    const outcome = await outbox.record({ stream: 'job/G-1', type: 'note', payload: { text: 'a' } });
    expect(outcome.state).toBe('kept');
    await signOut();
    expect((await readAll<{ person: string }>('outbox')).map((k) => k.person)).toEqual(['J.M.']);
    for (const item of outbox.kept.value) await outbox.dismiss(item);
  });

  it('does not keep an answer that comes too late', async () => {
    await signOut();
    await keepView('G-2', { view: {} });
    expect(await keptView('G-2')).toBeUndefined();
    server.person = technician;
    await loadSession();
    await keepView('G-2', { view: {} });
    expect(await keptView('G-2')).toEqual({ view: {} });
  });

  it('happens too when the server ended the session', async () => {
    server.person = null;
    await loadSession();
    expect(await readAll('views')).toEqual([]);
  });

  it('does not happen because there is no answer', async () => {
    server.up = false;
    await loadSession();
    expect(me.value?.id).toBe('J.M.');
    expect(await readAll('views')).toHaveLength(2);
    await expect(signOut()).rejects.toThrow();
    expect(await readAll('views')).toHaveLength(2);
  });
});

describe('a server whose disk is full', () => {
  it('says so and keeps the reading waiting, not refused', async () => {
    const outcome = await outbox.record({ stream: 'job/G-1', type: 'note', payload: { text: 'b' } });
    expect(outcome.state).toBe('kept');
    expect(outbox.serverTrouble.value?.code).toBe('disk-full');
    expect(outbox.refused.value).toEqual([]);
    for (const item of outbox.kept.value) await outbox.dismiss(item);
  });
});
