import { InputError } from "../quantity/index.ts";
import { type Change, checkReferences, isPurged, settleAll, writeAct } from "./act.ts";
import { type Context, writing } from "./context.ts";
import { checkFields } from "./field-check.ts";
import { isId } from "./ids.ts";
import { type FieldsOf, fieldsOf, isKind, type Kind } from "./kinds.ts";
import { stampOf } from "./stamp.ts";

/** What a device wrote while it could not reach the book: one act, with an identity of its own. */
export interface OfflineAct {
  /** Made once on the device (a UUID of version 7); the same act sent again is known by it. */
  readonly id: string;
  readonly device: string;
  readonly who: string;
  /** The device's clock when it was written, ISO 8601. */
  readonly at: string;
  readonly label: string;
  readonly records: readonly {
    readonly kind: Kind;
    readonly id: string;
    /** True when the device made the record, false when it changed one. */
    readonly makes: boolean;
    readonly set: FieldsOf<Kind>;
    /** What the device saw in the fields it changed, for undo. */
    readonly was?: FieldsOf<Kind>;
  }[];
}

export type Joined =
  | { readonly kind: "joined"; readonly act: string }
  /** The book has it already: nothing was written. */
  | { readonly kind: "known"; readonly act: string };

/**
 * Joins what was written offline, exactly once however often it is sent. The act keeps the device's own time, so where
 * someone else changed the same field later, the later change stands, and a book that gets the act by another way (a
 * merge) holds the very same act.
 * @throws InputError when it is not such an act, or points to a record the book has not; nothing is written then
 */
export function joinOffline(context: Context, given: OfflineAct): Joined {
  const at = Date.parse(given.at);
  if (!isId(given.id)) throw new InputError("offline.id", String(given.id), "a UUID of version 7 is expected");
  if (!isId(given.device))
    throw new InputError("offline.device", String(given.device), "a UUID of version 7 is expected");
  if (!Number.isFinite(at) || at < 0)
    throw new InputError("offline.at", String(given.at), 'a time such as "2031-05-17T09:30:00Z" is expected');
  return writing(context, () => {
    const known = context.driver.get<{ device: string }>("SELECT device FROM act WHERE id = ?", [given.id]);
    if (known && known.device !== given.device)
      throw new InputError("offline.id", given.id, "an id no other device has used is expected");
    if (known) return { kind: "known", act: given.id };
    // Kept as the device wrote it, whatever this book says meanwhile: every book that gets the act holds the same.
    const changes = given.records.flatMap((record, i) => changesOf(context, record, `offline.records[${i}]`));
    const { id, device, who, label } = given;
    writeAct(
      context.driver,
      { id, stamp: stampOf(at), device, who, at: new Date(at).toISOString(), manner: "offline", label, reverts: null },
      changes,
    );
    settleAll(context.driver, changes);
    for (const c of changes) checkReferences(context.driver, [{ ...c, fields: new Map([[c.field, c.value]]) }]);
    return { kind: "joined", act: given.id };
  });
}

function changesOf(context: Context, record: OfflineAct["records"][number], place: string): Change[] {
  if (!isKind(record.kind)) throw new InputError(`${place}.kind`, String(record.kind), "a kind of record is expected");
  if (!isId(record.id)) throw new InputError(`${place}.id`, String(record.id), "a UUID of version 7 is expected");
  if (isPurged(context.driver, record.id))
    throw new InputError(`${place}.id`, "deleted for good", "a record of this book is expected");
  const fields = new Map(checkFields(record.kind, record.set as Record<string, unknown>, place));
  if (record.makes) {
    for (const [name, field] of fieldsOf(record.kind))
      if (field.required && (fields.get(name) ?? null) === null)
        throw new InputError(`${place}.${name}`, "", field.expects);
    fields.set("hidden", "false");
  } else if (!context.driver.get(`SELECT 1 AS found FROM "${record.kind}" WHERE id = ?`, [record.id]))
    throw new InputError(`${place}.id`, record.id, "the id of a record in this book is expected");
  const was = checkFields(record.kind, (record.was ?? {}) as Record<string, unknown>, `${place}.was`);
  if (record.makes) was.set("hidden", "true");
  return [...fields].map(([field, value]) => ({
    kind: record.kind,
    record: record.id,
    field,
    was: was.get(field) ?? null,
    value,
  }));
}
