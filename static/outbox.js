// The outbox: entries made on this phone, kept until the server has them. Sent on load, on submit, when the connection
// returns and on demand; nothing rests on the browser's own background sending, which half of them do not have.

import { all, change, drop, put, take } from "./store.js";

// At most so many at a time: the server takes 200.
const BATCH = 50;
const SENT_KEPT = 20;
const PATIENCE = 15_000;
// An entry that was refused while its author looked on is theirs to mend; left alone for so long, the office is to know of it.
const OWN_TIME = 600_000;

/** A UUIDv7 (RFC 9562): made here, so that an entry sent twice is stored once. */
export function newId(now = Date.now()) {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  for (let i = 5, rest = now; i >= 0; i--, rest = Math.floor(rest / 256)) bytes[i] = rest % 256;
  bytes[6] = 0x70 | (bytes[6] & 0x0f);
  bytes[8] = 0x80 | (bytes[8] & 0x3f);
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
}

// Every tab hears of a change; without this a second tab goes on showing what is sent already.
const bell = "BroadcastChannel" in globalThis ? new BroadcastChannel("sowmark-outbox") : null;
const ring = () => { bell?.postMessage("changed"); dispatchEvent(new Event("outbox")); };
export const heard = (act) => { bell?.addEventListener("message", act); addEventListener("outbox", act); };

export async function keep(entry) {
  await put("entries", entry);
  ring();
}

export async function dropEntry(id) {
  await drop("entries", id);
  ring();
}

/** Everything that waits on this phone, oldest first. */
export const entries = async () => (await all("entries")).sort((a, b) => (a.id < b.id ? -1 : 1));

/** What the server said of this person's entries and nobody has seen yet, newest first. */
export const news = async (reader) =>
  (await all("sent")).filter((sent) => sent.by === reader && sent.news).sort((a, b) => b.sent_at - a.sent_at);

export async function seen(id) {
  const sent = await take("sent", id);
  if (!sent?.news) return;
  await put("sent", { ...sent, news: false });
  ring();
}

/**
 * Sends what waits for this person. Answers how it ended: "done", "offline", "sign-in", "other" (signed in as somebody
 * else), "later" (the server is busy) or "busy" (another tab sends).
 */
export function send(reader) {
  const go = () => sendAll(reader);
  if (!navigator.locks) return go();
  return navigator.locks.request("sowmark-outbox", { ifAvailable: true }, (lock) => (lock ? go() : "busy"));
}

async function sendAll(reader) {
  const tried = new Set();
  const left = (entry) => entry.refused && !entry.held && Date.now() - entry.made_at > OWN_TIME;
  // Until nothing waits that was not tried: entries are added while others are sent.
  for (;;) {
    const waiting = (await entries()).filter((entry) => entry.by === reader && (!entry.refused || left(entry)) && !tried.has(entry.id));
    if (waiting.length === 0) return "done";
    const batch = waiting.slice(0, BATCH);
    batch.forEach((entry) => tried.add(entry.id));
    const ended = await sendBatch(reader, batch);
    if (ended !== "done") return ended;
  }
}

/**
 * Asks what became of entries that the server keeps because it could not store them: it does so by itself once another phone
 * has sent what they need, and somebody in the office may have mended or dropped them.
 */
export async function askAfter(reader) {
  for (const entry of (await entries()).filter((entry) => entry.by === reader && entry.held)) {
    const answer = await asked(reader, `/refused/${entry.id}`);
    if (typeof answer === "string") return;
    const { ended } = answer.ok ? await answer.json() : {};
    if (ended) await settle(entry, { outcome: ended.how, says: ended.says, href: ended.href });
  }
}

const PLACES = {
  setup: (id) => `/metering-units/${id}/setups`, fill: (id) => `/metering-units/${id}/fills`,
  emptying: (id) => `/metering-units/${id}/emptyings`, job: (id) => `/metering-units/${id}/jobs`,
  calibration: (id) => `/metering-units/${id}/calibrations`, service: (id) => `/seeders/${id}/services`,
  scale_check: (id) => `/scales/${id}/checks`, lot_test: (id) => `/lots/${id}/tests`,
};

