/**
 * Where the cleats of a bridle lie, and how far its legs reach: in the plane of the beam and the pull, x along the pull, away
 * from the boat; the middle between the cleats is the origin. A boat turned by the heading ψ off the pull has its cleats at
 * ±(b/2)(sin ψ, cos ψ), b apart.
 */
import type { StretchLaw } from "../rode/index.ts";

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

/** Along and across the pull, m. */
export type Place = readonly [along: number, across: number];

/** The cleats along and across the pull, m. */
export function cleats({ beam, heading }: Bridle): readonly [Place, Place] {
  const [s, c] = [0.5 * beam * Math.sin(heading), 0.5 * beam * Math.cos(heading)];
  return [
    [s, c],
    [-s, -c],
  ];
}

/** How far along the pull the hook reaches before either leg carries anything, m, and how far across it then lies. */
export function bridleReach(bridle: Bridle): Place {
  const [a, b] = cleats(bridle);
  const [la, lb] = bridle.legs;
  // The farthest point along the pull within both circles: the tip of one that the other still reaches, or where they cross.
  const tipA: Place = [a[0] + la, a[1]];
  if (Math.hypot(tipA[0] - b[0], tipA[1] - b[1]) <= lb) return tipA;
  const tipB: Place = [b[0] + lb, b[1]];
  if (Math.hypot(tipB[0] - a[0], tipB[1] - a[1]) <= la) return tipB;
  const apart = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [ex, ey] = [(b[0] - a[0]) / apart, (b[1] - a[1]) / apart];
  const along = (apart * apart + la * la - lb * lb) / (2 * apart);
  const off = Math.sqrt(Math.max(0, la * la - along * along));
  const one = [a[0] + along * ex - off * ey, a[1] + along * ey + off * ex] as const;
  const other = [a[0] + along * ex + off * ey, a[1] + along * ey - off * ex] as const;
  return one[0] > other[0] ? one : other;
}
