import { InputError, quoted } from "../quantity/index.ts";
import { type Change, type Channel, fieldOf, type Kind } from "../record/index.ts";
import { checkPurged, checkTransaction } from "./check-history.ts";
import type { Context } from "./context.ts";
import type { SqlDriver } from "./driver.ts";
import { type ContentRow, contentRow } from "./log-content.ts";
import { latestOf } from "./projection.ts";
import { dropFiles, keepPurged, type Purged } from "./purge.ts";
import { headValues, insertTransaction, isPurged, projectAll, type TransactionHead } from "./transaction.ts";

// Books join as sets: the transactions of both, less what either deleted for good; each record then follows from the changes
// kept. A union of sets does not ask which came first, in what grouping, or how often.

/** A book's history and files, from wherever they come. */
export interface Heritage {
  readonly transactions: Iterable<{
    readonly transaction: TransactionHead;
    readonly changes: readonly Change[];
    /** Where it was read: told when something is wrong with it. */
    readonly place?: string;
  }>;
  readonly purged: Iterable<Purged>;
  readonly files: Iterable<{ readonly sha256: string; readonly size: number; bytes(): Uint8Array }>;
}

export interface United {
  /** Transactions this book did not have. */
  readonly transactions: number;
  /** Records touched by them. */
  readonly records: number;
  readonly purged: number;
  readonly files: number;
}

/** Takes in another book's history. Run it inside a transaction. */
export function unite(context: Context, other: Heritage): United {
  const { driver } = context;
  let purged = 0;
  for (const deletion of other.purged) {
    checkPurged(deletion);
    if (!isPurged(driver, deletion.record)) purged++;
    keepPurged(driver, deletion);
  }
  const touched = new Map<string, { kind: Kind; record: string }>();
  let transactions = 0;
  for (const { transaction, changes, place } of other.transactions) {
    const known = driver.get<TransactionHead>(
      "SELECT id, stamp, device, who, at, manner, label, reverts FROM act WHERE id = ?",
      [transaction.id],
    );
    if (known) {
      if (headOf(known) !== headOf(transaction))
        throw new InputError(
          `transaction ${transaction.id}`,
          "differs between the two books",
          "books whose history was not altered are expected",
        );
      continue;
    }
    checkTransaction(transaction, changes, place);
    const kept = changes.filter(({ record }) => !isPurged(driver, record));
    for (const change of kept) refuseRewritten(driver, change);
    insertTransaction(driver, transaction, kept);
    transactions++;
    for (const { kind, record } of kept) touched.set(record, { kind, record });
  }
  // Changes elsewhere may point to records that only now exist here: settle those that were touched, all rows first.
  projectAll(driver, [...touched.values()]);
  for (const { kind, record } of touched.values()) if (kind === "log") refuseLostReadings(driver, record);
  let files = 0;
  for (const { sha256, size, bytes } of other.files) {
    if (driver.get("SELECT 1 AS found FROM file WHERE sha256 = ?", [sha256]) || !isNamed(driver, sha256)) continue;
    driver.run("INSERT INTO file (sha256, size, bytes) VALUES (?, ?, ?)", [sha256, size, bytes()]);
    files++;
  }
  dropFiles(driver);
  return { transactions, records: touched.size, purged, files };
}

/**
 * What is kept whole is the same in every book that has it.
 * @throws InputError for history that gives it another value
 */
function refuseRewritten(driver: SqlDriver, { kind, record, field, value }: Change): void {
  if (!fieldOf(kind, field)?.once) return;
  const now = latestOf(driver, record).get(field) ?? null;
  if (now !== null && now !== value)
    throw new InputError(`${kind} ${record}: ${field}`, "a change to what was kept whole", "a new record is expected");
}

/**
 * Readings lie under their channels' names.
 * @throws InputError for history that would leave the book with readings of a channel that the log no longer has
 */
function refuseLostReadings(driver: SqlDriver, log: string): void {
  const names = new Set(
    (
      JSON.parse(
        driver.get<{ channels: string | null }>("SELECT channels FROM log WHERE id = ?", [log])?.channels ?? "[]",
      ) as Channel[]
    ).map(({ name }) => name),
  );
  for (const { channel } of driver.all<{ channel: string }>("SELECT DISTINCT channel FROM log_column WHERE log = ?", [
    log,
  ]))
    if (!names.has(channel))
      throw new InputError(
        `log ${log}: channels`,
        `without ${quoted(channel)}`,
        "every channel that has readings is expected",
      );
}

/** Which of two accounts of one log's readings has come further. */
export function isAhead(mine: ContentRow, theirs: ContentRow, tie: () => boolean): boolean {
  for (const key of ["rows", "finished", "position"] as const)
    if (mine[key] !== theirs[key]) return mine[key] > theirs[key];
  if (mine.state !== theirs.state) return (mine.state ?? "") > (theirs.state ?? "");
  return tie();
}

/** The readings of a log the book has none of yet begin from nothing; of a purged or unknown log none are taken. */
export function startOf(driver: SqlDriver, log: string): ContentRow | undefined {
  if (!driver.get("SELECT 1 AS found FROM log WHERE id = ?", [log])) return undefined;
  return contentRow(driver, log) ?? { rows: -1, position: 0, state: null, finished: 0 };
}

const headOf = (transaction: TransactionHead): string => JSON.stringify(headValues(transaction));

/** True when a kept change names the copied file; that of a picture deleted for good is not taken. */
function isNamed(driver: SqlDriver, sha256: string): boolean {
  const named = JSON.stringify(sha256);
  return (
    driver.get(
      "SELECT 1 AS found FROM change WHERE kind = 'picture' AND field = 'copy' AND (value = ? OR was = ?) LIMIT 1",
      [named, named],
    ) !== undefined
  );
}
