import {
  type BookLog,
  clockBetween,
  type LogReadings,
  type PlaceColumns,
  placeChannelsOf,
  type TrackApart,
  trackApartOf,
  trackLogOf,
  trackSpanOf,
} from "../../../study/index.ts";
import type { LogHere } from "../records.ts";
import { fetchStretch } from "./stretches.ts";
import type { Window } from "./window.ts";

/** Readings a reduction takes at once: more would fill a phone. */
export const MOST_READINGS = 400_000;
const PIECE = 20_000;

/**
 * What a log's pull is judged by in a window: the load and, where a log of the pull has them, places and headings.
 * @param clock added to the track's times to be on the clock of the load, s: what is answered is without it, but as the two
 * logs state their own clocks
 */
export async function readingsOf(
  log: LogHere,
  logs: readonly LogHere[],
  load: string,
  window: Window,
  signal: AbortSignal,
  clock = 0,
): Promise<LogReadings> {
  const track = trackOf(log, logs, clock);
  const apart = trackApartIn(log, logs, clock);
  const kinds = track === null ? [] : placeChannelsOf(track.channels);
  const names = kinds.map(({ name }) => name);
  const placed = (time: Float64Array, columns: ReadonlyMap<string, Float64Array>): PlaceColumns => ({
    time,
    columns: kinds.map(({ kind, name }) => ({ kind, values: columns.get(name)! })),
  });
  if (track === null || track.id === log.id) {
    const { time, columns } = await columnsOf(log, [load, ...names], window, signal);
    return { time, load: columns.get(load)!, places: track === null ? null : placed(time, columns), apart };
  }
  const beside = logs.find(({ id }) => id === track.id)!;
  const between = clockBetween(asBookLog(log), track);
  const [own, other] = await Promise.all([
    columnsOf(log, [load], window, signal),
    columnsOf(beside, names, trackSpanOf(window, clock + between), signal),
  ]);
  const places = placed(between === 0 ? other.time : other.time.map((t) => t + between), other.columns);
  return { time: own.time, load: own.columns.get(load)!, places: { ...places, beside: true } };
}

const trackOf = (log: LogHere, logs: readonly LogHere[], clock: number): BookLog | null =>
  trackLogOf(asBookLog(log), logs.map(asBookLog), clock);

/** A track of the log's pull that ran at another time, where none overlaps it. @param clock as in `readingsOf` */
export const trackApartIn = (log: LogHere, logs: readonly LogHere[], clock: number): TrackApart | null =>
  trackApartOf(asBookLog(log), logs.map(asBookLog), clock);

/** Id of the log that tells where the boat was during another; null where none does. @param clock as in `readingsOf` */
export const trackLogIn = (log: LogHere, logs: readonly LogHere[], clock: number): string | null =>
  trackOf(log, logs, clock)?.id ?? null;

function asBookLog({ id, hidden, pull, clockOffset_s, content }: LogHere): BookLog {
  const { channels, from_s, to_s } = content;
  return { id, hidden, pull, channels, clockOffset_s: clockOffset_s ?? null, from_s, to_s };
}

/** Every reading of some channels in a window, in the order of time; fetched piece by piece. */
export async function columnsOf(
  { id, content }: LogHere,
  channels: readonly string[],
  asked: Window,
  signal: AbortSignal,
): Promise<{ time: Float64Array; columns: Map<string, Float64Array> }> {
  const window = {
    from: Math.max(asked.from, content.from_s ?? asked.from),
    to: Math.min(asked.to, content.to_s ?? asked.to),
  };
  const whole = Math.max(1e-9, (content.to_s ?? 0) - (content.from_s ?? 0));
  const expected = (content.rows * (window.to - window.from)) / whole;
  const times: Float64Array[] = [];
  const values = channels.map((): Float64Array[] => []);
  let rows = 0;
  const take = async (piece: Window, depth: number): Promise<void> => {
    const bands = await fetchStretch(id, piece, PIECE, channels, signal);
    if (!bands.readings && depth < 24) {
      const middle = (piece.from + piece.to) / 2;
      await take({ from: piece.from, to: middle }, depth + 1);
      await take({ from: middle, to: piece.to }, depth + 1);
      return;
    }
    // A reading on the seam of two pieces belongs to both: it is taken once.
    const last = times.at(-1)?.at(-1) ?? Number.NEGATIVE_INFINITY;
    let begin = 0;
    while (begin < bands.from.length && bands.from[begin]! === last && last === piece.from) begin++;
    times.push(bands.from.subarray(begin));
    for (const [k, name] of channels.entries()) values[k]!.push(bands.columns.get(name)!.min.subarray(begin));
    rows += bands.from.length - begin;
  };
  const pieces = Math.max(1, Math.ceil((1.2 * expected) / PIECE));
  const width = (window.to - window.from) / pieces;
  for (let k = 0; k < pieces; k++)
    await take({ from: window.from + k * width, to: k === pieces - 1 ? window.to : window.from + (k + 1) * width }, 0);
  const joined = (parts: readonly Float64Array[]): Float64Array => {
    const out = new Float64Array(rows);
    let at = 0;
    for (const part of parts) {
      out.set(part, at);
      at += part.length;
    }
    return out;
  };
  return { time: joined(times), columns: new Map(channels.map((name, k) => [name, joined(values[k]!)])) };
}
