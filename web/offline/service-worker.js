// Keeps the built page for use without a network. The build writes the two values below.
const cacheName = `clampwright-${'VERSION'}`;
const files = ['FILES'];

self.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(cacheName)
      .then((cache) => cache.addAll(files))
      .then(() => self.skipWaiting()),
  );
});

self.addEventListener('activate', (event) => {
  const old = (name) => name.startsWith('clampwright-') && name !== cacheName;
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter(old).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});

// The page itself comes from the network where there is one, so that a new version is seen at once;
// everything else has its contents in its name and never changes.
self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || new URL(request.url).origin !== self.location.origin) return;
  // A server may answer with Vary, and scripts ask with other headers than the list did: it is the same file
  // all the same.
  const kept = () => caches.match(request, { ignoreSearch: true, ignoreVary: true, cacheName });
  if (request.mode === 'navigate')
    event.respondWith(
      fetch(request).catch(() =>
        kept().then((page) => page ?? caches.match('./', { ignoreVary: true, cacheName })),
      ),
    );
  else event.respondWith(kept().then((file) => file ?? fetch(request)));
});
