import { createHash } from "node:crypto";
import { InputError } from "../quantity/index.ts";
import type { Kept } from "../record/index.ts";
import { fieldsOf, isKind, type Kind, kindNames } from "../record/index.ts";
import { openBetterSqlite } from "./better-sqlite-driver.ts";
import { faultOfRows, transactionChecksum } from "./checksum.ts";
import type { Context } from "./context.ts";
import type { SqlDriver, SqlValue } from "./driver.ts";
import { CHUNK_ROWS, readChunk } from "./log-chunk.ts";
import { bytesOf, doublesOf } from "./log-codec.ts";
import { channelsOf } from "./log-content.ts";
import { liveRows } from "./log-live.ts";
import { overviewOf, TIMES } from "./log-overview.ts";
import { APPLICATION_ID, migrate, VERSION, versionOf } from "./migrate.ts";
import { columnsOf } from "./projection.ts";

/** How many of each the book holds: two copies of a book have equal counts. */
export interface Counts {
  readonly records: Readonly<Record<string, number>>;
  readonly transactions: number;
  readonly changes: number;
  readonly logRows: number;
  readonly files: number;
}

/** Whether a book is sound, and what it holds. */
export type Soundness =
  | { readonly kind: "sound"; readonly version: number; readonly counts: Counts }
  | { readonly kind: "damaged"; readonly why: string };

/** Only the file's own structure: quick, and enough to tell a file cut short. */
export function checkStructure(driver: SqlDriver): string | undefined {
  return driver.reading(() => faultOfStructure(driver));
}

function faultOfStructure(driver: SqlDriver): string | undefined {
  const found = driver.all<{ quick_check: string }>("PRAGMA quick_check(1)")[0]?.quick_check;
  if (found !== "ok") return found ?? "its structure cannot be read";
  if (driver.get<{ application_id: number }>("PRAGMA application_id")!.application_id !== APPLICATION_ID)
    return "its mark as a book is gone";
  const stated = driver.get<{ value: string }>("SELECT value FROM meta WHERE key = 'version'")?.value;
  if (stated !== String(versionOf(driver))) return "its version is told twice, differently";
  if (schemaOf(driver) !== schemaOfVersion(versionOf(driver))) return "its tables are not those of its version";
  return undefined;
}

const schemaOf = (driver: SqlDriver): string =>
  JSON.stringify(
    driver.all(
      "SELECT type, name, tbl_name, sql FROM sqlite_schema WHERE name NOT LIKE 'sqlite_stat%' ORDER BY type, name",
    ),
  );

const schemas = new Map<number, string>();

/** The tables of a version, as the migrations make them. */
function schemaOfVersion(version: number): string {
  let schema = schemas.get(version);
  if (schema === undefined) {
    const driver = openBetterSqlite(":memory:", { readOnly: false, patience_ms: 0 });
    migrate(driver, version);
    schema = schemaOf(driver);
    driver.close();
    schemas.set(version, schema);
  }
  return schema;
}

/**
 * Everything that can be checked: SQLite's integrity check, every pointer, every checksum of history, files and
 * readings, and that each record is what its history adds up to. For a book of the newest version.
 */
export function checkWhole(context: Context): Soundness {
  const { driver } = context;
  try {
    // At one moment: another program may write between two statements, and what they tell together would be of no book.
    return driver.reading((): Soundness => {
      const why = findFault(context);
      return why === undefined
        ? { kind: "sound", version: VERSION, counts: countsOf(driver) }
        : { kind: "damaged", why };
    });
  } catch (error) {
    // What reading a damaged file can raise; anything else is a fault of the program and must be seen as one.
    const raised = driver.codeOf(error) !== undefined || error instanceof InputError || error instanceof SyntaxError;
    if (!raised) throw error;
    return { kind: "damaged", why: (error as Error).message.replace(`${context.path}: `, "") };
  }
}

function findFault(context: Context): string | undefined {
  const { driver } = context;
  const structure = checkStructure(driver);
  if (structure !== undefined) return structure;
  const integrity = driver.all<{ integrity_check: string }>("PRAGMA integrity_check(1)")[0]?.integrity_check;
  if (integrity !== "ok") return integrity ?? "its structure cannot be read";
  if (driver.all("PRAGMA foreign_key_check").length > 0) return "a record points to one that is not there";
  return (
    faultOfRows(driver) ??
    faultOfHistory(driver) ??
    faultOfRecords(driver) ??
    faultOfFiles(driver) ??
    faultOfLogs(context)
  );
}

