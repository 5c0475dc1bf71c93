/**
 * Mean wind over height, as a share of the wind at 10 m: the same shape at every speed.
 *   log      V(z)/V₁₀ = ln(z/z₀) / ln(10/z₀), nothing below z₀
 *   power    V(z)/V₁₀ = (z/10)^α
 *   uniform  V(z)/V₁₀ = 1
 * A surface from z₁ to z₂ of even width feels the mean of the square of that; the three shapes have closed forms.
 */
export type WindProfile =
  /** z₀, m. */
  | { readonly kind: "log"; readonly roughness: number }
  /** α. */
  | { readonly kind: "power"; readonly exponent: number }
  | { readonly kind: "uniform" };

/** Class values over open water, both recalled: z₀ = 0.0002 m (WMO's class of sea), α = 0.11 (Hsu and others, 1994). */
export const profiles = {
  log: { kind: "log", roughness: 0.0002 },
  power: { kind: "power", exponent: 0.11 },
  uniform: { kind: "uniform" },
} as const satisfies Record<WindProfile["kind"], WindProfile>;

/** Roughness of open water, m. */
export const OPEN_WATER: WindProfile = profiles.log;

/** Height the profile is written on, m: forecasts and the Beaufort scale mean the wind here. */
export const REFERENCE_HEIGHT = 10;

/** Wind at height z (m) over the wind at 10 m. */
export function windAt(profile: WindProfile, z: number): number {
  if (profile.kind === "uniform") return 1;
  if (z <= 0) return 0;
  if (profile.kind === "power") return (z / REFERENCE_HEIGHT) ** profile.exponent;
  return z <= profile.roughness ? 0 : Math.log(z / profile.roughness) / Math.log(REFERENCE_HEIGHT / profile.roughness);
}

/** Wind at 10 m of a wind of `speed` read at `height` (m); the height must stand in the profile's wind. */
export function toReferenceHeight(profile: WindProfile, speed: number, height: number): number {
  return speed / windAt(profile, height);
}

/** Mean of (V(z)/V₁₀)² over heights from z₁ to z₂ (m); at z₁ = z₂ the value there. */
export function meanSquareWind(profile: WindProfile, from: number, to: number): number {
  if (profile.kind === "uniform") return 1;
  // The difference of the two closed ends loses digits over a thin band; there the middle is exact to its square.
  if (to - from < 1e-5 * to) return windAt(profile, (from + to) / 2) ** 2;
  return (squareBelow(profile, to) - squareBelow(profile, from)) / (to - from);
}

/** ∫ (V/V₁₀)² dz from the water (or z₀) up to z. */
function squareBelow(profile: Exclude<WindProfile, { kind: "uniform" }>, z: number): number {
  if (z <= 0) return 0;
  if (profile.kind === "power") {
    const p = 2 * profile.exponent + 1;
    return (REFERENCE_HEIGHT * (z / REFERENCE_HEIGHT) ** p) / p;
  }
  const z0 = profile.roughness;
  if (z <= z0) return 0;
  // ∫ ln²(z/z₀) dz = z (L² − 2 L + 2) − 2 z₀.
  const l = Math.log(z / z0);
  return (z * (l * l - 2 * l + 2) - 2 * z0) / Math.log(REFERENCE_HEIGHT / z0) ** 2;
}
