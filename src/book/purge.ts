import { createHash } from "node:crypto";
import { InputError } from "../quantity/index.ts";
import { fieldsOf, isKind, type Kind, kindNames } from "../record/index.ts";
import { sealRow, transactionChecksum } from "./checksum.ts";
import { asked, type Context, plainly, timestampNow, writing } from "./context.ts";
import type { SqlDriver } from "./driver.ts";
import { latestOf } from "./projection.ts";
import { knownKind } from "./records.ts";
import { scrub } from "./scrub.ts";

/** What deleting for good would take, and the token that says it was read. */
export type PurgeQuestion =
  | { readonly kind: "notHidden"; readonly record: string; readonly recordKind: Kind }
  | {
      readonly kind: "ask";
      readonly record: string;
      readonly recordKind: Kind;
      /** Records that go: the one named and those that are parts of it (the marks of a log, the versions of a rig). */
      readonly records: number;
      readonly changes: number;
      readonly logRows: number;
      /** Records that point to one of these and will point to nothing. */
      readonly pointing: number;
      /** To be given back; it holds only as long as none of the records changes. */
      readonly token: string;
    };

/** What deleting for good took. */
export interface PurgeDone {
  readonly records: number;
  readonly changes: number;
  /** True when bytes may still lie in the file or its journal, because another program was reading or the disk was full. */
  readonly leftover: boolean;
}

/** Asks for the first time: nothing is deleted. Only a hidden record can be deleted for good. */
export function askPurge(context: Context, record: string): PurgeQuestion {
  return asked(context, () => {
    const { driver } = context;
    const recordKind = knownKind(context, record);
    if (recordKind === "about")
      throw new InputError(record, "what the book is", "a record that can be deleted is expected");
    if (latestOf(driver, record).get("hidden") !== "true") return { kind: "notHidden", record, recordKind };
    const going = withParts(driver, recordKind, record);
    const hash = createHash("sha256");
    let changes = 0;
    let logRows = 0;
    let pointing = 0;
    for (const id of going.keys()) {
      for (const row of driver.all<{ act: string; field: string }>(
        "SELECT act, field FROM change WHERE record = ? ORDER BY act, field",
        [id],
      )) {
        hash.update(`${id} ${row.act} ${row.field}\n`);
        changes++;
      }
      logRows += driver.get<{ rows: number }>("SELECT rows FROM log_content WHERE log = ?", [id])?.rows ?? 0;
      pointing += pointersTo(driver, id).filter((pointer) => !going.has(pointer)).length;
    }
    return {
      kind: "ask",
      record,
      recordKind,
      records: going.size,
      changes,
      logRows,
      pointing,
      token: hash.digest("hex").slice(0, 8),
    };
  });
}

/**
 * Deletes a hidden record for good, its history and its readings with it, here and in every book this one is merged
 * with; its bytes are gone from the file too. Copies made earlier still hold it, and the labels of what was written stay.
 * @param token what `askPurge` answered
 * @throws InputError when the record is not hidden, or the token is not of the record as it now stands
 */
export function purge(context: Context, record: string, token: string): PurgeDone {
  // Freed room is overwritten, so that the bytes are gone from the file too.
  plainly(context, () => context.driver.exec("PRAGMA secure_delete = ON"));
  const done = writing(context, () => {
    const question = askPurge(context, record);
    if (question.kind === "notHidden")
      throw new InputError(record, "not hidden", "hide it first: only a hidden record is deleted for good");
    if (token !== question.token)
      throw new InputError(
        "--confirm",
        token,
        "the token of the first asking is expected, and the record as it was then; ask again without --confirm",
      );
    const going = withParts(context.driver, question.recordKind, record);
    const by = {
      stamp: timestampNow(context),
      device: context.device,
      who: context.who,
      at: new Date(context.ports.clock()).toISOString(),
    };
    for (const [id, kind] of going) keepPurged(context.driver, { record: id, kind, ...by });
    dropFiles(context.driver);
    return { records: question.records, changes: question.changes };
  });
  return { ...done, leftover: !scrub(context) };
}

export interface Purged {
  readonly record: string;
  readonly kind: string;
  readonly stamp: string;
  readonly device: string;
  readonly who: string;
  readonly at: string;
}

/** Keeps that a record is deleted for good and removes all the book holds of it. Of two such accounts the earlier stays. */
export function keepPurged(driver: SqlDriver, deletion: Purged): void {
  const known = driver.get<Purged>("SELECT * FROM purged WHERE record = ?", [deletion.record]);
  const key = (m: Purged) => JSON.stringify([m.stamp, m.device, m.who, m.at]);
  if (!known || key(deletion) < key(known)) {
    driver.run("INSERT OR REPLACE INTO purged (record, kind, stamp, device, who, at) VALUES (?, ?, ?, ?, ?, ?)", [
      deletion.record,
      deletion.kind,
      deletion.stamp,
      deletion.device,
      deletion.who,
      deletion.at,
    ]);
    sealRow(driver, "purged", deletion.record);
  }
  // By what this book knows of it: the mark may come from elsewhere.
  const kindsHeld = driver.all<{ kind: string }>("SELECT DISTINCT kind FROM change WHERE record = ?", [
    deletion.record,
  ]);
  const transactions = driver.all<{ act: string }>("SELECT DISTINCT act FROM change WHERE record = ?", [
    deletion.record,
  ]);
  driver.run("DELETE FROM change WHERE record = ?", [deletion.record]);
  for (const { act: transaction } of transactions)
    driver.run("UPDATE act SET crc = ? WHERE id = ?", [transactionChecksum(driver, transaction), transaction]);
  for (const { kind } of kindsHeld)
    if (isKind(kind)) driver.run(`DELETE FROM "${kind}" WHERE id = ?`, [deletion.record]);
  dropReadings(driver, deletion.record);
  driver.run("DELETE FROM log_content WHERE log = ?", [deletion.record]);
}

export function dropReadings(driver: SqlDriver, log: string): void {
  for (const table of ["log_chunk", "log_column", "log_overview", "log_live"])
    driver.run(`DELETE FROM ${table} WHERE log = ?`, [log]);
}

/** Lets go of copied files that no kept change names. */
export function dropFiles(driver: SqlDriver): void {
  driver.run(
    `DELETE FROM file WHERE '"' || sha256 || '"' NOT IN
       (SELECT value FROM change WHERE kind = 'picture' AND field = 'copy' AND value IS NOT NULL
        UNION SELECT was FROM change WHERE kind = 'picture' AND field = 'copy' AND was IS NOT NULL)`,
  );
}

function withParts(driver: SqlDriver, kind: Kind, record: string): Map<string, Kind> {
  const going = new Map<string, Kind>([[record, kind]]);
  const part =
    kind === "log" ? (["mark", "log"] as const) : kind === "rig" ? (["rigVersion", "rig"] as const) : undefined;
  if (part)
    for (const { id } of driver.all<{ id: string }>(`SELECT id FROM "${part[0]}" WHERE "${part[1]}" = ?`, [record]))
      going.set(id, part[0]);
  return going;
}

function pointersTo(driver: SqlDriver, record: string): string[] {
  const found: string[] = [];
  for (const kind of kindNames)
    for (const [name, field] of fieldsOf(kind))
      if (field.refers !== undefined || name === "about")
        for (const { id } of driver.all<{ id: string }>(`SELECT id FROM "${kind}" WHERE "${name}" = ?`, [record]))
          found.push(id);
  return found;
}
