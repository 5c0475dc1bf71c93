import type { Change } from "../record/index.ts";
import { type Context, writing } from "./context.ts";
import { logDigest, logsWithContent } from "./digest.ts";
import type { SqlDriver, SqlValue } from "./driver.ts";
import { appendChunks, channelsOf, contentRow, keepContent } from "./log-content.ts";
import { liveRows, sealLive } from "./log-live.ts";
import { dropReadings, type Purged } from "./purge.ts";
import { scrub } from "./scrub.ts";
import type { TransactionHead } from "./transaction.ts";
import { type Heritage, isAhead, startOf, type United, unite } from "./unite.ts";

/** What a merge took in. */
export interface Merged extends United {
  /** Logs whose readings were taken from the other book. */
  readonly logs: number;
  /** Sources that both books had imported, each on its own: two logs of the same readings. */
  readonly doubles: readonly { readonly fingerprint: string; readonly logs: readonly string[] }[];
}

/**
 * Takes all another book holds into this one, in one transaction. Of a field both changed, the later change stands; the
 * history of both is kept; what either deleted for good is gone. The other book is only read.
 * Merging is commutative, associative and idempotent (tested by `bookDigest`).
 */
export function mergeBook(context: Context, other: Context): Merged {
  const merged = writing(context, () =>
    other.driver.reading(() => {
      const { driver } = context;
      // Rows that wait are bound to the order of channels, which the other book may change.
      for (const { log } of logsWithContent(driver))
        sealLive(context, log, channelsOf(context, log), contentRow(driver, log)!.rows);
      const united = unite(context, heritageOf(other.driver));
      let logs = 0;
      for (const { log } of logsWithContent(other.driver)) if (takeReadings(context, other, log)) logs++;
      return { ...united, logs, doubles: doublesIn(driver) };
    }),
  );
  if (merged.purged > 0) scrub(context);
  return merged;
}

/** A book's history and files, read one by one. */
export function heritageOf(driver: SqlDriver): Heritage {
  return {
    transactions: transactionsOf(driver),
    purged: driver.all<Purged>("SELECT record, kind, stamp, device, who, at FROM purged ORDER BY record"),
    files: filesOf(driver),
  };
}

function* transactionsOf(driver: SqlDriver): Generator<{ transaction: TransactionHead; changes: Change[] }> {
  const transactions = driver.each<TransactionHead>(
    "SELECT id, stamp, device, who, at, manner, label, reverts FROM act ORDER BY stamp, id",
  );
  for (const transaction of transactions) yield { transaction, changes: changesIn(driver, transaction.id) };
}

export function changesIn(driver: SqlDriver, transaction: string): Change[] {
  return driver.all<Change>("SELECT kind, record, field, was, value FROM change WHERE act = ? ORDER BY record, field", [
    transaction,
  ]);
}

function* filesOf(driver: SqlDriver): Generator<{ sha256: string; size: number; bytes(): Uint8Array }> {
  for (const { sha256, size } of driver.all<{ sha256: string; size: number }>(
    "SELECT sha256, size FROM file ORDER BY sha256",
  ))
    yield {
      sha256,
      size,
      bytes: () => driver.get<{ bytes: Uint8Array }>("SELECT bytes FROM file WHERE sha256 = ?", [sha256])!.bytes,
    };
}

/** The tables that hold a log's sealed readings. */
const CONTENTS = {
  log_chunk: "log, n, rows, tMin, tMax, crc, bins, times",
  log_column: "log, n, channel, vMin, vMax, crc, bins, readings",
  log_overview: "log, channel, n, bins",
};

/**
 * Readings are only ever appended, by the one device that reads the source, so of two accounts of a log the longer holds
 * the shorter; should they differ all the same, both books end with the same one.
 */
function takeReadings(context: Context, other: Context, log: string): boolean {
  const { driver } = context;
  const mine = startOf(driver, log);
  if (!mine) return false;
  const theirs = contentRow(other.driver, log)!;
  if (isAhead(mine, theirs, () => logDigest(context, log) >= logDigest(other, log))) return false;
  dropReadings(driver, log);
  for (const [table, columns] of Object.entries(CONTENTS)) {
    const places = columns.split(",").map(() => "?");
    const insert = `INSERT INTO ${table} (${columns}) VALUES (${places.join(", ")})`;
    for (const row of other.driver.each<Record<string, SqlValue>>(`SELECT ${columns} FROM ${table} WHERE log = ?`, [
      log,
    ]))
      driver.run(insert, Object.values(row));
  }
  const waiting = liveRows(other, log, channelsOf(other, log));
  appendChunks(context, log, channelsOf(context, log), waiting, theirs.rows - waiting.times.length);
  keepContent(driver, log, theirs);
  return true;
}

function doublesIn(driver: SqlDriver): Merged["doubles"] {
  return driver
    .all<{ fingerprint: string }>(
      "SELECT fingerprint FROM log WHERE fingerprint IS NOT NULL AND hidden = 0 GROUP BY fingerprint HAVING count(*) > 1",
    )
    .map(({ fingerprint }) => ({
      fingerprint,
      logs: driver
        .all<{ id: string }>("SELECT id FROM log WHERE fingerprint = ? AND hidden = 0 ORDER BY id", [fingerprint])
        .map(({ id }) => id),
    }));
}
