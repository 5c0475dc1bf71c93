import { basename } from "node:path";
import {
  type Clock,
  guessEncoding,
  NO_TROUBLES,
  readMarkTable,
  readWebVtt,
  type TimeMarks,
  textOf,
} from "../../log/index.ts";
import { InputError } from "../../quantity/index.ts";
import type { Book } from "../book.ts";
import { importTrack } from "./import-track.ts";
import type { Imported, ImportOptions } from "./imported.ts";
import type { LogFile } from "./log-file.ts";
import { type LogMapping, MAPPING_FORMAT } from "./log-mapping.ts";
import { openWhole } from "./open-whole.ts";

/** Largest list of time marks, bytes: it is read at once. */
const LARGEST_MARKS = 32e6;

/** Tracks and time marks: known again by the fingerprint of all their bytes. */
export async function importWholeFile(
  book: Book,
  file: LogFile,
  kind: "gpx" | "webvtt" | "markTable",
  options: ImportOptions,
): Promise<Imported> {
  const sha256 = file.prefixHashes([file.size]).get(file.size)!;
  const known = book.list("log").find((log) => log.fingerprint === `sha256:${sha256}`);
  if (known !== undefined) {
    const progress = book.logs.progress(known.id);
    if (options.again === true) book.hide(known.id);
    else if (progress.kind === "finished") return { kind: "already", log: known.id, rows: progress.rows };
  }
  if (kind === "gpx") return importTrack(book, file, sha256, options);
  if (file.size > LARGEST_MARKS)
    throw new InputError(file.path, `${file.size} bytes`, `time marks of at most ${LARGEST_MARKS} bytes are expected`);
  const bytes = file.all();
  const { encoding, mark } = guessEncoding(bytes);
  return marks(book, file, textOf(bytes, mark, bytes.length, encoding), kind, sha256, options);
}

function marks(
  book: Book,
  file: LogFile,
  text: string,
  kind: "webvtt" | "markTable",
  sha256: string,
  options: ImportOptions,
): Imported {
  const read: TimeMarks | null = kind === "webvtt" ? readWebVtt(text, file.path) : readMarkTable(text);
  if (read === null) throw new InputError(file.path, "no marks", "a column of times and one of words are expected");
  const start = read.clock === "elapsed" ? (options.told?.start ?? 0) : 0;
  const clock: Clock = read.clock === "elapsed" && options.told?.start !== undefined ? "utc" : read.clock;
  const mapping: LogMapping = {
    format: MAPPING_FORMAT,
    kind: "marks",
    signature: kind === "webvtt" ? "WebVTT" : "table of marks",
    clock,
    ...(start === 0 ? {} : { start }),
  };
  const log = openWhole(book, file, sha256, mapping, [], options);
  if (book.list("mark", { where: { log } }).length === 0) {
    const drafts = read.marks.map((mark) => ({
      kind: "mark" as const,
      set: {
        log,
        kind: mark.text.slice(0, 100) || "mark",
        from_s: start + mark.from,
        to_s: mark.to === null ? null : start + mark.to,
        origin: "by hand" as const,
        remarks: mark.text,
      },
    }));
    book.write(drafts, `time marks of ${basename(file.path)}`);
  }
  book.logs.finish(log);
  return {
    kind: "marks",
    log,
    marks: read.marks.length,
    clock,
    troubles: { ...NO_TROUBLES, rejected: read.troubles.length, first: read.troubles.slice(0, 20) },
  };
}
