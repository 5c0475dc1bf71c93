/**
 * The estimate of Turnbull (J. R. Stat. Soc. B 38, 1976, 290): the distribution of the load at which an anchor gives way
 * that makes pulls likeliest of which one knows only between which loads it lay. A pull that held L and had given way by
 * R says: in (L, R]; one that gave way at L: exactly L. Mass can stand only on the innermost intervals, those that begin
 * with a left end and end with the next right end; where within one it stands no pull can tell.
 *
 * Found by turns of self-consistency (expectation–maximisation) and of Newton on the cumulative steps, kept ascending by
 * pooling (iterative convex minorant; Wellner & Zhan, J. Am. Stat. Assoc. 92, 1997, 945): the first moves mass that
 * Newton does not see, the second ends the first's long tail. The search ends at the conditions of Kuhn and Tucker: no
 * interval would gain by more than `tolerance` per pull.
 */
import { boundsOf, type Hold } from "./pull.ts";
import { type Step, stepsOf } from "./survival-curve.ts";

/** Turnbull's estimate of a curve from loads known between bounds. */
export interface Turnbull {
  /** Innermost intervals (from, to], N; from = to for an exact load, to infinite above all pulls. */
  readonly intervals: readonly { readonly from: number; readonly to: number; readonly mass: number }[];
  readonly steps: readonly Step[];
  readonly logLikelihood: number;
  /** Largest gain per pull that is left in any interval (zero at the very maximum). */
  readonly gainLeft: number;
}

/** Half-open ends sort: exact left end, right end, open left end. */
const EXACT_LEFT = 0;
const RIGHT = 1;
const OPEN_LEFT = 2;

/** The curve of pulls of which only bounds are known, by self-consistency. */
export function turnbull(holds: readonly Hold[], tolerance = 1e-10, most = 20_000): Turnbull {
  const cells = innermost(holds);
  const m = cells.from.length;
  const n = holds.length;
  const first = new Int32Array(n);
  const last = new Int32Array(n);
  const heldOn = new Uint8Array(n);
  for (let i = 0; i < n; i++) {
    const { low, high } = boundsOf(holds[i]!);
    heldOn[i] = high === Number.POSITIVE_INFINITY ? 1 : 0;
    first[i] = low === high ? search(cells.to, low) : firstFrom(cells.from, cells.to, low);
    last[i] = lastTo(cells.to, high);
  }
  const mass = new Float64Array(m).fill(1 / m);
  const gain = new Float64Array(m);
  const work = { below: new Float64Array(m + 1), trial: new Float64Array(m), slope: new Float64Array(m + 1) };
  let gainLeft = gains(mass, first, last, gain, work.below);
  for (let turn = 0; turn < most && gainLeft > tolerance; turn++) {
    for (let j = 0; j < m; j++) mass[j] = mass[j]! * gain[j]!;
    minorantStep(mass, first, last, work);
    gainLeft = gains(mass, first, last, gain, work.below);
  }
  return {
    intervals: Array.from(mass, (share, j) => ({ from: cells.from[j]!, to: cells.to[j]!, mass: share })),
    steps: steps(cells, mass, first, last, heldOn),
    logLikelihood: logLikelihood(mass, first, last, work.below),
    gainLeft,
  };
}

function innermost(holds: readonly Hold[]): { from: Float64Array; to: Float64Array } {
  const ends: { at: number; order: number }[] = [];
  for (const hold of holds) {
    const { low, high } = boundsOf(hold);
    ends.push({ at: low, order: low === high ? EXACT_LEFT : OPEN_LEFT }, { at: high, order: RIGHT });
  }
  ends.sort((a, b) => (a.at === b.at ? a.order - b.order : a.at < b.at ? -1 : 1));
  const from: number[] = [];
  const to: number[] = [];
  for (let k = 1; k < ends.length; k++) {
    if (ends[k]!.order === RIGHT && ends[k - 1]!.order !== RIGHT) {
      from.push(ends[k - 1]!.at);
      to.push(ends[k]!.at);
    }
  }
  return { from: Float64Array.from(from), to: Float64Array.from(to) };
}

/** Index of the first interval that lies above an open left end. */
function firstFrom(from: Float64Array, to: Float64Array, low: number): number {
  let at = search(from, low);
  // An exact load equal to an open left end lies below it.
  while (at < from.length && from[at] === low && to[at] === low) at++;
  return at;
}

function lastTo(to: Float64Array, high: number): number {
  let at = search(to, high);
  while (at + 1 < to.length && to[at + 1] === high) at++;
  return to[at] === high ? at : at - 1;
}

/** Index of the first element not below `value`. */
function search(sorted: Float64Array, value: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle]! < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

function cumulate(mass: Float64Array, below: Float64Array): void {
  below[0] = 0;
  for (let j = 0; j < mass.length; j++) below[j + 1] = below[j]! + mass[j]!;
}

/** gain[j] = (1/n) Σ over pulls that hold j of 1 / their mass; at the maximum 1 where mass is and not above it elsewhere. */
function gains(
  mass: Float64Array,
  first: Int32Array,
  last: Int32Array,
  gain: Float64Array,
  below: Float64Array,
): number {
  const m = mass.length;
  const n = first.length;
  cumulate(mass, below);
  gain.fill(0);
  for (let i = 0; i < n; i++) {
    const share = 1 / (n * (below[last[i]! + 1]! - below[first[i]!]!));
    gain[first[i]!] = gain[first[i]!]! + share;
    if (last[i]! + 1 < m) gain[last[i]! + 1] = gain[last[i]! + 1]! - share;
  }
  let worst = 0;
  let sum = 0;
  for (let j = 0; j < m; j++) {
    sum += gain[j]!;
    gain[j] = sum;
    worst = Math.max(worst, sum - 1, mass[j]! > 1e-9 ? Math.abs(sum - 1) : 0);
  }
  return worst;
}

