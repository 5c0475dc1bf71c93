/** The clock of the boat's track against that of the load. */
import { type AnchorPath, anchorPath, clockOffset } from "../anchor/index.ts";
import type { Loaded } from "./loaded.ts";
import type { TraceQuestion, TrackClock } from "./reduction.ts";
import type { TraceSettings } from "./settings.ts";
import type { Headings, Trace } from "./trace.ts";

/** An offset counts as one from so many times its ±. */
const IS_OFF = 2;

/** A trace whose track and headings are so many seconds later. */
export function trackLater(trace: Trace, seconds: number): Trace {
  if (seconds === 0) return trace;
  const later = <T extends { readonly time: Float64Array }>(channel: T): T => ({
    ...channel,
    time: channel.time.map((t) => t + seconds),
  });
  const { track, heading } = trace;
  return { ...trace, ...(track ? { track: later(track) } : {}), ...(heading ? { heading: later(heading) } : {}) };
}

/** Where the anchor was, by the track as its clock is stated or, where that is asked, as load and track tell it. */
export function pathByClock(
  trace: Trace,
  loaded: Loaded,
  settings: TraceSettings,
  { clock: asked, give }: TraceQuestion,
): { readonly path: AnchorPath | null; readonly clock: TrackClock | null; readonly heading: Headings | undefined } {
  const pathOf = ({ track, heading }: Trace) =>
    track === undefined ? null : anchorPath(track, heading, loaded, settings, give);
  const path = pathOf(trace);
  if (asked === undefined) return { path, clock: null, heading: trace.heading };
  const applied = asked === "applied";
  const told =
    path === null || trace.track === undefined
      ? ({ kind: "notTold" } as const)
      : clockOffset(trace.track, loaded, settings, path, give);
  if (told.kind === "notTold") return { path, clock: { ...told, applied }, heading: trace.heading };
  const { value, u } = told.offset;
  const clock = { ...told, off: Math.abs(value) > IS_OFF * u, applied };
  if (!applied) return { path, clock, heading: trace.heading };
  const late = trackLater(trace, value);
  return { path: pathOf(late), clock, heading: late.heading };
}
