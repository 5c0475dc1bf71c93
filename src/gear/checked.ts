import { parseDocument } from "yaml";
import type { z } from "zod";
import { InputError, nearestName, quoted } from "../quantity/index.ts";

/**
 * Reads YAML or JSON text and checks it against a schema.
 * @param place the file's name, which every error line begins with.
 * @param fields every field name of the format, for the hint at a mistyped one.
 * @throws InputError naming the file, the field, what stands there and what was expected.
 */
export function readChecked<T extends z.ZodType>(
  text: string,
  place: string,
  schema: T,
  fields: readonly string[],
): z.output<T> {
  const value = readYaml(text, place);
  const result = schema.safeParse(value);
  if (result.success) return result.data;
  throw describe(result.error.issues[0]!, value, place, fields);
}

function readYaml(text: string, place: string): unknown {
  try {
    const document = parseDocument(text, { prettyErrors: true, uniqueKeys: true });
    const fault = document.errors[0];
    if (fault) {
      const line = fault.linePos?.[0].line;
      const what = fault.message.split(/ at line |\n/)[0]!;
      throw new InputError(line === undefined ? place : `${place}: line ${line}`, what, "YAML or JSON is expected");
    }
    return document.toJS({ maxAliasCount: 1000 });
  } catch (error) {
    if (error instanceof InputError) throw error;
    throw new InputError(place, error instanceof Error ? error.message : "unreadable text", "YAML or JSON is expected");
  }
}

/** One line for the first thing wrong. */
function describe(issue: z.core.$ZodIssue, whole: unknown, place: string, fields: readonly string[]): InputError {
  const field = pathText(issue.path);
  const at = (name: string) => (name === "" ? place : `${place}: ${name}`);
  const given = lookUp(whole, issue.path);
  if (issue.code === "unrecognized_keys") {
    const key = issue.keys[0]!;
    const name = field === "" ? key : `${field}.${key}`;
    const near = nearestName(key, fields);
    return new InputError(at(name), "no such field", `${near ?? "a field of this format"} is expected`);
  }
  if (issue.path.length === 0 && issue.code === "invalid_type") {
    return new InputError(place, quoted(whole) || "an empty file", "a group of fields is expected");
  }
  const expected =
    /expected$/.test(issue.message) || /is expected|are expected/.test(issue.message) ? issue.message : plain(issue);
  return new InputError(at(field), quoted(given), expected);
}

function plain(issue: z.core.$ZodIssue): string {
  if (issue.code === "invalid_type") {
    const names: Record<string, string> = {
      object: "a group of fields",
      array: "a list",
      string: "text",
      number: "a number",
      record: "a group of fields",
    };
    return `${names[issue.expected] ?? issue.expected} is expected`;
  }
  return "something else is expected";
}

/** `rows[2].chain.size` */
function pathText(path: readonly PropertyKey[]): string {
  let text = "";
  for (const step of path)
    text += typeof step === "number" ? `[${step}]` : text === "" ? String(step) : `.${String(step)}`;
  return text;
}

function lookUp(value: unknown, path: readonly PropertyKey[]): unknown {
  let here: unknown = value;
  for (const step of path) {
    if (typeof here !== "object" || here === null) return undefined;
    here = (here as Record<PropertyKey, unknown>)[step];
  }
  return here;
}
