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
import { strainUnder } from "../gear/index.ts";
import { brent } from "../numeric/index.ts";
import type { StretchLaw } from "../rode/index.ts";
import { cornersOf, loadAt, slopeAt } from "./law.ts";

/** A bridle: two legs, the beam between their cleats. */
export interface Bridle {
  /** Between the cleats, m. */
  readonly beam: number;
  /** Angle of the boat off the pull, rad; at a positive one the first cleat lies farther along the pull. */
  readonly heading: number;
  /** Unloaded length of each leg, m. */
  readonly legs: readonly [number, number];
  readonly stretch: StretchLaw;
}

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

/** The bridle under a pull, N: to 1e-12 of the pull by Newton, or by the nested brackets where that leaves the way. */
export function bridleAt(bridle: Bridle, pull: number): BridleAt {
  const [along, across] = byNewton(bridle, pull) ?? byBrackets(bridle, pull);
  const [a, b] = cleats(bridle) as [Place, Place];
  const tension = (cleat: Place, leg: number): number =>
    loadAt(bridle.stretch, Math.hypot(along - cleat[0], across - cleat[1]) / leg - 1);
  return {
    along,
    across,
    legs: [tension(a, bridle.legs[0]), tension(b, bridle.legs[1])],
    turning: -pull * across,
  };
}

type Place = readonly [along: number, across: number];

const CLOSE = 1e-12;

function byNewton(bridle: Bridle, pull: number): Place | null {
  const ends = cleats(bridle);
  const { legs, stretch } = bridle;
  // Force and stiffness of both legs at a place: along, across, and the three of a symmetric matrix.
  const at = new Float64Array(5);
  const look = (x: number, y: number): number => {
    at.fill(0);
    for (let i = 0; i < 2; i++) {
      const [dx, dy] = [x - ends[i]![0], y - ends[i]![1]];
      const length = Math.hypot(dx, dy);
      const strain = length / legs[i]! - 1;
      const T = loadAt(stretch, strain);
      if (!(T > 0)) continue;
      const [nx, ny, k, t] = [dx / length, dy / length, slopeAt(stretch, strain) / legs[i]!, T / length];
      at[0]! += T * nx;
      at[1]! += T * ny;
      at[2]! += k * nx * nx + t * ny * ny;
      at[3]! += (k - t) * nx * ny;
      at[4]! += k * ny * ny + t * nx * nx;
    }
    at[0]! -= pull;
    return Math.hypot(at[0]!, at[1]!);
  };
  const [reach, aside] = bridleReach(bridle);
  let [x, y] = [reach * (1 + 0.5 * strainUnder(stretch, pull)), aside];
  let off = look(x, y);
  for (let n = 0; n < 60; n++) {
    if (off <= CLOSE * pull) return [x, y];
    const [fx, fy, kxx, kxy, kyy] = at as unknown as [number, number, number, number, number];
    const det = kxx * kyy - kxy * kxy;
    if (!(det > 0)) return null;
    const [dx, dy] = [(fy * kxy - fx * kyy) / det, (fx * kxy - fy * kxx) / det];
    let share = 1;
    let next = look(x + dx, y + dy);
    while (!(next < off) && share > 1e-6) {
      share *= 0.5;
      next = look(x + share * dx, y + share * dy);
    }
    if (!(next < off)) return off <= 1e3 * CLOSE * pull ? [x, y] : null;
    x += share * dx;
    y += share * dy;
    off = next;
  }
  return null;
}

function byBrackets(bridle: Bridle, pull: number): Place {
  const ends = cleats(bridle);
  const forces = (x: number, y: number): Place => {
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
    return brent(miss, low, high, 1e-13 * (Math.abs(low) + Math.abs(high)));
  };
  const widest = 0.5 * bridle.beam * Math.cos(bridle.heading);
  const acrossMiss = (y: number): number => forces(alongFor(y), y)[1];
  const [low, high] = [acrossMiss(-widest), acrossMiss(widest)];
  const across =
    low >= 0 ? -widest : high <= 0 ? widest : brent(acrossMiss, -widest, widest, 1e-13 * widest, low, high);
  return [alongFor(across), across];
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
