// The catch sheet: rows added without asking the server, running sums, what is still missing, and the record that it makes.
// The record is the one of server/calibration/form.rs.

import { LENGTH, MASS, measured, number, revolutions, running, signed } from "./sums.js";
import { says } from "./says.js";
import { tree } from "./tree.js";

const field = (within, ending) => [...within.querySelectorAll("[name]")].find((element) => element.name.endsWith(ending));
const text = (within, ending) => field(within, ending)?.value.trim() ?? "";
const repeatsOf = (form) => [...form.querySelectorAll(".repeat")];
const rowsOf = (repeat) => [...repeat.querySelectorAll(".catch")];

// Nothing weighed: at most a tare that was remembered and stands there by itself.
function isBlank(row) {
  const tare = text(row, "/tare/value");
  return text(row, "/gross/value") === "" && (tare === "" || tare === text(row, "/remembered"));
}

const isLeftOut = (repeat) => text(repeat, "/set_aside") !== "";
const isUnused = (repeat) => !isLeftOut(repeat) && rowsOf(repeat).every(isBlank);

/** Whether a field may be left empty because its row is not used. */
export const isIdle = (element) => {
  const row = element.closest(".catch");
  const repeat = element.closest(".repeat");
  return Boolean((row && isBlank(row)) || (repeat && (isUnused(repeat) || rowsOf(repeat).every(isBlank))));
};

/** What a field is called where it does not stand among its neighbours. */
export function called(element, label) {
  const [row, repeat] = [element.closest(".catch"), element.closest(".repeat")];
  if (!row) return label;
  const run = text(row, "/label") || says("run", { number: rowsOf(repeat).indexOf(row) + 1 });
  return says("field-of", { label, run, repeat: repeatsOf(element.form).indexOf(repeat) + 1 });
}

/** The calibration that the filled rows make, and where a fault of it is shown. */
export function record(form, zone) {
  const pairs = [...new FormData(form)].filter(([name]) => !name.startsWith("repeats/"));
  const places = [];
  let j = 0;
  for (const repeat of repeatsOf(form)) {
    if (isUnused(repeat)) continue;
    const own = field(repeat, "/revolutions").name.replace(/\/revolutions$/, "");
    for (const ending of ["revolutions", "set_aside"]) pairs.push([`repeats/${j}/${ending}`, text(repeat, `/${ending}`)]);
    rowsOf(repeat).filter((row) => !isBlank(row)).forEach((row, i) => {
      const sent = `repeats/${j}/catches/${i}`;
      places.push([`/${sent}`, field(row, "/label").name.replace(/\/label$/, "")]);
      for (const ending of ["label", "runs", "tare/value", "tare/unit", "gross/value", "gross/unit"]) {
        pairs.push([`${sent}/${ending}`, text(row, `/${ending}`)]);
      }
    });
    places.push([`/repeats/${j}`, own]);
    j += 1;
  }
  const made = tree(pairs, zone);
  if (made.planned && Object.values(made.planned).every((value) => value === null)) delete made.planned;
  made.repeats ??= [];
  for (const repeat of made.repeats) count(repeat, form);
  return { record: made, place: (pointer) => shownAt(pointer, places) };
}

// Says of a repeat's number what it counts.
function count(repeat, form) {
  repeat.catches ??= [];
  const counted = repeat.revolutions;
  if (counted === undefined) return;
  const given = (name) => form.elements[name].value.trim() || null;
  const length = (text) => {
    const letter = text?.search(/\p{L}/u) ?? -1;
    if (letter > 0) return { value: text.slice(0, letter).trim(), unit: text.slice(letter).trim() };
    return text === null ? null : { value: text, unit: form.dataset.length };
  };
  switch (form.elements._counted.value) {
    case "turns": repeat.revolutions = { turns: counted }; break;
    case "pulses": repeat.revolutions = { pulses: counted, pulses_per_rev: given("_per") }; break;
    case "distance":
      repeat.revolutions = { distance: length(counted), circumference: length(given("_per")), slip_percent: given("_slip") };
      break;
    default:
  }
}

