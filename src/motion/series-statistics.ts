/** What a recorded series says by itself: mean with its ±, scatter, largest. */

export interface SeriesStatistics {
  readonly mean: number;
  /** Standard uncertainty of the mean, from how unlike the stretches of the record are. */
  readonly u: number;
  readonly deviation: number;
  readonly largest: number;
  readonly least: number;
}

/** Stretches the record is cut into for the ± of its mean: the method of batch means. */
const BATCHES = 20;

/** @returns mean, scatter and ends of a series of equal steps; u by batch means (Law & Kelton, Simulation Modeling; recalled) */
export function seriesStatistics(series: Float64Array): SeriesStatistics {
  const n = series.length;
  let sum = 0;
  let largest = Number.NEGATIVE_INFINITY;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < n; i++) {
    const v = series[i]!;
    sum += v;
    if (v > largest) largest = v;
    if (v < least) least = v;
  }
  const mean = sum / n;
  let squares = 0;
  for (let i = 0; i < n; i++) squares += (series[i]! - mean) ** 2;
  const size = Math.floor(n / BATCHES);
  let between = 0;
  for (let b = 0; b < BATCHES && size > 0; b++) {
    let part = 0;
    for (let i = b * size; i < (b + 1) * size; i++) part += series[i]!;
    between += (part / size - mean) ** 2;
  }
  return {
    mean,
    u: size > 0 ? Math.sqrt(between / (BATCHES - 1) / BATCHES) : Number.NaN,
    deviation: Math.sqrt(squares / Math.max(1, n - 1)),
    largest,
    least,
  };
}