/** Sends an entry that this phone could not keep. Answers the server's answer, or a word of `send`. */
export const tell = (reader, entry) => asked(reader, PLACES[entry.kind](entry.parent_id), entry.record);

/**
 * Sends one entry while its author looks on, by the way of its own kind: a slip is shown beside its field and mended there,
 * and the office hears nothing of it. Answers as `send` does.
 */
export async function sendOne(reader, entry) {
  await underWay([entry]);
  const answer = await tell(reader, entry);
  if (typeof answer === "string") return answer;
  if (answer.status === 409 && entry.may_stand) {
    await asCorrection(entry);
    return sendOne(reader, entry);
  }
  const problem = answer.ok ? null : await answer.json().catch(() => ({ title: `${answer.status}` }));
  await settle(entry, answer.ok ? { outcome: "stored" } : { outcome: "refused", problem });
  return "done";
}

// From here on it may be at the server, whether or not an answer comes.
async function underWay(batch) {
  for (const entry of batch.filter((entry) => !entry.sent)) {
    entry.sent = true;
    await change("entries", entry.id, (now) => now.made_at === entry.made_at && { ...now, sent: true });
  }
}

/**
 * What was sent before an entry was changed did arrive, though no answer came: what stands there is right no more, and the
 * changed entry replaces it under an id of its own.
 */
async function asCorrection(entry) {
  const before = entry.id;
  entry.id = newId();
  entry.record = { ...entry.record, id: entry.id, corrects: before };
  delete entry.may_stand;
  await put("entries", entry);
  await drop("entries", before);
  ring();
}

async function sendBatch(reader, batch) {
  await underWay(batch);
  const answer = await post(reader, batch);
  if (typeof answer === "string") return answer;
  if (answer.ok) {
    for (const result of (await answer.json()).results) {
      const entry = batch.find((entry) => entry.id === result.id);
      if (entry?.may_stand && result.problem?.status === 409) await asCorrection(entry);
      else await settle(entry, result, { held: true });
    }
    return "done";
  }
  if (batch.length > 1) {
    // Something about the whole was refused: each by itself, so that one cannot hold up the rest.
    for (const entry of batch) {
      const ended = await sendBatch(reader, [entry]);
      if (ended !== "done") return ended;
    }
    return "done";
  }
  const problem = await answer.json().catch(() => ({ title: `${answer.status}` }));
  await settle(batch[0], { outcome: "refused", problem });
  return "done";
}

const post = (reader, batch) => asked(reader, "/sync", {
  sent_at: new Date().toISOString(),
  device: navigator.userAgentData?.platform ?? "",
  entries: batch.map(({ kind, parent_id, record }) => ({ kind, parent_id, record })),
});

async function asked(reader, path, body) {
  let answer;
  try {
    answer = await fetch(`/api/v1${path}`, {
      method: body ? "POST" : "GET", body: body && JSON.stringify(body), redirect: "error", credentials: "same-origin", signal: AbortSignal.timeout(PATIENCE),
      headers: { "content-type": "application/json", "sowmark-reader": reader },
    });
  } catch {
    return "offline";
  }
  if (answer.status === 401) return answer.headers.has("sowmark-other") ? "other" : "sign-in";
  if (answer.status >= 500 || answer.status === 429 || answer.status === 408) return "later";
  return answer;
}

/** `held`: a refused entry is kept by the server, too. */
async function settle(entry, result, { held = false } = {}) {
  if (!entry) return;
  // It may have been mended meanwhile: what was sent is no longer what waits.
  const now = await take("entries", entry.id);
  if (!now || now.made_at !== entry.made_at) return;
  if (result.outcome === "refused") {
    await change("entries", entry.id, (now) => now.made_at === entry.made_at && { ...now, refused: result.problem, held });
  } else if (result.outcome === "dropped") {
    await drop("entries", entry.id);
  } else {
    const { id, by, kind, title, next, made_at } = entry;
    const { says = "", href = "" } = result;
    await put("sent", { id, by, kind, title, next, made_at, sent_at: Date.now(), says, href, news: says !== "" });
    await drop("entries", id);
    const sent = (await all("sent")).sort((a, b) => b.sent_at - a.sent_at);
    for (const old of sent.filter(({ news }) => !news).slice(SENT_KEPT)) await drop("sent", old.id);
  }
  ring();
}
