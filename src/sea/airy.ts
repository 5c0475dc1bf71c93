/**
 * Waves of small height on water of constant depth (Airy): ω² = g k tanh(k d).
 *
 * With x = k d and y = ω² d / g the equation is x tanh x = y. Newton from a start that is right at both ends
 * (x = √y in shallow water, x = y in deep water) keeps its sign and settles to the last digit within a few steps.
 */
import { GRAVITY } from "../rode/index.ts";

/**
 * Wave number of a wave of angular frequency `omega` (rad/s) in water of depth `depth` (m; Infinity: deep water).
 * @returns k, rad/m, to 1e-14 relative (tested against x tanh x = y itself from 1e-12 to 1e6)
 * @source Airy's dispersion; tabulated in the Shore Protection Manual (1984), appendix C
 */
export function waveNumber(omega: number, depth: number, gravity = GRAVITY): number {
  const deep = (omega * omega) / gravity;
  if (depth === Infinity) return deep;
  const y = deep * depth;
  // Beyond y = 20 the bottom changes tanh by less than 1e-17.
  if (y > 20) return deep;
  let x = y < 1 ? Math.sqrt(y) * (1 + y / 6) : y * (1 + 2 * Math.exp(-2 * y));
  for (let step = 0; step < 50; step++) {
    const t = Math.tanh(x);
    const next = x - (x * t - y) / (t + x * (1 - t * t));
    if (Math.abs(next - x) <= 1e-16 * x) return next / depth;
    x = next;
  }
  return x / depth;
}

/** Length of a wave of period `period` (s) in water of depth `depth` (m), m. */
export function waveLength(period: number, depth: number, gravity = GRAVITY): number {
  return (2 * Math.PI) / waveNumber((2 * Math.PI) / period, depth, gravity);
}

/** Group speed over phase speed, n = ½ (1 + 2kd / sinh 2kd): ½ in deep water, 1 in shallow. */
export function groupRatio(kd: number): number {
  // Past 2kd = 700 sinh overflows; there n is ½ to the last digit.
  return 2 * kd > 700 ? 0.5 : 0.5 * (1 + (2 * kd) / Math.sinh(2 * kd));
}

/** Shoaling coefficient H/H₀' = 1/√(2 n tanh kd), without refraction. */
export function shoaling(kd: number): number {
  return 1 / Math.sqrt(2 * groupRatio(kd) * Math.tanh(kd));
}
