/**
 * A GPX track into the book, read as a stream: a track of any length takes the memory of one batch. It is read twice:
 * once to know that it is whole and which channels its points state, and once to keep them, batch by batch.
 */
import { setImmediate } from "node:timers/promises";
import { CHANNELS, GpxReader, type MarkedBatch, TRACK_CHANNELS } from "../../log/index.ts";
import type { Channel } from "../../record/index.ts";
import type { Book } from "../book.ts";
import type { Rows } from "../log-chunk.ts";
import type { Imported, ImportOptions } from "./imported.ts";
import type { ReadState } from "./known-reading.ts";
import type { LogFile } from "./log-file.ts";
import { type LogMapping, MAPPING_FORMAT } from "./log-mapping.ts";
import { openWhole } from "./open-whole.ts";
import { Overlap } from "./overlap.ts";
import { BATCH_ROWS } from "./rows-reader.ts";
import { mayShare } from "./same-recording.ts";

const mapping: LogMapping = { format: MAPPING_FORMAT, kind: "gpx", signature: "GPX", clock: "utc" };

/** How far an unfinished reading came: points of the track behind it. */
interface TrackState {
  readonly points: number;
}

/** @throws InputError when it is no whole document, or holds no point with a time */
export async function importTrack(
  book: Book,
  file: LogFile,
  sha256: string,
  options: ImportOptions,
): Promise<Imported> {
  const states = await lookedThrough(file);
  const channels = channelsOf(states);
  const names = channels.map((channel) => channel.name);
  const log = openWhole(book, file, sha256, mapping, channels, options);
  const begun = book.logs.progress(log);
  const before = begun.state as ReadState | null;
  const recordings = before?.recordings ?? (await sharedWith(book, file, log, channels, names));
  const overlap = new Overlap(book, recordings, names);
  const state = (points: number, known: number): ReadState => ({
    sha256,
    reader: { points } satisfies TrackState,
    known,
    recordings,
    marks: [],
  });
  let skip = (before?.reader as TrackState | null)?.points ?? 0;
  let known = before?.known ?? 0;
  let { position, rows } = begun;
  const reader = new GpxReader(file.path);
  const keep = (at: number): void => {
    const all = rowsOf(reader.take(), names);
    // What an earlier reading kept is passed by, and only moves the other recordings along.
    const passed = Math.min(skip, all.times.length);
    skip -= passed;
    overlap.fresh(stretch(all, 0, passed), names);
    const rest = stretch(all, passed, all.times.length);
    const fresh = overlap.fresh(rest, names);
    known += rest.times.length - fresh.times.length;
    const to = Math.max(position, at);
    ({ position, rows } = book.logs.append(log, fresh, { from: position, to, state: state(reader.rows, known) }));
    options.onProgress?.({ position, size: file.size, rows });
  };
  const stopped = () => options.signal?.aborted === true;
  for (const { text, to } of file.texts()) {
    if (stopped()) break;
    reader.write(text);
    if (reader.ready >= BATCH_ROWS && reader.rows > skip) keep(to);
    // Lets a request to stop come in.
    await setImmediate();
  }
  // What is missing at the end shows only here.
  if (!stopped()) reader.close();
  const answer = {
    log,
    from: begun.position,
    size: file.size,
    clock: "utc",
    remembered: false,
    troubles: reader.troubles.count(),
    counts: reader.counts,
    remarks: options.remarks ?? [],
    seen: [],
    ended: reader.ended,
  } as const;
  if (stopped()) return { kind: "stopped", ...answer, rows, known, position };
  if (position < file.size) keep(file.size);
  book.logs.finish(log, state(reader.rows, known));
  return { kind: "imported", ...answer, rows, known, position };
}

/** Reads the document through: it is whole, and says which channels it has. */
async function lookedThrough(file: LogFile): Promise<GpxReader["states"]> {
  const reader = new GpxReader(file.path);
  for (const { text } of file.texts()) {
    reader.write(text);
    reader.take();
    await setImmediate();
  }
  reader.close();
  return reader.states;
}

/** The logs that hold points of this very track, from an earlier export of it. */
async function sharedWith(
  book: Book,
  file: LogFile,
  log: string,
  channels: readonly Channel[],
  names: readonly string[],
): Promise<readonly string[]> {
  const candidates = mayShare(book, mapping, channels, [log]);
  if (candidates.length === 0) return [];
  const overlap = new Overlap(book, candidates, names);
  const reader = new GpxReader(file.path);
  for (const { text } of file.texts()) {
    reader.write(text);
    overlap.count(rowsOf(reader.take(), names), names);
    await setImmediate();
  }
  return overlap.recordings;
}

function channelsOf(states: GpxReader["states"]): Channel[] {
  const all = TRACK_CHANNELS.filter((name) => (name === "speed" || name === "course" ? states[name] : true));
  return all.map((name) => ({
    name,
    quantity: name,
    unit: CHANNELS[name].unit,
    precision: CHANNELS[name].dimension === "place" ? "double" : "single",
  }));
}

function rowsOf({ time, values }: MarkedBatch, names: readonly string[]): Rows {
  const columns = Object.fromEntries(names.map((name) => [name, values[TRACK_CHANNELS.indexOf(name as "speed")]!]));
  return { times: time, columns };
}

function stretch({ times, columns }: Rows, from: number, to: number): Rows {
  const cut = Object.entries(columns).map(([name, column]) => [name, column.subarray(from, to)] as const);
  return { times: times.subarray(from, to), columns: Object.fromEntries(cut) };
}
