import { anchorPath, type ClockOffset, clockOffset } from "../anchor/index.ts";
import { loadedTrace } from "./loaded-trace.ts";
import type { TraceQuestion } from "./reduction.ts";
import type { Trace } from "./trace.ts";

/**
 * What is to be added to the times of the boat's track to be on the clock of the load, as load and track themselves tell
 * it; asked by itself, for a reduction takes the clocks as they are stated.
 * @throws InputError as `reduceTrace` does
 */
export function trackClockOf(trace: Trace, question: TraceQuestion): ClockOffset {
  if (trace.track === undefined) return { kind: "notTold" };
  const { loaded, settings } = loadedTrace(trace, question);
  const path = anchorPath(trace.track, trace.heading, loaded, settings, question.give);
  return path === null ? { kind: "notTold" } : clockOffset(trace.track, loaded, settings, path, question.give);
}