function shownAt(pointer, places) {
  // Nothing was typed: it is told where a sheet begins.
  if (pointer === "/repeats") return "repeats/0/revolutions";
  const part = pointer.match(/^\/repeats\/\d+\/revolutions\/(\w+)/)?.[1];
  if (part === "pulses_per_rev" || part === "circumference") return "_per";
  if (part === "slip_percent") return "_slip";
  const [sent, shown] = places.find(([sent]) => pointer === sent || pointer.startsWith(`${sent}/`)) ?? ["", ""];
  const rest = pointer.slice(sent.length);
  return `${shown}${part ? "/revolutions" : rest}`.replace(/^\//, "");
}

/** Does what a button asks: one more repeat or row, another unit. Whether it is one of those. */
export function act(form, asked) {
  if (asked === "add_repeat") addRepeat(form);
  else if (asked.startsWith("add_run/")) addRow(repeatsOf(form)[Number(asked.slice(8))]);
  else if (asked.startsWith("unit/")) weighIn(form, asked.slice(5));
  else return false;
  form.dispatchEvent(new Event("input"));
  return true;
}

// A copy of a part of the form, its names, ids and references moved to another place.
function moved(part, from, to) {
  const copy = part.cloneNode(true);
  for (const element of [copy, ...copy.querySelectorAll("*")]) {
    for (const attribute of element.attributes) {
      if (attribute.value.includes(from)) attribute.value = attribute.value.replaceAll(from, to);
    }
  }
  copy.querySelectorAll(".error").forEach((error) => error.remove());
  copy.querySelectorAll(".at-fault").forEach((element) => element.classList.remove("at-fault"));
  copy.querySelectorAll("[aria-invalid]").forEach((element) => element.removeAttribute("aria-invalid"));
  return copy;
}

// What was weighed is not there yet; the bag and its tare are likely the same.
function emptied(row) {
  field(row, "/gross/value").value = "";
  field(row, "/remembered").value = field(row, "/tare/value").value;
  return row;
}

function addRepeat(form) {
  const all = repeatsOf(form);
  const last = all.at(-1);
  const next = moved(last, `repeats/${all.length - 1}/`, `repeats/${all.length}/`);
  next.querySelectorAll("input").forEach((input, i) => { input.value = last.querySelectorAll("input")[i].value; });
  for (const told of next.querySelectorAll(":scope > legend, :scope > .field > label")) {
    told.firstChild.data = told.firstChild.data.replace(String(all.length), String(all.length + 1));
  }
  next.querySelector("button[value^=add_run]").value = `add_run/${all.length}`;
  field(next, "/set_aside").value = "";
  rowsOf(next).forEach(emptied);
  last.after(next);
  field(next, "/revolutions").focus();
}

function addRow(repeat) {
  const rows = rowsOf(repeat);
  const next = moved(rows.at(-1), `/catches/${rows.length - 1}/`, `/catches/${rows.length}/`);
  const label = field(next, "/label");
  label.value = text(rows.at(-1), "/label").replace(/\d+$/, (found) => Number(found) + 1);
  for (const ending of ["/gross/value", "/tare/value", "/remembered"]) field(next, ending).value = "";
  rows.at(-1).after(next);
  label.focus();
}

// The unit of the whole sheet: a number that stands there is then in that unit, as the sheet says beside it.
function weighIn(form, unit) {
  const before = form.elements._mass_unit.value;
  form.elements._mass_unit.value = unit;
  for (const hidden of form.querySelectorAll(".catch input[type=hidden][name$='/unit']")) {
    hidden.value = unit;
    hidden.previousElementSibling.textContent = unit;
  }
  const button = form.querySelector(`button[value="unit/${unit}"]`);
  button.value = `unit/${before}`;
  const named = (element, unit) => { element.textContent = element.dataset.in.replace("{unit}", unit); };
  named(button, before);
  named(form.querySelector(".hint[data-in]"), unit);
}

/** Adds the rows that these names need: a draft may have more than the sheet has at first. */
export function grow(form, names) {
  const needed = (pattern) => Math.max(-1, ...names.map((name) => Number(name.match(pattern)?.[1] ?? -1)));
  while (repeatsOf(form).length <= needed(/^repeats\/(\d+)\//)) addRepeat(form);
  repeatsOf(form).forEach((repeat, j) => {
    while (rowsOf(repeat).length <= needed(new RegExp(`^repeats/${j}/catches/(\\d+)/`))) addRow(repeat);
  });
}

/** Running sums of a sheet, from now on. */
export function watch(form) {
  const template = form.querySelector("#running");
  const panel = template.content.firstElementChild.cloneNode(true);
  template.replaceWith(panel);
  const show = () => add(form, panel);
  form.addEventListener("input", show);
  show();
}

/** The factor so far as it stands in the panel, with its unit; empty while there is none. */
export function soFar(form) {
  const factor = form.querySelector("[data-factor]").textContent;
  return factor === "–" ? "" : `${factor} ${form.querySelector("[data-factor-unit]").textContent}`;
}

// A count, or a distance in the sheet's unit of length.
const counted = (form, typed) =>
  form.elements._counted.value === "distance" ? measured(typed, form.dataset.length, LENGTH).value : number(typed);

// Roller revolutions of a repeat; NaN while they cannot be said.
function turned(form, repeat) {
  const { _counted, _per, _slip } = form.elements;
  const how = { counts: _counted.value, per: counted(form, _per.value), slip: signed(_slip.value), ratio: Number(form.dataset.ratio) };
  return revolutions(counted(form, text(repeat, "/revolutions")), how);
}

// A row in the sheet's unit. Its net is NaN where the scale cannot have shown such a gross.
function weighed(form, row) {
  const unit = form.elements._mass_unit.value;
  const [gross, tare] = ["/gross/value", "/tare/value"].map((ending) => measured(text(row, ending), unit, MASS));
  const most = form.dataset.capacities.split(" ").find((scale) => scale.startsWith(`${form.elements.scale_id.value}:`));
  const isBeyond = most !== undefined && gross.value * MASS[unit] > Number(most.split(":")[1]) * (1 + 1e-12);
  return { gross: gross.value, tare: tare.value, isBeyond, net: isBeyond ? NaN : gross.value - tare.value, step: Math.min(gross.step, tare.step) };
}

// What is asked of another way of counting would be left empty.
function hideIdle({ elements }) {
  const counts = elements._counted.value;
  elements._per.closest(".field").hidden = !["pulses", "distance"].includes(counts);
  elements._slip.closest(".field").hidden = counts !== "distance";
}

function add(form, panel) {
  hideIdle(form);
  const unit = form.elements._mass_unit.value;
  const shown = (value, digits, least = 1) =>
    Number.isFinite(value)
      ? value.toLocaleString("en", { minimumSignificantDigits: least, maximumSignificantDigits: digits, useGrouping: false }).replace(".", form.dataset.decimal)
      : "–";
  // A difference of two readings has as many places as the finer of the two.
  const exact = (value, step) => value.toFixed(Math.max(0, Math.ceil(-Math.log10(step) - 1e-9))).replace(".", form.dataset.decimal);
  let finest = 1;
  const repeats = repeatsOf(form).map((repeat) => ({
    turned: turned(form, repeat),
    setAside: isLeftOut(repeat),
    catches: rowsOf(repeat).map((row) => {
      const { net, step } = weighed(form, row);
      if (net > 0) finest = Math.min(finest, step);
      row.querySelector("output").textContent = net > 0 ? `${exact(net, step)} ${unit}` : "–";
      return { net, runs: number(text(row, "/runs")) };
    }),
  }));
  const sums = running(repeats);
  const per = unit === "g" || unit === "oz" ? 1 : 100;
  const put = (name, value) => { panel.querySelector(`[data-${name}]`).textContent = value; };
  put("factor", shown(per * sums.factor, 4, 4));
  put("factor-unit", says(per === 1 ? "per-revolution" : "per-100-revolutions", { mass: unit }));
  // A hundredth of a percent is less than any scale shows.
  put("spread", Number.isFinite(sums.spread) ? `${shown(Math.round(sums.spread * 100) / 100, 2)} %` : "–");
  put("caught", sums.caught > 0 ? `${exact(sums.caught, finest)} ${unit}` : "–");
  put("missing", missing(form));
}

// The first thing that is missing, in words: a list of all would be read by nobody. What cannot be read is in no sum, so it
// is missing too.
function missing(form) {
  const used = repeatsOf(form).filter((repeat) => !isUnused(repeat));
  for (const repeat of used) {
    const nth = repeatsOf(form).indexOf(repeat) + 1;
    if (isLeftOut(repeat)) continue;
    if (text(repeat, "/revolutions") === "") return says("missing-revolutions", { repeat: nth });
    if (!(counted(form, text(repeat, "/revolutions")) > 0)) return says("missing-revolutions-unread", { repeat: nth });
    if (!(turned(form, repeat) > 0)) return says("missing-per");
    for (const row of rowsOf(repeat).filter((row) => !isBlank(row))) {
      const run = text(row, "/label");
      if (text(row, "/tare/value") === "") return says("missing-tare", { repeat: nth, run });
      if (text(row, "/gross/value") === "") return says("missing-gross", { repeat: nth, run });
      const { gross, tare, isBeyond, net } = weighed(form, row);
      if (Number.isNaN(tare)) return says("missing-tare-unread", { repeat: nth, run });
      if (Number.isNaN(gross)) return says("missing-gross-unread", { repeat: nth, run });
      if (isBeyond) return says("missing-within", { repeat: nth, run });
      if (!(net > 0)) return says("missing-seed", { repeat: nth, run });
      if (!(number(text(row, "/runs")) > 0)) return says("missing-runs", { repeat: nth, run });
    }
  }
  if (form.elements.lot_id.value === "") return says("missing-lot");
  if (used.filter((repeat) => !isLeftOut(repeat)).length < 2) return says("missing-repeat");
  return says("missing-nothing");
}
