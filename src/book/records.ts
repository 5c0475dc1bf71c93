import { InputError, quoted } from "../quantity/index.ts";
import {
  ABOUT,
  type Channel,
  checkFields,
  type FieldsOf,
  fieldOf,
  fieldsOf,
  isId,
  isKind,
  type Kind,
  kindNames,
  type RecordOf,
} from "../record/index.ts";
import { fromColumn } from "./column.ts";
import { asked, type Context, writing } from "./context.ts";
import type { SqlValue } from "./driver.ts";
import { readFileTexts } from "./file-texts.ts";
import { exists, latestOf } from "./projection.ts";
import { type Edit, isPurged, kindOf, writeTransaction } from "./transaction.ts";

type Row = Record<string, SqlValue>;

function plain<K extends Kind>(kind: K, row: Row): RecordOf<K> {
  const record: Record<string, unknown> = { id: row.id, hidden: row.hidden === 1 };
  for (const [name, field] of fieldsOf(kind)) record[name] = fromColumn(field, row[name] ?? null);
  return record as RecordOf<K>;
}

/** One record as it stands, hidden or not; undefined when the book holds none of that kind and id. */
export function getRecord<K extends Kind>(context: Context, kind: K, id: string): RecordOf<K> | undefined {
  return asked(context, () => {
    const row = context.driver.get<Row>(`SELECT * FROM "${kind}" WHERE id = ?`, [id]);
    return row && plain(kind, row);
  });
}

/** Which records of a kind to list. */
export interface Choice<K extends Kind> {
  /** Fields that must have these values. */
  readonly where?: FieldsOf<K>;
  /** `with` lists hidden records too, `only` nothing else. Default: without them. */
  readonly hidden?: "with" | "only";
}

/** The records of a kind in the order they were made. */
export function listRecords<K extends Kind>(context: Context, kind: K, choice: Choice<K> = {}): RecordOf<K>[] {
  const conditions: string[] = [];
  const parameters: SqlValue[] = [];
  if (choice.hidden !== "with") conditions.push(`hidden = ${choice.hidden === "only" ? 1 : 0}`);
  for (const name of Object.keys(choice.where ?? {}))
    if (!fieldOf(kind, name))
      throw new InputError(`${kind}.${name}`, "no such field", "a field of that kind is expected");
  for (const [name, field] of fieldsOf(kind)) {
    const value = (choice.where as Record<string, unknown> | undefined)?.[name];
    if (value === undefined) continue;
    conditions.push(`"${name}" IS ?`);
    const bare = field.column === "JSON" && value !== null ? JSON.stringify(value) : value;
    parameters.push(typeof bare === "boolean" ? Number(bare) : (bare as SqlValue));
  }
  const where = conditions.length > 0 ? ` WHERE ${conditions.join(" AND ")}` : "";
  return asked(context, () =>
    context.driver.all<Row>(`SELECT * FROM "${kind}"${where} ORDER BY id`, parameters).map((row) => plain(kind, row)),
  );
}

/** A record to write: without an id a new one; with the id of a record in the book, a change to it. */
export type Draft = { [K in Kind]: { readonly kind: K; readonly id?: string; readonly set: FieldsOf<K> } }[Kind];

/**
 * Writes several records as one transaction, so that one undo takes all of it back.
 * @returns the transaction (null when nothing changed) and the records' ids, in the order given
 * @throws InputError for a field that is unknown, missing or wrong, or that points to nothing
 */
export function writeRecords(
  context: Context,
  drafts: readonly Draft[],
  label: string,
  place?: string,
): { transaction: string | null; ids: string[] } {
  return writing(context, () => {
    const edits = drafts.map((draft) => editOf(context, draft, place));
    const transaction = writeTransaction(context, { label, manner: "edit" }, edits);
    return { transaction, ids: edits.map((e) => e.record) };
  });
}

/**
 * Checks one draft and makes the edit of it: every write of a record, by whichever way it comes, goes through here.
 * @throws InputError for a field that is unknown, wrong, missing, or never changed once it was given
 */
export function editOf(context: Context, draft: Draft, place: string = draft.kind): Edit & { readonly isNew: boolean } {
  const { kind } = draft;
  if (!isKind(kind)) throw new InputError(place, `kind ${quoted(kind)}`, `one of ${kindNames.join(", ")} is expected`);
  const record = draft.id ?? context.newId();
  if (!isId(record)) throw new InputError(`${place}.id`, quoted(record), "a UUID of version 7 is expected");
  const isNew = !asked(context, () => exists(context.driver, kind, record));
  if (isNew && kind === "about" && record !== ABOUT)
    throw new InputError(`${place}.id`, record, `${ABOUT}, the one record of what a book is, is expected`);
  const standing = latestOf(context.driver, record);
  const fields = checkFields(kind, draft.set as Record<string, unknown>, place, standing);
  for (const [name, field] of fieldsOf(kind)) {
    if (field.required && (isNew ? (fields.get(name) ?? null) === null : fields.get(name) === null))
      throw new InputError(`${place}.${name}`, "", field.expects);
    if (field.once && !isNew && fields.has(name)) refuseChange(context, kind, record, name, fields.get(name)!, place);
  }
  readFileTexts(kind, fields, standing, place);
  if (kind === "log" && !isNew) refuseLostChannels(context, record, fields.get("channels"), `${place}.channels`);
  return { kind, record, fields, isNew };
}

/** Readings lie under their channels' names: channels are renamed by no edit, and none goes; more may come. */
function refuseLostChannels(context: Context, log: string, kept: string | null | undefined, place: string): void {
  if (kept === undefined) return;
  const next = JSON.parse(kept ?? "[]") as Channel[];
  const now = getRecord(context, "log", log)?.channels ?? [];
  for (const [i, { name, precision }] of now.entries())
    if (next[i]?.name !== name || next[i]?.precision !== precision)
      throw new InputError(
        place,
        `${name} changed or left out`,
        "the channels there are, in their order, and any new ones after them are expected",
      );
}

function refuseChange(
  context: Context,
  kind: Kind,
  record: string,
  name: string,
  kept: string | null,
  place: string,
): void {
  const now = (getRecord(context, kind, record) as Record<string, unknown>)[name];
  if (JSON.stringify(now) !== (kept ?? "null"))
    throw new InputError(
      `${place}.${name}`,
      "a change to what was kept whole",
      "a new record beside the old is expected",
    );
}

/** Hides a record (a first delete: it can be shown again) or shows it again. */
export function hideRecord(context: Context, id: string, hidden: boolean): { transaction: string | null } {
  const kind = knownKind(context, id);
  return {
    transaction: writeTransaction(context, { label: `${hidden ? "hide" : "show"} ${kind}`, manner: "edit" }, [
      { kind, record: id, fields: new Map([["hidden", String(hidden)]]) },
    ]),
  };
}

/** @throws InputError when the book holds no such record */
export function knownKind(context: Context, id: string): Kind {
  return asked(context, () => {
    const kind = kindOf(context.driver, id);
    if (kind === undefined || isPurged(context.driver, id))
      throw new InputError(id, "no such record", "the id of a record in this book is expected");
    return kind;
  });
}
