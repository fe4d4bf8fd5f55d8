// The phone's arithmetic: plain sums of what stands on a catch sheet, shown while it is filled in. The uncertainty, the
// checks and the verdict are the server's. tests/shared/sums.json holds these sums and core's to the same results.

/** A number as people type it, with either decimal sign; NaN for anything else, a weight with its own unit among it. */
export function number(text) {
  const plain = (text ?? "").replace(/[\s\u00a0\u202f]/g, "").replace(",", ".");
  return /^(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : NaN;
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
