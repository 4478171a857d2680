// Every act at the bench goes through here: kept on the tablet first, sent in order, each once, and kept again until the
// server has it. What the server refuses stays visible until a person deals with it.
import { computed, signal } from '@preact/signals';
import { CutOff, call, cutOff, jobPath, post, Refused } from '../api/client';
import type { Receipt, ServerError } from '../api/types';
import { me, thisDevice } from '../session/session';
import { readAll, remove, write, writeCounted } from './database';
import { newKey } from './uuid';

export interface Kept {
  key: string;
  /** "shop" or "job/<number>". */
  stream: string;
  type: string;
  payload: string;
  device: string;
  deviceSeq: number;
  person: string;
  at: string;
  state: 'waiting' | 'refused';
  error: ServerError | null;
  /** A photo that goes up first; its hash then takes the place of the payload's. */
  file: Blob | null;
}

export type Outcome = { state: 'accepted' } | { state: 'refused'; error: ServerError } | { state: 'kept' };

export interface Act {
  stream: string;
  type: string;
  payload: object;
  file?: Blob;
}

export const kept = signal<Kept[]>([]);
export const waiting = computed(() => kept.value.filter((k) => k.state === 'waiting'));
export const refused = computed(() => kept.value.filter((k) => k.state === 'refused'));
/** The server answered but can not take anything now (its disk is full, it is restarting). */
export const serverTrouble = signal<ServerError | null>(null);

export const keptOf = (stream: string): Kept[] => kept.value.filter((k) => k.stream === stream);

const settledKeys = new Map<string, Outcome>();
const onSent = new Set<(stream: string) => void>();

/** Called with the stream after events of it were accepted. */
export function whenSent(listener: (stream: string) => void): () => void {
  onSent.add(listener);
  return () => onSent.delete(listener);
}

export async function loadKept(): Promise<void> {
  const all = await readAll<Kept>('outbox');
  kept.value = all.sort((a, b) => a.at.localeCompare(b.at) || a.deviceSeq - b.deviceSeq);
}

/** Keeps the act on the tablet, then tries to send. Resolves once it is known what became of it for now. */
export async function record(act: Act): Promise<Outcome> {
  const device = thisDevice.value;
  const item = await writeCounted<Kept>(`device/${device}`, 'outbox', (count) => {
    const key = newKey();
    const value: Kept = {
      key,
      stream: act.stream,
      type: act.type,
      payload: JSON.stringify(act.payload),
      device,
      deviceSeq: count,
      person: me.value?.id ?? '',
      at: new Date().toISOString(),
      state: 'waiting',
      error: null,
      file: act.file ?? null,
    };
    return { key, value };
  });
  kept.value = [...kept.value, item];
  await flush();
  const outcome = settledKeys.get(item.key) ?? { state: 'kept' };
  settledKeys.delete(item.key);
  return outcome;
}

async function drop(item: Kept): Promise<void> {
  await remove('outbox', item.key);
  kept.value = kept.value.filter((k) => k.key !== item.key);
}

/** A person has read why it was refused and lets it go. */
export const dismiss = drop;

/** A person wants it tried again, under the same key. */
export async function tryAgain(item: Kept): Promise<void> {
  await keep({ ...item, state: 'waiting', error: null });
  await flush();
}

async function keep(item: Kept): Promise<void> {
  await write('outbox', item.key, item);
  kept.value = kept.value.map((k) => (k.key === item.key ? item : k));
}

async function refuse(item: Kept, error: ServerError): Promise<void> {
  settledKeys.set(item.key, { state: 'refused', error });
  await keep({ ...item, state: 'refused', error });
}

async function uploadFile(item: Kept): Promise<Kept> {
  if (!item.file) return item;
  const number = item.stream.slice('job/'.length);
  const { hash } = await call<{ hash: string }>('POST', `${jobPath(number)}/attachments`, undefined, {
    bytes: item.file,
  });
  const sent = { ...item, file: null, payload: JSON.stringify({ ...JSON.parse(item.payload), hash }) };
  await keep(sent);
  return sent;
}

/** The next events that may go together: same stream and device, by the person who is signed in. */
function nextBatch(): Kept[] {
  const mine = waiting.value.filter((k) => k.person === me.value?.id);
  const first = mine[0];
  if (!first) return [];
  if (first.file) return [first];
  const batch: Kept[] = [];
  for (const item of mine) {
    if (item.stream !== first.stream || item.device !== first.device || item.file || batch.length >= 100)
      break;
    batch.push(item);
  }
  return batch;
}

const eventsPath = (stream: string): string =>
  stream === 'shop' ? '/api/shop/events' : `${jobPath(stream.slice('job/'.length))}/events`;

async function sendBatch(batch: Kept[]): Promise<void> {
  const ready = await Promise.all(batch.map(uploadFile));
  const first = ready[0]!;
  const receipt = await post<Receipt>(eventsPath(first.stream), {
    device: first.device,
    events: ready.map((k) => ({ key: k.key, device_seq: k.deviceSeq, type: k.type, payload: k.payload })),
  });
  serverTrouble.value = null;
  for (const item of ready) {
    const no = receipt.refused.find((r) => r.key === item.key);
    if (no) await refuse(item, no.error);
    else if (receipt.accepted.some((a) => a.key === item.key)) {
      settledKeys.set(item.key, { state: 'accepted' });
      await drop(item);
    }
  }
  if (receipt.accepted.length > 0) for (const listener of onSent) listener(first.stream);
}

const isForLater = (error: Refused): boolean =>
  error.status === 401 || error.status === 429 || error.status >= 500;

let running: Promise<void> | null = null;
let again = false;
let retryTimer: ReturnType<typeof setTimeout> | null = null;
let pauseSeconds = 1;

function retryLater(seconds: number): void {
  if (retryTimer) clearTimeout(retryTimer);
  retryTimer = setTimeout(() => {
    retryTimer = null;
    void flush();
  }, seconds * 1000);
}

/** Sends what waits. Gives up until later when there is no answer. */
export function flush(): Promise<void> {
  if (running) {
    again = true;
    return running;
  }
  running = run().finally(() => {
    running = null;
  });
  return running;
}

async function run(): Promise<void> {
  do {
    again = false;
    for (let batch = nextBatch(); batch.length > 0; batch = nextBatch()) {
      try {
        await sendBatch(batch);
        pauseSeconds = 1;
      } catch (error) {
        if (error instanceof Refused && !isForLater(error)) {
          for (const item of batch) await refuse(item, error.error);
          continue;
        }
        serverTrouble.value = error instanceof Refused && error.status !== 401 ? error.error : null;
        if (!(error instanceof Refused) && !(error instanceof CutOff)) throw error;
        if (!(error instanceof Refused && error.status === 401)) retryLater(pauseSeconds);
        pauseSeconds = Math.min(pauseSeconds * 2, 30);
        return;
      }
    }
  } while (again);
}

/** Starts sending by itself: at once, when the network comes back, when the page is shown again. */
export async function startOutbox(): Promise<void> {
  await loadKept();
  const soon = () => {
    pauseSeconds = 1;
    void flush();
  };
  window.addEventListener('online', soon);
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') soon();
  });
  cutOff.subscribe((off) => {
    if (!off && waiting.value.length > 0) soon();
  });
  soon();
}
