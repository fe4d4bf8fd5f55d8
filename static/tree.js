// What a form's fields mean, as the tree that the server takes: the rules of server/web/form.rs, so that an entry made off
// line is read like one sent by the form itself. tests/shared/trees.json holds both to the same results.

// Deeper is no form of ours.
const DEEPEST = 8;

/** The tree of pairs of name and text. `zone` places times that were typed without an offset. */
export function tree(pairs, zone) {
  const root = branch();
  for (const [name, text] of pairs) {
    if (!name.startsWith("_") && text.trim() !== "") put(root, name.split("/"), text);
  }
  return root.below.size === 0 ? {} : value(root, zone);
}

const branch = () => ({ text: null, below: new Map() });

function put(at, [first, ...rest], text) {
  if (first === undefined) {
    at.text = text;
  } else if (rest.length < DEEPEST) {
    if (!at.below.has(first)) at.below.set(first, branch());
    put(at.below.get(first), rest, text);
  }
}

function value(at, zone) {
  if (at.below.size === 0) return at.text;
  const keys = [...at.below.keys()];
  if (keys.every((key) => /^\d+$/.test(key))) {
    return keys.sort((a, b) => a - b).map((key) => value(at.below.get(key), zone));
  }
  if (at.below.has("unit") && keys.every((key) => key === "value" || key === "unit")) return quantity(at.below);
  return Object.fromEntries(keys.sort().map((key) => {
    const inner = value(at.below.get(key), zone);
    return [key, key.endsWith("_at") || key === "until" ? placed(inner, zone) : inner];
  }));
}

// A number with its unit beside it. The number's field also takes "5 lb 8 oz" and "5.5 lb", whatever unit is chosen.
function quantity(parts) {
  const text = (key) => (parts.get(key)?.text ?? "").trim();
  const [typed, unit] = [text("value"), text("unit")];
  if (typed === "") return null;
  const letter = typed.search(/\p{L}/u);
  if (letter > 0) {
    const pounds = typed.match(/^(\d+)\s*lb\s*(\d*[.,]?\d+)\s*oz$/);
    if (pounds) return { lb: pounds[1], oz: pounds[2].replace(",", ".") };
    return { value: typed.slice(0, letter).trim(), unit: typed.slice(letter).trim() };
  }
  return { value: typed, unit };
}

const CIVIL = /^(\d{4})-(\d\d)-(\d\d)[T ](\d\d):(\d\d)(?::(\d\d))?$/;
const DAY = 86_400_000;

// A time that was typed without an offset is one of the organization's time zone. What a clock shows twice is the first
// time; what it skips is moved on by what it skips.
export function placed(text, zone) {
  const found = typeof text === "string" && text.match(CIVIL);
  if (!found) return text;
  const [year, month, day, hour, minute, second] = found.slice(1).map((part) => Number(part ?? 0));
  const wall = Date.UTC(year, month - 1, day, hour, minute, second);
  const [before, after] = [offset(wall - DAY, zone), offset(wall + DAY, zone)];
  const fits = [before, after].map((minutes) => wall - minutes * 60_000).find((at, i) => offset(at, zone) === [before, after][i]);
  return stamp(fits ?? wall - before * 60_000, zone);
}

/** Minutes that a zone is ahead of UTC at an instant. */
export function offset(at, zone) {
  const parts = new Intl.DateTimeFormat("en", {
    timeZone: zone, hourCycle: "h23", year: "numeric", month: "numeric", day: "numeric", hour: "numeric", minute: "numeric", second: "numeric",
  }).formatToParts(at);
  const of = (type) => Number(parts.find((part) => part.type === type).value);
  const wall = Date.UTC(of("year"), of("month") - 1, of("day"), of("hour"), of("minute"), of("second"));
  return Math.round((wall - Math.floor(at / 1000) * 1000) / 60_000);
}

/** An instant in a zone, RFC 3339 to the second. */
export function stamp(at, zone) {
  const minutes = offset(at, zone);
  const wall = new Date(at + minutes * 60_000).toISOString().slice(0, 19);
  const two = (number) => String(Math.floor(number)).padStart(2, "0");
  const ahead = Math.abs(minutes);
  return `${wall}${minutes < 0 ? "-" : "+"}${two(ahead / 60)}:${two(ahead % 60)}`;
}
