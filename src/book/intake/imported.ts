/** What is asked of reading a log file into a book, and what came of it. */
import type { Clock, LogChoices, LogGuess, LogMark, TroubleCount } from "../../pull/index.ts";

export interface ImportOptions {
  /** What the user says of columns, units and times. */
  readonly told?: LogChoices;
  /** Path of the load in Signal K deltas. */
  readonly loadPath?: string;
  readonly pull?: string;
  readonly day?: string;
  /** Read a file anew that is in the book: the log read before is hidden. */
  readonly again?: boolean;
  /** What the log is called; the file's name without this. */
  readonly name?: string;
  /** What errors call the file; its path without this. */
  readonly place?: string;
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: ImportProgress) => void;
}

export interface ImportProgress {
  /** Bytes of the file read and kept, of `size`. */
  readonly position: number;
  readonly size: number;
  readonly rows: number;
}

export type Imported =
  | {
      readonly kind: "imported" | "stopped";
      readonly log: string;
      /** Rows of the log now in the book. */
      readonly rows: number;
      /** Rows that were in the book already, from an earlier export of the same instrument. */
      readonly known: number;
      /** Byte of the file this reading went on from; 0 when it began. */
      readonly from: number;
      readonly position: number;
      readonly size: number;
      readonly clock: Clock;
      /** True when columns were read as this source's last file was. */
      readonly remembered: boolean;
      readonly troubles: TroubleCount;
      readonly counts: Readonly<Record<LogMark["kind"], number>>;
      /** Why reading ended before the file did. */
      readonly ended: { readonly line: number; readonly why: string } | null;
    }
  | { readonly kind: "already"; readonly log: string; readonly rows: number }
  | { readonly kind: "asks"; readonly guess: LogGuess }
  | {
      readonly kind: "marks";
      readonly log: string;
      readonly marks: number;
      readonly clock: Clock;
      readonly troubles: TroubleCount;
    };
