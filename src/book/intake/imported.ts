/** What is asked of reading a log file into a book, and what came of it. */
import type {
  Clock,
  Ended,
  GrantedCause,
  LoadSeen,
  LogChoices,
  LogGuess,
  LogMark,
  TroubleCount,
} from "../../log/index.ts";

/** How a log is taken in: what is told of it, its pull, when to stop. */
export interface ImportOptions {
  /** What the user says of columns, units and times. */
  readonly told?: LogChoices;
  readonly pull?: string;
  readonly day?: string;
  /** Read a file anew that is in the book: the log read before is hidden. */
  readonly again?: boolean;
  /** What the log is called; the file's name without this. */
  readonly name?: string;
  /** What errors call the file; its path without this. */
  readonly place?: string;
  /** What was found of the file before it came here, told with the answer. */
  readonly remarks?: readonly GrantedCause[];
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: ImportProgress) => void;
}

/** How far an import is, in bytes and rows. */
export interface ImportProgress {
  /** Bytes of the file read and kept, of `size`. */
  readonly position: number;
  readonly size: number;
  readonly rows: number;
}

/** What the import of a log came to, or what it asks. */
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
      /** What was taken for granted. */
      readonly remarks: readonly GrantedCause[];
      /** What the loads show that a reader should know. */
      readonly seen: readonly LoadSeen[];
      /** Why reading ended before the file did. */
      readonly ended: Ended | null;
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
