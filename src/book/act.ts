import { InputError } from "../quantity/index.ts";
import { actChecksum } from "./checksum.ts";
import { type Context, stampNow, writing } from "./context.ts";
import type { SqlDriver } from "./driver.ts";
import type { Kept } from "./field-check.ts";
import { fieldsOf, isKind, type Kind, kindNames } from "./kinds.ts";
import { exists, place, settleRecord, winners } from "./settle-record.ts";

/** What one go of writing wants: the fields of some records, as history keeps them. */
export interface Edit {
  readonly kind: Kind;
  readonly record: string;
  readonly fields: ReadonlyMap<string, Kept>;
}

/** How an act came about. */
export type Manner = "edit" | "undo" | "redo";

export interface ActHead {
  readonly label: string;
  readonly manner: Manner;
  /** The act this one takes back, for `undo` and `redo`. */
  readonly reverts?: string;
}

/**
 * Writes the edits as one act: every field that changes is kept with what it was, who changed it and when; what
 * already is so is left out. All of it or nothing.
 * @returns the act's id, or null when nothing changed
 */
export function perform(context: Context, head: ActHead, edits: readonly Edit[]): string | null {
  return writing(context, () => {
    const { driver } = context;
    const changes = edits.flatMap((edit) => changesOf(driver, edit));
    if (changes.length === 0 && head.manner === "edit") return null;
    const act = {
      id: context.newId(),
      stamp: stampNow(context),
      device: context.device,
      who: context.who,
      at: new Date(context.ports.clock()).toISOString(),
      label: head.label,
      manner: head.manner,
      reverts: head.reverts ?? null,
    };
    writeAct(driver, act, changes);
    settleAll(driver, edits);
    checkReferences(driver, edits);
    return act.id;
  });
}

export interface Change {
  readonly kind: Kind;
  readonly record: string;
  readonly field: string;
  readonly was: Kept;
  readonly value: Kept;
}

export interface KeptAct {
  readonly id: string;
  readonly stamp: string;
  readonly device: string;
  readonly who: string;
  readonly at: string;
  readonly manner: string;
  readonly label: string;
  readonly reverts: string | null;
}

/** Puts an act and its changes into history as they are. */
export function writeAct(driver: SqlDriver, act: KeptAct, changes: readonly Change[]): void {
  driver.run("INSERT INTO act (id, stamp, device, who, at, manner, label, reverts) VALUES (?, ?, ?, ?, ?, ?, ?, ?)", [
    act.id,
    act.stamp,
    act.device,
    act.who,
    act.at,
    act.manner,
    act.label,
    act.reverts,
  ]);
  for (const c of changes)
    driver.run("INSERT INTO change (act, stamp, kind, record, field, was, value) VALUES (?, ?, ?, ?, ?, ?, ?)", [
      act.id,
      act.stamp,
      c.kind,
      c.record,
      c.field,
      c.was,
      c.value,
    ]);
  driver.run("UPDATE act SET crc = ? WHERE id = ?", [actChecksum(driver, act.id), act.id]);
}

/** Brings the rows of all records named up to history; rows first, then what points to them. */
export function settleAll(driver: SqlDriver, records: readonly { kind: Kind; record: string }[]): void {
  const kept = records.filter(({ record }) => !isPurged(driver, record));
  for (const { kind, record } of kept) place(driver, kind, record);
  for (const { kind, record } of kept) settleRecord(driver, kind, record);
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
  const now = winners(driver, record);
  const wanted = new Map(fields);
  // A new record begins by not being hidden any more: taking that back hides it.
  if (now.size === 0 && !wanted.has("hidden")) wanted.set("hidden", "false");
  const changes: Change[] = [];
  for (const [field, value] of wanted) {
    const was = now.get(field) ?? (field === "hidden" ? "true" : null);
    if (was !== value) changes.push({ kind, record, field, was, value });
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
