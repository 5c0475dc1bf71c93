import { BIN_ROWS } from "./log-bins.ts";

// Above the bins of 64 rows that lie beside each column, an overview of 1024 rows a pair: what a picture of a whole long
// log is drawn from. It follows from the bins and is held against them when a book is checked.

/** Rows that one pair of the overview spans. */
export const OVERVIEW_ROWS = 1024;
const JOINED = OVERVIEW_ROWS / BIN_ROWS;

/** The name the times of a log have among its channels, in the overview; no channel has it. */
export const TIMES = "";

/** Smallest and largest of every 1024 rows, from those of every 64; NaN where there is no reading. */
export function overviewOf(bins: Float64Array): Float64Array {
  const pairs = Math.ceil(bins.length / 2 / JOINED);
  const out = new Float64Array(2 * pairs).fill(Number.NaN);
  for (let b = 0; b < bins.length / 2; b++) {
    const o = 2 * Math.floor(b / JOINED);
    const low = bins[2 * b]!;
    const high = bins[2 * b + 1]!;
    if (Number.isNaN(low)) continue;
    if (!(out[o]! <= low)) out[o] = low;
    if (!(out[o + 1]! >= high)) out[o + 1] = high;
  }
  return out;
}
