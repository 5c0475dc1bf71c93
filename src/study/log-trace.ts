/** Readings of a book's logs as the trace a pull is judged by. */
import type { ChannelKind } from "../log/index.ts";
import { placesOfRows, type Trace } from "../pull/index.ts";
import type { TrackApart } from "./log-channels.ts";
import { type Veer, veeredWithin } from "./veers.ts";

/** Where the boat was and pointed, row by row, by kind of channel: degrees and rad, NaN where nothing was read. */
export interface PlaceColumns {
  /** s */
  readonly time: Float64Array;
  readonly columns: readonly { readonly kind: ChannelKind; readonly values: Float64Array }[];
  /** They are of another log, whose clock may be another. */
  readonly beside?: boolean;
}

/** Load and, where a log of the pull has them, places and headings. */
export interface LogReadings {
  /** s and N, row by row. */
  readonly time: Float64Array;
  readonly load: Float64Array;
  /** Of the log itself or of another of the same pull, by the logs' own clocks; absent or null: there are none. */
  readonly places?: PlaceColumns | null;
  /** A track of the pull that ran at another time, where none overlaps. */
  readonly apart?: TrackApart | null;
}

/** The trace of a pull, with the boat's track and heading where they are known. */
export function traceOfLog({ time, load, places }: LogReadings): Trace {
  const { track, heading } =
    places == null
      ? { track: null, heading: null }
      : placesOfRows({
          channels: places.columns.map(({ kind }) => ({ name: kind, kind })),
          time: places.time,
          values: places.columns.map(({ values }) => values),
        });
  return { time, load, ...(track === null ? {} : { track }), ...(heading === null ? {} : { heading }) };
}

/**
 * The trace without the boat's track where the rode was veered while it ran: the boat then went back by rode let out, which
 * would be taken for the anchor's way.
 */
export function traceBesideVeers(
  trace: Trace,
  veers: readonly Veer[],
): { readonly trace: Trace; readonly trackOverVeer: boolean } {
  const { time, load } = trace;
  const trackOverVeer = trace.track !== undefined && veeredWithin(veers, time[0] ?? 0, time.at(-1) ?? 0);
  return { trace: trackOverVeer ? { time, load } : trace, trackOverVeer };
}
