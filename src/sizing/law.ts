/** Stretch laws read backwards, load from strain, and put side by side. */
import type { StretchLaw } from "../rode/index.ts";

/** Load, N, at a strain; 0 for a line that is slack. The inverse of `strainUnder`, exact. */
export function loadAt(law: StretchLaw, strain: number): number {
  if (!(strain > 0)) return 0;
  if (law.kind === "rigid") return Number.POSITIVE_INFINITY;
  if (law.kind === "linear") return law.stiffness * strain;
  const { e0, f0, slope } = pieceAt(law.points, strain);
  return f0 + slope * (strain - e0);
}

/** Slope of the load over strain, N; 0 for a slack line. */
export function slopeAt(law: StretchLaw, strain: number): number {
  if (!(strain > 0) || law.kind === "rigid") return 0;
  if (law.kind === "linear") return law.stiffness;
  return pieceAt(law.points, strain).slope;
}

/** The straight piece a strain lies on: where it begins, and its slope; the last one goes on for ever. */
function pieceAt(points: readonly (readonly [strain: number, load: number])[], strain: number) {
  let [e0, f0] = [0, 0];
  let slope = 0;
  for (const [e1, f1] of points) {
    slope = (f1 - f0) / (e1 - e0);
    if (strain <= e1) break;
    [e0, f0] = [e1, f1];
  }
  return { e0, f0, slope };
}

/** Energy per unloaded length, J/m, of a line at a strain: ∫ load d(strain). */
export function energyAt(law: StretchLaw, strain: number): number {
  if (!(strain > 0) || law.kind === "rigid") return 0;
  if (law.kind === "linear") return 0.5 * law.stiffness * strain * strain;
  let [e0, f0] = [0, 0];
  let energy = 0;
  for (const [i, [e1, f1]] of law.points.entries()) {
    const last = i === law.points.length - 1;
    const end = last ? strain : Math.min(strain, e1);
    const f = f0 + ((f1 - f0) / (e1 - e0)) * (end - e0);
    energy += 0.5 * (f0 + f) * (end - e0);
    if (strain <= e1) break;
    [e0, f0] = [e1, f1];
  }
  return energy;
}

/** The law as points, its own corners; a straight law as one point at its unit strain's load. */
export function cornersOf(law: StretchLaw): readonly (readonly [strain: number, load: number])[] {
  if (law.kind === "curve") return law.points;
  return law.kind === "linear" ? [[0.1, 0.1 * law.stiffness]] : [];
}
