/**
 * Text of a file → plain data, checked for its shape. YAML 1.2 or JSON (which is YAML too), read strictly: one
 * document, no name twice in a group, no aliases (a few of which can stand for gigabytes), no tags.
 */
import { Composer, type CST, type Document, isScalar, Lexer, Parser, visit, type YAMLError } from "yaml";
import type { z } from "zod";
import { InputError, nth, quoted } from "./errors.ts";
import { issueParts } from "./issue-text.ts";
import { nearestName } from "./nearest-name.ts";
import { DEEPEST, tooDeep } from "./nesting.ts";
import { yamlFault } from "./yaml-fault.ts";

/** Longest text read, characters: far more than any file written by hand. */
export const LONGEST_FILE = 262_144;

/**
 * Reads YAML or JSON text.
 * @param place the file's name, which the error begins with.
 * @returns plain data: text, numbers, true, false, null, lists and groups of these.
 * @throws InputError when it is not readable as one such document, is too long or nested deeper than `DEEPEST`.
 */
export function readDocument(text: string, place: string): unknown {
  if (text.length > LONGEST_FILE) {
    throw new InputError(
      place,
      `${text.length} characters`,
      `a file of at most ${LONGEST_FILE} characters is expected`,
    );
  }
  try {
    const documents = new Composer({ version: "1.2", schema: "core", uniqueKeys: false }).compose(
      tokensOf(text, place),
      true,
      text.length,
    );
    const first = documents.next().value!;
    const fault = first.errors[0] ?? first.warnings[0];
    if (fault) throw unreadable(fault, text, place);
    const second = documents.next().value;
    if (second)
      throw new InputError(atLine(second.range[0], text, place), "a second document", "one document is expected");
    refuseMarks(first, text, place);
    return withoutSchema(first.toJS({ maxAliasCount: 0 }));
  } catch (error) {
    if (error instanceof InputError) throw error;
    throw new InputError(place, error instanceof Error ? error.message : "unreadable text", "YAML or JSON is expected");
  }
}

/** A file may name the JSON Schema it holds to, for editors; to the program its format says it. */
function withoutSchema(data: unknown): unknown {
  if (typeof data !== "object" || data === null || Array.isArray(data) || !Object.hasOwn(data, "$schema")) return data;
  const { $schema, ...rest } = data as Record<string, unknown>;
  return typeof $schema === "string" ? rest : data;
}

/** The parts of the text, as long as they are nested no deeper than they may be. */
function* tokensOf(text: string, place: string): Generator<CST.Token> {
  const parser = new Parser();
  for (const source of new Lexer().lex(text)) {
    yield* parser.next(source);
    // The document itself is the first of the stack.
    if (parser.stack.length > DEEPEST + 1) throw tooDeep(place);
  }
  yield* parser.end();
}

/**
 * Checks data against a schema and gives it back typed.
 * @throws InputError about the first thing wrong: file, field, what stands there, what was expected.
 */
export function checkShape<T extends z.ZodType>(data: unknown, schema: T, place: string): z.output<T> {
  const result = safely(data, schema, place);
  if (result.success) return result.data;
  // A file of another format has other fields; a mistyped name is a missing one as well: the name tells more.
  const { issues } = result.error;
  const first =
    issues.find((issue) => issue.path.length === 1 && issue.path[0] === "format") ??
    issues.find((issue) => issue.code === "unrecognized_keys") ??
    issues[0]!;
  throw describe(first, data, schema, place);
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

/** `rode #3.chain.size`: the name of a field as a person is told it. */
export function fieldPath(path: readonly PropertyKey[]): string {
  let text = "";
  for (const step of path) {
    const name = String(step).slice(0, 40);
    text += typeof step === "number" ? `${nth(step)}` : text === "" ? name : `.${name}`;
  }
  return text;
}

/** Aliases, anchors, and a name twice in a group; the library's own search for the last compares each with each. */
function refuseMarks(document: Document.Parsed, text: string, place: string): void {
  visit(document, {
    Alias(_, node) {
      throw new InputError(place, `the alias *${node.source}`, "every value is expected to be written out");
    },
    Node(_, node) {
      if ("anchor" in node && node.anchor !== undefined) {
        throw new InputError(place, `the anchor mark &${node.anchor}`, "every value is expected to be written out");
      }
    },
    Map(_, node) {
      const names = new Set<unknown>();
      for (const { key } of node.items) {
        if (!isScalar(key)) continue;
        if (names.has(key.value)) {
          const from = key.range?.[0] ?? 0;
          const name = /^[^\s:,}\]]{1,40}/.exec(text.slice(from, from + 40))?.[0] ?? "a name";
          throw new InputError(
            atLine(from, text, place),
            `${name} stands twice in one group`,
            "each name once is expected",
          );
        }
        names.add(key.value);
      }
    },
  });
}

function unreadable(fault: YAMLError, text: string, place: string): InputError {
  return new InputError(atLine(fault.pos[0], text, place), ...yamlFault(fault, text));
}

/** `place: line 3`, of a character of the text. */
function atLine(position: number, text: string, place: string): string {
  return `${place}: line ${text.slice(0, position).split("\n").length}`;
}

function describe(issue: z.core.$ZodIssue, whole: unknown, schema: z.ZodType, place: string): InputError {
  const at = (path: readonly PropertyKey[]) => (path.length === 0 ? place : `${place}: ${fieldPath(path)}`);
  if (issue.code === "unrecognized_keys") {
    const key = issue.keys[0]!;
    return new InputError(at([...issue.path, key]), "no such field", unknownField(key, issue.path, whole, schema));
  }
  const both = issueParts(issue.message);
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
  if (issue.code === "invalid_value")
    return `${issue.values.length > 1 ? "one of " : ""}${issue.values.map(String).join(", ")} is expected`;
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
