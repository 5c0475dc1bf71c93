import type { HeldLoad, Measured, ReadAt } from "../pull/index.ts";
import type { NoEquilibrium } from "../rode/index.ts";

/** A line made shorter or longer, counted from 1 at the anchor; or the rode taken in from its bow end. */
export type PaidOutAt = number | "bow";

/** What of a deployment may be uncertain. */
export type DeploymentInput = "load" | "mass per length" | "rise" | "length paid out" | "line paid out" | "end read";

/**
 * Why an answer about a pull rests on less than one would wish: a cause with its numbers (SI), never a sentence. Parts of
 * the rode count from 1 at the anchor.
 */
export type Doubt =
  /** The pull names no rig: nothing is carried. */
  | { readonly kind: "noRig" }
  /** The rig's file cannot be read; `line` says where and what was expected. */
  | { readonly kind: "rigUnreadable"; readonly line: string }
  /** No depth was recorded: that of the rig file stands in, with a wide ±. */
  | { readonly kind: "depthUnknown"; readonly taken: number; readonly u: number }
  /** No depth was recorded: it follows from soundings of other pulls on this ground and the level of the day. */
  | { readonly kind: "depthFromLevel"; readonly taken: number; readonly u: number; readonly soundings: number }
  /** The depth recorded is farther from that of the rig file than its ±: the recorded one is used. */
  | { readonly kind: "depthDiffers"; readonly recorded: number; readonly filed: number }
  /** A depth was recorded and the rig hangs in air: it is not used. */
  | { readonly kind: "depthOnLand"; readonly recorded: number }
  /** Neither scope nor length was recorded: the whole rode of the file is taken as paid out. */
  | { readonly kind: "lengthUnknown"; readonly taken: number; readonly u: number }
  /** The length recorded is not the scope recorded, at this rise, by more than either is known: the length is used. */
  | {
      readonly kind: "lengthAndScopeDiffer";
      readonly paidOut: number;
      readonly scope: number;
      /** The scope that the length makes at this rise. */
      readonly ofLength: number;
    }
  /** The length paid out is not that of the rig file: `part` is made shorter or longer. */
  | { readonly kind: "lengthDiffers"; readonly paidOut: number; readonly filed: number; readonly part: PaidOutAt }
  /** More was paid out than the rig file holds: `part` is made longer. */
  | { readonly kind: "longerThanRode"; readonly paidOut: number; readonly filed: number; readonly part: PaidOutAt }
  /** The rode was veered during the pull: the load is carried with what was out when it was read. */
  | { readonly kind: "veered"; readonly first: number; readonly paidOut: number }
  /** The rode was veered while the log ran: the boat's track is not looked at, for it went back by the rode let out too. */
  | { readonly kind: "trackOverVeer" }
  /** The track's clock is off by load and track themselves, and nobody stated it: it is looked at as it stands, s to be added. */
  | { readonly kind: "trackClockOff"; readonly offset: Measured }
  /** The pull's track and the load do not overlap: so long after the load's end it begins, s, or, below zero, before its begin it ended. */
  | { readonly kind: "trackApart"; readonly seconds: number }
  /** Which line was paid out is not recorded: `part` is taken, `others` may have been. */
  | { readonly kind: "lineUnknown"; readonly part: PaidOutAt; readonly others: readonly PaidOutAt[] }
  /** Depth, scope or length make no sense: `line` says which and what was expected. */
  | { readonly kind: "deploymentUnreadable"; readonly line: string }
  /** The end at which the load was read is not recorded. */
  | { readonly kind: "endUnknown"; readonly taken: ReadAt }
  /** Neither the record nor a log says what was held. */
  | { readonly kind: "noResult" }
  /** The load has no stated uncertainty: `u` is assumed, N. */
  | { readonly kind: "uncertaintyUnstated"; readonly u: number }
  /** The pull's result says that it held, and what ended it that it did not; or the other way round. */
  | { readonly kind: "endingContradicts"; readonly ending: string; readonly result: string }
  /** Result and log differ by more than twice their uncertainty together, or in what happened. */
  | {
      readonly kind: "resultDiffersFromLog";
      readonly result: { readonly kind: string; readonly newtons: number };
      readonly log: { readonly kind: string; readonly newtons: number };
    }
  /** The log has no slack to read the zero from: loads stand as read. */
  | { readonly kind: "zeroNotFound" }
  /** What the log, by the channels it has, cannot tell of what was held. */
  | { readonly kind: "logCannotTell"; readonly what: NonNullable<HeldLoad["untold"]> }
  /** Corrections whose mark the reduction does not make any more. */
  | { readonly kind: "correctionsUnmatched"; readonly count: number }
  /** The rig, as deployed, has no equilibrium at this load. */
  | { readonly kind: "noEquilibrium"; readonly newtons: number; readonly none: NoEquilibrium }
  /** The rig has no equilibrium a standard uncertainty away on one side, or on both: the ± is less sure. */
  | { readonly kind: "cannotMove"; readonly input: DeploymentInput; readonly sides: 1 | 2 };
