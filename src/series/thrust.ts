/** What the boat's engine pulls with the boat made fast, from points of her own. */
import type { PullingBoat } from "./series.ts";

/** The most her points reach, N: nothing is said beyond them. */
export function mostThrust({ thrust }: PullingBoat): number {
  return thrust.at(-1)!.newtons;
}

/**
 * Engine speed for a thrust, Hz: between points thrust runs with the square of the speed, as for a propeller at rest in the
 * water (T ∝ n²), below the first likewise from nothing; null beyond the last.
 */
export function speedFor({ thrust }: PullingBoat, newtons: number): number | null {
  let from = { speed: 0, newtons: 0 };
  for (const to of thrust) {
    if (newtons <= to.newtons) {
      const share = (newtons - from.newtons) / (to.newtons - from.newtons);
      return Math.sqrt(from.speed ** 2 + share * (to.speed ** 2 - from.speed ** 2));
    }
    from = to;
  }
  return null;
}
