/** The surge a sea asks of a rode: one answer for the command and the bench. */
import { hullInWaves } from "../motion/index.ts";
import { type Boat, bowSurge, inertiaOf, type WaveSpectrum } from "../sea/index.ts";
import type { WaveSurge } from "./snatch.ts";

/** @param depth m, Infinity for deep water; @returns the largest surge of 1000 waves from ahead, as the rode may resist it */
export function surgeInWaves(boat: Boat, sea: WaveSpectrum, depth: number): WaveSurge {
  const { largestAmplitude, period } = bowSurge(boat, sea, depth);
  return {
    kind: "waves",
    sea,
    hull: hullInWaves(boat),
    largest: largestAmplitude,
    period,
    mass: inertiaOf(boat).surge.value,
  };
}
