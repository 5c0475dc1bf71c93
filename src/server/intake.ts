import type { Imported, previewLog } from "../book/index.ts";
import type { Writer } from "./records.ts";
import type { SentFile } from "./sent-files.ts";

/** What the bench asks of whoever reads log files into the book. */
export interface Intake {
  /** What the file is taken for, column by column, nothing read into the book. @throws InputError */
  preview(file: SentFile, told: LogChoicesInWords): ReturnType<typeof previewLog>;
  /** Reads it into the book, or goes on where an earlier reading stopped. @throws InputError */
  read(file: SentFile, options: IntakeOptions, by: Writer, watch: IntakeWatch): Promise<Imported>;
}

/** What the user says of columns, units and times, in the words of the command line. */
export interface LogChoicesInWords {
  /** `ROLE=COLUMN[:UNIT]` each, such as `load=2:kN`. */
  readonly columns?: readonly string[];
  readonly delimiter?: string;
  readonly decimal?: "." | ",";
  /** `Z`, `+02:00`. */
  readonly zone?: string;
  /** Day of clock times, start of elapsed ones. */
  readonly start?: string;
  /** Rows a second. */
  readonly rate?: number;
  /** Of several loads: added up, or each a channel of its own. */
  readonly loads?: "sum" | "each";
  /** Load of a log of messages, its devices and its vessel, where several speak. */
  readonly loadPath?: string;
  readonly sources?: readonly string[];
  readonly context?: string;
}

export interface IntakeOptions {
  readonly told: LogChoicesInWords;
  readonly pull?: string;
  readonly day?: string;
  /** Read anew a file that is in the book. */
  readonly again?: boolean;
  /** What the log is called; the file's name without this. */
  readonly name?: string;
}

export interface IntakeWatch {
  readonly signal: AbortSignal;
  readonly progress: (at: { readonly position: number; readonly rows: number }) => void;
}
