// What the tablet keeps: events not sent yet, drafts of sweeps, the last known views. IndexedDB; where the browser
// forbids it (a private window) memory, and the page says so.
import { signal } from '@preact/signals';

export const storeNames = ['outbox', 'drafts', 'views', 'counters'] as const;
export type StoreName = (typeof storeNames)[number];

/** False when what is kept will not survive closing the page. */
export const keepsForGood = signal(true);

const memory: Record<StoreName, Map<IDBValidKey, unknown>> = {
  outbox: new Map(),
  drafts: new Map(),
  views: new Map(),
  counters: new Map(),
};

let opened: Promise<IDBDatabase | null> | null = null;

function open(): Promise<IDBDatabase | null> {
  opened ??= new Promise((done) => {
    const giveUp = () => {
      keepsForGood.value = false;
      done(null);
    };
    try {
      const request = indexedDB.open('pumpwright', 1);
      request.onupgradeneeded = () => {
        for (const name of storeNames) request.result.createObjectStore(name);
      };
      request.onsuccess = () => done(request.result);
      request.onerror = giveUp;
      request.onblocked = giveUp;
    } catch {
      giveUp();
    }
  });
  return opened;
}

const settled = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((done, failed) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error);
  });

const finished = (transaction: IDBTransaction): Promise<void> =>
  new Promise((done, failed) => {
    transaction.oncomplete = () => done();
    transaction.onerror = () => failed(transaction.error);
    transaction.onabort = () => failed(transaction.error);
  });

export async function read<T>(store: StoreName, key: IDBValidKey): Promise<T | undefined> {
  const db = await open();
  if (!db) return memory[store].get(key) as T | undefined;
  return settled<T | undefined>(db.transaction(store).objectStore(store).get(key));
}

export async function readAll<T>(store: StoreName): Promise<T[]> {
  const db = await open();
  if (!db) return [...memory[store].values()] as T[];
  return settled<T[]>(db.transaction(store).objectStore(store).getAll());
}

/** Resolves when it is on the disk, as far as the browser says so. */
export async function write(store: StoreName, key: IDBValidKey, value: unknown): Promise<void> {
  const db = await open();
  if (!db) {
    memory[store].set(key, value);
    return;
  }
  const transaction = db.transaction(store, 'readwrite');
  transaction.objectStore(store).put(value, key);
  await finished(transaction);
}

export async function remove(store: StoreName, key: IDBValidKey): Promise<void> {
  const db = await open();
  if (!db) {
    memory[store].delete(key);
    return;
  }
  const transaction = db.transaction(store, 'readwrite');
  transaction.objectStore(store).delete(key);
  await finished(transaction);
}

export async function clear(store: StoreName): Promise<void> {
  const db = await open();
  if (!db) {
    memory[store].clear();
    return;
  }
  const transaction = db.transaction(store, 'readwrite');
  transaction.objectStore(store).clear();
  await finished(transaction);
}

/**
 * Counts up and keeps what `make` makes of the count, in one transaction: two tabs of one tablet never use a number
 * twice.
 */
export async function writeCounted<T>(
  counter: string,
  store: StoreName,
  make: (count: number) => { key: IDBValidKey; value: T },
): Promise<T> {
  const db = await open();
  if (!db) {
    const count = ((memory.counters.get(counter) as number | undefined) ?? 0) + 1;
    memory.counters.set(counter, count);
    const made = make(count);
    memory[store].set(made.key, made.value);
    return made.value;
  }
  const transaction = db.transaction(['counters', store], 'readwrite');
  const counters = transaction.objectStore('counters');
  const before = (await settled(counters.get(counter))) as number | undefined;
  const count = (before ?? 0) + 1;
  const made = make(count);
  counters.put(count, counter);
  transaction.objectStore(store).put(made.value, made.key);
  await finished(transaction);
  return made.value;
}
