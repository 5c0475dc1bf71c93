/**
 * Surge at the bow that a sea from ahead makes, by a stated simple transfer: the boat as a free box, as long as the
 * waterline and as deep as its body, moved by the pressure of the undisturbed wave, its own added water following the
 * water around it. For a wave of amplitude 1 the surge is
 *   R(ω) = coth(kd) · [sin(kL/2) / (kL/2)] · mean of cosh k(z+d)/cosh kd over the draught
 * and goes to the water's own travel coth(kd) in waves much longer than the boat. No drag, no rode, no pitch: the rode's
 * own spring and the boat's drift are later work. Long-crested waves from ahead: the most a sea of that height does.
 */

import { integrate } from "../numeric/index.ts";
import { waveNumber } from "./airy.ts";
import type { Boat } from "./boat.ts";
import { bodyDraughtOf, waterlineOf } from "./hull.ts";
import { elevationDensity, type WaveSpectrum } from "./wave-spectrum.ts";

/** The bow's surge in a sea, without the rode's pull. */
export interface Surge {
  /** Standard deviation of the surge, m. */
  readonly deviation: number;
  /** Mean of the highest third of amplitudes (half strokes), m: 2 × deviation. */
  readonly significantAmplitude: number;
  /** Largest amplitude to be expected in `waves` waves, m. */
  readonly largestAmplitude: number;
  /** Standard deviation of the surge speed, and the largest speed to be expected, m/s. */
  readonly speedDeviation: number;
  readonly largestSpeed: number;
  /** Mean period between up-crossings of the surge, s. */
  readonly period: number;
  /** How many waves `largest` looks over. */
  readonly waves: number;
}

/** R(ω) of the box, m of surge for 1 m of wave amplitude; depth in m, Infinity for deep water. */
export function surgeTransfer(omega: number, length: number, draught: number, depth: number): number {
  const k = waveNumber(omega, depth);
  const half = (k * length) / 2;
  const along = half < 1e-4 ? 1 - half ** 2 / 6 : Math.sin(half) / half;
  const kT = k * Math.min(draught, depth);
  if (depth === Infinity) return along * meanDecay(kT);
  const kd = k * depth;
  // mean of cosh k(z+d)/cosh kd = [sinh kd − sinh k(d−T)] / (kT cosh kd), times coth kd; in exponentials so as not to overflow.
  const sinhShare = (1 - Math.exp(-2 * kd) - Math.exp(-kT) + Math.exp(kT - 2 * kd)) / (1 + Math.exp(-2 * kd));
  return (along * sinhShare) / (kT * Math.tanh(kd));
}

/**
 * Surge of a boat in a sea from ahead, free of her rode: amplitudes in m, speeds in m/s, period in s.
 * @param depth m, Infinity for deep water
 * @param waves over how many the largest is looked for; 1000 is some hour of small waves
 */
export function bowSurge(boat: Boat, sea: WaveSpectrum, depth: number, waves = 1000): Surge {
  const length = waterlineOf(boat).value;
  const draught = bodyDraughtOf(boat).value;
  const peak = (2 * Math.PI) / sea.peakPeriod;
  const density = (omega: number): number =>
    surgeTransfer(omega, length, draught, depth) ** 2 * elevationDensity(sea, omega);
  // The transfer swings once per 2π of kL/2; beyond six peaks less than 1e-3 of the elevation's variance is left, and sinc² takes the rest.
  const over = (g: (omega: number) => number): number =>
    integrate(g, 0.3 * peak, peak, 40) + integrate(g, peak, 2 * peak, 60) + integrate(g, 2 * peak, 12 * peak, 200);
  const variance = over(density);
  const speedVariance = over((omega) => omega * omega * density(omega));
  const deviation = Math.sqrt(variance);
  const speedDeviation = Math.sqrt(speedVariance);
  // Rayleigh: the most probable largest of N amplitudes is σ √(2 ln N).
  const largest = Math.sqrt(2 * Math.log(waves));
  return {
    deviation,
    significantAmplitude: 2 * deviation,
    largestAmplitude: largest * deviation,
    speedDeviation,
    largestSpeed: largest * speedDeviation,
    period: (2 * Math.PI * deviation) / speedDeviation,
    waves,
  };
}

function meanDecay(kT: number): number {
  return kT < 1e-8 ? 1 - kT / 2 : -Math.expm1(-kT) / kT;
}
