import { basename } from "node:path";
import { InputError, quoted } from "../../quantity/index.ts";
import type { Book } from "../book.ts";
import type { Imported, ImportOptions } from "./imported.ts";
import { knownReading, type ReadState } from "./known-reading.ts";
import { LogFile } from "./log-file.ts";
import { type LogMapping, mappingOf } from "./log-mapping.ts";
import { mappingFor } from "./mapping-for.ts";
import { guessFile } from "./preview-log.ts";
import { readRows } from "./read-rows.ts";
import { channelsFor, readerOf } from "./rows-reader.ts";
import { importWholeFile } from "./whole-file.ts";

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

async function readInto(book: Book, file: LogFile, options: ImportOptions): Promise<Imported> {
  const told = options.told ?? {};
  const { guess, remembered } = guessFile(file, told, book);
  if (guess.kind === "notATable")
    throw new InputError(file.path, guess.why, "a log as CSV, NMEA 0183, Signal K, GPX or time marks is expected");
  if (guess.kind === "packed") throw new InputError(file.path, guess.what, guess.expected);
  if (guess.kind === "gpx" || guess.kind === "webvtt" || guess.kind === "markTable")
    return importWholeFile(book, file, guess.kind, options);
  const mapping = mappingFor(guess, file.path, told);
  if (mapping === null) return { kind: "asks", guess };

  refuseUnreadable(file, mapping);
  const known = knownReading(book, file, mapping.signature, options.again === true);
  if (known?.kind === "finished" && known.position >= file.size)
    return { kind: "already", log: known.log, rows: known.rows };
  if (known?.kind === "begun") {
    const begun = mappingOf(book.get("log", known.log)?.mapping)!;
    refuseOtherMapping(begun, mapping, file.path);
    return readRows(book, file, known.log, begun, remembered, options);
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
  return readRows(book, file, log, used, remembered, options);
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
    JSON.stringify([mapping.plan?.values, mapping.plan?.time, mapping.times, mapping.start, mapping.messages]);
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
