import { InputError, quoted } from "../quantity/index.ts";
import {
  type Change,
  fieldOf,
  isId,
  isKept,
  isKind,
  type Kept,
  kindNames,
  LATEST_MS,
  millisecondsOf,
  TIMESTAMP,
} from "../record/index.ts";
import type { Purged } from "./purge.ts";
import type { TransactionHead } from "./transaction.ts";

// History from elsewhere, another book or a folder of open files, is held to what this program itself would have written:
// an id that is one, a kind and a field there are, a value that field takes, a time that leaves room for later ones.

const MANNERS: readonly string[] = ["edit", "undo", "redo", "offline"];

/**
 * @param place the file and line it was read from, when it was
 * @throws InputError naming the transaction and what of it cannot be
 */
export function checkTransaction(
  transaction: TransactionHead,
  changes: readonly Change[],
  place = `transaction ${quoted(transaction.id)}`,
): void {
  if (!isId(transaction.id)) throw new InputError(place, "no id of a transaction", "a UUID of version 7 is expected");
  checkWriter(transaction, place);
  if (!MANNERS.includes(transaction.manner))
    throw new InputError(place, `manner ${quoted(transaction.manner)}`, `one of ${MANNERS.join(", ")} is expected`);
  if (transaction.reverts !== null && !isId(transaction.reverts))
    throw new InputError(place, `reverts ${quoted(transaction.reverts)}`, "the id of a transaction is expected");
  for (const change of changes) checkChange(change, place);
}

/** @throws InputError when what says that a record was deleted for good is not whole */
export function checkPurged(deletion: Purged, place = `deleted for good ${quoted(deletion.record)}`): void {
  if (!isId(deletion.record)) throw new InputError(place, "no id of a record", "a UUID of version 7 is expected");
  checkKind(deletion.kind, place);
  if (deletion.kind === "about")
    throw new InputError(place, "what the book is", "a record that can be deleted is expected");
  checkWriter(deletion, place);
}

function checkWriter(
  from: { readonly device: string; readonly stamp: string; readonly at: string },
  place: string,
): void {
  if (!isId(from.device))
    throw new InputError(place, `device ${quoted(from.device)}`, "a UUID of version 7 is expected");
  if (!TIMESTAMP.test(from.stamp) || millisecondsOf(from.stamp) > LATEST_MS)
    throw new InputError(place, `stamp ${quoted(from.stamp)}`, "a stamp before the year 10000 is expected");
  const at = Date.parse(from.at);
  if (!(at >= 0 && at <= LATEST_MS))
    throw new InputError(place, `time ${quoted(from.at)}`, "a time from 1970 to the year 9999 is expected");
}

function checkKind(kind: string, place: string): void {
  if (!isKind(kind)) throw new InputError(place, `kind ${quoted(kind)}`, `one of ${kindNames.join(", ")} is expected`);
}

function checkChange({ kind, record, field, was, value }: Change, place: string): void {
  checkKind(kind, place);
  if (!isId(record)) throw new InputError(place, `record ${quoted(record)}`, "a UUID of version 7 is expected");
  for (const kept of [was, value]) checkKept(kind, field, kept, `${place}: ${kind}.${quoted(field)}`);
}

function checkKept(kind: Change["kind"], name: string, kept: Kept, place: string): void {
  if (name === "hidden") {
    if (kept === "true" || kept === "false") return;
    throw new InputError(place, quoted(kept), "true or false is expected");
  }
  const field = fieldOf(kind, name);
  if (!field) throw new InputError(place, "no such field", "a field of that kind is expected");
  if (kept !== null && !isKept(field, kept)) throw new InputError(place, quoted(kept), field.expects);
}
