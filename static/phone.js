// On every page of somebody signed in: what waits on this phone and sending it, pages kept for off line, and forms whose
// entries go through the outbox, so that nothing typed is lost or stored twice. Without this script the forms are plain ones.

import * as kept from "./kept.js";
import * as outbox from "./outbox.js";
import { counted, says, when } from "./says.js";
import * as sheet from "./sheet.js";
import { signed } from "./sums.js";
import { drop, put, take } from "./store.js";
import { placed, stamp, tree } from "./tree.js";

const root = document.documentElement;
const { reader = "", zone = "UTC", keeps, kept: keptSince } = root.dataset;
const DAY = 86_400_000;
const RETRY = 30_000;
const SOON = 2_000;

// --- What waits, and sending it --------------------------------------------------------------------------------------

const line = document.getElementById("outbox-line");

async function showLine(ended) {
  const own = (await outbox.entries()).filter((entry) => entry.by === reader);
  const refused = own.filter((entry) => entry.refused).length;
  const waiting = own.length - refused;
  const told = [];
  if (waiting > 0) told.push(counted("waiting", waiting));
  if (refused > 0) told.push(counted("refused", refused));
  if (waiting > 0 && ["sign-in", "other", "later", "offline"].includes(ended)) told.push(says(`ended-${ended}`));
  if (own.some((entry) => Date.now() - entry.made_at > DAY)) told.push(says("waits-long"));
  const space = await navigator.storage?.estimate?.();
  if (space?.quota && space.usage > 0.9 * space.quota) told.push(says("storage-nearly-full"));
  const news = await outbox.news(reader);
  showNews(news);
  line.querySelector("[data-told]").textContent = told.join(" ");
  line.querySelector("[data-send]").hidden = waiting === 0;
  line.querySelector("[data-sign-in]").hidden = !(waiting > 0 && ended === "sign-in");
  line.querySelector("[data-waits]").hidden = told.length === 0;
  line.hidden = told.length === 0 && news.length === 0;
}

/** What became of catches that were sent from here, until somebody has seen it. */
function showNews(news) {
  const list = line.querySelector("[data-news]");
  const shown = news.map(({ id }) => id).join(" ");
  // Left as it is while nothing is new: it is read out whenever it changes.
  if ((list.dataset.news || "") === shown) return;
  list.dataset.news = shown;
  list.replaceChildren(...news.map((sent) => {
    const item = said("news", { says: sent.says });
    item.querySelector("a").href = sent.href;
    item.querySelector("button").addEventListener("click", () => outbox.seen(sent.id));
    return item;
  }));
}

/** Whoever has the record open has seen what became of it. The page that stands in for one without signal shows nothing. */
async function recordSeen() {
  const [, id] = location.pathname.match(/^\/calibrations\/([0-9a-f-]{36})$/) ?? [];
  if (id && !document.getElementById("waiting")) await outbox.seen(id);
}

let last = "";
async function send() {
  const ended = await outbox.send(reader);
  if (ended === "done") await outbox.askAfter(reader);
  if (ended !== "busy") last = ended;
  await showLine(last);
  return ended;
}

/**
 * Signal comes back without the browser saying so: what waits is sent again by itself, soon after it could not be sent, then
 * after ever longer pauses.
 */
let again;
function sendAgain(pause) {
  clearTimeout(again);
  again = setTimeout(async () => {
    const waits = (await outbox.entries().catch(() => [])).length > 0;
    const ended = waits && (await send().catch(() => "later"));
    sendAgain(ended === "offline" ? Math.min(2 * pause, RETRY) : RETRY);
  }, pause);
}

// --- Forms whose entries go through the outbox ------------------------------------------------------------------------

const KINDS = {
  "metering-units": { setups: "setup", fills: "fill", emptyings: "emptying", jobs: "job", catch: "calibration" },
  seeders: { services: "service" },
  scales: { checks: "scale_check" },
  lots: { tests: "lot_test" },
};

