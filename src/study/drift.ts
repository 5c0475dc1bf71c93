/**
 * How far a boat has come from where her pull began, by places told while it lasts.
 *
 *   d = mean of the last places − mean of the first,  along = d · direction of the pull,  u² = u_first² + u_last²
 *
 * Places told one after another err alike, so that a mean is taken for no better than one of them: u of each end is their
 * scatter there, or what the receiver states, or a metre, whichever is most.
 */
import { planeAt } from "../pull/index.ts";

/** A place told at a moment. */
export interface Fix {
  /** s */
  readonly time: number;
  /** Degrees, WGS 84. */
  readonly latitude: number;
  readonly longitude: number;
  /** Radius that holds the place with 95 % chance, m, where the receiver states one. */
  readonly accuracy?: number;
}

/** Where the boat is, against where the pull began. */
export interface Drift {
  /** m over the ground. */
  readonly distance: number;
  /** m along the pull's direction, and to the right of it; null where no direction is known. */
  readonly along: number | null;
  readonly across: number | null;
  /** Standard uncertainty of each of them, m. */
  readonly u: number;
}

/** The first and the last so many seconds are averaged. */
export const FIRST = 10;
export const LAST = 5;
/** A receiver that states nothing: a metre each way (common practice, no source). */
const LEAST = 1;
/** A circle of this many standard deviations holds 95 % of a normal law in the plane: √(−2 ln 0.05). */
const CIRCLE = Math.sqrt(-2 * Math.log(0.05));

/**
 * @param fixes in order of time
 * @param direction the way the boat is pulled, rad from north, clockwise
 * @returns null before two ends can be told apart
 */
export function driftOf(fixes: readonly Fix[], direction: number | null): Drift | null {
  const [first] = fixes;
  const last = fixes.at(-1);
  if (first === undefined || last === undefined || last.time - first.time < FIRST) return null;
  const plane = planeAt(first.latitude, first.longitude);
  const end = (some: readonly Fix[]) => {
    const east = mean(some.map(({ longitude }) => plane.east(longitude)));
    const north = mean(some.map(({ latitude }) => plane.north(latitude)));
    const square = mean(
      some.map((one) => ((plane.east(one.longitude) - east) ** 2 + (plane.north(one.latitude) - north) ** 2) / 2),
    );
    const stated = Math.max(LEAST, ...some.map(({ accuracy = 0 }) => accuracy / CIRCLE));
    return { east, north, u: Math.max(stated, Math.sqrt(square)) };
  };
  const from = end(fixes.filter(({ time }) => time - first.time <= FIRST));
  const to = end(fixes.filter(({ time }) => last.time - time <= LAST));
  const [east, north] = [to.east - from.east, to.north - from.north];
  return {
    distance: Math.hypot(east, north),
    along: direction === null ? null : east * Math.sin(direction) + north * Math.cos(direction),
    across: direction === null ? null : east * Math.cos(direction) - north * Math.sin(direction),
    u: Math.hypot(from.u, to.u),
  };
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
