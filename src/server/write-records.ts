import { quoted } from "../quantity/index.ts";
import type { Draft, Records, Stored, Writer } from "./records.ts";
import { type Shown, shown, versionOf } from "./records.ts";
import { Refusal } from "./refusals.ts";

/** A draft with the version its writer saw; null: there was no such record. */
export interface SeenDraft extends Draft {
  readonly expected: string | null;
}

/** What came of a write: the transaction, null when all of it was there already, and the records as they now stand. */
export interface Wrote {
  readonly transaction: string | null;
  readonly records: readonly Shown[];
}

/**
 * Writes drafts as one transaction if every record still is as its writer saw it. A write sent twice (its answer was lost)
 * finds everything as it wanted it and changes nothing.
 * @throws Refusal 409 with the record as it stands, when somebody else was faster; 404 for a record that is not there
 */
export function writeSeen(records: Records, drafts: readonly SeenDraft[], label: string, by: Writer): Wrote {
  const transaction = records.whole(() => {
    for (const draft of drafts) refuseUnlessAsSeen(records, draft);
    return records.write(
      drafts.map(({ kind, id, set }) => ({ kind, id, set })),
      label,
      by,
    );
  });
  return { transaction, records: drafts.map(({ kind, id }) => shown(records.get(kind, id)!)) };
}

/** @throws Refusal 404 for a kind the book does not keep */
export function knownKind(records: Records, kind: string): string {
  if (records.kinds.includes(kind)) return kind;
  throw new Refusal(404, "kind", quoted(kind), `one of ${records.kinds.join(", ")}`);
}

/** @throws Refusal 400 for an id of another form */
export function knownId(records: Records, id: string): string {
  if (records.isId(id)) return id;
  throw new Refusal(400, "id", quoted(id), "a UUID of version 7 in lower case");
}

/** @throws Refusal 404 when the book holds no such record */
export function storedRecord(records: Records, kind: string, id: string): Stored {
  const record = records.get(knownKind(records, kind), knownId(records, id));
  if (record === undefined) throw new Refusal(404, kind, quoted(id), "a record of this book");
  return record;
}

function refuseUnlessAsSeen(records: Records, draft: SeenDraft): void {
  const now = records.get(knownKind(records, draft.kind), knownId(records, draft.id));
  if (now === undefined) {
    if (draft.expected === null) return;
    throw new Refusal(404, draft.kind, quoted(draft.id), "a record of this book");
  }
  if (draft.expected === versionOf(now) || says(now, draft.set)) return;
  throw new Refusal(
    409,
    `${draft.kind} ${draft.id}`,
    "changed since it was seen",
    "look at it as it stands, then write again",
    {
      now: shown(now),
    },
  );
}

/** Whether a record says already all that a draft sets. */
function says(record: Stored, set: Readonly<Record<string, unknown>>): boolean {
  const plain = (value: unknown) => JSON.stringify(value === "" ? null : (value ?? null));
  return Object.entries(set).every(([field, value]) => plain(record[field]) === plain(value));
}
