import { InputError, nth, quoted } from "../quantity/index.ts";
import {
  type Change,
  type FieldsOf,
  fieldOf,
  isId,
  isKept,
  isKind,
  type Kept,
  type Kind,
  LATEST_MS,
  timestampOf,
} from "../record/index.ts";
import { type Context, writing } from "./context.ts";
import { type Draft, editOf } from "./records.ts";
import { checkReferences, insertTransaction, isPurged, projectAll } from "./transaction.ts";

/** What a device wrote while it could not reach the book: one transaction, with an identity of its own. */
export interface OfflineTransaction {
  /** Made once on the device (a UUID of version 7); the same one sent again is known by it. */
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

/** What became of an act written offline. */
export interface Joined {
  /** `known`: the book has it already, nothing was written. */
  readonly kind: "joined" | "known";
  readonly transaction: string;
  /** How far the device's clock is ahead of this one, s; absent when they go together. Its changes win until then. */
  readonly ahead_s?: number;
}

/** A device's clock ahead of this one by more than this is remarked on, ms. */
const AHEAD = 120_000;

/**
 * Joins what was written offline, exactly once however often it is sent. The transaction keeps the device's own time, so where
 * someone else changed the same field later, the later change stands, and a book that gets the transaction by another way (a
 * merge) holds the very same one.
 * @throws InputError when it is not such a transaction, or points to a record the book has not; nothing is written then
 */
export function joinOffline(context: Context, given: OfflineTransaction): Joined {
  const at = Date.parse(given.at);
  if (!isId(given.id)) throw new InputError("offline.id", quoted(given.id), "a UUID of version 7 is expected");
  if (!isId(given.device))
    throw new InputError("offline.device", quoted(given.device), "a UUID of version 7 is expected");
  if (!(at >= 0 && at <= LATEST_MS))
    throw new InputError("offline.at", quoted(given.at), 'a time such as "2031-05-17T09:30:00Z" is expected');
  const ahead_ms = at - context.ports.clock();
  const ahead = ahead_ms > AHEAD ? { ahead_s: Math.round(ahead_ms / 1000) } : {};
  return writing(context, () => {
    refuseOthersDevice(context, given);
    const known = context.driver.get<{ device: string }>("SELECT device FROM act WHERE id = ?", [given.id]);
    if (known && known.device !== given.device)
      throw new InputError("offline.id", given.id, "an id no other device has used is expected");
    if (known) return { kind: "known", transaction: given.id, ...ahead };
    // Kept as the device wrote it, whatever this book says meanwhile: every book that gets the transaction holds the same.
    const changes = gathered(given.records).flatMap((record, i) =>
      changesOf(context, record, `offline.records${nth(i)}`),
    );
    const { id, device, who, label } = given;
    insertTransaction(
      context.driver,
      {
        id,
        stamp: timestampOf(at),
        device,
        who,
        at: new Date(at).toISOString(),
        manner: "offline",
        label,
        reverts: null,
      },
      changes,
    );
    projectAll(context.driver, changes);
    for (const c of changes) checkReferences(context.driver, [{ ...c, fields: new Map([[c.field, c.value]]) }]);
    return { kind: "joined", transaction: given.id, ...ahead };
  });
}

/**
 * Each device undoes its own, so none may write under the id of the book's own computer, nor of another that writes to it
 * directly. What writes offline has an id of its own that nobody else is told.
 */
function refuseOthersDevice(context: Context, { device, who }: OfflineTransaction): void {
  const taken =
    device === context.device ||
    context.driver.get("SELECT 1 AS found FROM act WHERE device = ? AND manner <> 'offline' AND who <> ? LIMIT 1", [
      device,
      who,
    ]) !== undefined;
  if (taken) throw new InputError("offline.device", device, "the device's own id, not another's, is expected");
}

type Written = OfflineTransaction["records"][number];

/**
 * What a device wrote of each record in one go. It may have written of one record more than once: the later value of a
 * field stands, over what the device saw first.
 */
function gathered(records: readonly Written[]): Written[] {
  const out = new Map<string, Written>();
  for (const [i, record] of records.entries()) {
    const place = `offline.records${nth(i)}`;
    if (!isKind(record.kind))
      throw new InputError(`${place}.kind`, quoted(record.kind), "a kind of record is expected");
    if (!isId(record.id)) throw new InputError(`${place}.id`, quoted(record.id), "a UUID of version 7 is expected");
    const before = out.get(record.id);
    if (before === undefined) {
      out.set(record.id, record);
      continue;
    }
    if (before.kind !== record.kind)
      throw new InputError(`${place}.kind`, record.kind, `the same kind as before, ${before.kind}, is expected`);
    out.set(record.id, {
      ...before,
      makes: before.makes || record.makes,
      set: { ...before.set, ...record.set },
      was: { ...record.was, ...before.was },
    });
  }
  return [...out.values()];
}

function changesOf(context: Context, { kind, id, makes, set, was = {} }: Written, place: string): Change[] {
  if (isPurged(context.driver, id))
    throw new InputError(`${place}.id`, "deleted for good", "a record of this book is expected");
  const { fields, isNew } = editOf(context, { kind, id, set } as Draft, place);
  if (isNew && !makes) throw new InputError(`${place}.id`, id, "the id of a record in this book is expected");
  const seen = seenBefore(kind, was, `${place}.was`);
  const changes = [...fields].map(([field, value]) => ({
    kind,
    record: id,
    field,
    was: seen.get(field) ?? null,
    value,
  }));
  return isNew ? [...changes, { kind, record: id, field: "hidden", was: "true", value: "false" }] : changes;
}

/** What the device saw in the fields it changed may be as an earlier program wrote it. */
function seenBefore(kind: Kind, was: FieldsOf<Kind>, place: string): Map<string, Kept> {
  const seen = new Map<string, Kept>();
  for (const [name, value] of Object.entries(was)) {
    const field = fieldOf(kind, name);
    if (!field) throw new InputError(`${place}.${name}`, "no such field", "a field of that kind is expected");
    const kept = value === null || value === "" ? null : JSON.stringify(value);
    if (kept !== null && !isKept(field, kept)) throw new InputError(`${place}.${name}`, quoted(value), field.expects);
    seen.set(name, kept);
  }
  return seen;
}