/** What kind of entry a form makes and of what; none for a form of another kind. */
function entryOf(form) {
  const [, place, parent, what] = new URL(form.action).pathname.match(/^\/([\w-]+)\/([0-9a-f-]{36})\/(\w+)$/) ?? [];
  const kind = KINDS[place]?.[what];
  return kind && { kind, parent_id: parent };
}

// Not `form.id`: a field of that name stands in its way.
const isSheet = (form) => form.getAttribute("id") === "catch";
const pairsOf = (form) => [...new FormData(form)].filter(([name]) => name !== "id" && name !== "_do");
// A record that is being corrected has a draft of its own, beside that of a new one.
const corrected = new URLSearchParams(location.search).get("corrects");
const draftKey = () => `${reader} ${location.pathname}${corrected ? ` ${corrected}` : ""}`;
const lookUp = (form, name) => form.querySelector(`[name="${CSS.escape(name)}"]`);

function fill(form, pairs) {
  const names = pairs.map(([name]) => name);
  if (isSheet(form)) sheet.grow(form, names);
  form.querySelectorAll("input[type=checkbox]").forEach((box) => { box.checked = names.includes(box.name); });
  for (const [name, text] of pairs) {
    const element = lookUp(form, name);
    if (element && element.type !== "checkbox" && element.name !== "id") element.value = text;
  }
  form.dispatchEvent(new Event("input"));
}

async function restoreDraft(form) {
  const draft = await take("drafts", draftKey()).catch(() => undefined);
  if (!draft) return false;
  fill(form, draft.pairs);
  const note = said("draft-back", { when: when(draft.at) });
  note.querySelector("button").addEventListener("click", async () => {
    await drop("drafts", draftKey());
    location.reload();
  });
  form.before(note);
  return true;
}

function keepDrafts(form) {
  let due = 0;
  const save = async () => {
    clearTimeout(due);
    due = 0;
    // What was entered is no draft any more, however soon after the last key.
    if (form.isConnected && !form.dataset.entered) await put("drafts", { key: draftKey(), at: Date.now(), pairs: pairsOf(form) }).catch(draftLost);
  };
  form.addEventListener("input", (event) => {
    // What the script filled in by itself was typed by nobody.
    if (event.isTrusted && !due) due = setTimeout(save, 200);
  });
  addEventListener("pagehide", () => { if (due) save(); });
  document.addEventListener("visibilitychange", () => { if (due && document.hidden) save(); });
}

/** A note of the page's templates, as an element. */
function said(name, blanks = {}) {
  const part = document.getElementById("says").content.querySelector(`[data-part="${name}"]`).cloneNode(true);
  for (const element of part.querySelectorAll("[data-blank]")) element.textContent = blanks[element.dataset.blank] ?? "";
  return part;
}

// A browser that keeps nothing at all is no news at every letter; a full storage is.
function draftLost(error) {
  if (error?.name === "QuotaExceededError") notKept(error);
}

function notKept(error) {
  document.querySelector(".not-kept")?.remove();
  const full = error?.name === "QuotaExceededError";
  const note = said(full ? "not-kept-full" : "not-kept");
  document.querySelector("main").prepend(note);
  note.focus();
}

// --- Faults -----------------------------------------------------------------------------------------------------------

const fieldAt = (form, name) =>
  name && (lookUp(form, `${name}/value`) ?? lookUp(form, name) ?? lookUp(form, name.replace(/\/(unit|lb|oz)$/, "/value")));

const labelOf = (field) => field.form.querySelector(`label[for="${CSS.escape(field.id)}"]`)?.firstChild?.textContent.trim() ?? "";

