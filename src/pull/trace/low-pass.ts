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
  const { time, value, longestGap } = readings;
  const n = time.length;
  const weight = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    if (leftOut?.[i] === 1) continue;
    const before = i > 0 ? time[i]! - time[i - 1]! : 0;
    const after = i < n - 1 ? time[i + 1]! - time[i]! : 0;
    weight[i] = 0.5 * ((before <= longestGap ? before : 0) + (after <= longestGap ? after : 0));
    if (!(weight[i]! > 0)) weight[i] = readings.interval;
  }
  const decay = new Float64Array(n);
  for (let i = 1; i < n; i++) {
    const dt = time[i]! - time[i - 1]!;
    decay[i] = dt > longestGap ? 0 : Math.exp(-dt / filter.timeConstant);
  }
  const out = new Float64Array(n);
  const norm = new Float64Array(n);
  smooth(value, weight, decay, out, norm);
  // What was left out now has a value from its neighbours and takes part in the second pass like any reading.
  if (leftOut) for (let i = 0; i < n; i++) if (leftOut[i] === 1) weight[i] = readings.interval;
  const twice = new Float64Array(n);
  smooth(out, weight, decay, twice, norm);
  return twice;
}

function smooth(
  value: Float64Array,
  weight: Float64Array,
  decay: Float64Array,
  out: Float64Array,
  norm: Float64Array,
): void {
  const n = value.length;
  let sum = 0;
  let total = 0;
  for (let i = 0; i < n; i++) {
    const d = decay[i]!;
    const w = weight[i]!;
    sum = sum * d + w * value[i]!;
    total = total * d + w;
    out[i] = sum;
    norm[i] = total;
  }
  sum = 0;
  total = 0;
  for (let i = n - 1; i >= 0; i--) {
    const s = norm[i]! + total;
    const v = s > 0 ? (out[i]! + sum) / s : value[i]!;
    const w = weight[i]!;
    const d = decay[i]!;
    sum = (sum + w * value[i]!) * d;
    total = (total + w) * d;
    out[i] = v;
  }
}
