import { InputError } from "../quantity/index.ts";
import type { Change, Kept } from "../record/index.ts";
import { fieldsOf, isKind, type Kind, kindNames } from "../record/index.ts";
import { transactionChecksum } from "./checksum.ts";
import { type Context, timestampNow, writing } from "./context.ts";
import type { SqlDriver } from "./driver.ts";
import { ensureRow, exists, latestOf, projectRecord } from "./projection.ts";

/** What one go of writing wants: the fields of some records, as history keeps them. */
export interface Edit {
  readonly kind: Kind;
  readonly record: string;
  readonly fields: ReadonlyMap<string, Kept>;
}

/** How a transaction came about. */
export type Manner = "edit" | "undo" | "redo";

export interface NewTransaction {
  readonly label: string;
  readonly manner: Manner;
  /** The transaction this one takes back, for `undo` and `redo`. */
  readonly reverts?: string;
}

/**
 * Writes the edits as one transaction: every field that changes is kept with what it was, who changed it and when; what
 * already is so is left out. All of it or nothing.
 * @returns the transaction's id, or null when nothing changed
 */
export function writeTransaction(context: Context, head: NewTransaction, edits: readonly Edit[]): string | null {
  return writing(context, () => {
    const { driver } = context;
    refuseTwice(edits);
    const changes = edits.flatMap((edit) => changesOf(driver, edit));
    if (changes.length === 0 && head.manner === "edit") return null;
    const transaction = {
      id: context.newId(),
      stamp: timestampNow(context),
      device: context.device,
      who: context.who,
      at: new Date(context.ports.clock()).toISOString(),
      label: head.label,
      manner: head.manner,
      reverts: head.reverts ?? null,
    };
    insertTransaction(driver, transaction, changes);
    projectAll(driver, edits);
    checkReferences(driver, edits);
    return transaction.id;
  });
}

/** @throws InputError for a record that is given twice in one go: which of the two is meant, nobody can tell */
function refuseTwice(edits: readonly Edit[]): void {
  const seen = new Set<string>();
  for (const { kind, record } of edits) {
    if (seen.has(record))
      throw new InputError(`${kind} ${record}`, "given twice", "each record once in one go is expected");
    seen.add(record);
  }
}

export interface TransactionHead {
  readonly id: string;
  readonly stamp: string;
  readonly device: string;
  readonly who: string;
  readonly at: string;
  readonly manner: string;
  readonly label: string;
  readonly reverts: string | null;
}

/** A transaction's own fields, in the order of the table's columns. */
export const headValues = (transaction: TransactionHead): (string | null)[] => [
  transaction.id,
  transaction.stamp,
  transaction.device,
  transaction.who,
  transaction.at,
  transaction.manner,
  transaction.label,
  transaction.reverts,
];

/** Puts a transaction and its changes into history as they are. */
export function insertTransaction(driver: SqlDriver, transaction: TransactionHead, changes: readonly Change[]): void {
  driver.run(
    "INSERT INTO act (id, stamp, device, who, at, manner, label, reverts) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
    headValues(transaction),
  );
  for (const c of changes) {
    refuseOtherKind(driver, c);
    driver.run("INSERT INTO change (act, stamp, kind, record, field, was, value) VALUES (?, ?, ?, ?, ?, ?, ?)", [
      transaction.id,
      transaction.stamp,
      c.kind,
      c.record,
      c.field,
      c.was,
      c.value,
    ]);
  }
  driver.run("UPDATE act SET crc = ? WHERE id = ?", [transactionChecksum(driver, transaction.id), transaction.id]);
}

/**
 * A record is of one kind for good, whichever way a change of it comes in.
 * @throws InputError for an id that is known under another kind
 */
function refuseOtherKind(driver: SqlDriver, { kind, record }: Pick<Change, "kind" | "record">): void {
  const other = driver.get<{ kind: string }>("SELECT kind FROM change WHERE record = ? AND kind <> ? LIMIT 1", [
    record,
    kind,
  ]);
  if (other)
    throw new InputError(
      `${kind} ${record}`,
      `the id of a ${other.kind}`,
      `an id of its own, or of a ${kind}, is expected`,
    );
}

/** Brings the rows of all records named up to history; rows first, then what points to them. */
export function projectAll(driver: SqlDriver, records: readonly { kind: Kind; record: string }[]): void {
  const kept = records.filter(({ record }) => !isPurged(driver, record));
  for (const { kind, record } of kept) ensureRow(driver, kind, record);
  for (const { kind, record } of kept) projectRecord(driver, kind, record);
}

export function isPurged(driver: SqlDriver, record: string): boolean {
  return driver.get("SELECT 1 AS found FROM purged WHERE record = ?", [record]) !== undefined;
}

/** The kind of a record this book holds, hidden or not. */
export function kindOf(driver: SqlDriver, record: string): Kind | undefined {
  const kind = driver.get<{ kind: string }>("SELECT kind FROM change WHERE record = ? LIMIT 1", [record])?.kind;
  return kind !== undefined && isKind(kind) ? kind : undefined;
}

function changesOf(driver: SqlDriver, { kind, record, fields }: Edit): Change[] {
  if (isPurged(driver, record))
    throw new InputError(`${kind} ${record}`, "deleted for good", "a record of this book is expected");
  refuseOtherKind(driver, { kind, record });
  const now = latestOf(driver, record);
  const wanted = new Map(fields);
  // A new record begins by not being hidden any more: taking that back hides it.
  if (now.size === 0 && !wanted.has("hidden")) wanted.set("hidden", "false");
  const changes: Change[] = [];
  for (const [field, value] of wanted) {
    const was = now.get(field) ?? (field === "hidden" ? "true" : null);
    // A new record that is hidden from the first says so: nothing said would show it.
    if (was !== value || (field === "hidden" && now.size === 0)) changes.push({ kind, record, field, was, value });
  }
  return changes;
}

/** @throws InputError for a field that points to a record, or a copied file, the book has not */
export function checkReferences(driver: SqlDriver, edits: readonly Edit[]): void {
  for (const { kind, fields } of edits)
    for (const [name, field] of fieldsOf(kind)) {
      const kept = fields.get(name);
      if (kept === undefined || kept === null) continue;
      if (name === "copy" && !driver.get("SELECT 1 AS found FROM file WHERE sha256 = ?", [JSON.parse(kept) as string]))
        throw new InputError(`${kind}.${name}`, "not in this book", field.expects);
      const points = field.refers !== undefined ? [field.refers] : name === "about" ? kindNames : [];
      const target = JSON.parse(kept) as string;
      if (points.length > 0 && !points.some((k) => exists(driver, k, target)))
        throw new InputError(`${kind}.${name}`, target, field.expects);
    }
}
