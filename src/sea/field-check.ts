/** The pieces a file's schema is made of here: quantities with bounds, lines, lists, groups that say what they hold. */
import * as z from "zod";
import {
  checkShape,
  type Dimension,
  InputError,
  issueText,
  parseQuantity,
  quoted,
  readDocument,
} from "../quantity/index.ts";

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
      context.issues.push({ code: "custom", input: value, message: issueText(given, expected) });
      return z.NEVER;
    };
    let si: number;
    try {
      // Only text and numbers are quantities; whatever else stands here is named by its sort, with what a quantity looks like.
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
    context.issues.push({
      code: "custom",
      input: value,
      message: issueText(quoted(value), "one line of text is expected"),
    });
    return z.NEVER;
  });
}

/** A group of known fields; another field is refused. */
export function group<Shape extends z.ZodRawShape>(shape: Shape, what: string) {
  return z.strictObject(shape, { error: `${what} is expected` });
}

/** A list of at least `least` and at most 1000 entries. */
export function list<Entry extends z.ZodType>(entry: Entry, what: string, least = 1) {
  return z
    .array(entry, { error: `${what} is expected` })
    .min(least, {
      error: (issue) => {
        const count = (issue.input as readonly unknown[]).length;
        return issueText(count === 0 ? "an empty list" : `a list of ${count}`, `${what} is expected`);
      },
    })
    .max(1000, { error: () => issueText("more than 1000 entries", `${what} is expected, 1000 at most`) });
}

/** One of a few words. */
export function word<const Words extends readonly [string, ...string[]]>(words: Words) {
  return z.enum(words, {
    error: `${words.slice(0, -1).join(", ")} or ${words.at(-1)} is expected`,
  });
}

/** A check across fields of a group that is right by itself: place within the group, what is given, what is expected. */
export function refuse(
  context: z.core.$RefinementCtx,
  path: readonly (string | number)[],
  given: string,
  expected: string,
): void {
  context.addIssue({ code: "custom", path: [...path], message: issueText(given, expected) });
}

/**
 * Reads YAML or JSON text by a schema.
 * @param place the file, for the error
 * @throws InputError, one line: file, field, what was given, what was expected
 */
export function readFields<Schema extends z.ZodType>(text: string, place: string, schema: Schema): z.output<Schema> {
  return checkShape(readDocument(text, place), schema, place);
}
