import type { Channel } from "../record/index.ts";
import type { Context } from "./context.ts";
import type { SqlDriver } from "./driver.ts";
import { extremes } from "./log-bins.ts";
import { bytesOf, crcOf, packReadings, packTimes, unpack } from "./log-codec.ts";
import { overviewOf, TIMES } from "./log-overview.ts";
import type { Tables } from "./tables.ts";
import { damaged } from "./trouble.ts";

/** Rows of a full chunk. */
export const CHUNK_ROWS = 8192;

/** Rows of a log: times in seconds since 1970, UTC, and one column a channel. NaN: no reading. */
export interface Rows {
  readonly times: Float64Array;
  readonly columns: Readonly<Record<string, Float64Array>>;
}

/** The log's n-th stretch of `CHUNK_ROWS` rows; only the last may be shorter. */
export function writeChunk(driver: SqlDriver, log: string, n: number, rows: Rows, channels: readonly Channel[]): void {
  const times = packTimes(rows.times);
  const timeExtremes = extremes(rows.times);
  const timeBins = bytesOf(timeExtremes);
  const [tMin, tMax] = whole(rows.times);
  for (const table of ["log_column", "log_overview"])
    driver.run(`DELETE FROM ${table} WHERE log = ? AND n = ?`, [log, n]);
  keepOverview(driver, log, TIMES, n, timeExtremes);
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
    const valueExtremes = extremes(values);
    const bins = bytesOf(valueExtremes);
    keepOverview(driver, log, channel.name, n, valueExtremes);
    const [vMin, vMax] = whole(values);
    driver.run(
      "INSERT INTO log_column (log, n, channel, vMin, vMax, crc, bins, readings) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
      [log, n, channel.name, vMin, vMax, crcOf(numbers(vMin, vMax), bins, readings), bins, readings],
    );
  }
}

function keepOverview(driver: SqlDriver, log: string, channel: string, n: number, bins: Float64Array): void {
  driver.run("INSERT INTO log_overview (log, channel, n, bins) VALUES (?, ?, ?, ?)", [
    log,
    channel,
    n,
    bytesOf(overviewOf(bins)),
  ]);
}

/** Reads a chunk back; channels that were silent come as NaN throughout. */
export function readChunk(context: Context, log: string, n: number, channels: readonly string[]): Rows {
  const { driver } = context;
  const chunk = driver.get<Omit<Tables["log_chunk"], "log" | "n">>(
    "SELECT rows, tMin, tMax, crc, bins, times FROM log_chunk WHERE log = ? AND n = ?",
    [log, n],
  );
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
