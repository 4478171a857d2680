// Keeps the page's own files on the tablet, so that it opens without a network. Never keeps anything of the server's
// data: that is the page's own business, in IndexedDB.

declare const self: ServiceWorkerGlobalScope & { shellFiles?: string[] };

/** Put in by the build: every file of the page, and a name that changes with them. */
const shell: { name: string; files: string[] } = JSON.parse('__SHELL__');

self.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(shell.name)
      .then((cache) => cache.addAll(shell.files))
      .then(() => self.skipWaiting()),
  );
});

self.addEventListener('activate', (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter((n) => n !== shell.name).map((n) => caches.delete(n))))
      .then(() => self.clients.claim()),
  );
});

async function pageFirstFromNetwork(request: Request): Promise<Response> {
  try {
    const fresh = await fetch(request);
    if (fresh.ok) return fresh;
    return (await caches.match('/')) ?? fresh;
  } catch (error) {
    const known = await caches.match('/');
    if (known) return known;
    throw error;
  }
}

self.addEventListener('fetch', (event) => {
  const url = new URL(event.request.url);
  if (
    event.request.method !== 'GET' ||
    url.origin !== self.location.origin ||
    url.pathname.startsWith('/api/')
  )
    return;
  if (event.request.mode === 'navigate') {
    event.respondWith(pageFirstFromNetwork(event.request));
    return;
  }
  event.respondWith(caches.match(event.request).then((known) => known ?? fetch(event.request)));
});

export {};
