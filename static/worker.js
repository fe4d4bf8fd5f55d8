// The service worker: scripts and style from the phone, pages from the network first, and a kept page of the same person
// when there is no network. It touches no POST. What stands before this file is written by the server: VERSION and ASSETS.
/* global VERSION, ASSETS */

const PATIENCE = 3000;
const SHELL = `sowmark-shell ${VERSION}`;

self.addEventListener("install", (event) => {
  self.skipWaiting();
  event.waitUntil(caches.open(SHELL).then((cache) => cache.addAll(ASSETS)));
});

self.addEventListener("activate", (event) => event.waitUntil((async () => {
  for (const name of await caches.keys()) {
    if (name.startsWith("sowmark-shell ") && name !== SHELL) await caches.delete(name);
  }
  await self.clients.claim();
})()));

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) return;
  if (request.mode === "navigate") event.respondWith(page(request, url));
  else if (url.pathname.startsWith("/static/")) event.respondWith(asset(request));
});

// A page that was kept before the server was renewed asks for files by their old address: the new ones serve it.
async function asset(request) {
  const found = await caches.match(request, { cacheName: SHELL });
  if (found) return found;
  try {
    return await fetch(request);
  } catch (error) {
    const name = request.url.slice(request.url.lastIndexOf("/"));
    const renewed = await caches.match(ASSETS.find((address) => address.endsWith(name)) ?? "", { cacheName: SHELL });
    if (renewed) return renewed;
    throw error;
  }
}

async function page(request, url) {
  try {
    const answer = await fetch(request, { signal: AbortSignal.timeout(PATIENCE) });
    // A proxy's error page is no answer of Sowmark's.
    if (answer.status === 502 || answer.status === 503 || answer.status === 504) throw new Error("no server");
    await note(answer, url);
    return answer;
  } catch {
    return (await kept(url)) ?? (await caches.match("/offline", { cacheName: SHELL })) ?? Response.error();
  }
}

// Whose pages the phone may keep: those of the person that the server just answered. Nobody's after the sign-in page.
async function note(answer, url) {
  const reader = answer.headers.get("sowmark-reader") ?? "";
  if (!reader && url.pathname !== "/sign-in") return;
  for (const name of await caches.keys()) {
    if (name.startsWith("sowmark-pages ") && name !== `sowmark-pages ${reader}`) await caches.delete(name);
  }
  const store = await caches.open("sowmark-reader");
  if (reader) await store.put("/phone/reader", new Response(reader));
  else await store.delete("/phone/reader");
}

async function kept(url) {
  // A form that is opened with what was sent before is not the kept one, which is blank.
  if (url.searchParams.has("corrects") || url.searchParams.has("refused")) return undefined;
  const reader = await caches.match("/phone/reader", { cacheName: "sowmark-reader" });
  if (!reader) return undefined;
  const cacheName = `sowmark-pages ${await reader.text()}`;
  return (await caches.has(cacheName)) ? caches.match(url.pathname, { cacheName }) : undefined;
}
