import { logSum, normalBelow } from "../../statistics/index.ts";
import type { Measured } from "../trace/trace.ts";

/** Chance, before any fix is looked at, that an anchor moves in a stretch that is looked at. */
export const MOVES = 0.3;
/** How far one that moves goes in the mean, m: exponential, so that far ways are not ruled out. */
const FAR = 3;

/**
 * ln of how much likelier the fixes are if the anchor moved by more than `over` metres than if it stayed, its movement
 * having been measured as m ± u; the way beyond `over` is exponential, three metres in the mean.
 */
export function logMovedOverStayed({ value, u }: Measured, over: number): number {
  const beyond = normalBelow((value - u ** 2 / FAR - over) / u);
  return (
    0.5 * (value / u) ** 2 +
    (over - value + u ** 2 / (2 * FAR)) / FAR +
    Math.log((u * Math.sqrt(2 * Math.PI) * beyond) / FAR)
  );
}

/** A movement that may have been, as one kind of error has it measured. */
export interface MayHaveGone extends Measured {
  /** How much of it lies in the time that is asked about. */
  readonly inside: number;
  /** ln of its share of chance beforehand, among all movements that may have been. */
  readonly share: number;
}

/** What one kind of error makes of the fixes: ln of how likely they are if the anchor stayed, and how it may have gone. */
export interface ByKind {
  readonly stayed: number;
  readonly went: readonly MayHaveGone[];
}

/** ln of how likely the fixes are by one kind of error, whether the anchor moved or not. */
export function logEither({ stayed, went }: ByKind): number {
  return (
    stayed +
    logSum([Math.log(1 - MOVES), ...went.map((way) => Math.log(MOVES) + way.share + logMovedOverStayed(way, 0))])
  );
}

/** A movement less likely than this after the fixes were looked at, in ln, changes no chance that is told. */
const NO_MATTER = -14;

/**
 * Chance that the anchor moved by more than some metres in the time that is asked about. Before, it is taken to have
 * stayed with a chance of seven in ten, and else to have gone some way, three metres in the mean: the heavy-tailed
 * mixture under which a still anchor is believed still until the fixes say otherwise. Every kind of error counts as far
 * as it makes the fixes likely.
 */
export function chanceMoved(kinds: readonly ByKind[]): (over: number) => number {
  const all = logSum(kinds.map(logEither));
  const ways = kinds.flatMap(({ stayed, went }) =>
    went.map((way) => ({ way, before: stayed + Math.log(MOVES) + way.share - all })),
  );
  const likely = ways.filter(({ way, before }) => before + logMovedOverStayed(way, 0) > NO_MATTER);
  return (over) => {
    let sum = 0;
    for (const { way, before } of likely) {
      const whole = over / way.inside;
      sum += Math.exp(before - whole / FAR + logMovedOverStayed(way, whole));
    }
    return Math.min(1, sum);
  };
}
