import { InputError } from "../quantity/index.ts";
import type { Kept, Kind } from "../record/index.ts";
import { asked, type Context, writing } from "./context.ts";
import type { SqlDriver, SqlValue } from "./driver.ts";
import { latestOf } from "./projection.ts";
import type { Tables } from "./tables.ts";
import { type Edit, isPurged, type TransactionHead, writeTransaction } from "./transaction.ts";

/** One go of writing: who, when, and what each field was and became. */
export interface HistoryEntry {
  readonly transaction: string;
  readonly who: string;
  /** The clock of the device that wrote it, as ISO 8601 text. */
  readonly at: string;
  readonly device: string;
  readonly manner: string;
  readonly label: string;
  readonly reverts: string | null;
  readonly changes: readonly {
    readonly kind: string;
    readonly record: string;
    readonly field: string;
    readonly was: unknown;
    readonly value: unknown;
  }[];
}

/** Which acts of the history to tell. */
export interface HistoryChoice {
  /** Only transactions that touched this record, and of them only what they did to it. */
  readonly record?: string;
  /** At most so many, newest first. Default 100. */
  readonly limit?: number;
  /** Only transactions before this one, to page on. */
  readonly before?: string;
}

const parsed = (kept: Kept): unknown => (kept === null ? null : JSON.parse(kept));

/** What was written, newest first. */
export function readHistory(context: Context, choice: HistoryChoice = {}): HistoryEntry[] {
  const { driver } = context;
  return asked(context, () => {
    const wheres: string[] = [];
    const parameters: SqlValue[] = [];
    if (choice.record !== undefined) {
      wheres.push("id IN (SELECT act FROM change WHERE record = ?)");
      parameters.push(choice.record);
    }
    if (choice.before !== undefined) {
      const { stamp, id } = named(context, choice.before);
      wheres.push("(stamp, id) < (?, ?)");
      parameters.push(stamp, id);
    }
    const where = wheres.length === 0 ? "" : `WHERE ${wheres.join(" AND ")}`;
    const transactions = driver.all<TransactionHead>(
      `SELECT * FROM act ${where} ORDER BY stamp DESC, id DESC LIMIT ?`,
      [...parameters, choice.limit ?? 100],
    );
    return transactions.map((transaction) => ({
      transaction: transaction.id,
      who: transaction.who,
      at: transaction.at,
      device: transaction.device,
      manner: transaction.manner,
      label: transaction.label,
      reverts: transaction.reverts,
      changes: changesOf(driver, transaction.id, choice.record),
    }));
  });
}

/** What a transaction did, all of it or to one record. */
function changesOf(driver: SqlDriver, transaction: string, record: string | undefined): HistoryEntry["changes"] {
  const [also, parameters] = record === undefined ? ["", [transaction]] : ["AND record = ?", [transaction, record]];
  return driver
    .all<Tables["change"]>(`SELECT * FROM change WHERE act = ? ${also} ORDER BY record, field`, parameters)
    .map(({ kind, record, field, was, value }) => ({ kind, record, field, was: parsed(was), value: parsed(value) }));
}

/** What taking back did. `overtaken` counts fields that someone has changed since, which were left as they are. */
export type Reverted =
  | {
      readonly kind: "reverted";
      readonly transaction: string;
      readonly label: string;
      readonly fields: number;
      readonly overtaken: number;
    }
  | { readonly kind: "nothing" }
  | { readonly kind: "overtaken"; readonly transaction: string; readonly label: string };

/** Takes back the last transaction written on this device that stands, or the transaction named. */
export function undo(context: Context, transaction?: string, only?: "own"): Reverted {
  return writing(context, () => {
    const last = transaction === undefined ? lastStanding(context) : named(context, transaction);
    if (transaction !== undefined && only === "own" && last && !isOwn(context, last))
      throw new InputError(
        transaction,
        `written by ${last.who || "another"}`,
        "a transaction that this device wrote is expected",
      );
    return last ? revert(context, last, "undo") : { kind: "nothing" };
  });
}

/** Takes back the last undo of this device, as long as nothing else was written since. */
export function redo(context: Context): Reverted {
  return writing(context, () => {
    const last = context.driver.get<TransactionHead>(
      `SELECT * FROM act WHERE device = ? AND manner = 'undo' AND id NOT IN (SELECT reverts FROM act WHERE manner = 'redo')
         AND seq > coalesce((SELECT max(seq) FROM act WHERE device = ? AND manner NOT IN ('undo', 'redo')), 0)
       ORDER BY seq DESC LIMIT 1`,
      [context.device, context.device],
    );
    return last ? revert(context, last, "redo") : { kind: "nothing" };
  });
}

function lastStanding(context: Context): TransactionHead | undefined {
  // Taken back: an undo reverts it that no redo has reverted.
  return context.driver.get<TransactionHead>(
    `SELECT * FROM act WHERE device = ? AND manner = 'edit' AND id NOT IN (
       SELECT u.reverts FROM act u WHERE u.manner = 'undo'
         AND NOT EXISTS (SELECT 1 FROM act r WHERE r.manner = 'redo' AND r.reverts = u.id))
     ORDER BY seq DESC LIMIT 1`,
    [context.device],
  );
}

/** What a device wrote offline bears another id of its own; the name is the one it was let in by. */
function isOwn(context: Context, transaction: TransactionHead): boolean {
  return transaction.device === context.device || (transaction.manner === "offline" && transaction.who === context.who);
}

function named(context: Context, id: string): TransactionHead {
  const transaction = context.driver.get<TransactionHead>("SELECT * FROM act WHERE id = ?", [id]);
  if (!transaction) throw new InputError(id, "no such transaction", "the id of a transaction in this book is expected");
  return transaction;
}

function revert(context: Context, transaction: TransactionHead, manner: "undo" | "redo"): Reverted {
  const { driver } = context;
  const changes = driver.all<{ kind: Kind; record: string; field: string; was: Kept; value: Kept }>(
    "SELECT kind, record, field, was, value FROM change WHERE act = ?",
    [transaction.id],
  );
  const edits = new Map<string, Edit & { fields: Map<string, Kept> }>();
  let overtaken = 0;
  let fields = 0;
  for (const { kind, record, field, was, value } of changes) {
    if (isPurged(driver, record) || latestOf(driver, record).get(field) !== value) {
      overtaken++;
      continue;
    }
    const edit = edits.get(record) ?? { kind, record, fields: new Map<string, Kept>() };
    edit.fields.set(field, was);
    edits.set(record, edit);
    fields++;
  }
  // Taking back the making of a record hides it; what was said of it stays, for when it is shown again.
  for (const { fields: back } of edits.values())
    if (back.get("hidden") === "true") for (const f of back.keys()) if (f !== "hidden") back.delete(f);
  const label = manner === "undo" ? `undo: ${transaction.label}` : transaction.label.replace(/^undo/, "redo");
  const made = writeTransaction(context, { label, manner, reverts: transaction.id }, [...edits.values()]);
  // Also what is wholly overtaken counts as taken back, so that the next undo reaches the transaction before it.
  if (made === null || fields === 0)
    return { kind: "overtaken", transaction: transaction.id, label: transaction.label };
  return { kind: "reverted", transaction: made, label, fields, overtaken };
}
