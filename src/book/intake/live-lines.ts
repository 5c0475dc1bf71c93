import { type LiveGuess, type LiveLine, type LivePlan, liveLines } from "../../log/index.ts";
import { choicesOf, type LogMapping, MAPPING_FORMAT, mappingOf } from "./log-mapping.ts";

/** Reads the lines of one instrument, one at a time, and says how, for the log they go into. */
export interface LiveLines {
  readonly mapping: LogMapping;
  read(line: string): LiveLine;
}

/** The lines of an instrument as they were judged. */
export function linesJudged({ plan, guess }: Extract<LiveGuess, { kind: "lines" }>, source: string): LiveLines {
  const kept = { format: MAPPING_FORMAT, kind: "live", signature: `live ${source}`, clock: "utc" } as const;
  const mapping: LogMapping =
    plan.kind === "table"
      ? { ...kept, plan: plan.table, ...(guess.kind === "table" ? { columns: choicesOf(guess) } : {}) }
      : { ...kept, messages: plan.messages, sentences: plan.kind };
  return { mapping, read: liveLines(plan) };
}

/** The lines of a log begun before, read as they were then; null where it does not say how. */
export function linesKept(kept: unknown): LiveLines | null {
  const mapping = mappingOf(kept);
  const plan = mapping === null ? null : planOf(mapping);
  return mapping === null || plan === null ? null : { mapping, read: liveLines(plan) };
}

function planOf({ plan, messages, sentences }: LogMapping): LivePlan | null {
  if (plan !== undefined) return { kind: "table", table: plan };
  return messages === undefined || sentences === undefined ? null : { kind: sentences, messages };
}
