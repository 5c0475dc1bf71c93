import type { Context } from "./context.ts";
import type { SqlDriver } from "./driver.ts";
import type { Channel } from "./kinds.ts";
import { bytesOf, crcOf, packReadings, packTimes, unpack } from "./log-codec.ts";
import { damaged } from "./trouble.ts";

/** Readings of a full chunk, and of one bin of the smallest and largest kept beside it. */
export const CHUNK_ROWS = 8192;
export const BIN_ROWS = 64;

/** Rows of a log: times in seconds since 1970, UTC, and one column a channel. NaN: no reading. */
export interface Rows {
  readonly times: Float64Array;
  readonly columns: Readonly<Record<string, Float64Array>>;
}

/** The log's n-th stretch of `CHUNK_ROWS` rows; only the last may be shorter. */
export function writeChunk(driver: SqlDriver, log: string, n: number, rows: Rows, channels: readonly Channel[]): void {
  const times = packTimes(rows.times);
  const timeBins = bytesOf(extremes(rows.times));
  const [tMin, tMax] = whole(rows.times);
  driver.run("DELETE FROM log_column WHERE log = ? AND n = ?", [log, n]);
  driver.run(
    "INSERT OR REPLACE INTO log_chunk (log, n, rows, tMin, tMax, crc, bins, times) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
    [
      log,
      n,
      rows.times.length,
      tMin,
      tMax,
      crcOf(numbers(rows.times.length, tMin, tMax), timeBins, times),
      timeBins,
      times,
    ],
  );
  for (const channel of channels) {
    const given = rows.columns[channel.name];
    // A channel that is silent for a whole chunk takes no room.
    if (given === undefined || given.every(Number.isNaN)) continue;
    const values = channel.precision === "single" ? Float64Array.from(Float32Array.from(given)) : given;
    const readings = packReadings(values, channel.precision === "single");
    const bins = bytesOf(extremes(values));
    const [vMin, vMax] = whole(values);
    driver.run(
      "INSERT INTO log_column (log, n, channel, vMin, vMax, crc, bins, readings) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
      [log, n, channel.name, vMin, vMax, crcOf(numbers(vMin, vMax), bins, readings), bins, readings],
    );
  }
}

/** Reads a chunk back; channels that were silent come as NaN throughout. */
export function readChunk(context: Context, log: string, n: number, channels: readonly string[]): Rows {
  const { driver } = context;
  const chunk = driver.get<{
    rows: number;
    tMin: number;
    tMax: number;
    crc: number;
    bins: Uint8Array;
    times: Uint8Array;
  }>("SELECT rows, tMin, tMax, crc, bins, times FROM log_chunk WHERE log = ? AND n = ?", [log, n]);
  if (!chunk) throw damaged(context.path, `chunk ${n} of log ${log} is missing`);
  const times = checked(
    context,
    log,
    n,
    chunk.crc,
    [numbers(chunk.rows, chunk.tMin, chunk.tMax), chunk.bins, chunk.times],
    chunk.rows,
  );
  const columns: Record<string, Float64Array> = Object.create(null);
  for (const name of channels) {
    const column = driver.get<{ vMin: number; vMax: number; crc: number; bins: Uint8Array; readings: Uint8Array }>(
      "SELECT vMin, vMax, crc, bins, readings FROM log_column WHERE log = ? AND n = ? AND channel = ?",
      [log, n, name],
    );
    columns[name] = column
      ? checked(
          context,
          log,
          n,
          column.crc,
          [numbers(column.vMin, column.vMax), column.bins, column.readings],
          chunk.rows,
        )
      : new Float64Array(chunk.rows).fill(Number.NaN);
  }
  return { times, columns };
}

function checked(
  context: Context,
  log: string,
  n: number,
  crc: number,
  parts: readonly Uint8Array[],
  rows: number,
): Float64Array {
  if (crcOf(...parts) === crc)
    try {
      const unpacked = unpack(parts.at(-1)!);
      if (unpacked.length === rows) return unpacked;
    } catch {
      // Told below.
    }
  throw damaged(context.path, `chunk ${n} of log ${log} does not match its checksum`);
}

/** Smallest and largest of every bin, in turn; NaN where a bin has no reading. */
export function extremes(values: Float64Array): Float64Array {
  const bins = Math.ceil(values.length / BIN_ROWS);
  const out = new Float64Array(2 * bins);
  for (let b = 0; b < bins; b++) {
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    const end = Math.min(values.length, (b + 1) * BIN_ROWS);
    for (let i = b * BIN_ROWS; i < end; i++) {
      const v = values[i]!;
      if (v < low) low = v;
      if (v > high) high = v;
    }
    out[2 * b] = low <= high ? low : Number.NaN;
    out[2 * b + 1] = low <= high ? high : Number.NaN;
  }
  return out;
}

function whole(values: Float64Array): [number, number] {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const v of values) {
    if (v < low) low = v;
    if (v > high) high = v;
  }
  // SQLite keeps no negative zero.
  return [low + 0, high + 0];
}

function numbers(...values: readonly number[]): Uint8Array {
  return bytesOf(Float64Array.from(values));
}
