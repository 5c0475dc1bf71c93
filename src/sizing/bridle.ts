/**
 * Two legs from cleats at the bow to one hook.
 *
 * Seen in the plane of the beam and the pull: x along the pull, away from the boat; the middle between the cleats is the
 * origin. A boat turned by the heading ψ off the pull has its cleats at ±(b/2)(sin ψ, cos ψ), b apart. Legs are straight,
 * pull along themselves, and not at all where slack. The hook at P is in balance where
 *
 *     Σ Tᵢ (P − cᵢ)/|P − cᵢ| = (F, 0),
 *
 * the lowest place of a convex energy: for each y the force along x rises with x, and at that x the force along y rises with
 * y, so two nested brackets close on it whatever the legs are. y lies between the cleats' own.
 */
import type { StretchLaw } from "../rode/index.ts";
import { cornersOf, loadAt } from "./law.ts";
import { closeOn } from "./spring.ts";

export interface Bridle {
  /** Between the cleats, m. */
  readonly beam: number;
  /** Angle of the boat off the pull, rad; at a positive one the first cleat lies farther along the pull. */
  readonly heading: number;
  /** Unloaded length of each leg, m. */
  readonly legs: readonly [number, number];
  readonly stretch: StretchLaw;
}

export interface BridleAt {
  /** Of the hook from the middle between the cleats, along and across the pull, m. */
  readonly along: number;
  readonly across: number;
  /** Tension of each leg, N. */
  readonly legs: readonly [number, number];
  /** Moment of the legs about the middle between the cleats, N m; positive: it lessens a positive heading. */
  readonly turning: number;
}

/** The cleats along and across the pull, m. */
function cleats({ beam, heading }: Bridle): readonly (readonly [number, number])[] {
  const [s, c] = [0.5 * beam * Math.sin(heading), 0.5 * beam * Math.cos(heading)];
  return [
    [s, c],
    [-s, -c],
  ];
}

/** How far along the pull the hook reaches before either leg carries anything, m, and how far across it then lies. */
export function bridleReach(bridle: Bridle): readonly [along: number, across: number] {
  const [a, b] = cleats(bridle) as [readonly [number, number], readonly [number, number]];
  const [la, lb] = bridle.legs;
  // The farthest point along the pull within both circles: the tip of one that the other still reaches, or where they cross.
  const tipA: readonly [number, number] = [a[0] + la, a[1]];
  if (Math.hypot(tipA[0] - b[0], tipA[1] - b[1]) <= lb) return tipA;
  const tipB: readonly [number, number] = [b[0] + lb, b[1]];
  if (Math.hypot(tipB[0] - a[0], tipB[1] - a[1]) <= la) return tipB;
  const apart = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [ex, ey] = [(b[0] - a[0]) / apart, (b[1] - a[1]) / apart];
  const along = (apart * apart + la * la - lb * lb) / (2 * apart);
  const off = Math.sqrt(Math.max(0, la * la - along * along));
  const one = [a[0] + along * ex - off * ey, a[1] + along * ey + off * ex] as const;
  const other = [a[0] + along * ex + off * ey, a[1] + along * ey - off * ex] as const;
  return one[0] > other[0] ? one : other;
}

/** The bridle under a pull, N. */
export function bridleAt(bridle: Bridle, pull: number): BridleAt {
  const ends = cleats(bridle);
  const tension = (i: number, x: number, y: number): number => {
    const length = Math.hypot(x - ends[i]![0], y - ends[i]![1]);
    return loadAt(bridle.stretch, length / bridle.legs[i]! - 1);
  };
  const forces = (x: number, y: number): [along: number, across: number] => {
    let [along, across] = [0, 0];
    for (let i = 0; i < 2; i++) {
      const [dx, dy] = [x - ends[i]![0], y - ends[i]![1]];
      const length = Math.hypot(dx, dy);
      const T = loadAt(bridle.stretch, length / bridle.legs[i]! - 1);
      if (!(T > 0)) continue;
      along += (T * dx) / length;
      across += (T * dy) / length;
    }
    return [along, across];
  };
  const [reach] = bridleReach(bridle);
  const longest = Math.max(...bridle.legs);
  const alongFor = (y: number): number => {
    const miss = (x: number): number => forces(x, y)[0] - pull;
    let low = reach - longest;
    let high = reach + 0.1 * longest;
    while (miss(low) > 0) low -= longest;
    while (miss(high) < 0) high += longest;
    return closeOn(miss, low, miss(low), high, miss(high));
  };
  const widest = 0.5 * bridle.beam * Math.cos(bridle.heading);
  const acrossMiss = (y: number): number => forces(alongFor(y), y)[1];
  const [mLow, mHigh] = [acrossMiss(-widest), acrossMiss(widest)];
  const across = mLow >= 0 ? -widest : mHigh <= 0 ? widest : closeOn(acrossMiss, -widest, mLow, widest, mHigh);
  const along = alongFor(across);
  return {
    along,
    across,
    legs: [tension(0, along, across), tension(1, along, across)],
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
