/** Columns of a book's logs in memory, and those that tell where the boat was. */

import {
  type BookLog,
  clockBetween,
  type PlaceColumns,
  placeChannelsOf,
  trackLogOf,
  trackSpanOf,
} from "../study/index.ts";
import type { Book } from "./book.ts";

/** Times, s since 1970, and the columns named, row by row; of a span of time where one is told. */
export function columnsOf(
  book: Book,
  log: string,
  names: readonly string[],
  span?: { readonly from: number; readonly to: number },
): { time: Float64Array; values: Float64Array[] } {
  const { rows } = book.logs.content(log);
  const time = new Float64Array(rows);
  const values = names.map(() => new Float64Array(rows));
  let at = 0;
  for (const { times, columns } of book.logs.rows(log, [...names])) {
    if (span === undefined) {
      time.set(times, at);
      for (const [k, name] of names.entries()) values[k]!.set(columns[name]!, at);
      at += times.length;
      continue;
    }
    for (let i = 0; i < times.length; i++) {
      if (times[i]! < span.from || times[i]! > span.to) continue;
      time[at] = times[i]!;
      for (const [k, name] of names.entries()) values[k]![at] = columns[name]![i]!;
      at++;
    }
  }
  return { time: time.subarray(0, at), values: values.map((column) => column.subarray(0, at)) };
}

/** Every log of a book, as far as it says what may be read from it. */
export function bookLogsOf(book: Book): BookLog[] {
  return book.list("log").map(({ id, hidden, pull, channels, clockOffset_s }) => {
    const { from_s, to_s } = book.logs.content(id);
    return { id, hidden, pull, channels: channels ?? [], clockOffset_s, from_s, to_s };
  });
}

/**
 * The boat's places and headings about the time of a log, and the log they are of; null where no log of its pull has them.
 * @param clock added to the track's times to be on the clock of the load, s: what is answered is without it, but as the two
 * logs state their own clocks
 */
export function trackColumnsOf(
  book: Book,
  id: string,
  logs: readonly BookLog[],
  clock = 0,
): { readonly log: string; readonly places: PlaceColumns } | null {
  const own = logs.find((log) => log.id === id);
  const track = own && trackLogOf(own, logs, clock);
  if (!own || !track || own.from_s === null || own.to_s === null) return null;
  const kinds = placeChannelsOf(track.channels);
  const between = clockBetween(own, track);
  const { time, values } = columnsOf(
    book,
    track.id,
    kinds.map(({ name }) => name),
    trackSpanOf({ from: own.from_s, to: own.to_s }, clock + between),
  );
  return {
    log: track.id,
    places: {
      time: between === 0 ? time : time.map((t) => t + between),
      columns: kinds.map(({ kind }, k) => ({ kind, values: values[k]! })),
      beside: track.id !== id,
    },
  };
}
