// What is asked for before the page is there: only for somebody, taken once, and nothing once something was changed.
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { takeEarly } from '../../src/api/asked_early';
import { call, get } from '../../src/api/client';
import { remember } from '../../src/session/remembered';

const remembered = new Map<string, string>();
const fetched: string[] = [];

beforeEach(() => {
  remembered.clear();
  fetched.length = 0;
  vi.resetModules();
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => remembered.get(key) ?? null,
    setItem: (key: string, value: string) => remembered.set(key, value),
  });
  vi.stubGlobal('window', {});
  vi.stubGlobal('fetch', async (path: string, init: RequestInit = {}) => {
    fetched.push(`${init.method ?? 'GET'} ${path}`);
    return new Response(JSON.stringify({ path, count: fetched.length }), { status: 200 });
  });
});

afterEach(() => vi.unstubAllGlobals());

async function openAt(pathname: string) {
  vi.stubGlobal('location', { pathname });
  await import('../../src/early');
}

describe('asking early', () => {
  it('asks for the session and the job of the address', async () => {
    remember('person', '{"id":"J.M."}');
    await openAt('/job/G%2F1/step/bore');
    expect(fetched).toEqual(['GET /api/session', 'GET /api/jobs/G%2F1']);
  });

  it('asks for the benches at the front door, for nothing more elsewhere', async () => {
    remember('person', '{"id":"J.M."}');
    await openAt('/');
    expect(fetched).toEqual(['GET /api/session', 'GET /api/jobs']);
    fetched.length = 0;
    vi.resetModules();
    await openAt('/shop/people');
    expect(fetched).toEqual(['GET /api/session']);
  });

  it('asks for no data where nobody is signed in', async () => {
    remember('person', '');
    await openAt('/job/G-1');
    expect(fetched).toEqual(['GET /api/session']);
  });

  it('gives each answer to the page once', async () => {
    await openAt('/job/G-1');
    expect(await get('/api/session')).toEqual({ path: '/api/session', count: 1 });
    expect(await get('/api/session')).toEqual({ path: '/api/session', count: 2 });
  });

  it('gives none that was asked for before a change', async () => {
    remember('person', '{"id":"J.M."}');
    await openAt('/job/G-1');
    await call('POST', '/api/session', {});
    expect(takeEarly('/api/jobs/G-1')).toBeUndefined();
    expect(await get('/api/jobs/G-1')).toEqual({ path: '/api/jobs/G-1', count: 4 });
  });

  it('hands on that there was no answer', async () => {
    vi.stubGlobal('fetch', async () => {
      throw new TypeError('no network');
    });
    await openAt('/job/G-1');
    await expect(get('/api/session')).rejects.toThrow('/api/session');
  });
});
