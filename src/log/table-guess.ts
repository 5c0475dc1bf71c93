/** What a table of readings is taken for. */
import type { ColumnCause, GrantedCause, OpenCause } from "./cause.ts";
import type { Guessed } from "./dialect.ts";
import type { Encoding } from "./encoding.ts";
import type { DecimalMark } from "./marks.ts";
import type { TablePlan } from "./plan.ts";

/** What one column was taken for. */
export interface ColumnGuess {
  /** 1 first. */
  readonly number: number;
  readonly title: string;
  /** A role, or "not taken". */
  readonly as: string;
  /** Unit or time format; "" where none is needed. */
  readonly unit: string;
  readonly confidence: number;
  readonly why: ColumnCause;
  readonly examples: readonly string[];
}

/** Something the file does not tell; each of `answers` is an option that does. */
export interface Question {
  readonly about: string;
  readonly question: OpenCause;
  readonly answers: readonly string[];
}

/** The same in words, with what helps where no option does. */
export interface QuestionInWords {
  readonly about: string;
  readonly question: string;
  readonly answers: readonly string[];
}

/** A table of readings as guessed, with what is left to ask. */
export interface TableGuess {
  readonly kind: "table";
  readonly encoding: Guessed<Encoding>;
  readonly lineEnd: "LF" | "CR LF" | "CR";
  readonly delimiter: Guessed<string>;
  readonly decimal: Guessed<DecimalMark>;
  readonly headerLine: number | null;
  readonly dataLine: number;
  readonly preamble: readonly string[];
  readonly columns: readonly ColumnGuess[];
  readonly questions: readonly Question[];
  /** What was taken for granted and changes no load by more than one in a hundred. */
  readonly remarks: readonly GrantedCause[];
  /** What this source's files have in common: titles, units and delimiter, as one line. */
  readonly signature: string;
  /** Null while a question stands open. */
  readonly plan: TablePlan | null;
}

/** No table of readings could be made out; `why` is what was given instead, as an error states it. */
export interface NotATable {
  readonly kind: "notATable";
  readonly why: string;
}
