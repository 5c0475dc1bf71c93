/**
 * What a sea from ahead does to the bow of a free boat: the surge the waves would give her, as an acceleration that the
 * rode may resist, and the heave of the bow, which it does not.
 *
 * The boat is a box, as long as the waterline and as deep as its body, moved by the undisturbed wave (sea/surge.ts for the
 * surge). With x = kL/2 and the wave a cos ωt at the middle, heave is e^(−kT) (sin x/x) a cos ωt, and the pitch follows the
 * mean slope along the waterline, 3 (sin x − x cos x)/x³ · k a sin ωt, felt at the bow by its distance from the middle.
 * No resonance of heave or pitch, no slamming: named in docs/limits.md.
 */

import { integrate } from "../numeric/index.ts";
import { elevationDensity, surgeTransfer, type WaveSpectrum, waveNumber } from "../sea/index.ts";
import type { Rng } from "../statistics/index.ts";
import { evenBands, randomRecord } from "./random-record.ts";

export interface BowInWaves {
  readonly count: number;
  readonly omega: Float64Array;
  readonly phase: Float64Array;
  /** Amplitudes of the free boat's surge, m (of −cos), and of the bow's heave, m (of cos and of sin). */
  readonly surge: Float64Array;
  readonly heaveCos: Float64Array;
  readonly heaveSin: Float64Array;
}

const BANDS = 128;

/** @param reach distance of the bow roller ahead of the boat's middle, m */
export function bowInWaves(
  sea: WaveSpectrum,
  hull: { readonly waterline: number; readonly draught: number; readonly reach: number },
  depth: number,
  random: Rng,
): BowInWaves {
  const peak = 1 / sea.peakPeriod;
  const record = randomRecord(
    evenBands(0.4 * peak, 5 * peak, BANDS),
    (from, to) => integrate((f) => 2 * Math.PI * elevationDensity(sea, 2 * Math.PI * f), from, to, 4),
    random,
  );
  const surge = new Float64Array(BANDS);
  const heaveCos = new Float64Array(BANDS);
  const heaveSin = new Float64Array(BANDS);
  for (let j = 0; j < BANDS; j++) {
    const omega = record.omega[j]!;
    const a = record.amplitude[j]!;
    const k = waveNumber(omega, depth);
    const x = (k * hull.waterline) / 2;
    surge[j] = a * surgeTransfer(omega, hull.waterline, hull.draught, depth);
    heaveCos[j] = a * Math.exp(-k * hull.draught) * (Math.sin(x) / x);
    heaveSin[j] = a * k * hull.reach * ((3 * (Math.sin(x) - x * Math.cos(x))) / x ** 3);
  }
  return { count: BANDS, omega: record.omega, phase: record.phase, surge, heaveCos, heaveSin };
}

/** Surge acceleration of the free boat, m/s² away from the sea, heave of the bow, m, and its rate, m/s, into `out`. */
export function wavesAtTime(waves: BowInWaves, time: Float64Array, out: Float64Array): void {
  const t = time[0]!;
  let acceleration = 0;
  let heave = 0;
  let rate = 0;
  const { omega, phase, surge, heaveCos, heaveSin } = waves;
  for (let j = 0; j < waves.count; j++) {
    const w = omega[j]!;
    const c = Math.cos(w * t + phase[j]!);
    const s = Math.sin(w * t + phase[j]!);
    // Water in a crest moves with the waves: surge is a quarter period behind, x = −R a sin ωt, so ẍ = ω² R a sin ωt.
    acceleration += w * w * surge[j]! * s;
    heave += heaveCos[j]! * c + heaveSin[j]! * s;
    rate += w * (heaveSin[j]! * c - heaveCos[j]! * s);
  }
  out[0] = acceleration;
  out[1] = heave;
  out[2] = rate;
}
