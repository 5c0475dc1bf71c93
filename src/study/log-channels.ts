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
  /** What is added to its times where it is laid beside another log, s; null: nothing. */
  readonly clockOffset_s: number | null;
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

/** What of a log tells when it ran. */
type Ran = Pick<BookLog, "clockOffset_s" | "from_s" | "to_s">;

/** What is added to another log's times to be on the clock of one, s, as the two state their own. */
export const clockBetween = (one: Pick<BookLog, "clockOffset_s">, other: Pick<BookLog, "clockOffset_s">): number =>
  (other.clockOffset_s ?? 0) - (one.clockOffset_s ?? 0);

/**
 * Other logs of the same pull that ran while one did, as their clocks have it; none where one of them has no rows.
 * @param clock added to the others' times besides, s
 */
export function logsBeside<L extends Pick<BookLog, "id" | "hidden" | "pull"> & Ran>(
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
function sharedTime(one: Ran, other: Ran, clock = 0): number {
  if (one.from_s === null || one.to_s === null || other.from_s === null || other.to_s === null) return -1;
  const by = clock + clockBetween(one, other);
  return Math.min(one.to_s, other.to_s + by) - Math.max(one.from_s, other.from_s + by);
}

/**
 * The log that tells where the boat was during another: itself where it has places, else one of the same pull that has
 * them at that time, the one that covers most of it; null where none does.
 * @param clock added to the track's times to be on the clock of the load, besides what the logs' own offsets say, s
 */
export function trackLogOf<L extends BookLog>(log: L, logs: readonly L[], clock = 0): L | null {
  if (hasPlaces(log)) return log;
  let best: L | null = null;
  for (const other of logsBeside(log, logs, clock).filter(hasPlaces))
    if (best === null || sharedTime(log, other, clock) > sharedTime(log, best, clock)) best = other;
  return best;
}

/** A track of the same pull that ran at another time than the load. */
export interface TrackApart {
  /** Id of its log. */
  readonly log: string;
  /** So long after the end of the load it begins, s; below zero: so long before the load began it had ended. */
  readonly seconds: number;
}

/** The nearest of the tracks of a log's pull where none of them overlaps the log; null where one does, or there is none. */
export function trackApartOf(log: BookLog, logs: readonly BookLog[], clock = 0): TrackApart | null {
  const { pull, from_s: from, to_s: to } = log;
  if (pull === null || from === null || to === null || trackLogOf(log, logs, clock) !== null) return null;
  let nearest: TrackApart | null = null;
  for (const other of logs) {
    if (other.id === log.id || other.hidden || other.pull !== pull || !hasPlaces(other)) continue;
    if (other.from_s === null || other.to_s === null) continue;
    const by = clock + clockBetween(log, other);
    const seconds = other.from_s + by >= to ? other.from_s + by - to : other.to_s + by - from;
    if (nearest === null || Math.abs(seconds) < Math.abs(nearest.seconds)) nearest = { log: other.id, seconds };
  }
  return nearest;
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
