import type { Channel } from "../../record/index.ts";
import type { Book } from "../book.ts";
import type { LogFile } from "./log-file.ts";
import { type LogMapping, mappingOf } from "./log-mapping.ts";
import { Overlap } from "./overlap.ts";
import { BATCH_ROWS, channelsFor, readerOf } from "./rows-reader.ts";

/**
 * Finished or begun logs that may hold rows of the same recording: of the same source, channels and calendar. Elapsed
 * times share everything and say nothing.
 */
export function mayShare(
  book: Book,
  mapping: LogMapping,
  channels: readonly Channel[],
  but: readonly string[],
): string[] {
  if ((mapping.clock !== "utc" && mapping.clock !== "local") || mapping.kind === "live") return [];
  const wanted = JSON.stringify(channels);
  return book
    .list("log")
    .filter((other) => {
      const theirs = mappingOf(other.mapping);
      if (but.includes(other.id) || theirs?.kind !== mapping.kind || theirs.signature !== mapping.signature)
        return false;
      return theirs.clock === mapping.clock && JSON.stringify(other.channels) === wanted;
    })
    .map(({ id }) => id);
}

/**
 * The logs that hold part of this very recording; found by reading the file through once, which is done only when
 * there are some it may share rows with.
 */
export function sameRecordings(book: Book, file: LogFile, front: number, log: string, mapping: LogMapping): string[] {
  const channels = channelsFor(mapping);
  const candidates = mayShare(
    book,
    mapping,
    channels,
    mapping.continues === undefined ? [log] : [log, mapping.continues],
  );
  if (candidates.length === 0) return [];
  const names = channels.map((channel) => channel.name);
  const overlap = new Overlap(book, candidates, names);
  const reader = readerOf(mapping);
  const stretches = file.stretches(front);
  for (let done = front >= file.size; !done && reader.stopped === null; ) {
    stretches.next();
    const { to, final } = stretches;
    const taken = reader.consume(stretches.bytes, 0, to, final);
    stretches.taken(taken);
    done = final && taken >= to;
    if (!done && reader.ready < BATCH_ROWS - 64) continue;
    const { time, values } = reader.take();
    overlap.count({ times: time, columns: Object.fromEntries(names.map((name, k) => [name, values[k]!])) }, names);
  }
  return overlap.recordings;
}
