import { InputError } from "../quantity/index.ts";
import type { Channel } from "../record/index.ts";
import { crcOfValues } from "./checksum.ts";
import type { Context } from "./context.ts";
import type { SqlDriver } from "./driver.ts";
import { CHUNK_ROWS, type Rows, readChunk, writeChunk } from "./log-chunk.ts";

/** How far a log's readings have come: kept in one transaction with the readings themselves. */
export interface LogProgress {
  readonly log: string;
  /** `new` was just made; `begun` waits for more; `finished` takes no more. */
  readonly kind: "new" | "begun" | "finished";
  /** Rows in the book, each on disk. */
  readonly rows: number;
  /** How far the source has been read, in its own measure (bytes of a file, say). */
  readonly position: number;
  /** What the reader of the source needs to go on from `position`; null when nothing. */
  readonly state: unknown;
}

export interface ContentRow {
  rows: number;
  position: number;
  state: string | null;
  finished: number;
}

export const contentRow = (driver: SqlDriver, log: string): ContentRow | undefined =>
  driver.get<ContentRow>("SELECT rows, position, state, finished FROM log_content WHERE log = ?", [log]);

/** @throws InputError when the book holds no such log */
export function logProgress(context: Context, log: string): LogProgress {
  channelsOf(context, log);
  const content = contentRow(context.driver, log);
  return {
    log,
    kind: content?.finished === 1 ? "finished" : "begun",
    rows: content?.rows ?? 0,
    position: content?.position ?? 0,
    state: content?.state ? JSON.parse(content.state) : null,
  };
}

/** The channels a log declares. */
export function channelsOf(context: Context, log: string): Channel[] {
  const row = context.driver.get<{ channels: string | null }>("SELECT channels FROM log WHERE id = ?", [log]);
  if (!row) throw new InputError(log, "no such log", "the id of a log in this book is expected");
  return row.channels === null ? [] : (JSON.parse(row.channels) as Channel[]);
}

/** The content row of a log that may still grow, as it will be once first written. */
export function openContent(context: Context, log: string): ContentRow {
  channelsOf(context, log);
  const content = contentRow(context.driver, log) ?? { rows: 0, position: 0, state: null, finished: 0 };
  if (content.finished === 1) throw new InputError(log, "a finished log", "a log that is still open is expected");
  return content;
}

/** Keeps how far a log has come. */
export function keepContent(driver: SqlDriver, log: string, content: ContentRow): void {
  const { rows, position, state, finished } = content;
  driver.run(
    "INSERT OR REPLACE INTO log_content (log, rows, position, state, finished, crc) VALUES (?, ?, ?, ?, ?, ?)",
    [log, rows, position, state, finished, crcOfValues(log, rows, position, state, finished)],
  );
}

/** Appends to the chunks, filling the last one first; returns the rows there are then. */
export function appendChunks(
  context: Context,
  log: string,
  channels: readonly Channel[],
  rows: Rows,
  before: number,
): number {
  const { driver } = context;
  let n = Math.floor(before / CHUNK_ROWS);
  const begun = before % CHUNK_ROWS;
  const names = channels.map((c) => c.name);
  let pending = begun > 0 ? join(readChunk(context, log, n, names), rows, names) : rows;
  const total = before + rows.times.length;
  while (pending.times.length > 0) {
    writeChunk(driver, log, n++, slice(pending, 0, CHUNK_ROWS), channels);
    pending = slice(pending, CHUNK_ROWS, pending.times.length);
  }
  return total;
}

/** @throws InputError for a time that is no number, an undeclared channel, columns of unequal length */
export function checkRows(rows: Rows, channels: readonly Channel[]): void {
  for (const t of rows.times)
    if (!Number.isFinite(t))
      throw new InputError("log.times", String(t), "a time in s since 1970 is expected in every row");
  for (const [name, column] of Object.entries(rows.columns)) {
    if (!channels.some((c) => c.name === name))
      throw new InputError(
        `log.columns.${name}`,
        "not declared",
        `one of ${channels.map((c) => c.name).join(", ")} is expected`,
      );
    if (column.length !== rows.times.length)
      throw new InputError(
        `log.columns.${name}`,
        `${column.length} readings`,
        `${rows.times.length}, one a row, are expected`,
      );
    for (const v of column)
      if (v === Number.POSITIVE_INFINITY || v === Number.NEGATIVE_INFINITY)
        throw new InputError(`log.columns.${name}`, String(v), "a number, or none, is expected");
  }
}

export function slice(rows: Rows, from: number, to: number): Rows {
  const columns: Record<string, Float64Array> = Object.create(null);
  for (const [name, column] of Object.entries(rows.columns)) columns[name] = column.subarray(from, to);
  return { times: rows.times.subarray(from, to), columns };
}

function join(head: Rows, tail: Rows, names: readonly string[]): Rows {
  const length = head.times.length + tail.times.length;
  const both = (a: Float64Array | undefined, b: Float64Array | undefined): Float64Array => {
    const out = new Float64Array(length).fill(Number.NaN);
    if (a) out.set(a);
    if (b) out.set(b, head.times.length);
    return out;
  };
  const columns: Record<string, Float64Array> = Object.create(null);
  for (const name of names) columns[name] = both(head.columns[name], tail.columns[name]);
  return { times: both(head.times, tail.times), columns };
}
