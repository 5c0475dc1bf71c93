import type { SqlDriver } from "../driver.ts";

// All this step needs stands here, as it was when version 5 came: what the program does today may change, this may not.

/** Bins of 64 rows that one pair of the overview joins: 1024 rows. */
const JOINED = 16;
/** The name the times of a log have among its channels. */
const TIMES = "";

/** Version 5: an overview of each log, small rows by themselves, so that a picture of all of it reads no readings. */
export function overview(driver: SqlDriver): void {
  driver.exec(`
CREATE TABLE log_overview (
  log TEXT NOT NULL, channel TEXT NOT NULL, n INTEGER NOT NULL,
  bins BLOB NOT NULL,
  PRIMARY KEY (log, channel, n)
) STRICT, WITHOUT ROWID;
`);
  const keep = (log: string, channel: string, n: number, bins: Uint8Array): void =>
    void driver.run("INSERT INTO log_overview (log, channel, n, bins) VALUES (?, ?, ?, ?)", [
      log,
      channel,
      n,
      joined(bins),
    ]);
  for (const { log, n } of driver.all<{ log: string; n: number }>("SELECT log, n FROM log_chunk")) {
    const chunk = driver.get<{ bins: Uint8Array }>("SELECT bins FROM log_chunk WHERE log = ? AND n = ?", [log, n])!;
    keep(log, TIMES, n, chunk.bins);
    for (const column of driver.all<{ channel: string; bins: Uint8Array }>(
      "SELECT channel, bins FROM log_column WHERE log = ? AND n = ?",
      [log, n],
    ))
      keep(log, column.channel, n, column.bins);
  }
}

/** Pairs of smallest and largest, Float64 little-endian, NaN for none: from those of 64 rows to those of 1024. */
function joined(bytes: Uint8Array): Uint8Array {
  const bins = new Float64Array(bytes.slice().buffer);
  const out = new Float64Array(2 * Math.ceil(bins.length / 2 / JOINED)).fill(Number.NaN);
  for (let b = 0; b < bins.length; b += 2) {
    const o = 2 * Math.floor(b / 2 / JOINED);
    if (Number.isNaN(bins[b]!)) continue;
    if (!(out[o]! <= bins[b]!)) out[o] = bins[b]!;
    if (!(out[o + 1]! >= bins[b + 1]!)) out[o + 1] = bins[b + 1]!;
  }
  return new Uint8Array(out.buffer);
}
