/** The log of one pull, reduced: read by what needs it alone, since readers of logs are much to load. */
import { reduceTrace, type TraceReduction, traceFromRows } from "../pull/index.ts";
import type { Io } from "./io.ts";
import { logRows } from "./log-input.ts";
import { choicesFrom, type LogOptions } from "./log-options.ts";
import { placeOf } from "./options.ts";

/** @throws InputError for a file that is no log of a load */
export async function reducedLog(
  path: string,
  io: Io,
  options: LogOptions & { readonly readAt: "anchor" | "bow" },
): Promise<TraceReduction> {
  const rows = await logRows(path, io, choicesFrom(options), ["load"]);
  return reduceTrace(traceFromRows(rows, placeOf(path), {}).trace, { readAt: options.readAt });
}
