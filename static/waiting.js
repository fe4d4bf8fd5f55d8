// The Outbox page: what waits on this phone and why, what was sent, and which pages are kept.

import * as kept from "./kept.js";
import * as outbox from "./outbox.js";
import { counted, says, when } from "./says.js";
import { all } from "./store.js";

const reader = document.documentElement.dataset.reader || (await kept.current());
const page = document.getElementById("waiting");
const part = (name) => page.querySelector(`template[data-part="${name}"]`).content.firstElementChild.cloneNode(true);
const list = (name) => page.querySelector(`[data-list="${name}"]`);

function shown(entry) {
  const item = part("entry");
  item.querySelector("[data-title]").textContent = entry.title;
  item.querySelector("[data-made]").textContent = says("made", { when: when(entry.made_at) });
  item.querySelector("[data-state]").textContent = says(entry.refused ? "state-refused" : "state-waiting");
  const why = item.querySelector("[data-why]");
  const details = entry.refused?.errors?.map((error) => error.detail) ?? (entry.refused ? [entry.refused.detail ?? entry.refused.title] : []);
  why.replaceChildren(...details.map((detail) => Object.assign(document.createElement("li"), { textContent: detail })));
  why.hidden = details.length === 0;
  item.querySelector("[data-mend]").href = `${entry.path}#mend=${entry.id}`;
  const button = item.querySelector("[data-drop]");
  button.addEventListener("click", () => {
    // Twice: what is dropped is gone.
    if (button.dataset.sure) outbox.dropEntry(entry.id);
    button.dataset.sure = "yes";
    button.textContent = says("drop-for-good");
  });
  return item;
}

function sent(entry) {
  const item = part("sent");
  item.querySelector("[data-title]").textContent = entry.title;
  item.querySelector("[data-title]").href = entry.kind === "calibration" ? `/calibrations/${entry.id}` : entry.next;
  item.querySelector("[data-when]").textContent = says("sent", { when: when(entry.sent_at) });
  item.querySelector("[data-became]").textContent = entry.says ?? "";
  item.querySelector("[data-became]").hidden = !entry.says;
  return item;
}

async function show() {
  const waiting = await outbox.entries();
  const own = waiting.filter((entry) => entry.by === reader);
  list("entries").replaceChildren(...own.map(shown));
  page.querySelector("[data-none]").hidden = own.length > 0;
  page.querySelector("[data-copy]").hidden = own.length === 0;
  const others = page.querySelector("[data-others]");
  others.hidden = own.length === waiting.length;
  if (!others.hidden) others.textContent = counted("others", waiting.length - own.length);
  const gone = (await all("sent")).filter((entry) => entry.by === reader).sort((a, b) => b.sent_at - a.sent_at);
  list("sent").replaceChildren(...gone.map(sent));
  page.querySelector("[data-sent]").hidden = gone.length === 0;
}

async function showKept() {
  const pages = "caches" in globalThis && reader ? await kept.list(reader) : [];
  page.querySelector("[data-kept]").textContent = pages.length > 0 ? counted("pages-kept", pages.length) : says("no-pages-kept");
  const links = pages.filter(({ path }) => /^\/(seeders(\/[0-9a-f-]{36})?)?$/.test(path)).map(({ path, title }) => {
    const link = Object.assign(document.createElement("a"), { href: path, textContent: title });
    const item = document.createElement("li");
    item.append(link);
    return item;
  });
  list("kept").replaceChildren(...links);
}

/** What waits, as a file: the body of a request to /sync, with what this page needs to take it in again. */
async function copy() {
  const own = (await outbox.entries()).filter((entry) => entry.by === reader);
  const file = new Blob([JSON.stringify({ sowmark_outbox: 1, entries: own }, null, 1)], { type: "application/json" });
  const link = Object.assign(document.createElement("a"), { href: URL.createObjectURL(file), download: `sowmark-outbox-${new Date().toISOString().slice(0, 10)}.json` });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

async function takeIn(input) {
  const told = page.querySelector("[data-taken]");
  try {
    const found = JSON.parse(await input.files[0].text());
    if (found.sowmark_outbox !== 1) throw new Error("another file");
    for (const entry of found.entries) await outbox.keep({ ...entry, by: reader });
    told.textContent = counted("taken-in", found.entries.length);
  } catch {
    told.textContent = says("not-taken-in");
  }
  input.value = "";
}

page.querySelector("[data-copy]").addEventListener("click", copy);
page.querySelector("[data-take-in]").addEventListener("change", (event) => takeIn(event.target));
page.querySelector("[data-refresh]").addEventListener("click", async () => {
  await kept.refresh(reader, { now: true }).catch(() => {});
  showKept();
});
outbox.heard(show);
show();
showKept();
