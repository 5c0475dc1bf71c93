import type { Channel } from "../record/index.ts";
import { type Context, writing } from "./context.ts";
import type { Rows } from "./log-chunk.ts";
import { bytesOf, crcOf, doublesOf } from "./log-codec.ts";
import { appendChunks, channelsOf, checkRows, keepContent, openContent } from "./log-content.ts";
import { damaged } from "./trouble.ts";

/** Live rows move into a chunk when there are so many. */
export const LIVE_ROWS = 1024;

/**
 * Keeps live rows. When it returns, they are on disk: only then may they be shown. Many readings in one call cost one
 * write to the disk between them.
 * @returns rows of the log now on disk
 */
export function recordLive(context: Context, log: string, rows: Rows): number {
  return writing(context, () => {
    const { driver } = context;
    const content = openContent(context, log);
    const channels = channelsOf(context, log);
    checkRows(rows, channels);
    const readings = new Float64Array(channels.length);
    for (let i = 0; i < rows.times.length; i++) {
      channels.forEach(({ name, precision }, c) => {
        const v = rows.columns[name]?.[i] ?? Number.NaN;
        readings[c] = precision === "single" ? Math.fround(v) : v;
      });
      // SQLite keeps no negative zero.
      const time = rows.times[i]! + 0;
      driver.run("INSERT INTO log_live (log, n, t, crc, readings) VALUES (?, ?, ?, ?, ?)", [
        log,
        content.rows + i,
        time,
        crcOf(bytesOf(new Float64Array([time])), bytesOf(readings)),
        bytesOf(readings.slice()),
      ]);
    }
    const total = content.rows + rows.times.length;
    keepContent(driver, log, { ...content, rows: total });
    const waiting = driver.get<{ n: number }>("SELECT count(*) AS n FROM log_live WHERE log = ?", [log])!.n;
    if (waiting >= LIVE_ROWS) sealLive(context, log, channels, total);
    return total;
  });
}

/** The rows that wait, in the order they came. A channel declared after a row was written has no reading in it. */
export function liveRows(context: Context, log: string, channels: readonly Channel[]): Rows {
  const rows = context.driver.all<{ n: number; t: number; crc: number; readings: Uint8Array }>(
    "SELECT n, t, crc, readings FROM log_live WHERE log = ? ORDER BY n",
    [log],
  );
  const times = Float64Array.from(rows, (r) => r.t);
  const columns: Record<string, Float64Array> = Object.create(null);
  for (const { name } of channels) columns[name] = new Float64Array(rows.length).fill(Number.NaN);
  rows.forEach((row, i) => {
    if (crcOf(bytesOf(new Float64Array([row.t])), row.readings) !== row.crc)
      throw damaged(context.path, `row ${row.n} of log ${log} does not match its checksum`);
    const readings = doublesOf(row.readings);
    channels.forEach(({ name }, c) => {
      if (c < readings.length) columns[name]![i] = readings[c]!;
    });
  });
  return { times, columns };
}

/** Moves the rows that wait into the chunks. `total`: rows of the log, those waiting included. */
export function sealLive(context: Context, log: string, channels: readonly Channel[], total: number): void {
  const live = liveRows(context, log, channels);
  if (live.times.length === 0) return;
  appendChunks(context, log, channels, live, total - live.times.length);
  context.driver.run("DELETE FROM log_live WHERE log = ?", [log]);
}
