/**
 * The pieces a file's schema is made of here: quantities with bounds, groups that refuse a field they do not know and
 * name the nearest, and the one line that is told of the first thing wrong.
 */
import { isAlias, parseDocument, visit } from "yaml";
import * as z from "zod";
import { type Dimension, InputError, nearestName, parseQuantity, quoted } from "../quantity/index.ts";

/** What a field may hold, beyond its dimension. */
export type Bound = "positive" | "zeroOrMore" | "any";

const bounds: Record<Bound, { holds: (value: number) => boolean; expected: string }> = {
  positive: { holds: (value) => value > 0, expected: "a value above zero is expected" },
  zeroOrMore: { holds: (value) => value >= 0, expected: "zero or more is expected" },
  any: { holds: () => true, expected: "" },
};

/** A quantity field in SI: text with a unit, or a bare number. */
export function quantity(
  dimension: Dimension,
  bound: Bound = "positive",
  most = Number.POSITIVE_INFINITY,
  mostText = "",
) {
  return z.any().transform((value, context): number => {
    const refuse = (given: string, expected: string): never => {
      context.issues.push({ code: "custom", input: value, message: told(given, expected) });
      return z.NEVER;
    };
    let si: number;
    try {
      // Only text and numbers are quantities; whatever else stands here is told by its sort, with what a quantity looks like.
      si = parseQuantity(typeof value === "number" ? value : typeof value === "string" ? value : "", dimension, "");
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      return refuse(
        typeof value === "string" || typeof value === "number" ? error.given : quoted(value),
        error.expected,
      );
    }
    if (!bounds[bound].holds(si)) return refuse(quoted(value), bounds[bound].expected);
    if (si > most) return refuse(quoted(value), `at most ${mostText} is expected`);
    return si;
  });
}

/** A plain number without a unit. */
export function plainNumber(bound: Bound = "positive", most = Number.POSITIVE_INFINITY) {
  return quantity("ratio", bound, most, String(most));
}

/** A line of text. */
export function line() {
  return z.any().transform((value, context): string => {
    if (typeof value === "string" && value.trim() !== "" && value.length <= 200 && !/[\r\n]/.test(value)) return value;
    context.issues.push({ code: "custom", input: value, message: told(quoted(value), "one line of text is expected") });
    return z.NEVER;
  });
}

/** A group of known fields; another field is refused, with the nearest known name. */
export function group<Shape extends z.ZodRawShape>(shape: Shape, what: string) {
  const known = Object.keys(shape);
  return z.strictObject(shape, {
    error: (issue) => {
      if (issue.code === "unrecognized_keys") return told(...unknownField(issue.keys[0]!, known));
      return told(quoted(issue.input), `${what} is expected`);
    },
  });
}

/** A list of at least `least` and at most 1000 entries. */
export function list<Entry extends z.ZodType>(entry: Entry, what: string, least = 1) {
  return z
    .array(entry, { error: (issue) => told(quoted(issue.input), `${what} is expected`) })
    .min(least, {
      error: (issue) => {
        const count = (issue.input as readonly unknown[]).length;
        return told(count === 0 ? "an empty list" : `a list of ${count}`, `${what} is expected`);
      },
    })
    .max(1000, { error: () => told("more than 1000 entries", `${what} is expected, 1000 at most`) });
}

/** One of a few words. */
export function word<const Words extends readonly [string, ...string[]]>(words: Words) {
  return z.enum(words, {
    error: (issue) => told(quoted(issue.input), `${words.slice(0, -1).join(", ")} or ${words.at(-1)} is expected`),
  });
}

/** A check across fields of a group that is right by itself: place within the group, what is given, what is expected. */
export function refuse(
  context: z.core.$RefinementCtx,
  path: readonly (string | number)[],
  given: string,
  expected: string,
): void {
  context.addIssue({ code: "custom", path: [...path], message: told(given, expected) });
}

/**
 * Reads YAML or JSON text by a schema.
 * @param place the file, for the error
 * @throws InputError, one line: file, field, what was given, what was expected
 */
export function readFields<Schema extends z.ZodType>(
  text: string,
  place: string,
  schema: Schema,
  what: string,
): z.output<Schema> {
  const read = schema.safeParse(plainData(text, place, what));
  if (read.success) return read.data;
  // A mistyped name is also a missing one: the name tells more.
  const issue = read.error.issues.find((each) => each.code === "unrecognized_keys") ?? read.error.issues[0]!;
  const path = issue.code === "unrecognized_keys" ? [...issue.path, issue.keys[0]!] : issue.path;
  const [given, expected] = untold(issue.message);
  throw new InputError(path.length === 0 ? place : `${place}: ${pathText(path)}`, given, expected);
}

function plainData(text: string, place: string, what: string): unknown {
  const document = parseDocument(text, { prettyErrors: true, logLevel: "silent" });
  const fault = document.errors[0];
  if (fault !== undefined) {
    const at = fault.linePos?.[0];
    const where = at === undefined ? "" : ` (line ${at.line})`;
    throw new InputError(
      place,
      `no YAML or JSON${where}: ${fault.message.split("\n")[0]!.replace(/ at line .*$/, "")}`,
      `${what} is expected`,
    );
  }
  // An alias could make a small file endless; no file of ours needs one.
  visit(document, (_, node) => {
    if (isAlias(node)) throw new InputError(place, `an alias, *${node.source}`, "every field written out is expected");
  });
  return document.toJS();
}

function unknownField(field: string, known: readonly string[]): [given: string, expected: string] {
  const near = nearestName(field, known);
  return ["an unknown field", near === undefined ? `one of ${known.join(", ")} is expected` : `did you mean ${near}?`];
}

function pathText(path: readonly PropertyKey[]): string {
  return path.map((key, i) => (typeof key === "number" ? `[${key}]` : `${i === 0 ? "" : "."}${String(key)}`)).join("");
}

// An issue holds one message; what was given and what was expected travel in it side by side.
const between = "\u001f";

function told(given: string, expected: string): string {
  return `${given}${between}${expected}`;
}

function untold(message: string): [given: string, expected: string] {
  const [given, expected] = message.split(between);
  return expected === undefined ? ["", message] : [given!, expected];
}
