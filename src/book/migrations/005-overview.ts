import type { SqlDriver } from "../driver.ts";
import { bytesOf, doublesOf } from "../log-codec.ts";
import { overviewOf, TIMES } from "../log-overview.ts";

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
      bytesOf(overviewOf(doublesOf(bins))),
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