/** Shows faults as the server's pages do: a list at the top, each beside its field. */
function showFaults(form, faults) {
  clearFaults(form);
  const list = said("faults");
  for (const { name, detail } of faults) {
    const field = fieldAt(form, name);
    const item = document.createElement("li");
    if (field && field.type !== "hidden") {
      const label = sheet.called(field, labelOf(field));
      const link = document.createElement("a");
      link.href = `#${field.id}`;
      link.textContent = label ? `${label}: ${detail}` : detail;
      item.append(link);
      beside(field, detail);
    } else {
      item.textContent = detail;
    }
    list.querySelector("ul").append(item);
  }
  form.before(list);
  list.focus();
}

function beside(field, detail) {
  const box = field.closest(".field");
  if (!box || box.querySelector(".error")) return;
  // In a row of figures it stands below them all.
  const error = said("fault", { detail: field.closest(".catch") ? `${labelOf(field)}: ${detail}` : detail });
  error.id = `${field.id}-error`;
  box.classList.add("at-fault");
  (box.querySelector(".measured") ?? field).before(error);
  field.setAttribute("aria-invalid", "true");
  field.setAttribute("aria-describedby", `${field.getAttribute("aria-describedby") ?? ""} ${error.id}`.trim());
}

function clearFaults(form) {
  document.querySelectorAll("main .errors, .not-kept").forEach((element) => element.remove());
  form.querySelectorAll(".error").forEach((element) => element.remove());
  form.querySelectorAll(".at-fault").forEach((element) => element.classList.remove("at-fault"));
  form.querySelectorAll("[aria-invalid]").forEach((element) => element.removeAttribute("aria-invalid"));
}

const A_DAY = 24 * 60 * 60 * 1000;

/** Why a number is none or cannot be, empty where it may. With a unit of its own it is the server's to say. */
function numberFault(form, field, text) {
  if (/\p{L}/u.test(text)) return "";
  const value = signed(text);
  if (Number.isNaN(value)) return says("no-number");
  const mayBeBelow = field.name === "_slip" || lookUp(form, field.name.replace(/value$/, "unit"))?.value.startsWith("°");
  return value < 0 && !mayBeBelow ? says("negative", { given: text.replace("-", "\u2212") }) : "";
}

/** What can be seen here already: empty fields, numbers that are none, what has not happened yet. All else is the server's to say. */
function plainFaults(form) {
  const faults = [];
  for (const field of form.elements) {
    if (!field.name || field.type === "hidden" || field.closest(".field")?.hidden || (isSheet(form) && sheet.isIdle(field))) continue;
    const text = field.value.trim();
    if (text === "") {
      if (field.required) faults.push({ name: field.name, detail: says("needed") });
    } else if (["decimal", "numeric"].includes(field.inputMode) && numberFault(form, field, text)) {
      faults.push({ name: field.name, detail: numberFault(form, field, text) });
    } else if (["occurred_at", "ended_at"].includes(field.name) && new Date(placed(text, zone)) - Date.now() > A_DAY) {
      faults.push({ name: field.name, detail: says("ahead") });
    }
  }
  return faults;
}

/** The faults of a refusal, with the names of the fields that they belong to. */
const faultsOf = (problem, place) =>
  problem.errors?.length
    ? problem.errors.map(({ pointer, detail }) => ({ name: place(pointer), detail }))
    : [{ name: "", detail: problem.detail ?? problem.title }];

// --- Entering -----------------------------------------------------------------------------------------------------------

const plainPlace = (pointer) => pointer.slice(1);

/** The entry that a form makes now, and where its faults are shown. */
function made(form) {
  const own = isSheet(form) ? sheet.record(form, zone) : { record: tree([...new FormData(form)], zone), place: plainPlace };
  // A page that this phone keeps holds the same id for ever; each entry gets one of its own, and a mended one keeps its.
  own.record.id = form.dataset.mends ?? outbox.newId();
  const entry = {
    ...entryOf(form), id: own.record.id, by: reader, record: own.record, pairs: pairsOf(form), path: location.pathname,
    next: form.dataset.next ?? "/", title: document.querySelector("h1").textContent, made_at: Date.now(),
  };
  return { entry, place: own.place };
}

