// The phone's arithmetic: plain sums of what stands on a catch sheet, shown while it is filled in. The uncertainty, the
// checks and the verdict are the server's. tests/shared/sums.json holds these sums and core's to the same results.

/** The units that can be typed, each in the first of its kind. */
export const MASS = { kg: 1, g: 0.001, t: 1000, lb: 0.45359237, oz: 0.45359237 / 16 };
export const LENGTH = { m: 1, mm: 0.001, cm: 0.01, in: 0.0254, ft: 0.3048 };

const NUMBER = /^\+?(?:(?:\d+|[1-9]\d{0,2}(?:[ \u00a0\u2009\u202f]\d{3})+)(?:[.,]\d*)?|[.,]\d+)$/;

/** A number as people type it, with either decimal sign and blanks between thousands; NaN for anything else. */
export function number(text) {
  const typed = (text ?? "").trim();
  return NUMBER.test(typed) ? Number(typed.replace(/[\s+]/g, "").replace(",", ".")) : NaN;
}

/** The same with a sign: a slip may be below zero. */
export function signed(text) {
  const typed = (text ?? "").trim();
  return /^[-\u2212][\d.,]/.test(typed) ? -number(typed.slice(1)) : number(typed);
}

const lastPlace = (typed) => 10 ** -(typed.match(/[.,](\d*)/)?.[1].length ?? 0);

/**
 * What a measured field holds, in `unit`, and one of its last place: "2,11", "5.5 lb", "5 lb 8 oz". NaN for what the server
 * does not take either.
 */
export function measured(text, unit, units) {
  const typed = text.trim();
  const within = (own) => (own === unit ? 1 : units[own] / units[unit]);
  const pounds = units === MASS && typed.match(/^([^\p{L}.,]+)lb\s*([\d+.,].*)oz$/u);
  if (pounds) {
    const ounces = number(pounds[2]);
    const value = ounces < 16 ? 16 * number(pounds[1]) + ounces : NaN;
    return { value: value * within("oz"), step: lastPlace(pounds[2]) * within("oz") };
  }
  const letter = typed.search(/\p{L}/u);
  const [digits, own] = letter < 0 ? [typed, unit] : [typed.slice(0, letter), typed.slice(letter)];
  return { value: number(digits) * within(own), step: lastPlace(digits) * within(own) };
}

/** Roller revolutions of a repeat, from the number that was counted. */
export function revolutions(counted, { counts, per, slip, ratio }) {
  switch (counts) {
    case "turns": return counted * ratio;
    case "pulses": return counted / per;
    case "distance": return ((counted * (1 - (slip || 0) / 100)) / per) * ratio;
    default: return counted;
  }
}

/**
 * What a sheet comes to so far. `repeats`: `{turned, setAside, catches: [{net, runs}]}` with roller revolutions and masses in
 * one unit. Answers the factor per run and revolution, what was caught, and the spread of the repeats' factors in percent
 * of their mean; NaN for what cannot be said yet.
 */
export function running(repeats) {
  let [caught, turned] = [0, 0];
  const factors = [];
  for (const repeat of repeats) {
    const rows = repeat.catches.filter((row) => row.net > 0 && row.runs > 0);
    if (repeat.setAside || rows.length === 0) continue;
    const net = rows.reduce((sum, row) => sum + row.net, 0);
    const run_revolutions = rows.reduce((sum, row) => sum + row.runs, 0) * repeat.turned;
    caught += net;
    turned += run_revolutions;
    factors.push(net / run_revolutions);
  }
  const mean = factors.reduce((sum, factor) => sum + factor, 0) / factors.length;
  return {
    factor: turned > 0 ? caught / turned : NaN,
    caught,
    spread: factors.length > 1 ? (100 * (Math.max(...factors) - Math.min(...factors))) / mean : NaN,
  };
}
