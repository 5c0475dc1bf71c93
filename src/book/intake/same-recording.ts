import type { Book } from "../book.ts";
import type { LogFile } from "./log-file.ts";
import { type LogMapping, mappingOf } from "./log-mapping.ts";
import { Overlap } from "./overlap.ts";
import { BATCH_ROWS, channelsFor, readerOf } from "./rows-reader.ts";

/**
 * The logs of the same source that hold part of this very recording; found by reading the file through once, which is
 * done only when there are some whose times it may share. Elapsed times share everything and say nothing.
 */
export function sameRecordings(book: Book, file: LogFile, front: number, log: string, mapping: LogMapping): string[] {
  if ((mapping.clock !== "utc" && mapping.clock !== "local") || mapping.kind !== "table") return [];
  const candidates = book.list("log").filter((other) => {
    const theirs = mappingOf(other.mapping);
    if (other.id === log || other.id === mapping.continues || theirs?.kind !== "table") return false;
    return theirs.signature === mapping.signature && theirs.clock === mapping.clock && sameChannels(theirs, mapping);
  });
  if (candidates.length === 0) return [];
  const names = channelsFor(mapping).map((channel) => channel.name);
  const overlap = new Overlap(
    book,
    candidates.map(({ id }) => id),
    names,
  );
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

function sameChannels(a: LogMapping, b: LogMapping): boolean {
  return JSON.stringify(channelsFor(a)) === JSON.stringify(channelsFor(b));
}
