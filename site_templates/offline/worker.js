/* Keeps the pages of a size on the device, with all that they show: what the network has comes first, then what is kept. */
"use strict";

const KEPT = "seamleaf-kept";
const AT_ONCE = 6;

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

async function keep(cache, addresses) {
  const left = addresses.filter((address) => new URL(address).origin === self.location.origin);
  const next = async () => {
    for (let address = left.pop(); address; address = left.pop()) {
      const answer = await fetch(address);
      if (answer.ok) {
        await cache.put(address, answer);
      }
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, next));
}

self.addEventListener("message", (event) => {
  if (event.data && Array.isArray(event.data.keep)) {
    event.waitUntil(caches.open(KEPT).then((cache) => keep(cache, event.data.keep)).then(
      () => event.ports[0].postMessage({ kept: true }),
      () => { /* the network went away; the next page that is opened tries again */ },
    ));
  }
});

self.addEventListener("fetch", (event) => {
  if (event.request.method !== "GET" || new URL(event.request.url).origin !== self.location.origin) {
    return;
  }
  event.respondWith((async () => {
    const cache = await caches.open(KEPT);
    try {
      const answer = await fetch(event.request);
      if (answer.ok && (await cache.match(event.request, { ignoreSearch: true }))) {
        await cache.put(event.request, answer.clone());
      }
      return answer;
    } catch (offline) {
      const kept = await cache.match(event.request, { ignoreSearch: true });
      if (kept) {
        return kept;
      }
      throw offline;
    }
  })());
});
