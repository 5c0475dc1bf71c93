import { createHash } from "node:crypto";
import type { HistoryEntry, Joined, LogContent, LogView, Stretch } from "../book/index.ts";
import type { SentRows } from "./sent-rows.ts";
import type { SentTransaction } from "./sent-transaction.ts";

/**
 * What the bench asks of a book, and nothing more. Everything is synchronous as the store is: a write has reached the
 * disk when the call returns, and no other request comes between a check and the write after it.
 */
export interface Records {
  /** Tells this book from any other, also after it was moved or its title changed. */
  readonly id: string;
  /** The kinds of record, and whether an id has the form the book takes. */
  readonly kinds: readonly string[];
  isId(text: string): boolean;
  list(kind: string, choice: RecordChoice): Stored[];
  get(kind: string, id: string): Stored | undefined;
  /**
   * Writes all drafts as one transaction, or none.
   * @returns the transaction, null when nothing changed
   * @throws InputError for a field that is unknown, missing or wrong
   */
  write(drafts: readonly Draft[], label: string, by: Writer): string | null;
  hide(id: string, hidden: boolean, by: Writer): string | null;
  /** All of the work or none of it, and no other program's write in between. */
  whole<T>(work: () => T): T;
  history(choice: { readonly record?: string; readonly limit?: number; readonly before?: string }): Entry[];
  /** Takes back the transaction named (of a device on the boat's network, its own), or the last transaction of this writer that stands. */
  undo(transaction: string | undefined, by: Writer): TakenBack;
  redo(by: Writer): TakenBack;
  /** Keeps a picture's bytes and a record of it; returns the record's id. */
  addPicture(set: Readonly<Record<string, unknown>>, bytes: Uint8Array, by: Writer): string;
  file(sha256: string): Uint8Array | undefined;
  /** Joins a transaction a device wrote offline; known: the book has it already, nothing was written. */
  join(transaction: SentTransaction, who: string): Joined;
  about(): Stored;
  counts(): unknown;
  /** What the user should be told of how the book opened, a line each. */
  readonly notices: readonly string[];
  readonly readOnly: boolean;
  /** What a log holds, without its readings. */
  logContent(log: string): LogContent;
  /**
   * Appends rows a device took to a log that is still open, but those it has already, and ends it when no more comes.
   * @returns rows of the log, all on the disk
   */
  appendRows(log: string, sent: SentRows): number;
  /** A stretch of a log, as fine as a picture needs. */
  viewLog(log: string, stretch: Stretch): LogView;
}

/** Who writes, and from which device (absent: the computer that holds the book): each undoes its own. */
export interface Writer {
  readonly who: string;
  readonly device?: string;
}

/** A record as it stands; hidden: put aside, out of every list unless asked for. Numbers are SI, or carry their unit. */
export interface Stored {
  readonly id: string;
  readonly hidden: boolean;
  readonly [field: string]: unknown;
}

export interface RecordChoice {
  readonly where?: Readonly<Record<string, unknown>>;
  readonly hidden?: "with" | "only";
}

/** A record to write: a new one, or a change to one that is there. */
export interface Draft {
  readonly kind: string;
  readonly id: string;
  readonly set: Readonly<Record<string, unknown>>;
}

/** One transaction of the history: what was written in one go, by whom and when. */
export type Entry = Omit<HistoryEntry, "device">;

/** What taking back did; `overtaken`: somebody has changed all of it since, and it was left as it is. */
export type TakenBack =
  | {
      readonly kind: "reverted";
      readonly transaction: string;
      readonly label: string;
      readonly fields: number;
      readonly overtaken: number;
    }
  | { readonly kind: "nothing" }
  | { readonly kind: "overtaken"; readonly transaction: string; readonly label: string };

/**
 * The version of a record: what it says, hashed. Whoever changes a record names the version that was seen; when the
 * record says something else by now, the change is refused. Made from content alone, it needs no counter that a merge
 * of two books could bring into disorder.
 */
export function versionOf(record: Stored): string {
  return createHash("sha256").update(JSON.stringify(record), "utf8").digest("base64url").slice(0, 22);
}

/** A record with its version, as the bench answers it. */
export type Shown = Stored & { readonly version: string };

export const shown = (record: Stored): Shown => ({ ...record, version: versionOf(record) });
