// Does the first-order budget hold? JCGM 101:2008, clause 8: its interval against that of a Monte Carlo run.

import type { Budget } from "./budget.ts";
import { numericalTolerance, type Propagation } from "./propagate.ts";

/** One end of an interval by both methods, and how far they are apart. */
export interface EndOfInterval {
  readonly budget: number;
  readonly monteCarlo: number;
  /** budget − monteCarlo. */
  readonly gap: number;
  readonly agrees: boolean;
}

/** A budget set against draws: whether first order tells the ends of the interval. */
export interface Comparison {
  /** Both ends of the budget's interval are within the tolerance of the Monte Carlo ones. */
  readonly agrees: boolean;
  /** Half a unit of the last compared digit of the budget's u. */
  readonly tolerance: number;
  readonly low: EndOfInterval;
  readonly high: EndOfInterval;
  /** Monte Carlo u over the budget's. */
  readonly ratioOfU: number;
}

/**
 * @param digits of the budget's u to which the two are held; 1 without, 2 for results quoted to two digits.
 *   The run should have been made to a fifth of that tolerance (`part: 0.2`, 8.2) and to the same coverage.
 */
export function compareBudget(budget: Budget, run: Propagation, digits = 1): Comparison {
  const tolerance = numericalTolerance(budget.u, digits);
  const end = (first: number, monteCarlo: number): EndOfInterval => ({
    budget: first,
    monteCarlo,
    gap: first - monteCarlo,
    agrees: Math.abs(first - monteCarlo) <= tolerance,
  });
  const low = end(budget.value - budget.expanded, run.interval.low);
  const high = end(budget.value + budget.expanded, run.interval.high);
  const agrees = low.agrees && high.agrees;
  return { agrees, tolerance, low, high, ratioOfU: run.u / budget.u };
}
