/**
 * Text of a file → plain data, checked for its shape. YAML 1.2 or JSON (which is YAML too), read strictly: one
 * document, no name twice in a group, no aliases (a few of which can stand for gigabytes), no tags.
 */
import { type Document, parseDocument, visit, type YAMLError } from "yaml";
import type { z } from "zod";
import { InputError, quoted } from "./errors.ts";
import { nearestName } from "./nearest-name.ts";
import { untold } from "./told.ts";

/** Longest text read, characters: far more than any file written by hand. */
export const LONGEST_FILE = 262_144;

/**
 * Reads YAML or JSON text.
 * @param place the file's name, which the error begins with.
 * @returns plain data: text, numbers, true, false, null, lists and groups of these.
 * @throws InputError when it is not readable as one such document.
 */
export function readDocument(text: string, place: string): unknown {
  const expected = "YAML or JSON is expected";
  if (text.length > LONGEST_FILE) {
    throw new InputError(
      place,
      `${text.length} characters`,
      `a file of at most ${LONGEST_FILE} characters is expected`,
    );
  }
  try {
    // At logLevel "silent" a second document would be passed over without a word.
    const document = parseDocument(text, { version: "1.2", schema: "core", uniqueKeys: true, logLevel: "error" });
    const fault = document.errors[0] ?? document.warnings[0];
    if (fault) throw unreadable(fault, text, place);
    refuseAliases(document, place);
    return document.toJS({ maxAliasCount: 0 });
  } catch (error) {
    if (error instanceof InputError) throw error;
    // The parser descends by recursion: a text nested by the thousand ends here.
    if (error instanceof RangeError) throw new InputError(place, "nested too deeply", expected);
    throw new InputError(place, error instanceof Error ? error.message : "unreadable text", expected);
  }
}

/**
 * Checks data against a schema and gives it back typed.
 * @throws InputError about the first thing wrong: file, field, what stands there, what was expected.
 */
export function checkShape<T extends z.ZodType>(data: unknown, schema: T, place: string): z.output<T> {
  const result = safely(data, schema, place);
  if (result.success) return result.data;
  // A mistyped name is a missing one as well: the name tells more.
  const { issues } = result.error;
  throw describe(issues.find((issue) => issue.code === "unrecognized_keys") ?? issues[0]!, data, schema, place);
}

/** Where a list is expected, a group with a field `length` that is no number makes the schema's own check throw. */
function safely<T extends z.ZodType>(data: unknown, schema: T, place: string): z.ZodSafeParseResult<z.output<T>> {
  try {
    return schema.safeParse(data);
  } catch (error) {
    if (!(error instanceof TypeError)) throw error;
    throw new InputError(place, "a group of fields in place of a list", "the fields of this format are expected");
  }
}

/** `rode[2].chain.size` */
export function fieldPath(path: readonly PropertyKey[]): string {
  let text = "";
  for (const step of path) {
    const name = String(step).slice(0, 40);
    text += typeof step === "number" ? `[${step}]` : text === "" ? name : `.${name}`;
  }
  return text;
}

function refuseAliases(document: Document.Parsed, place: string): void {
  visit(document, {
    Alias(_, node) {
      throw new InputError(place, `the alias *${node.source}`, "every value is expected to be written out");
    },
    Node(_, node) {
      if ("anchor" in node && node.anchor !== undefined) {
        throw new InputError(place, `the anchor mark &${node.anchor}`, "every value is expected to be written out");
      }
    },
  });
}

function unreadable(fault: YAMLError, text: string, place: string): InputError {
  const line = fault.linePos?.[0].line;
  const at = line === undefined ? place : `${place}: line ${line}`;
  if (fault.code === "DUPLICATE_KEY") {
    const name = /^[^\s:,}\]]{1,40}/.exec(text.slice(fault.pos[0]))?.[0] ?? "a name";
    return new InputError(at, `${name} stands twice in one group`, "each name once is expected");
  }
  if (fault.code === "MULTIPLE_DOCS") return new InputError(at, "a second document", "one document is expected");
  return new InputError(at, fault.message.split(/ at line |\n/)[0]!, "YAML or JSON is expected");
}

