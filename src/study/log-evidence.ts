/** What logs say of pulls whose records do not say what they held: those are reduced, others need not be. */
import type { ReadAt } from "../pull/index.ts";
import { type BookMark, correctionsOf, effectiveMarks } from "./effective-marks.ts";
import type { PullCase } from "./pull-case.ts";
import { reducePullLog } from "./pull-log.ts";
import { type LogVerdict, verdictOf } from "./verdict.ts";

/** A log with more readings is no log of one pull, and is not reduced unasked. */
export const MOST_LOG_READINGS = 400_000;

/** Whether a pull's record leaves to its log what was held. */
export function leavesToLog(pull: PullCase["pull"]): boolean {
  return verdictOf(pull, null).from === null;
}

/** The channel that holds the load, N; undefined where a log has none. */
export function loadChannelOf(
  channels: readonly { readonly name: string; readonly unit: string }[],
): string | undefined {
  return channels.find(({ unit }) => unit === "N")?.name;
}

/** The log of a pull, as its evidence is made from it. */
export interface LogOfPull {
  readonly about: Omit<PullCase, "log">;
  /** s and N, row by row. */
  readonly time: Float64Array;
  readonly load: Float64Array;
  readonly marks: readonly BookMark[];
}

/** The verdict of a log with its marks as they stand; null where it cannot be reduced. */
export function logVerdictOf({ about, time, load, marks }: LogOfPull): LogVerdict | null {
  const readAt: ReadAt = about.pull.loadAt ?? "bow";
  const reduced = reducePullLog({ time, load, readAt, about, ...correctionsOf(effectiveMarks(marks)) });
  if (reduced.kind === "refused") return null;
  return { held: reduced.held, zeroFound: reduced.zero.kind !== "notFound", unmatched: reduced.unmatched };
}
