/** Rows of a log file into its log, batch by batch, each with the place in the file behind it. */
import { setImmediate } from "node:timers/promises";
import { type Clock, type LogMark, readGranted } from "../../log/index.ts";
import { quoted } from "../../quantity/index.ts";
import type { Book } from "../book.ts";
import type { Imported, ImportOptions } from "./imported.ts";
import type { ReadState } from "./known-reading.ts";
import type { LogFile } from "./log-file.ts";
import type { LogMapping } from "./log-mapping.ts";
import { Overlap } from "./overlap.ts";
import { BATCH_ROWS, channelsFor, readerOf } from "./rows-reader.ts";
import { sameRecordings } from "./same-recording.ts";

/** Marks of one log written into the book; all are counted. */
const MOST_MARKS = 200;

/** Reads from where the log stands to the file's end, or until it is told to stop. */
export async function readRows(
  book: Book,
  file: LogFile,
  log: string,
  mapping: LogMapping,
  remembered: boolean,
  options: ImportOptions,
): Promise<Imported> {
  const begun = book.logs.progress(log);
  const state = begun.state as ReadState | null;
  const reader = readerOf(mapping, state?.reader ?? undefined);
  const names = channelsFor(mapping).map((channel) => channel.name);
  const front = begun.position === 0 ? (mapping.plan?.dataOffset ?? file.encoding.mark) : begun.position;
  const recordings = state?.recordings ?? sameRecordings(book, file, front, log, mapping);
  const overlap = new Overlap(book, recordings, names);
  const stretches = file.stretches(front);
  const marks = [...(state?.marks ?? [])];
  let { rows, position } = begun;
  let known = state?.known ?? 0;
  let done = stretches.position >= file.size;

  const keep = () => {
    const batch = reader.take();
    marks.push(
      ...batch.marks
        .filter((mark) => mark.kind === "gap" || mark.kind === "restart" || mark.kind === "rate")
        .slice(0, MOST_MARKS - marks.length),
    );
    const columns = Object.fromEntries(names.map((name, k) => [name, batch.values[k]!]));
    const fresh = overlap.fresh({ times: batch.time, columns }, names);
    known += batch.rows - fresh.times.length;
    const kept: ReadState = { sha256: stretches.digest(), reader: reader.state(), known, recordings, marks };
    const progress = book.logs.append(log, fresh, { from: position, to: stretches.position, state: kept });
    ({ rows, position } = progress);
    options.onProgress?.({ position, size: file.size, rows });
  };

  while (!done && reader.stopped === null && options.signal?.aborted !== true) {
    stretches.next();
    const { to, final } = stretches;
    const taken = reader.consume(stretches.bytes, 0, to, final);
    stretches.taken(taken);
    done = final && taken >= to;
    if (reader.ready >= BATCH_ROWS - 64) keep();
    else if (taken === 0 && final && !done) throw new Error("the reader of a log stands still");
    // Lets a request to stop come in.
    await setImmediate();
  }
  if (reader.ready > 0 || stretches.position !== position) keep();
  const ended = reader.stopped;
  const answer = {
    log,
    rows,
    known,
    from: begun.position,
    position,
    size: file.size,
    clock: mapping.clock,
    remembered,
    troubles: reader.troubles.count(),
    counts: reader.counts,
    remarks: [...(options.remarks ?? []), ...(mapping.remarks ?? []).map(readGranted)],
    seen: reader.seen,
    ended,
  };
  if (!done && ended === null) return { kind: "stopped", ...answer };
  writeMarks(book, log, marks, mapping.clock);
  const last: ReadState = { sha256: stretches.digest(), reader: reader.state(), known, recordings, marks };
  book.logs.finish(log, last);
  return { kind: "imported", ...answer };
}

/** Gaps and restarts stand on the trace as marks; written once, also when a finish is taken up again. */
function writeMarks(book: Book, log: string, marks: readonly LogMark[], clock: Clock): void {
  if (marks.length === 0 || book.list("mark", { where: { log } }).length > 0) return;
  const drafts = marks.map((mark) => ({
    kind: "mark" as const,
    set: {
      log,
      kind: mark.kind,
      from_s: Math.min(mark.from, mark.to),
      to_s: Math.max(mark.from, mark.to),
      origin: "automatic" as const,
      detail: { row: mark.row, line: mark.line, clock },
    },
  }));
  book.write(drafts, `marks of ${quoted(book.get("log", log)?.name)}`);
}
