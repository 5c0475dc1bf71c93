import { basename } from "node:path";
import { setImmediate } from "node:timers/promises";
import {
  type Clock,
  guessLog,
  type LogChoices,
  type LogGuess,
  type LogMark,
  type TroubleCount,
} from "../../pull/index.ts";
import { InputError, quoted } from "../../quantity/index.ts";
import type { Book } from "../book.ts";
import { knownReading, type ReadState } from "./known-reading.ts";
import { LogFile } from "./log-file.ts";
import { type LogMapping, mappingOf, rememberedChoices, withRemembered } from "./log-mapping.ts";
import { mappingFor } from "./mapping-for.ts";
import { Overlap } from "./overlap.ts";
import { BATCH_ROWS, channelsFor, readerOf } from "./rows-reader.ts";
import { sameRecordings } from "./same-recording.ts";
import { importWholeFile } from "./whole-file.ts";

export interface ImportOptions {
  /** What the user says of columns, units and times. */
  readonly told?: LogChoices;
  /** Path of the load in Signal K deltas. */
  readonly loadPath?: string;
  readonly pull?: string;
  readonly day?: string;
  /** Read a file anew that is in the book: the log read before is hidden. */
  readonly again?: boolean;
  /** What the log is called; the file's name without this. */
  readonly name?: string;
  /** What errors call the file; its path without this. */
  readonly place?: string;
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: ImportProgress) => void;
}

export interface ImportProgress {
  /** Bytes of the file read and kept, of `size`. */
  readonly position: number;
  readonly size: number;
  readonly rows: number;
}

export type Imported =
  | {
      readonly kind: "imported" | "stopped";
      readonly log: string;
      /** Rows of the log now in the book. */
      readonly rows: number;
      /** Rows that were in the book already, from an earlier export of the same instrument. */
      readonly known: number;
      /** Byte of the file this reading went on from; 0 when it began. */
      readonly from: number;
      readonly position: number;
      readonly size: number;
      readonly clock: Clock;
      /** True when columns were read as this source's last file was. */
      readonly remembered: boolean;
      readonly troubles: TroubleCount;
      readonly counts: Readonly<Record<LogMark["kind"], number>>;
      /** Why reading ended before the file did. */
      readonly ended: { readonly line: number; readonly why: string } | null;
    }
  | { readonly kind: "already"; readonly log: string; readonly rows: number }
  | { readonly kind: "asks"; readonly guess: LogGuess }
  | {
      readonly kind: "marks";
      readonly log: string;
      readonly marks: number;
      readonly clock: Clock;
      readonly troubles: TroubleCount;
    };

/** Marks of one log written into the book; all are counted. */
const MOST_MARKS = 200;

/**
 * Reads a log file into a book, or goes on where an earlier reading stopped. Each batch of rows and the position in the
 * file behind it are written together, so that after a kill the book holds exactly the rows before its position.
 * A file that is in the book, under any name, adds nothing; one that has grown adds what is new.
 * @throws InputError when it is no log, or its first lines contradict what was told
 */
export async function importLog(book: Book, path: string, options: ImportOptions = {}): Promise<Imported> {
  const file = new LogFile(path, options.place);
  try {
    return await readInto(book, file, options);
  } catch (error) {
    if (error instanceof InputError && error.place.startsWith("--")) throw error.within(file.path);
    throw error;
  } finally {
    file.close();
  }
}

/** The guess of a file with what is told and remembered, nothing read into the book. */
export function previewLog(
  path: string,
  told: LogChoices = {},
  book?: Book,
  place?: string,
): { guess: LogGuess; remembered: boolean; size: number } {
  const file = new LogFile(path, place);
  try {
    return { ...guessFile(file, told, book), size: file.size };
  } catch (error) {
    throw error instanceof InputError && error.place.startsWith("--") ? error.within(file.path) : error;
  } finally {
    file.close();
  }
}

function guessFile(file: LogFile, told: LogChoices, book?: Book): { guess: LogGuess; remembered: boolean } {
  const guess = guessLog(file.head, file.whole, told);
  if (guess.kind !== "table" || book === undefined) return { guess, remembered: false };
  const kept = rememberedChoices(book, guess.signature);
  if (kept === null) return { guess, remembered: false };
  // What the cells prove stands before what an earlier file of the source had.
  const { decimal, ...others } = kept;
  const proven = guess.decimal.confidence === 1;
  const memory = proven || decimal === undefined ? others : { ...others, decimal };
  return { guess: guessLog(file.head, file.whole, withRemembered(told, memory)), remembered: true };
}

