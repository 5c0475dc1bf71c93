import { z } from "zod";
import type { Bounds } from "./bounds.ts";
import { ID } from "./id.ts";

/** How a field of a record is checked, kept and described. */
export interface Field<T = unknown, Earlier = T> {
  /** What a value must be; the schema of the open files is made from it. */
  readonly schema: z.ZodType<T>;
  /** What a value could be when an earlier program wrote it: books hold such values, nothing new is written so. */
  readonly earlier?: z.ZodType<Earlier>;
  /** How the table keeps it: a number, text, a yes or no, or JSON. */
  readonly column: "REAL" | "INTEGER" | "TEXT" | "FLAG" | "JSON";
  /** Ends an error line. */
  readonly expects: string;
  /** The texts it is one of. */
  readonly choices?: readonly string[];
  /** The kind of record it points to. */
  readonly refers?: string;
  /** The least and the most a number may be. */
  readonly bounds?: { readonly least: number; readonly most: number };
  /** A record without it is refused. */
  readonly required?: true;
  /** Given when the record is made, and never changed. */
  readonly once?: true;
}

const field = <T>(schema: z.ZodType<T>, column: Field["column"], expects: string): Field<T> => ({
  schema,
  column,
  expects: `${expects} is expected`,
});

/** Text that any file of text can hold: no NUL, no half of a surrogate pair. */
const wholeText = (max: number) =>
  z
    .string()
    .min(1)
    .max(max)
    .refine((s) => !/\p{Surrogate}|\0/u.test(s));

export const text = (what = "text", max = 100_000): Field<string> => field(wholeText(max), "TEXT", what);
/** A whole file of text, such as a rig file. */
export const fileText = (what: string): Field<string> => field(wholeText(5_000_000), "TEXT", what);
export const number = (what: string, least = -Number.MAX_VALUE, most = Number.MAX_VALUE): Field<number> => ({
  ...field(z.number().min(least).max(most), "REAL", what),
  bounds: { least, most },
});
export const count = (what: string, { least, most }: Bounds): Field<number> => ({
  ...field(z.int().min(least).max(most), "INTEGER", what),
  bounds: { least, most },
});
export const flag = (what: string): Field<boolean> => field(z.boolean(), "FLAG", what);
export const choice = <const C extends readonly string[]>(choices: C): Field<C[number]> => ({
  ...field(
    z.enum(choices),
    "TEXT",
    choices.length > 12
      ? `one of ${choices.slice(0, 4).join(", ")} … ${choices.at(-1)}`
      : `one of ${choices.join(", ")}`,
  ),
  choices,
});
export const json = <T>(schema: z.ZodType<T>, what: string): Field<T> => field(schema, "JSON", what);
/** A field whose values were less strictly held by earlier programs: books hold such, nothing new is written so. */
export const formerly = <T, Earlier>(f: Field<T>, earlier: z.ZodType<Earlier>): Field<T, Earlier> => ({
  ...f,
  earlier,
});
export const day = (): Field<string> => field(z.iso.date(), "TEXT", 'a date such as "2031-05-17"');
export const moment = (): Field<string> =>
  field(z.iso.datetime({ offset: true }), "TEXT", 'a time such as "2031-05-17T09:30:00Z"');
export const refer = (kind: string): Field<string> => ({
  ...field(z.string().regex(ID), "TEXT", `the id of a ${kind} in this book`),
  refers: kind,
});
/** Any record at all: what a note or a picture is about. */
export const anyRecord = (): Field<string> => field(z.string().regex(ID), "TEXT", "the id of a record in this book");

export const required = <T>(f: Field<T>): Field<T> & { readonly required: true } => ({ ...f, required: true });
export const once = <F extends Field>(f: F): F & { readonly once: true } => ({ ...f, once: true });
