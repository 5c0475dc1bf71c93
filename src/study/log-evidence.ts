/** What logs say of pulls whose records do not say what they held: those are reduced, others need not be. */
import type { ReadAt } from "../pull/index.ts";
import { type BookMark, correctionsOf, effectiveMarks } from "./effective-marks.ts";
import type { LogReadings } from "./log-trace.ts";
import type { PullCase } from "./pull-case.ts";
import { reducePullLog } from "./pull-log.ts";
import { type Veer, veersOf, veersTogether } from "./veers.ts";
import { type LogVerdict, verdictOf } from "./verdict.ts";

/** A log with more readings is no log of one pull, and is not reduced unasked. */
export const MOST_LOG_READINGS = 400_000;

/** Whether a pull's record leaves to its log what was held. */
export function leavesToLog(pull: PullCase["pull"]): boolean {
  return verdictOf(pull, null).from === null;
}

/** The log of a pull, as its evidence is made from it. */
export interface LogOfPull extends LogReadings {
  readonly about: Omit<PullCase, "log">;
  /** Channel of the load. */
  readonly cell: string;
  readonly marks: readonly BookMark[];
  /** Veers by the marks of the pull's other logs. */
  readonly veersBeside: readonly Veer[];
}

/** The verdict of a log with its marks as they stand; null where it cannot be reduced. */
export function logVerdictOf({ about, cell, marks, veersBeside, ...readings }: LogOfPull): LogVerdict | null {
  const readAt: ReadAt = about.pull.loadAt ?? "bow";
  const standing = effectiveMarks(marks);
  const veers = veersTogether(veersOf(standing), veersBeside);
  const reduced = reducePullLog({ ...readings, readAt, about, ...correctionsOf(standing), veers });
  if (reduced.kind === "refused") return null;
  return { ...reduced.verdict, cell };
}
