import type { Readings } from "./trace.ts";

/**
 * A low-pass without delay for readings at uneven times: the load at t is the mean of the readings weighted by
 * exp(−|t − tᵢ|/τ) and by the time each reading stands for, taken twice. Run forward and backward with
 * exp(−Δt/τ) of the true intervals this costs four passes; weights that add up to one keep a constant constant
 * at ends and gaps, and being all positive they never overshoot.
 *
 * On even steps its gain is g(f) = [(1 − a)² / (1 − 2a cos 2πfΔt + a²)]², a = exp(−Δt/τ); τ is chosen so that
 * g is 1/√2 at the bandwidth asked for.
 */
export interface LowPass {
  /** Frequency at which the gain is 1/√2, Hz. */
  readonly bandwidth: number;
  /** τ, s */
  readonly timeConstant: number;
  /** True when the log is too slow for the bandwidth asked for, and a quarter of its own rate was taken. */
  readonly limitedByLog: boolean;
}

/** @param bandwidth Hz @param interval usual time between readings, s */
export function lowPassOf(bandwidth: number, interval: number): LowPass {
  const highest = 0.25 / interval;
  const limitedByLog = bandwidth > highest;
  const f = limitedByLog ? highest : bandwidth;
  // (1 − 2a cos ω + a²) = 2^(1/4) (1 − a)² has the roots b ± √(b² − 1); b − 1 is written without cancellation.
  const half = Math.sin(Math.PI * f * interval);
  const over = (2 * half * half) / (2 ** 0.25 - 1);
  const root = Math.sqrt(over * (over + 2));
  const timeConstant = interval / Math.log1p(over + root);
  return { bandwidth: f, timeConstant, limitedByLog };
}

/**
 * Gain at a frequency, 0 to 1, for readings at even intervals.
 * @param frequency Hz, up to half the rate of readings
 * @param interval s
 */
export function gainAt(filter: LowPass, frequency: number, interval: number): number {
  const a = Math.exp(-interval / filter.timeConstant);
  const half = Math.sin(Math.PI * frequency * interval);
  const once = 1 / (1 + (4 * a * half * half) / (1 - a) ** 2);
  return once * once;
}

/**
 * Share of its height that a steady peak of the given duration keeps: 1 − (1 + d/4τ) exp(−d/2τ), the integral of
 * the kernel (1 + |t|/τ) exp(−|t|/τ) / 4τ over it.
 */
export function peakKept(filter: LowPass, duration: number): number {
  const x = duration / (2 * filter.timeConstant);
  return 1 - (1 + x / 2) * Math.exp(-x);
}

/** The filtered load at each reading, N. Gaps are not crossed. */
export function lowPass(readings: Readings, filter: LowPass, leftOut?: Uint8Array): Float64Array {
  const { time, value, longestGap, interval } = readings;
  const n = time.length;
  const weighed = (i: number): number => {
    const before = i > 0 ? time[i]! - time[i - 1]! : 0;
    const after = i < n - 1 ? time[i + 1]! - time[i]! : 0;
    const stands = 0.5 * ((before <= longestGap ? before : 0) + (after <= longestGap ? after : 0));
    return stands > 0 ? stands : interval;
  };
  const decay = (i: number): number => {
    const dt = i > 0 ? time[i]! - time[i - 1]! : Number.POSITIVE_INFINITY;
    return dt > longestGap ? 0 : Math.exp(-dt / filter.timeConstant);
  };
  const out = new Float64Array(n);
  smooth(value, (i) => (leftOut?.[i] === 1 ? 0 : weighed(i)), decay, out);
  // What was left out now has a value from its neighbours and takes part in the second pass like any reading.
  smooth(out, (i) => (leftOut?.[i] === 1 ? interval : weighed(i)), decay, out);
  return out;
}

/** So many time constants away a reading has no weight that a double tells. */
const FAR = 45;

/** The filtered load at one reading, N: what `lowPass` has there, from the readings around it. */
export function filteredAt(readings: Readings, filter: LowPass, leftOut: Uint8Array, i: number): number {
  const { time, value } = readings;
  const reach = FAR * filter.timeConstant;
  let [from, to] = [i, i + 1];
  while (from > 0 && time[i]! - time[from - 1]! < reach) from--;
  while (to < time.length && time[to]! - time[i]! < reach) to++;
  const around = { ...readings, time: time.subarray(from, to), value: value.subarray(from, to) };
  return lowPass(around, filter, leftOut.subarray(from, to))[i - from]!;
}

/** Readings whose forward sums are held at a time. */
const BLOCK = 4096;

/**
 * One pass forward and backward. Of the forward sums only those at the start of each block are held, and a block's are
 * worked out once more when the way back comes to it, so that nothing as long as the log is needed.
 * @param out may be `value` itself
 */
function smooth(
  value: Float64Array,
  weight: (i: number) => number,
  decay: (i: number) => number,
  out: Float64Array,
): void {
  const n = value.length;
  const blocks = Math.ceil(n / BLOCK);
  const begins = { sum: new Float64Array(blocks), total: new Float64Array(blocks) };
  const own = {
    sum: new Float64Array(BLOCK),
    total: new Float64Array(BLOCK),
    weight: new Float64Array(BLOCK),
    decay: new Float64Array(BLOCK),
  };
  for (let b = 0; b + 1 < blocks; b++) forward(b);
  let sum = 0;
  let total = 0;
  for (let b = blocks - 1; b >= 0; b--) {
    forward(b);
    for (let i = Math.min(n, (b + 1) * BLOCK) - 1; i >= b * BLOCK; i--) {
      const k = i - b * BLOCK;
      const [w, d, v] = [own.weight[k]!, own.decay[k]!, value[i]!];
      const s = own.total[k]! + total;
      out[i] = s > 0 ? (own.sum[k]! + sum) / s : v;
      sum = (sum + w * v) * d;
      total = (total + w) * d;
    }
  }

  function forward(b: number): void {
    let sum = begins.sum[b]!;
    let total = begins.total[b]!;
    const from = b * BLOCK;
    const to = Math.min(n, from + BLOCK);
    for (let i = from; i < to; i++) {
      const k = i - from;
      const [w, d] = [weight(i), decay(i)];
      own.weight[k] = w;
      own.decay[k] = d;
      own.sum[k] = sum = sum * d + w * value[i]!;
      own.total[k] = total = total * d + w;
    }
    if (b + 1 < blocks) {
      begins.sum[b + 1] = sum;
      begins.total[b + 1] = total;
    }
  }
}
