/** Rows that one pair of smallest and largest beside a column spans. */
export const BIN_ROWS = 64;

/** Smallest and largest of every bin, in turn; NaN where a bin has no reading. */
export function extremes(values: Float64Array): Float64Array {
  const bins = Math.ceil(values.length / BIN_ROWS);
  const out = new Float64Array(2 * bins);
  for (let b = 0; b < bins; b++) {
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    const end = Math.min(values.length, (b + 1) * BIN_ROWS);
    for (let i = b * BIN_ROWS; i < end; i++) {
      const v = values[i]!;
      if (v < low) low = v;
      if (v > high) high = v;
    }
    out[2 * b] = low <= high ? low : Number.NaN;
    out[2 * b + 1] = low <= high ? high : Number.NaN;
  }
  return out;
}
