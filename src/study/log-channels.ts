/** Which channels of a book's logs a pull is judged by: its load, and where the boat was and pointed. */
import type { ChannelKind } from "../log/index.ts";

/** A channel as a book describes it. */
export interface BookChannel {
  readonly name: string;
  readonly quantity: string;
  /** SI, or deg for places. */
  readonly unit: string;
}

/** A log of a book, as far as it says what may be read from it. */
export interface BookLog {
  readonly id: string;
  readonly hidden: boolean;
  readonly pull: string | null;
  readonly channels: readonly BookChannel[];
  /** First and last time, s since 1970; null where there are no rows. */
  readonly from_s: number | null;
  readonly to_s: number | null;
}

const PLACES: readonly ChannelKind[] = ["latitude", "longitude", "heading", "headingTrue"];
const ASKED: readonly ChannelKind[] = ["load", ...PLACES];
/** Fixes so long before and after the load still tell of it, s. */
const BESIDE = 60;

/** What a channel holds, by its name as logs are taken in, or by what it measures; null for what a pull does not need. */
export function kindOfChannel({ name, quantity, unit }: BookChannel): ChannelKind | null {
  const bare = name.replace(/-\d+$/, "");
  const kind = ASKED.find((each) => each === bare);
  if (kind !== undefined) return kind;
  return quantity === "force" || unit === "N" ? "load" : null;
}

/** The channel that holds the load, N; undefined where a log has none. */
export function loadChannelOf(
  channels: readonly { readonly name: string; readonly unit: string }[],
): string | undefined {
  return channels.find(({ unit }) => unit === "N")?.name;
}

/** Channels of the boat's place and heading, the first of each kind. */
export function placeChannelsOf(channels: readonly BookChannel[]): { name: string; kind: ChannelKind }[] {
  return PLACES.flatMap((kind) => {
    const found = channels.find((channel) => kindOfChannel(channel) === kind);
    return found === undefined ? [] : [{ name: found.name, kind }];
  });
}

/**
 * Other logs of the same pull that ran while one did, as their clocks have it; none where one of them has no rows.
 * @param clock added to the others' times, s
 */
export function logsBeside<L extends Pick<BookLog, "id" | "hidden" | "pull" | "from_s" | "to_s">>(
  log: L,
  logs: readonly L[],
  clock = 0,
): L[] {
  if (log.pull === null) return [];
  return logs.filter(
    (other) => other.id !== log.id && !other.hidden && other.pull === log.pull && sharedTime(log, other, clock) > 0,
  );
}

/** How long two logs ran at once, s; below zero: the time between them. @param clock added to the other's times, s */
function sharedTime(one: Pick<BookLog, "from_s" | "to_s">, other: Pick<BookLog, "from_s" | "to_s">, clock = 0): number {
  if (one.from_s === null || one.to_s === null || other.from_s === null || other.to_s === null) return -1;
  return Math.min(one.to_s, other.to_s + clock) - Math.max(one.from_s, other.from_s + clock);
}

/**
 * The log that tells where the boat was during another: itself where it has places, else one of the same pull that has
 * them at that time, the one that covers most of it; null where none does.
 * @param clock added to the track's times to be on the clock of the load, s
 */
export function trackLogOf<L extends BookLog>(log: L, logs: readonly L[], clock = 0): L | null {
  if (hasPlaces(log)) return log;
  let best: L | null = null;
  for (const other of logsBeside(log, logs, clock).filter(hasPlaces))
    if (best === null || sharedTime(log, other, clock) > sharedTime(log, best, clock)) best = other;
  return best;
}

/**
 * The stretch of a track, on its own clock, that tells of a stretch of load, s.
 * @param clock added to the track's times to be on the clock of the load, s
 */
export function trackSpanOf(
  load: { readonly from: number; readonly to: number },
  clock = 0,
): { from: number; to: number } {
  return { from: load.from - clock - BESIDE, to: load.to - clock + BESIDE };
}

function hasPlaces({ channels }: BookLog): boolean {
  const kinds = placeChannelsOf(channels).map(({ kind }) => kind);
  return kinds.includes("latitude") && kinds.includes("longitude");
}
