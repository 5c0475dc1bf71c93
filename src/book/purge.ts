import { createHash } from "node:crypto";
import { InputError } from "../quantity/index.ts";
import { actChecksum, sealRow } from "./checksum.ts";
import { asked, type Context, stampNow, writing } from "./context.ts";
import type { SqlDriver } from "./driver.ts";
import { fieldsOf, isKind, type Kind, kindNames } from "./kinds.ts";
import { knownKind } from "./records.ts";
import { winners } from "./settle-record.ts";

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

/** Asks for the first time: nothing is deleted. Only a hidden record can be deleted for good. */
export function askPurge(context: Context, record: string): PurgeQuestion {
  return asked(context, () => {
    const { driver } = context;
    const recordKind = knownKind(context, record);
    if (recordKind === "about")
      throw new InputError(record, "what the book is", "a record that can be deleted is expected");
    if (winners(driver, record).get("hidden") !== "true") return { kind: "notHidden", record, recordKind };
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
 * with. Copies made earlier still hold it.
 * @param token what `askPurge` answered
 * @throws InputError when the record is not hidden, or the token is not of the record as it now stands
 */
export function purge(context: Context, record: string, token: string): { records: number; changes: number } {
  // Freed room is overwritten, so that the bytes are gone from the file too.
  asked(context, () => context.driver.exec("PRAGMA secure_delete = ON"));
  const done = writing(context, () => {
    const question = askPurge(context, record);
    if (question.kind === "notHidden")
      throw new InputError(record, "not hidden", "hide it first: only a hidden record is deleted for good");
    if (token !== question.token)
      throw new InputError(
        "--confirm",
        token,
        `the token asked for when the record was last as it is, ${question.token}, is expected`,
      );
    const going = withParts(context.driver, question.recordKind, record);
    const mark = {
      stamp: stampNow(context),
      device: context.device,
      who: context.who,
      at: new Date(context.ports.clock()).toISOString(),
    };
    for (const [id, kind] of going) keepPurged(context.driver, { record: id, kind, ...mark });
    dropFiles(context.driver);
    return { records: question.records, changes: question.changes };
  });
  asked(context, () => context.driver.exec("PRAGMA wal_checkpoint(TRUNCATE)"));
  return done;
}

export interface Purged {
  readonly record: string;
  readonly kind: string;
  readonly stamp: string;
  readonly device: string;
  readonly who: string;
  readonly at: string;
}

/** Marks a record as deleted for good and removes all the book holds of it. Of two such marks the earlier stays. */
export function keepPurged(driver: SqlDriver, mark: Purged): void {
  const known = driver.get<Purged>("SELECT * FROM purged WHERE record = ?", [mark.record]);
  const key = (m: Purged) => JSON.stringify([m.stamp, m.device, m.who, m.at]);
  if (!known || key(mark) < key(known)) {
    driver.run("INSERT OR REPLACE INTO purged (record, kind, stamp, device, who, at) VALUES (?, ?, ?, ?, ?, ?)", [
      mark.record,
      mark.kind,
      mark.stamp,
      mark.device,
      mark.who,
      mark.at,
    ]);
    sealRow(driver, "purged", mark.record);
  }
  const acts = driver.all<{ act: string }>("SELECT DISTINCT act FROM change WHERE record = ?", [mark.record]);
  driver.run("DELETE FROM change WHERE record = ?", [mark.record]);
  for (const { act } of acts) driver.run("UPDATE act SET crc = ? WHERE id = ?", [actChecksum(driver, act), act]);
  if (isKind(mark.kind)) driver.run(`DELETE FROM "${mark.kind}" WHERE id = ?`, [mark.record]);
  dropReadings(driver, mark.record);
  driver.run("DELETE FROM log_content WHERE log = ?", [mark.record]);
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
