import { giveOf, type ReadAt, reduceTrace } from "../pull/index.ts";
import type { FieldsOf } from "../record/index.ts";
import { deploymentOfCase } from "./evidence.ts";
import { asPulled, howPulled } from "./how-pulled.ts";
import { type LogReadings, traceBesideVeers, traceOfLog } from "./log-trace.ts";
import type { PullCase } from "./pull-case.ts";
import type { Veer } from "./veers.ts";

/** What a mark already in the book is known by: put aside or not, nobody's correction is talked over. */
export type KnownMark = Pick<FieldsOf<"mark">, "kind" | "from_s">;

/**
 * What the reduction finds on a stretch of a log, as marks not yet in the book; one found before is not made again.
 * @param stretch the load, with the boat's places and headings where a log of the pull has them
 * @param known automatic marks of that log in the book, those put aside too
 * @param about the pull, whose rig says what of the boat's movement is the rode's; null for a log of no pull
 * @param veers by the marks of the pull's logs: over one the boat's movement tells nothing of the anchor
 * @throws InputError when times run backward or there are no readings
 */
export function foundMarks(
  stretch: LogReadings,
  readAt: ReadAt,
  log: string,
  known: readonly KnownMark[],
  about: Omit<PullCase, "log"> | null = null,
  veers: readonly Veer[] = [],
): FieldsOf<"mark">[] {
  const keyOf = (kind: unknown, from: unknown): string => `${String(kind)} ${Number(from)}`;
  const there = new Set(known.map((mark) => keyOf(mark.kind, mark.from_s)));
  const deployment = about === null ? null : deploymentOfCase(about, []);
  const give = deployment === null ? null : giveOf(deployment.rig, readAt);
  const { trace, settings } = asPulled(traceOfLog(stretch), howPulled(about));
  return reduceTrace(traceBesideVeers(trace, veers).trace, { readAt, settings, ...(give === null ? {} : { give }) })
    .marks.filter((mark) => !there.has(keyOf(mark.kind, mark.from)))
    .map(({ kind, from, to, value, u, of, why }) => ({
      log,
      kind,
      from_s: from,
      to_s: to,
      origin: "automatic",
      detail: { value, u, of, why },
    }));
}