async function readInto(book: Book, file: LogFile, options: ImportOptions): Promise<Imported> {
  const told = options.told ?? {};
  const { guess, remembered } = guessFile(file, told, book);
  if (guess.kind === "notATable")
    throw new InputError(file.path, guess.why, "a log as CSV, NMEA 0183, Signal K, GPX or time marks is expected");
  if (guess.kind === "gpx" || guess.kind === "webvtt" || guess.kind === "markTable")
    return importWholeFile(book, file, guess.kind, options);
  const mapping = mappingFor(guess, file.path, told, options.loadPath);
  if (mapping === null) return { kind: "asks", guess };

  refuseUnreadable(file, mapping);
  const known = knownReading(book, file, mapping.signature, options.again === true);
  if (known?.kind === "finished" && known.position >= file.size)
    return { kind: "already", log: known.log, rows: known.rows };
  if (known?.kind === "begun") {
    const begun = mappingOf(book.get("log", known.log)?.mapping)!;
    refuseOtherMapping(begun, mapping, file.path);
    return run(book, file, known.log, begun, remembered, options);
  }
  // A file that has grown since it was read to its end goes on in a log of its own, read as its front was.
  const before = known === null ? null : mappingOf(book.get("log", known.log)?.mapping);
  const used: LogMapping = before === null ? mapping : { ...before, continues: known!.log };
  const log = openNew(book, file, used, known?.position ?? 0, options);
  if (known !== null) {
    const state = known.state as ReadState;
    book.logs.append(
      log,
      { times: new Float64Array(0), columns: {} },
      {
        from: 0,
        to: known.position,
        state: { ...state, known: 0, recordings: [], marks: [], reader: renumbered(state.reader) },
      },
    );
  }
  return run(book, file, log, used, remembered, options);
}

/** A file of whose beginning no row can be read is not one for this mapping. */
function refuseUnreadable(file: LogFile, mapping: LogMapping): void {
  if (mapping.plan === undefined) return;
  const reader = readerOf(mapping);
  const stretches = file.stretches(mapping.plan.dataOffset);
  stretches.next();
  reader.consume(stretches.bytes, 0, stretches.to, stretches.final);
  const first = reader.troubles.count().first[0];
  if (reader.ready === 0 && first !== undefined)
    throw new InputError(`${file.path}: line ${first.line}`, quoted(first.value), first.expected);
}

function refuseOtherMapping(begun: LogMapping, asked: LogMapping, path: string): void {
  const said = (mapping: LogMapping) =>
    JSON.stringify([mapping.plan?.values, mapping.plan?.time, mapping.times, mapping.start, mapping.loadPath]);
  if (said(begun) !== said(asked))
    throw new InputError(
      path,
      "begun with another mapping of its columns",
      "the mapping it was begun with is expected, or --again to read it anew",
    );
}

function openNew(book: Book, file: LogFile, mapping: LogMapping, from: number, options: ImportOptions): string {
  const head = file.prefixHashes([Math.min(65536, file.size)]).get(Math.min(65536, file.size))!;
  const name = options.name ?? (basename(file.path) || "log");
  for (let n = 1; ; n++) {
    // Two files may begin alike and be of one size: the second one's fingerprint is counted on.
    const fingerprint = `sha256:${head}:${file.size}${from > 0 ? `:from ${from}` : ""}${n > 1 ? `:${n}` : ""}`;
    const opened = book.logs.open({
      name,
      source: basename(file.path),
      fingerprint,
      channels: channelsFor(mapping),
      mapping: mapping as never,
      pull: options.pull,
      day: options.day,
    });
    if (opened.kind === "new" || (opened.kind === "begun" && opened.position === 0 && opened.rows === 0))
      return opened.log;
  }
}

/** A reader's state with its rows counted from 0 again. */
function renumbered(state: unknown): unknown {
  const own = state as { rows?: number; sparse?: { rows: number } };
  return own.sparse === undefined ? { ...own, rows: 0 } : { ...own, sparse: { ...own.sparse, rows: 0 } };
}

async function run(
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