function logLikelihood(mass: Float64Array, first: Int32Array, last: Int32Array, below: Float64Array): number {
  cumulate(mass, below);
  let sum = 0;
  for (let i = 0; i < first.length; i++) sum += Math.log(below[last[i]! + 1]! - below[first[i]!]!);
  return sum;
}

/** One Newton step on the inner values of the cumulative curve, pooled to ascend, halved until it gains. */
function minorantStep(
  mass: Float64Array,
  first: Int32Array,
  last: Int32Array,
  { below, trial, slope }: { below: Float64Array; trial: Float64Array; slope: Float64Array },
): void {
  const m = mass.length;
  if (m < 2) return;
  cumulate(mass, below);
  const total = below[m]!;
  slope.fill(0);
  const bend = new Float64Array(m + 1);
  let here = 0;
  for (let i = 0; i < first.length; i++) {
    const l = first[i]!;
    const r = last[i]! + 1;
    const share = below[r]! - below[l]!;
    here += Math.log(share);
    const one = 1 / share;
    slope[r] = slope[r]! + one;
    slope[l] = slope[l]! - one;
    bend[r] = bend[r]! + one * one;
    bend[l] = bend[l]! + one * one;
  }
  // Weighted pooling of the wanted values of F₁ … F_{m−1}; F₀ = 0 and F_m = 1 stand.
  const values: number[] = [];
  const weights: number[] = [];
  const sizes: number[] = [];
  for (let j = 1; j < m; j++) {
    const weight = bend[j]! > 0 ? bend[j]! : 1e-12;
    let value = below[j]! / total + slope[j]! / weight;
    let heavy = weight;
    let size = 1;
    while (values.length > 0 && values.at(-1)! >= value) {
      const before = weights.pop()!;
      value = (values.pop()! * before + value * heavy) / (before + heavy);
      heavy += before;
      size += sizes.pop()!;
    }
    values.push(value);
    weights.push(heavy);
    sizes.push(size);
  }
  let at = 0;
  let before = 0;
  for (let block = 0; block < values.length; block++) {
    const value = Math.min(1, Math.max(0, values[block]!));
    for (let k = 0; k < sizes[block]!; k++) {
      trial[at++] = value - before;
      before = value;
    }
  }
  trial[m - 1] = 1 - before;
  for (let share = 1; share > 1e-6; share /= 2) {
    let there = 0;
    below[0] = 0;
    for (let j = 0; j < m; j++) below[j + 1] = below[j]! + (1 - share) * (mass[j]! / total) + share * trial[j]!;
    for (let i = 0; i < first.length; i++) there += Math.log(below[last[i]! + 1]! - below[first[i]!]!);
    if (there > here) {
      for (let j = 0; j < m; j++) mass[j] = (1 - share) * (mass[j]! / total) + share * trial[j]!;
      return;
    }
  }
}

/**
 * Steps with expected counts: of each pull, the share of its mass in an interval gave way there; it is at risk in an
 * interval with what of it has not given way below. Pulls that held on leave above their load. So Greenwood's formula
 * has counts to work on; it does not know that within an interval nothing is known, and so is narrow by a little.
 */
function steps(
  { from, to }: { from: Float64Array; to: Float64Array },
  mass: Float64Array,
  first: Int32Array,
  last: Int32Array,
  heldOn: Uint8Array,
): Step[] {
  const m = mass.length;
  const n = first.length;
  const below = new Float64Array(m + 1);
  cumulate(mass, below);
  const expected = new Float64Array(m);
  const left = new Float64Array(m + 1);
  for (let i = 0; i < n; i++) {
    const l = first[i]!;
    const r = last[i]!;
    if (heldOn[i] === 1) {
      // It leaves between the interval below its load and the first above.
      left[l] = left[l]! + 1;
      continue;
    }
    const whole = below[r + 1]! - below[l]!;
    for (let j = l; j <= r; j++) expected[j] = expected[j]! + mass[j]! / whole;
  }
  const counts: { load: number; from: number; atRisk: number; gaveWay: number }[] = [];
  let atRisk = n;
  for (let j = 0; j < m; j++) {
    atRisk -= left[j]!;
    if (expected[j]! > 1e-9 && to[j] !== Number.POSITIVE_INFINITY) {
      counts.push({ load: to[j]!, from: from[j]!, atRisk, gaveWay: expected[j]! });
      atRisk -= expected[j]!;
    }
  }
  const stepped = stepsOf(counts);
  // The chance itself is that of the masses: expected counts agree with it only at the maximum and to its tolerance.
  let kept = 1;
  let at = 0;
  for (let j = 0; j < m && at < stepped.length; j++) {
    kept -= mass[j]!;
    if (to[j] === stepped[at]!.load) {
      if (stepped[at]!.se !== undefined) stepped[at] = { ...stepped[at]!, chance: Math.max(0, kept) };
      at++;
    }
  }
  return stepped;
}
