import { ABOUT, type FieldsOf, type Kind, type RecordOf } from "../record/index.ts";
import { type Backup, listBackups, makeBackup, tryBackup } from "./backup.ts";
import { type Counts, checkWhole, countsOf, type Soundness } from "./check.ts";
import type { Context } from "./context.ts";
import { bookDigest } from "./digest.ts";
import { type Exported, exportBook } from "./export.ts";
import { type HistoryChoice, type HistoryEntry, type Reverted, readHistory, redo, undo } from "./history.ts";
import { type ImportedBook, importBook, importPlaces } from "./import.ts";
import type { Rows } from "./log-chunk.ts";
import type { LogProgress } from "./log-content.ts";
import { logProgress } from "./log-content.ts";
import { recordLive } from "./log-live.ts";
import { appendRows, everyRow, finishLog, openLog } from "./log-store.ts";
import { type LogContent, type LogView, logContent, type Stretch, viewLog } from "./log-view.ts";
import { type Merged, mergeBook } from "./merge.ts";
import { type Joined, joinOffline, type OfflineTransaction } from "./offline.ts";
import { addPicture, fileBytes } from "./pictures.ts";
import type { Place } from "./places.ts";
import { askPurge, type PurgeDone, type PurgeQuestion, purge } from "./purge.ts";
import { type Choice, type Draft, getRecord, hideRecord, knownKind, listRecords, writeRecords } from "./records.ts";

/** Transactions between two looks at whether a backup is due. */
const BACKUP_LOOKED_AT = 50;

/** An open book. Everything it answers is a plain object; every write is one transaction that `undo` takes back. */
export class Book {
  readonly context: Context;
  /** What the user should be told of the book, a line each: how it opened, a backup that could not be made. */
  readonly notices: string[];
  private written = 0;
  readonly logs: Logs;

  constructor(context: Context, notices: readonly string[]) {
    this.context = context;
    this.notices = [...notices];
    this.logs = new Logs(context);
  }

  get path(): string {
    return this.context.path;
  }
  get readOnly(): boolean {
    return this.context.readOnly;
  }
  /** What the book is. */
  about(): RecordOf<"about"> {
    const nothing = { id: ABOUT, hidden: false, title: null, description: null, simulated: null };
    return getRecord(this.context, "about", ABOUT) ?? nothing;
  }
  counts(): Counts {
    return countsOf(this.context.driver);
  }

  get<K extends Kind>(kind: K, id: string): RecordOf<K> | undefined {
    return getRecord(this.context, kind, id);
  }
  list<K extends Kind>(kind: K, choice?: Choice<K>): RecordOf<K>[] {
    return listRecords(this.context, kind, choice);
  }
  /** The kind of a record in this book. @throws InputError when there is none of that id */
  kindOf(id: string): Kind {
    return knownKind(this.context, id);
  }
  /** Makes a record; returns its id. */
  add<K extends Kind>(kind: K, set: FieldsOf<K>): string {
    return this.write([{ kind, set } as Draft], `add ${kind}`).ids[0]!;
  }
  /** Changes some fields of a record; `null` takes a value back. Returns the transaction, null when nothing changed. */
  edit<K extends Kind>(kind: K, id: string, set: FieldsOf<K>): string | null {
    return this.write([{ kind, id, set } as Draft], `edit ${kind}`).transaction;
  }
  /** Several records as one transaction. */
  write(drafts: readonly Draft[], label: string): { transaction: string | null; ids: string[] } {
    return this.counted(writeRecords(this.context, drafts, label));
  }
  /** A book that stays open for days backs itself up as it grows. */
  private counted<T>(answer: T): T {
    this.written++;
    if (this.context.backups && this.written % BACKUP_LOOKED_AT === 0) {
      const failure = tryBackup(this.context);
      const notice = failure && `no backup was made: ${failure.message}`;
      if (notice && !this.notices.includes(notice)) this.notices.push(notice);
    }
    return answer;
  }
  /** A first delete: the record is hidden, and can be shown again. */
  hide(id: string): { transaction: string | null } {
    return hideRecord(this.context, id, true);
  }
  show(id: string): { transaction: string | null } {
    return hideRecord(this.context, id, false);
  }

