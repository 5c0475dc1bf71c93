import type { Writer } from "./records.ts";
import type { SentFile } from "./sent-files.ts";

/** What the bench asks of whoever reads log files into the book. */
export interface Intake {
  /** What the file is taken for, column by column, nothing read into the book. @throws InputError */
  preview(file: SentFile, told: Told): unknown;
  /** Reads it into the book, or goes on where an earlier reading stopped. @throws InputError */
  read(file: SentFile, options: IntakeOptions, by: Writer, watch: IntakeWatch): Promise<IntakeAnswer>;
}

/** What the user says of columns, units and times, in the words of the command line. */
export interface Told {
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
}

export interface IntakeOptions {
  readonly told: Told;
  readonly loadPath?: string;
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

/** `asks`: a question stands open, the guess says which; nothing was read. */
export type IntakeAnswer = { readonly kind: "imported" | "stopped" | "already" | "asks" | "marks" } & Readonly<
  Record<string, unknown>
>;
