/** What is wrong with the clocks of pulls, said pull by pull: each has numbers of its own. */
import type { Doubt } from "./doubt.ts";
import type { PullEvidence } from "./evidence.ts";

/** A doubt about the clock of a pull's track. */
export interface ClockRemark {
  /** Place of the pull in the list looked at, from 1. */
  readonly row: number;
  /** Its id. */
  readonly pull: string;
  readonly doubt: OfClocks;
}

/** Doubts that are of clocks. */
type OfClocks = Extract<Doubt, { readonly kind: "trackClockOff" | "trackApart" }>;

/** Whether a doubt is of clocks. */
export const isOfClocks = (doubt: Doubt): doubt is OfClocks =>
  doubt.kind === "trackClockOff" || doubt.kind === "trackApart";

/** Of some pulls, in order. */
export function clockRemarks(evidence: readonly Pick<PullEvidence, "pull" | "doubts">[]): ClockRemark[] {
  return evidence.flatMap(({ pull, doubts }, i) =>
    doubts.filter(isOfClocks).map((doubt): ClockRemark => ({ row: i + 1, pull, doubt })),
  );
}
