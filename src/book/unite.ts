import { InputError } from "../quantity/index.ts";
import { type Change, isPurged, type KeptAct, settleAll, writeAct } from "./act.ts";
import type { Context } from "./context.ts";
import type { SqlDriver } from "./driver.ts";
import type { Kind } from "./kinds.ts";
import { type ContentRow, contentRow } from "./log-content.ts";
import { dropFiles, keepPurged, type Purged } from "./purge.ts";

// Books join as sets: the acts of both, less what either deleted for good; each record then follows from the changes
// kept. A union of sets does not ask which came first, in what grouping, or how often.

/** A book's history and files, from wherever they come. */
export interface Heritage {
  readonly acts: Iterable<{ readonly act: KeptAct; readonly changes: readonly Change[] }>;
  readonly purged: Iterable<Purged>;
  readonly files: Iterable<{ readonly sha256: string; readonly size: number; bytes(): Uint8Array }>;
}

export interface United {
  /** Acts this book did not have. */
  readonly acts: number;
  /** Records touched by them. */
  readonly records: number;
  readonly purged: number;
  readonly files: number;
}

/** Takes in another book's history. Run it inside a transaction. */
export function unite(context: Context, other: Heritage): United {
  const { driver } = context;
  let purged = 0;
  for (const mark of other.purged) {
    if (!isPurged(driver, mark.record)) purged++;
    keepPurged(driver, mark);
  }
  const touched = new Map<string, { kind: Kind; record: string }>();
  let acts = 0;
  for (const { act, changes } of other.acts) {
    const known = driver.get<KeptAct>(
      "SELECT id, stamp, device, who, at, manner, label, reverts FROM act WHERE id = ?",
      [act.id],
    );
    if (known) {
      if (headOf(known) !== headOf(act))
        throw new InputError(
          `act ${act.id}`,
          "differs between the two books",
          "books whose history was not altered are expected",
        );
      continue;
    }
    const kept = changes.filter(({ record }) => !isPurged(driver, record));
    writeAct(driver, act, kept);
    acts++;
    for (const { kind, record } of kept) touched.set(record, { kind, record });
  }
  // Changes elsewhere may point to records that only now exist here: settle those that were touched, all rows first.
  settleAll(driver, [...touched.values()]);
  let files = 0;
  for (const { sha256, size, bytes } of other.files) {
    if (driver.get("SELECT 1 AS found FROM file WHERE sha256 = ?", [sha256]) || !isNamed(driver, sha256)) continue;
    driver.run("INSERT INTO file (sha256, size, bytes) VALUES (?, ?, ?)", [sha256, size, bytes()]);
    files++;
  }
  dropFiles(driver);
  return { acts, records: touched.size, purged, files };
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

const headOf = (act: KeptAct): string =>
  JSON.stringify([act.id, act.stamp, act.device, act.who, act.at, act.manner, act.label, act.reverts]);

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
