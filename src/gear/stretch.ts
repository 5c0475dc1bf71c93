/** How a line stretches: not at all; along one straight law; or along a curve, straight between its points. */
export type StretchLaw =
  | { readonly kind: "rigid" }
  /** `stiffness` is EA, N: strain = load / stiffness. */
  | { readonly kind: "linear"; readonly stiffness: number }
  /** Points (strain, load in N) from (0, 0) on, both rising; past the last point the last slope goes on. */
  | { readonly kind: "curve"; readonly points: readonly (readonly [strain: number, load: number])[] };

/**
 * Strain of a law under a load.
 * @param load N, not negative.
 * @returns stretched length over unloaded length, less one.
 */
export function strainUnder(law: StretchLaw, load: number): number {
  if (law.kind === "rigid") return 0;
  if (law.kind === "linear") return load / law.stiffness;
  let [strainBefore, loadBefore] = [0, 0];
  let slope = 0;
  for (const [strain, loadThere] of law.points) {
    if (loadThere === loadBefore) continue;
    slope = (strain - strainBefore) / (loadThere - loadBefore);
    if (load <= loadThere) break;
    [strainBefore, loadBefore] = [strain, loadThere];
  }
  return strainBefore + slope * (load - loadBefore);
}
