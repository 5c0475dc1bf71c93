// Coverage intervals read off a sorted sample: JCGM 101:2008, 7.7.

/** An interval of coverage, its ends in the unit of the value. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/**
 * The probabilistically symmetric interval: as much of the sample below as above.
 * @param sorted rising
 * @param coverage share of the sample inside, between 0 and 1
 * @source JCGM 101:2008, 7.7.2
 */
export function symmetricInterval(sorted: Float64Array, coverage: number): Interval {
  const inside = insideOf(sorted, coverage);
  const r = Math.floor((sorted.length - inside + 1) / 2);
  return { low: sorted[Math.max(0, r - 1)]!, high: sorted[Math.min(sorted.length - 1, r - 1 + inside)]! };
}

/**
 * The shortest that holds the share; of equal ones the first.
 * @param sorted rising
 * @param coverage share of the sample inside, between 0 and 1
 * @source JCGM 101:2008, 7.7.3 and 5.3.4
 */
export function shortestInterval(sorted: Float64Array, coverage: number): Interval {
  const inside = insideOf(sorted, coverage);
  let best = 0;
  for (let r = 1; r + inside < sorted.length; r++) {
    if (sorted[r + inside]! - sorted[r]! < sorted[best + inside]! - sorted[best]!) best = r;
  }
  return { low: sorted[best]!, high: sorted[best + inside]! };
}

function insideOf(sorted: Float64Array, coverage: number): number {
  return Math.min(sorted.length - 1, Math.floor(coverage * sorted.length + 0.5));
}
