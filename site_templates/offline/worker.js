/* Keeps the pages of a size on the device, with all that they show: what the network has comes first, then what is kept. */
/* Whoever publishes it adds WORDS for the page that is shown in place of one that is not kept. */
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

/* The sizes that are kept, as links to their first pages: a size is kept whole, so whoever has its cuts has it all. */
async function keptSizes(cache) {
  const kept = (await cache.keys()).map((request) => request.url.match(/^(.*\/)cut\/(index\.html)?$/)).filter(Boolean);
  const links = kept.map(async ([, folder, file]) => {
    const first = folder + (file || "");
    const answer = await cache.match(first);
    const title = answer && (await answer.text()).match(/<title>([^<]+)<\/title>/);
    return title ? `<li><a href="${first}">${title[1]}</a></li>` : "";
  });
  return (await Promise.all(links)).join("");
}

/* What is shown in place of a page that was never opened: what to do, and what can be read. It asks for nothing else. */
async function instead(cache) {
  const sizes = await keptSizes(cache);
  const page = `<!doctype html>
<html lang="${WORDS.language}">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${WORDS.title}</title>
<style>
:root { color-scheme: light dark; }
body { font: 1.125rem/1.6 system-ui, sans-serif; margin: 0 auto; max-width: 36rem; padding: 2rem 1rem; }
a { color: inherit; display: inline-block; min-width: 2.75rem; padding: 0.6rem 0; }
ul { list-style: none; padding: 0; }
</style>
<main>
<h1>${WORDS.title}</h1>
<p>${WORDS.missing}</p>
<p>${WORDS.how}</p>
<p><a href="">${WORDS.again}</a></p>
${sizes && `<h2>${WORDS.kept}</h2><ul>${sizes}</ul>`}
</main>
</html>`;
  return new Response(page, { status: 503, headers: { "Content-Type": "text/html; charset=utf-8" } });
}

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
      if (event.request.mode === "navigate") {
        return instead(cache);
      }
      throw offline;
    }
  })());
});