  /** Asks what deleting a hidden record for good would take. */
  askPurge(id: string): PurgeQuestion {
    return askPurge(this.context, id);
  }
  /** Deletes for good, with the token that `askPurge` answered. */
  purge(id: string, token: string): PurgeDone {
    return purge(this.context, id, token);
  }
  /** A picture or clip by reference, or with its bytes copied in. */
  addPicture(set: FieldsOf<"picture">, bytes?: Uint8Array): string {
    return addPicture(this.context, set, bytes);
  }
  /** The bytes of a copied file. */
  file(sha256: string): Uint8Array | undefined {
    return fileBytes(this.context, sha256);
  }
  /** Joins what a device wrote while it could not reach the book, exactly once. */
  joinOffline(transaction: OfflineTransaction): Joined {
    const joined = this.counted(joinOffline(this.context, transaction));
    if (joined.ahead_s !== undefined) this.tellAhead(transaction.who);
    return joined;
  }
  /** Once for each writer: the clock is set right, or not, once. */
  private tellAhead(who: string): void {
    const notice = `the clock of ${who || "a device"} is ahead of this computer's: what it wrote stands over later changes; set it right`;
    if (!this.notices.includes(notice)) this.notices.push(notice);
  }
  /** Takes all another open book holds into this one. */
  merge(other: Book): Merged {
    return mergeBook(this.context, other.context);
  }
  /** Writes the whole book as open files into a new folder. */
  export(folder: string): Promise<Exported> {
    return exportBook(this.context, folder);
  }
  /** Takes in a folder of open files. */
  import(folder: string): Promise<ImportedBook> {
    return importBook(this.context, folder);
  }
  importPlaces(places: readonly Place[], source: string): { added: number } {
    return importPlaces(this.context, places, source);
  }

  history(choice?: HistoryChoice): HistoryEntry[] {
    return readHistory(this.context, choice);
  }
  /** @param only `own`: a transaction of another writer is not taken back, also not by its id */
  undo(transaction?: string, only?: "own"): Reverted {
    return undo(this.context, transaction, only);
  }
  redo(): Reverted {
    return redo(this.context);
  }

  check(): Soundness {
    return checkWhole(this.context);
  }
  /** SHA-256 of all the book holds: equal for two books that hold the same. */
  digest(): string {
    return bookDigest(this.context);
  }
  backup(target?: string): Backup {
    return makeBackup(this.context, target);
  }
  backups(): Backup[] {
    return listBackups(this.path);
  }
  close(): void {
    this.context.driver.close();
  }
}

/** The logs of a book: readings in, stretches out. */
export class Logs {
  private readonly context: Context;
  constructor(context: Context) {
    this.context = context;
  }
  /** The log of a source, begun before or new. */
  open(set: FieldsOf<"log">): LogProgress {
    return openLog(this.context, set);
  }
  progress(log: string): LogProgress {
    return logProgress(this.context, log);
  }
  append(
    log: string,
    rows: Rows,
    read: { readonly from: number; readonly to: number; readonly state?: unknown },
  ): LogProgress {
    return appendRows(this.context, log, rows, read);
  }
  /** Keeps live rows; they are on disk when it returns. */
  record(log: string, rows: Rows): number {
    return recordLive(this.context, log, rows);
  }
  finish(log: string, state?: unknown): LogProgress {
    return finishLog(this.context, log, state);
  }
  content(log: string): LogContent {
    return logContent(this.context, log);
  }
  view(log: string, stretch?: Stretch): LogView {
    return viewLog(this.context, log, stretch);
  }
  /** All rows, a chunk at a time. */
  rows(log: string, channels?: readonly string[]): Generator<Rows> {
    return everyRow(this.context, log, channels);
  }
}
