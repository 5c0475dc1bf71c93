import { basename } from "node:path";
import {
  CHANNELS,
  type ChannelKind,
  type Clock,
  guessEncoding,
  type LogMark,
  readGpx,
  readMarkTable,
  readWebVtt,
  type TimeMarks,
  type TroubleCount,
  textOf,
} from "../../pull/index.ts";
import { InputError } from "../../quantity/index.ts";
import type { Book } from "../book.ts";
import type { Channel } from "../kinds.ts";
import type { Rows } from "../log-chunk.ts";
import type { Imported, ImportOptions } from "./imported.ts";
import type { ReadState } from "./known-reading.ts";
import type { LogFile } from "./log-file.ts";
import { type LogMapping, MAPPING_FORMAT } from "./log-mapping.ts";
import { Overlap } from "./overlap.ts";
import { mayShare } from "./same-recording.ts";

const NO_TROUBLES: TroubleCount = {
  rejected: 0,
  unreadable: 0,
  missing: 0,
  overload: 0,
  empty: 0,
  headersAgain: 0,
  repeatedRows: 0,
  first: [],
};
const NO_COUNTS: Readonly<Record<LogMark["kind"], number>> = {
  gap: 0,
  restart: 0,
  late: 0,
  midnight: 0,
  rate: 0,
  shared: 0,
};

/** Tracks and time marks: small enough to be read at once, so their fingerprint is that of all their bytes. */
export function importWholeFile(
  book: Book,
  file: LogFile,
  kind: "gpx" | "webvtt" | "markTable",
  options: ImportOptions,
): Imported {
  const sha256 = file.prefixHashes([file.size]).get(file.size)!;
  const known = book.list("log").find((log) => log.fingerprint === `sha256:${sha256}`);
  if (known !== undefined) {
    const progress = book.logs.progress(known.id);
    if (options.again === true) book.hide(known.id);
    else if (progress.kind === "finished") return { kind: "already", log: known.id, rows: progress.rows };
  }
  const bytes = file.all();
  const { encoding, mark } = guessEncoding(bytes);
  const text = textOf(bytes, mark, bytes.length, encoding);
  return kind === "gpx" ? track(book, file, text, sha256, options) : marks(book, file, text, kind, sha256, options);
}

function track(book: Book, file: LogFile, text: string, sha256: string, options: ImportOptions): Imported {
  const read = readGpx(text, file.path);
  const columns: Partial<Record<ChannelKind, Float64Array>> = {
    latitude: read.latitude,
    longitude: read.longitude,
    ...(read.speed === null ? {} : { speed: read.speed }),
    ...(read.course === null ? {} : { course: read.course }),
  };
  const channels = (Object.keys(columns) as ChannelKind[]).map((name) => ({
    name,
    quantity: name,
    unit: CHANNELS[name].unit,
    precision: CHANNELS[name].dimension === "place" ? ("double" as const) : ("single" as const),
  }));
  const mapping: LogMapping = { format: MAPPING_FORMAT, kind: "gpx", signature: "GPX", clock: "utc" };
  const log = open(book, file, sha256, mapping, channels, options);
  const state: ReadState = { sha256, reader: null, known: 0, recordings: [], marks: [] };
  const begun = book.logs.progress(log);
  const all: Rows = { times: read.time, columns: columns as Record<string, Float64Array> };
  const fresh = begun.position > 0 ? all : freshRows(book, log, mapping, channels, all);
  if (begun.position === 0) book.logs.append(log, fresh, { from: 0, to: file.size, state });
  const { rows } = book.logs.finish(log, state);
  const counts = { ...NO_COUNTS };
  for (const one of read.marks) counts[one.kind]++;
  return {
    kind: "imported",
    log,
    rows,
    known: read.rows - rows,
    from: 0,
    position: file.size,
    size: file.size,
    clock: "utc",
    remembered: false,
    troubles: read.troubles,
    counts,
    ended: null,
  };
}

/** The points that are not in the book yet, from an earlier export of the same track. */
function freshRows(book: Book, log: string, mapping: LogMapping, channels: readonly Channel[], all: Rows): Rows {
  const names = channels.map((channel) => channel.name);
  const candidates = mayShare(book, mapping, channels, [log]);
  if (candidates.length === 0) return all;
  const counted = new Overlap(book, candidates, names);
  counted.count(all, names);
  return new Overlap(book, counted.recordings, names).fresh(all, names);
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
  const log = open(book, file, sha256, mapping, [], options);
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

function open(
  book: Book,
  file: LogFile,
  sha256: string,
  mapping: LogMapping,
  channels: Channel[],
  options: ImportOptions,
): string {
  const name = options.name ?? (basename(file.path) || "log");
  return book.logs.open({
    name,
    source: basename(file.path),
    fingerprint: `sha256:${sha256}`,
    channels,
    mapping: mapping as never,
    pull: options.pull,
    day: options.day,
  }).log;
}
