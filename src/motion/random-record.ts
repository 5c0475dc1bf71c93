/**
 * A record drawn from a spectrum that does not repeat: x(t) = Σ a_j cos(ω_j t + φ_j), one component a band, its frequency
 * drawn within the band, a_j²/2 the spectrum's variance there. The record's variance is exactly that of the bands.
 */
import type { Rng } from "../statistics/index.ts";

export interface RandomRecord {
  readonly count: number;
  /** rad/s */
  readonly omega: Float64Array;
  readonly amplitude: Float64Array;
  /** rad */
  readonly phase: Float64Array;
}

/**
 * @param edges ends of the bands, Hz, rising
 * @param bandVariance variance of the spectrum between two frequencies, Hz
 */
export function randomRecord(
  edges: readonly number[],
  bandVariance: (from: number, to: number) => number,
  random: Rng,
): RandomRecord {
  const count = edges.length - 1;
  const omega = new Float64Array(count);
  const amplitude = new Float64Array(count);
  const phase = new Float64Array(count);
  for (let j = 0; j < count; j++) {
    const [from, to] = [edges[j]!, edges[j + 1]!];
    omega[j] = 2 * Math.PI * (from + (to - from) * random.uniform());
    amplitude[j] = Math.sqrt(2 * Math.max(0, bandVariance(from, to)));
    phase[j] = 2 * Math.PI * random.uniform();
  }
  return { count, omega, amplitude, phase };
}

/** Ends of `count` bands, even in frequency. */
export function evenBands(from: number, to: number, count: number): number[] {
  return Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count);
}

/** Ends of `count` bands, even in the logarithm of frequency. */
export function logBands(from: number, to: number, count: number): number[] {
  const step = Math.log(to / from) / count;
  return Array.from({ length: count + 1 }, (_, i) => from * Math.exp(i * step));
}