function faultOfHistory(driver: SqlDriver): string | undefined {
  for (const transaction of driver.all<{ id: string; crc: number }>("SELECT id, crc FROM act"))
    if (transactionChecksum(driver, transaction.id) !== transaction.crc)
      return `transaction ${transaction.id} does not match its checksum`;
  return undefined;
}

function faultOfRecords(driver: SqlDriver): string | undefined {
  const known = driver.all<{ kind: string; record: string }>("SELECT DISTINCT kind, record FROM change");
  const counted = new Map<string, number>();
  for (const { kind, record } of known) {
    if (!isKind(kind)) return `history names the unknown kind ${kind}`;
    counted.set(kind, (counted.get(kind) ?? 0) + 1);
    const row = driver.get<Record<string, Kept | number>>(`SELECT * FROM "${kind}" WHERE id = ?`, [record]);
    if (!row) return `${kind} ${record} is missing`;
    for (const [name, value] of columnsOf(driver, kind, record))
      if (row[name] !== value) return `${kind} ${record}: ${name} is not what its history says`;
  }
  for (const kind of kindNames)
    if (rowsIn(driver, kind) !== (counted.get(kind) ?? 0)) return `a ${kind} without history`;
  return undefined;
}

function faultOfFiles(driver: SqlDriver): string | undefined {
  for (const { sha256 } of driver.all<{ sha256: string }>("SELECT sha256 FROM file")) {
    const file = driver.get<{ bytes: Uint8Array }>("SELECT bytes FROM file WHERE sha256 = ?", [sha256])!;
    if (createHash("sha256").update(file.bytes).digest("hex") !== sha256)
      return `file ${sha256} does not match its hash`;
  }
  return undefined;
}

function faultOfLogs(context: Context): string | undefined {
  const { driver } = context;
  for (const { log, rows } of driver.all<{ log: string; rows: number }>("SELECT log, rows FROM log_content")) {
    const channels = channelsOf(context, log);
    const names = channels.map((c) => c.name);
    let counted = liveRows(context, log, channels).times.length;
    const sealed = rows - counted;
    for (let n = 0; n * CHUNK_ROWS < sealed; n++) counted += readChunk(context, log, n, names).times.length;
    const stale = staleOverview(driver, log);
    if (stale !== undefined) return stale;
    if (counted !== rows) return `log ${log} holds ${counted} of its ${rows} rows`;
  }
  return undefined;
}

/** The overview follows from the bins, which the checksums vouch for. */
function staleOverview(driver: SqlDriver, log: string): string | undefined {
  let pairs = 0;
  const kept = driver.all<{ channel: string; n: number; bins: Uint8Array }>(
    "SELECT channel, n, bins FROM log_overview WHERE log = ?",
    [log],
  );
  for (const { channel, n, bins } of kept) {
    const [table, condition, parameters] =
      channel === TIMES
        ? ["log_chunk", "log = ? AND n = ?", [log, n]]
        : ["log_column", "log = ? AND n = ? AND channel = ?", [log, n, channel]];
    const source = driver.get<{ bins: Uint8Array }>(
      `SELECT bins FROM ${table} WHERE ${condition}`,
      parameters as SqlValue[],
    );
    if (!source || Buffer.compare(bytesOf(overviewOf(doublesOf(source.bins))), bins) !== 0)
      return `the overview of log ${log} is not that of its readings`;
    pairs++;
  }
  const columns = driver.get<{ n: number }>(
    "SELECT (SELECT count(*) FROM log_chunk WHERE log = ?) + (SELECT count(*) FROM log_column WHERE log = ?) AS n",
    [log, log],
  )!.n;
  return pairs === columns ? undefined : `the overview of log ${log} is not whole`;
}

const rowsIn = (driver: SqlDriver, table: string): number =>
  driver.get<{ n: number }>(`SELECT count(*) AS n FROM "${table}"`)!.n;

export function countsOf(driver: SqlDriver): Counts {
  return driver.reading(() => ({
    records: Object.fromEntries(kindNames.map((kind) => [kind, rowsIn(driver, kind)])),
    transactions: rowsIn(driver, "act"),
    changes: rowsIn(driver, "change"),
    logRows: driver.get<{ n: number }>("SELECT coalesce(sum(rows), 0) AS n FROM log_content")!.n,
    files: rowsIn(driver, "file"),
  }));
}

/** Columns each kind's table must have: held together by a test with the fields of `kinds`. */
export const columnNames = (kind: Kind): string[] => ["id", "hidden", ...fieldsOf(kind).map(([name]) => name)];
