/**
 * Give by part over a ladder of loads, as arrays for a plot that follows the hand.
 *
 * Between two loads each part moves the bow by ∫ dU/H. With the energies at both ends and at the middle (in ln H), taking each
 * half at its own middle force and extrapolating once leaves an error of fourth order in the step.
 */
import type { Rig } from "../rode/index.ts";
import { stateAt } from "./give.ts";

/** Give of a rode over horizontal force, number by number. */
export interface GiveCurve {
  /** Horizontal forces, N, as asked. */
  readonly horizontal: Float64Array;
  /** Tension at either end, N; NaN where there is no equilibrium. */
  readonly anchor: Float64Array;
  readonly bow: Float64Array;
  readonly span: Float64Array;
  /** Movement since the first load that settles, m: by the weight of each part and by its stretch, part-major. */
  readonly lift: Float64Array;
  readonly stretch: Float64Array;
  /** Energy of each part since the first load that settles, J, in the same order. */
  readonly liftEnergy: Float64Array;
  readonly stretchEnergy: Float64Array;
  readonly parts: number;
}

/** ∫ dU/H of one energy from u₀ to u₁ = ln H, from its values at the ends and at the middle. */
export function movementOver(u0: number, u1: number, U0: number, middle: number, U1: number): number {
  const half = 0.5 * (u0 + u1);
  const coarse = (U1 - U0) * Math.exp(-half);
  const fine = (middle - U0) * Math.exp(-0.5 * (u0 + half)) + (U1 - middle) * Math.exp(-0.5 * (half + u1));
  return fine + (fine - coarse) / 3;
}

/** @param horizontal forces, N, rising; a few to an octave give movements to about a thousandth of the whole */
export function giveCurve(rig: Rig, horizontal: ArrayLike<number>): GiveCurve {
  const count = horizontal.length;
  const parts = rig.rode.length;
  const numbers = (many: number) => new Float64Array(many).fill(Number.NaN);
  const curve: GiveCurve = {
    horizontal: Float64Array.from(horizontal),
    anchor: numbers(count),
    bow: numbers(count),
    span: numbers(count),
    lift: numbers(parts * count),
    stretch: numbers(parts * count),
    liftEnergy: numbers(parts * count),
    stretchEnergy: numbers(parts * count),
    parts,
  };
  let before: { u: number; energies: Float64Array; moved: Float64Array } | null = null;
  let first: Float64Array | null = null;
  for (let k = 0; k < count; k++) {
    const u = Math.log(horizontal[k]!);
    const state = stateAt(rig, horizontal[k]!);
    if (!("energies" in state)) continue;
    const { energies, settled } = state;
    const moved: Float64Array = before === null ? new Float64Array(2 * parts) : Float64Array.from(before.moved);
    if (before !== null) {
      const middle = stateAt(rig, Math.exp(0.5 * (before.u + u)));
      for (let i = 0; i < 2 * parts; i++) {
        const [U0, U1] = [before.energies[i]!, energies[i]!];
        const between = "energies" in middle ? middle.energies[i]! : 0.5 * (U0 + U1);
        moved[i]! += movementOver(before.u, u, U0, between, U1);
      }
    }
    first ??= energies;
    curve.anchor[k] = settled.anchor.tension;
    curve.bow[k] = settled.bow.tension;
    curve.span[k] = settled.span;
    for (let i = 0; i < parts; i++) {
      curve.lift[i * count + k] = moved[i]!;
      curve.stretch[i * count + k] = moved[parts + i]!;
      curve.liftEnergy[i * count + k] = energies[i]! - first[i]!;
      curve.stretchEnergy[i * count + k] = energies[parts + i]! - first[parts + i]!;
    }
    before = { u, energies, moved };
  }
  return curve;
}
