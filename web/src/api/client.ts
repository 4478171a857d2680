// The one way to the server: adds the token, tells a refusal from a cut connection, and knows whether we are cut off.
import { signal } from '@preact/signals';
import { forgetEarly, takeEarly } from './asked_early';
import type { ServerError, Session } from './types';

/** The server answered and said no. */
export class Refused extends Error {
  constructor(
    readonly status: number,
    readonly error: ServerError,
    readonly retryAfterSeconds: number | null,
  ) {
    super(error.text.en);
  }
}

/** No answer: no network, no server, or it took too long. */
export class CutOff extends Error {}

export const cutOff = signal(false);

/** Called when the server no longer knows who we are. */
export const onSignedOut = { call: () => {} };

const timeoutMs = 20_000;
const patientMs = 300_000;
let token = '';

export function adoptToken(session: Session): void {
  token = session.token;
}

export interface Sent {
  signal?: AbortSignal;
  /** Bytes instead of JSON. */
  bytes?: Blob;
  /** The server has much to do: wait for minutes. */
  patient?: boolean;
}

async function fetchOnce(method: string, path: string, body: unknown, sent: Sent): Promise<Response> {
  const headers: Record<string, string> = { Accept: 'application/json' };
  if (method !== 'GET') headers['X-Pumpwright-Token'] = token;
  if (sent.bytes) headers['Content-Type'] = sent.bytes.type;
  else if (body !== undefined) headers['Content-Type'] = 'application/json';
  if (method !== 'GET') forgetEarly();
  const early = method === 'GET' ? takeEarly(path) : undefined;
  const giveUp = early?.giveUp ?? new AbortController();
  const timer = setTimeout(() => giveUp.abort(), sent.patient ? patientMs : timeoutMs);
  const stop = () => giveUp.abort();
  sent.signal?.addEventListener('abort', stop);
  try {
    const init: RequestInit = { method, headers, signal: giveUp.signal, credentials: 'same-origin' };
    if (sent.bytes) init.body = sent.bytes;
    else if (body !== undefined) init.body = JSON.stringify(body);
    const response = await (early?.answer ?? fetch(path, init));
    cutOff.value = false;
    return response;
  } catch (error) {
    if (sent.signal?.aborted) throw error;
    cutOff.value = true;
    throw new CutOff(path);
  } finally {
    clearTimeout(timer);
    sent.signal?.removeEventListener('abort', stop);
  }
}

async function refusalOf(response: Response): Promise<Refused> {
  const wait = Number(response.headers.get('Retry-After'));
  const retryAfter = Number.isFinite(wait) && wait > 0 ? wait : null;
  try {
    const body = (await response.json()) as { error: ServerError };
    return new Refused(response.status, body.error, retryAfter);
  } catch {
    const text = {
      en: `The server answered ${response.status}.`,
      es: `El servidor respondió ${response.status}.`,
    };
    return new Refused(
      response.status,
      { code: 'internal', text, field: '', value: '', valid: '' },
      retryAfter,
    );
  }
}

/**
 * True when there is another token than the one that was refused, so that the request is worth a second try. Somebody
 * else may have fetched it meanwhile: after a cut the session and what is kept go out at the same time.
 */
async function hasOtherTokenThan(used: string): Promise<boolean> {
  if (token !== used) return true;
  const response = await fetchOnce('GET', '/api/session', undefined, {});
  if (response.ok) token = ((await response.json()) as Session).token;
  return token !== used;
}

/** Throws Refused or CutOff; an abort by the caller throws what fetch throws. */
export async function call<T>(method: string, path: string, body?: unknown, sent: Sent = {}): Promise<T> {
  const used = token;
  let response = await fetchOnce(method, path, body, sent);
  if (response.status === 403 && method !== 'GET' && (await hasOtherTokenThan(used)))
    response = await fetchOnce(method, path, body, sent);
  if (!response.ok) {
    if (response.status === 401 && path !== '/api/session') onSignedOut.call();
    throw await refusalOf(response);
  }
  if (response.status === 204) return undefined as T;
  return (await response.json()) as T;
}

export const get = <T>(path: string, sent?: Sent): Promise<T> => call<T>('GET', path, undefined, sent);
export const post = <T>(path: string, body: unknown, sent?: Sent): Promise<T> =>
  call<T>('POST', path, body, sent);

export const jobPath = (number: string): string => `/api/jobs/${encodeURIComponent(number)}`;
