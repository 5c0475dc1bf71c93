/** The clock of the boat's track against that of the load. */
import type { Measured, TrackClock } from "../pull/index.ts";
import { roundToUncertainty } from "../quantity/index.ts";
import { durationText } from "./counts.ts";

/** An offset with its ±, s. */
export function offsetText({ value, u }: Measured): string {
  const rounded = roundToUncertainty(value, u);
  return `${rounded.value} ± ${rounded.u} s`;
}

/** The clock of the track as load and track tell it, as lines of `trace`: none where nothing is to be said. */
export function trackClockWords(clock: TrackClock | null): string[] {
  if (clock === null) return [];
  if (clock.kind === "notTold")
    return clock.applied
      ? ["Clock of the track: cannot be told by load and track; taken as it stands (--track-clock TIME states it)"]
      : [];
  const by = offsetText(clock.offset);
  if (clock.applied) return [`Clock of the track: ${by} added to its times, as load and track tell it`];
  return clock.off
    ? [`Note: by load and track the track's clock is off: ${by} would have to be added (--track-clock auto adds it)`]
    : [];
}

/** What load and track tell of the track's clock where nobody stated it, as a sentence without its full stop. */
export function trackClockText(clock: TrackClock): string {
  if (clock.kind === "notTold") return "Clock of the track: cannot be told by load and track; taken as it stands";
  const by = `Clock of the track: by load and track ${offsetText(clock.offset)} to be added to its times`;
  return clock.off ? `${by}; taken as it stands, which is another` : `${by}, which is none within 2 ±`;
}

/**
 * That a track and the load do not overlap, beginning small, without its full stop.
 * @param seconds so long after the load's end it begins; below zero: before the load's begin it ended
 */
export function trackApartText(seconds: number): string {
  const apart = durationText(Math.abs(seconds));
  const when = seconds < 0 ? `ends ${apart} before the load begins` : `begins ${apart} after the load ends`;
  return `the boat's track of this pull and the load do not overlap, and the load is judged alone: by their clocks the track ${when}`;
}