function describe(issue: z.core.$ZodIssue, whole: unknown, schema: z.ZodType, place: string): InputError {
  const at = (path: readonly PropertyKey[]) => (path.length === 0 ? place : `${place}: ${fieldPath(path)}`);
  if (issue.code === "unrecognized_keys") {
    const key = issue.keys[0]!;
    return new InputError(at([...issue.path, key]), "no such field", unknownField(key, issue.path, whole, schema));
  }
  const both = untold(issue.message);
  if (both !== undefined) return new InputError(at(issue.path), both.given, both.expected);
  const given = issue.path.length === 0 && whole === null ? "an empty file" : quoted(lookUp(whole, issue.path));
  return new InputError(
    at(issue.path),
    given,
    / (is|are) expected/.test(issue.message) ? issue.message : plainly(issue),
  );
}

function unknownField(key: string, path: readonly PropertyKey[], whole: unknown, schema: z.ZodType): string {
  const known = fieldsAt(schema, path, whole);
  const near = nearestName(key, known);
  if (near !== undefined) return `is ${near} meant?`;
  return known.length === 0 ? "a known field is expected" : `one of ${known.join(", ")} is expected`;
}

/** The names a group at this path may have, as far as the schema tells. */
function fieldsAt(schema: unknown, path: readonly PropertyKey[], whole: unknown): readonly string[] {
  let here = unwrapped(schema);
  let data = whole;
  for (const step of path) {
    const definition = optionFor(here, data);
    here = unwrapped(definition.shape?.[step as string] ?? definition.element ?? definition.valueType);
    data = typeof data === "object" && data !== null ? (data as Record<PropertyKey, unknown>)[step] : undefined;
  }
  return Object.keys(optionFor(here, data).shape ?? {});
}

interface Definition {
  readonly shape?: Readonly<Record<string, unknown>>;
  readonly element?: unknown;
  readonly valueType?: unknown;
  readonly innerType?: unknown;
  /** What a schema with a transformation checks first. */
  readonly in?: unknown;
  readonly options?: readonly unknown[];
  readonly discriminator?: string;
  readonly values?: readonly unknown[];
}

function definitionOf(schema: unknown): Definition {
  return (schema as { def?: Definition } | undefined)?.def ?? {};
}

function unwrapped(schema: unknown): unknown {
  const { innerType, in: first } = definitionOf(schema);
  const inner = innerType ?? first;
  return inner === undefined ? schema : unwrapped(inner);
}

/** The branch of a union told apart by one field, or the schema itself. */
function optionFor(schema: unknown, data: unknown): Definition {
  const definition = definitionOf(schema);
  const { options, discriminator } = definition;
  if (!options || discriminator === undefined) return definition;
  const value = (data as Record<string, unknown> | undefined)?.[discriminator];
  const option = options.find((one) => definitionOf(definitionOf(one).shape?.[discriminator]).values?.includes(value));
  return definitionOf(option);
}

function plainly(issue: z.core.$ZodIssue): string {
  if (issue.code !== "invalid_type") return "something else is expected";
  const words: Record<string, string> = {
    object: "a group of fields",
    record: "a group of fields",
    array: "a list",
    tuple: "a list",
    string: "text",
    number: "a number",
    boolean: "true or false",
  };
  return `${words[issue.expected] ?? issue.expected} is expected`;
}

function lookUp(value: unknown, path: readonly PropertyKey[]): unknown {
  let here = value;
  for (const step of path) {
    if (typeof here !== "object" || here === null || !Object.hasOwn(here, step)) return undefined;
    here = (here as Record<PropertyKey, unknown>)[step];
  }
  return here;
}