// Whether what a form was filled in with is other by now, as far as the server can be asked.
async function isOutdated(form) {
  const shown = form.elements._shown?.value;
  if (!shown) return false;
  try {
    const answer = await fetch(location.href, { signal: AbortSignal.timeout(3000) });
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const now = page.querySelector("[name=_shown]")?.value;
    return answer.ok && now !== undefined && now !== shown;
  } catch {
    return false;
  }
}

async function enter(form) {
  if (form.dataset.busy) return;
  clearFaults(form);
  const faults = plainFaults(form);
  form.dataset.busy = "yes";
  try {
    if (faults.length > 0) await withServersFaults(form, faults);
    // The server's own page asks then, beside the fields.
    else if (await isOutdated(form)) form.submit();
    else await entered(form);
  } finally {
    delete form.dataset.busy;
  }
}

/** Faults that were seen here, with those that only the server knows where it can be asked: it refuses what has any. */
async function withServersFaults(form, faults) {
  const { entry, place } = made(form);
  const isSure = !faults.some(({ detail }) => detail === says("ahead"));
  // Not for long: what is seen here is worth more than a wait.
  const answer = isSure ? await Promise.race([outbox.tell(reader, entry), new Promise((end) => setTimeout(end, 3000, ""))]) : "";
  if (answer.ok) {
    form.dataset.entered = "yes";
    await drop("drafts", draftKey());
    leave(entry);
    return;
  }
  const told = typeof answer === "string" ? [] : faultsOf(await answer.json().catch(() => ({ errors: [] })), place);
  const placed = told.map((fault) => ({ ...fault, name: fieldAt(form, fault.name)?.name ?? fault.name }));
  showFaults(form, [...placed.filter(({ name }) => name), ...faults.filter(({ name }) => !placed.some((fault) => fault.name === name))]);
}

async function entered(form) {
  const { entry, place } = made(form);
  if (form.dataset.mends) {
    // Sent before, even while it was being changed here, it may stand as it was: an answer that never came does not tell.
    const before = await take("entries", form.dataset.mends);
    entry.may_stand = !before || Boolean(before.may_stand || (before.sent && !before.refused));
    if (before?.record.corrects) entry.record.corrects = before.record.corrects;
  }
  try {
    await outbox.keep(entry);
  } catch (error) {
    await withoutKeeping(form, entry, place, error);
    return;
  }
  // Never awaited: a browser may leave it open for as long as its question is not answered.
  navigator.storage?.persist?.().catch(() => {});
  form.dataset.entered = "yes";
  await drop("drafts", draftKey());
  const ended = await outbox.sendOne(reader, entry);
  last = ended;
  await showLine(ended);
  const still = await take("entries", entry.id);
  if (!still) {
    leave(entry);
  } else if (still.refused) {
    form.dataset.mends = entry.id;
    delete form.dataset.entered;
    showFaults(form, faultsOf(still.refused, place));
  } else {
    showKept(form, entry);
    sendAgain(SOON);
  }
}

const leave = (entry) => location.assign(entry.kind === "calibration" ? `/calibrations/${entry.id}` : entry.next);

/** A browser that keeps nothing (full, or told not to) still sends while there is signal. */
async function withoutKeeping(form, entry, place, error) {
  const answer = await outbox.tell(reader, entry);
  if (typeof answer === "string") notKept(error);
  else if (answer.ok) {
    form.dataset.entered = "yes";
    leave(entry);
  } else showFaults(form, faultsOf(await answer.json(), place));
}

function showKept(form, entry) {
  const factor = isSheet(form) ? sheet.soFar(form) : "";
  const note = said("kept", { title: entry.title, factor });
  note.querySelector("[data-with-factor]").hidden = factor === "";
  note.querySelector("[data-next]").href = entry.next;
  clearFaults(form);
  document.querySelectorAll("main > .cautions, main > .draft-back, .bar-act > *").forEach((element) => element.remove());
  form.replaceWith(note);
  note.focus();
}

