import { basename } from "node:path";
import type { FieldsOf } from "../../record/index.ts";
import type { Book } from "../book.ts";
import type { Rows } from "../log-chunk.ts";
import { BookTrouble, type TroubleKind } from "../trouble.ts";
import { LiveBuffer, takeIn } from "./live-buffer.ts";

/** Troubles of the book that may pass, while the readings go on coming. */
const PASSING: readonly TroubleKind[] = ["busy", "unreadable", "readOnly"];

/**
 * How long a write waits for another program's lock, ms. Waiting holds up everything, the stamping of readings too: so
 * it is short, and what cannot be written at once is kept beside the book.
 */
const PATIENCE = 100;
/** How long it waits at the end, when nothing more comes. */
const LAST_PATIENCE = 5_000;

/** What the user is told of the way the readings go. */
export type Tell = (trouble: { readonly value: string; readonly expected: string }) => void;

/** The log of an instrument: into the book, or beside it for as long as the book cannot be written. */
export class LiveLog {
  /** Undefined until the book could be written for the first time. */
  id: string | null = null;
  rows = 0;
  private readonly book: Book;
  private readonly set: FieldsOf<"log">;
  private readonly tell: Tell;
  private readonly stays: boolean;
  private buffer: LiveBuffer | null = null;

  /** @throws when neither the book nor its folder can be written */
  /** @param stays its fingerprint, of a log that is not ended with this capture: the next goes on with it */
  constructor(book: Book, set: FieldsOf<"log">, tell: Tell, stays?: string) {
    this.book = book;
    this.stays = stays !== undefined;
    this.set = { ...set, fingerprint: stays ?? `live:${book.context.newId()}` };
    this.tell = tell;
    this.patience(PATIENCE);
    this.orBeside(() => {
      const { log, rows } = book.logs.open(this.set);
      [this.id, this.rows] = [log, rows];
    });
  }

  /** Readings that are on disk beside the book, and not in it. */
  get waiting(): number {
    return this.buffer?.count ?? 0;
  }

  /** Keeps rows: they are on disk when it returns. */
  keep(rows: Rows): void {
    if (this.buffer === null)
      this.orBeside(() => {
        this.rows = this.book.logs.record(this.id!, rows);
      });
    if (this.buffer === null) return;
    this.buffer.append(rows);
    this.rows = this.buffer.from + this.buffer.count;
  }

  /** Tries to bring what waits into the book. */
  retry(): void {
    const { buffer } = this;
    if (buffer === null) return;
    try {
      const { log, rows } = takeIn(this.book, buffer.path);
      [this.id, this.rows] = [log, rows];
    } catch (error) {
      if (passes(error)) return;
      throw error;
    }
    buffer.close();
    this.buffer = null;
    const many = `${buffer.count} ${buffer.count === 1 ? "reading" : "readings"}`;
    this.tell({ value: "the book can be written again", expected: `the ${many} kept beside it are in it now` });
  }

  /** Nothing more comes: what waits is tried once more, with patience, and else left beside the book. */
  end(): void {
    this.patience(LAST_PATIENCE);
    this.retry();
    this.buffer?.close();
    if (this.id === null || this.buffer !== null || this.stays) return;
    try {
      this.book.logs.finish(this.id);
    } catch (error) {
      // The readings are in the book; that no more come is all that was not written.
      if (!passes(error)) throw error;
    }
  }

  /** Does what writes the book; when it cannot be written now, the readings go beside it from here on. */
  private orBeside(write: () => void): void {
    try {
      write();
    } catch (error) {
      if (!passes(error)) throw error;
      try {
        this.buffer = new LiveBuffer(this.book, this.set, this.rows, this.stays);
      } catch {
        // Nowhere to keep them: the first trouble is the one to be told.
        throw error;
      }
      this.tell({
        value: `${error.place}: ${error.given}`,
        expected: `readings are kept beside it, in ${basename(this.buffer.path)}, until it can be written`,
      });
    }
  }

  private patience(ms: number): void {
    this.book.context.driver.exec(`PRAGMA busy_timeout = ${ms}`);
  }
}

function passes(error: unknown): error is BookTrouble {
  return error instanceof BookTrouble && PASSING.includes(error.kind);
}
