// Pages that this phone keeps for when there is no signal: those of one person, in a cache of that person's own. The worker
// (worker.js) shows them; it forgets them as soon as somebody else, or nobody, is signed in.

import { take, put } from "./store.js";

const FRESH = 10 * 60_000;
const SOON = 60_000;
const AT_A_TIME = 3;
const cacheOf = (reader) => `sowmark-pages ${reader}`;

/** Whose pages are kept; empty when nobody's. */
export async function current() {
  const found = await caches.match("/phone/reader", { cacheName: "sowmark-reader" });
  return found ? found.text() : "";
}

/** Forgets every page. What waits in the outbox stays. */
export async function forget() {
  for (const name of await caches.keys()) {
    if (name.startsWith("sowmark-pages ") || name === "sowmark-reader") await caches.delete(name);
  }
}

/** The addresses and titles of what is kept. */
export async function list(reader) {
  const pages = [];
  if (!(await caches.has(cacheOf(reader)))) return pages;
  const cache = await caches.open(cacheOf(reader));
  for (const request of await cache.keys()) {
    const text = await (await cache.match(request)).text();
    const title = new DOMParser().parseFromString(text, "text/html").querySelector("h1")?.textContent ?? "";
    pages.push({ path: new URL(request.url).pathname, title });
  }
  return pages;
}

/** Fetches what this person may need off line, unless that was done a moment ago. Answers when it was done last. */
export async function refresh(reader, { now = false } = {}) {
  const last = await take("bags", `kept ${reader}`);
  if (!now && last && Date.now() - last.at < FRESH) return last;
  const answer = await fetch("/phone/pages", { headers: { "sowmark-reader": reader } });
  if (!answer.ok) return last;
  const { pages } = await answer.json();
  const cache = await caches.open(cacheOf(reader));
  const rest = [...pages];
  let missed = 0;
  const fetchNext = async () => {
    for (let path = rest.shift(); path; path = rest.shift()) {
      const page = await fetch(path, { headers: { "sowmark-reader": reader } }).catch(() => null);
      if (page?.status === 200 && !page.redirected && page.headers.get("sowmark-reader") === reader) {
        await cache.put(path, await dated(page));
      } else {
        missed += 1;
      }
    }
  };
  await Promise.all(Array.from({ length: AT_A_TIME }, fetchNext));
  if (missed < pages.length) {
    const wanted = new Set(pages);
    for (const request of await cache.keys()) {
      if (!wanted.has(new URL(request.url).pathname)) await cache.delete(request);
    }
    // What was missed is tried again soon.
    const at = missed > 0 ? Date.now() - FRESH + SOON : Date.now();
    const done = { key: `kept ${reader}`, at, pages: pages.length - missed };
    await put("bags", done);
    return done;
  }
  return last;
}

// A page as it is kept: it says itself since when.
async function dated(page) {
  const text = await page.text();
  // The security headers stay with it; those that speak of its bytes no longer hold.
  const headers = new Headers(page.headers);
  ["content-encoding", "content-length"].forEach((name) => headers.delete(name));
  return new Response(text.replace("<html ", `<html data-kept="${Date.now()}" `), { headers });
}