/** Asks the server what the sheet comes to, without leaving the page: a lost connection costs nothing. */
async function workOut(form) {
  let text;
  try {
    const body = new URLSearchParams([...new FormData(form), ["_do", "work_out"]]);
    const answer = await fetch(form.action, { method: "POST", body, redirect: "error", signal: AbortSignal.timeout(15_000) });
    if (answer.status !== 200 && answer.status !== 422) throw new Error(String(answer.status));
    text = await answer.text();
  } catch {
    clearFaults(form);
    const note = said("no-verdict");
    form.before(note);
    note.focus();
    return;
  }
  const page = new DOMParser().parseFromString(text, "text/html");
  document.title = page.title;
  document.querySelector("main").replaceWith(document.adoptNode(page.querySelector("main")));
  const again = document.querySelector("form#catch");
  if (form.dataset.mends) again.dataset.mends = form.dataset.mends;
  enhance(again);
  (document.querySelector(".errors") ?? document.getElementById("result"))?.scrollIntoView();
}

function enhance(form) {
  if (isSheet(form)) sheet.watch(form);
  keepDrafts(form);
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const asked = event.submitter?.name === "_do" ? event.submitter.value : "save";
    if (asked === "save") enter(form);
    else if (sheet.act(form, asked)) put("drafts", { key: draftKey(), at: Date.now(), pairs: pairsOf(form) }).catch(draftLost);
    else workOut(form);
  });
}

/** Comes back to an entry that was refused, or that should be changed before it is sent. */
async function mend(form) {
  const id = location.hash.match(/^#mend=([0-9a-f-]{36})$/)?.[1];
  const entry = id && (await take("entries", id));
  if (!entry || entry.by !== reader) return false;
  fill(form, entry.pairs);
  form.dataset.mends = id;
  if (entry.refused) showFaults(form, faultsOf(entry.refused, made(form).place));
  return true;
}

async function start(form) {
  // An entry that was refused at the server is mended there: the form goes back as it is.
  if (form.elements._refused) {
    if (isSheet(form)) sheet.watch(form);
    return;
  }
  enhance(form);
  if ((await mend(form)) || (await restoreDraft(form))) return;
  // The time that stands in a kept page is the time when it was kept.
  for (const moment of [form.elements.occurred_at, form.elements.ended_at]) {
    if (keptSince && moment?.value) moment.value = stamp(Date.now(), zone).slice(0, 16);
  }
}

// --- The page -----------------------------------------------------------------------------------------------------------

function signOut(form) {
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const waiting = await outbox.entries().then((all) => all.filter((entry) => entry.by === reader).length, () => 0);
    const button = form.querySelector("button");
    if (waiting > 0 && !button.dataset.warned) {
      button.dataset.warned = "yes";
      button.textContent = says("sign-out-all-the-same");
      line.querySelector("[data-told]").textContent = counted("sign-out-waiting", waiting);
      line.querySelector("[data-waits]").hidden = false;
      line.hidden = false;
      line.scrollIntoView();
      return;
    }
    await kept.forget().catch(() => {});
    form.submit();
  });
}

if (keptSince) {
  document.querySelector("main").prepend(said("as-of", { when: when(Number(keptSince)) }));
}
if ("serviceWorker" in navigator) {
  navigator.serviceWorker.register("/worker.js", { updateViaCache: "none" }).catch(() => {});
}
if (reader) {
  for (const form of document.querySelectorAll("form[method=post]")) {
    if (form.getAttribute("action") === "/sign-out") signOut(form);
    else if (entryOf(form)) start(form);
  }
  line.querySelector("[data-send]").addEventListener("click", send);
  addEventListener("online", send);
  document.addEventListener("visibilitychange", () => { if (!document.hidden) send(); });
  sendAgain(SOON);
  outbox.heard(() => showLine(last));
  recordSeen().catch(() => {}).then(send).then(() => navigator.serviceWorker?.ready).then(() => keeps !== undefined && kept.refresh(reader)).catch(() => {});
}
