/** Two legs from cleats at the bow to one hook: under a pull, and as one line along it. */
import type { StretchLaw } from "../rode/index.ts";
import { balanceByBrackets, balanceByNewton } from "./bridle-balance.ts";
import { type Bridle, bridleReach, cleats, type Place } from "./bridle-shape.ts";
import { cornersOf, loadAt } from "./law.ts";

/** A bridle under a load: angle, tension and length of its legs. */
export interface BridleAt {
  /** Of the hook from the middle between the cleats, along and across the pull, m. */
  readonly along: number;
  readonly across: number;
  /** Tension of each leg, N. */
  readonly legs: readonly [number, number];
  /** Moment of the legs about the middle between the cleats, N m; positive: it lessens a positive heading. */
  readonly turning: number;
}

/** The bridle under a pull, N: to 1e-12 of the pull by Newton, or by the nested brackets where that leaves the way. */
export function bridleAt(bridle: Bridle, pull: number): BridleAt {
  const [along, across] = balanceByNewton(bridle, pull) ?? balanceByBrackets(bridle, pull);
  const [a, b] = cleats(bridle);
  const tension = (cleat: Place, leg: number): number =>
    loadAt(bridle.stretch, Math.hypot(along - cleat[0], across - cleat[1]) / leg - 1);
  return {
    along,
    across,
    legs: [tension(a, bridle.legs[0]), tension(b, bridle.legs[1])],
    turning: -pull * across,
  };
}

/** Shares of the breaking load at which the law of a bridle is laid down, beside the corners of its rope. */
const SHARES = [0.01, 0.025, 0.05, 0.1, 0.15, 0.2, 0.3, 0.45, 0.65, 0.85];

/** A bridle as one line along the pull: its unloaded reach, m, and its law from the balance above. */
export function bridleLine(bridle: Bridle): { readonly length: number; readonly stretch: StretchLaw } {
  const [length] = bridleReach(bridle);
  const strongest = cornersOf(bridle.stretch).at(-1)![1];
  const points: [number, number][] = [];
  let before = 0;
  for (const share of SHARES) {
    const load = 2 * share * strongest;
    const strain = bridleAt(bridle, load).along / length - 1;
    if (!(strain > before)) continue;
    points.push([strain, load]);
    before = strain;
  }
  return { length, stretch: { kind: "curve", points } };
}
