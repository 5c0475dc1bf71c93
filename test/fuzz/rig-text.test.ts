import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/quantity/index.ts";
import { readRig, rigFrom, rigToFile } from "../../src/rode/index.ts";

const examples = join(import.meta.dirname, "../../data/examples/rigs");
const texts = readdirSync(examples).map((name) => readFileSync(join(examples, name), "utf8"));

/** Pieces that have meaning to YAML, to quantities or to the format. */
const PIECES = [
  "0",
  "-1",
  "1e999",
  ".nan",
  ".inf",
  "null",
  "~",
  "true",
  "[]",
  "{}",
  "{",
  "}",
  "[",
  "]",
  "- ",
  ": ",
  "\n",
  "\n  ",
  "\t",
  "&a ",
  "*a",
  "!x ",
  "<<: ",
  "|\n",
  ">\n",
  "'",
  '"',
  "#",
  "%",
  "---\n",
  "...\n",
  "? ",
  ",",
  "\u0000",
  "\u2028",
  "\ufeff",
  "\ud800",
  "12 kt",
  "1,5 m",
  "5'6\"",
  "1/0 m",
  "kn",
  "kN",
  "deg",
  "__proto__",
  "constructor",
  "toString",
  "length",
  "chain",
  "rode",
  "medium: air",
  "medium: water",
  "99999999999999999999",
  "0x10",
  "1_000",
  "2026-01-01",
];

const edit = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  cut: fc.oneof(fc.constant(0), fc.nat(3), fc.nat(40)),
  put: fc.oneof(fc.constant(""), fc.constantFrom(...PIECES), fc.string({ maxLength: 4, unit: "binary" })),
});

function mutated(text: string, edits: readonly { at: number; cut: number; put: string }[]): string {
  let now = text;
  for (const { at, cut, put } of edits) {
    const from = Math.floor(at * now.length);
    now = now.slice(0, from) + put + now.slice(from + cut);
  }
  return now;
}

/** A rig, or the one line of an InputError; anything else fails. */
function outcome(read: () => ReturnType<typeof readRig>): "read" | "refused" {
  try {
    const rig = read();
    expect(readRig(rigToFile(rig), "again")).toEqual(rig);
    return "read";
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    const { message } = error as InputError;
    expect(message).not.toMatch(/[\r\n]/);
    expect(message.startsWith("fuzz.yaml")).toBe(true);
    expect(message).not.toMatch(/undefined|\[object|at Object\./);
    return "refused";
  }
}

describe("a damaged rig file", () => {
  it("is read or refused in one line, never worse", () => {
    const seen = { read: 0, refused: 0 };
    fc.assert(
      fc.property(fc.constantFrom(...texts), fc.array(edit, { minLength: 1, maxLength: 4 }), (text, edits) => {
        seen[outcome(() => readRig(mutated(text, edits), "fuzz.yaml"))]++;
      }),
      { seed: 41, numRuns: 3000 },
    );
    expect(seen.refused).toBeGreaterThan(500);
    expect(seen.read).toBeGreaterThan(100);
  });

  it("of whatever plain data is refused the same way", () => {
    const text = fc.oneof(fc.constantFrom(...PIECES), fc.string({ maxLength: 6 }));
    const key = fc.oneof(
      fc.constantFrom(
        "format",
        "name",
        "setting",
        "rode",
        "uncertainty",
        "medium",
        "depth",
        "chain",
        "line",
        "weight",
        "stretch",
        "length",
        "__proto__",
      ),
      text,
    );
    const { tree } = fc.letrec((tie) => ({
      leaf: fc.oneof(
        text,
        fc.double(),
        fc.constant(null),
        fc.boolean(),
        fc.constant("rodebench/rig@1"),
        fc.constant("air"),
      ),
      tree: fc.oneof(
        { maxDepth: 4 },
        tie("leaf"),
        fc.array(tie("tree"), { maxLength: 4 }),
        fc.dictionary(key, tie("tree"), { maxKeys: 5 }),
      ),
    }));
    fc.assert(
      fc.property(tree, (data) => {
        expect(outcome(() => rigFrom(data, "fuzz.yaml"))).toBe("refused");
      }),
      { seed: 42, numRuns: 3000 },
    );
  });

  it("of whatever data within a good rig is read or refused", () => {
    const good = JSON.parse(texts.find((text) => text.startsWith("{"))!) as object;
    const paths: (string | number)[][] = [];
    const walk = (node: unknown, path: (string | number)[]) => {
      paths.push(path);
      if (typeof node !== "object" || node === null) return;
      for (const [key, value] of Object.entries(node)) walk(value, [...path, Array.isArray(node) ? Number(key) : key]);
    };
    walk(good, []);
    const value = fc.oneof(
      fc.jsonValue({ maxDepth: 2 }) as fc.Arbitrary<unknown>,
      fc.constantFrom(...PIECES),
      fc.double(),
    );
    fc.assert(
      fc.property(fc.constantFrom(...paths.slice(1)), value, (path, put) => {
        const data = structuredClone(good) as Record<string | number, unknown>;
        let here = data;
        for (const step of path.slice(0, -1)) here = here[step] as Record<string | number, unknown>;
        here[path.at(-1)!] = put;
        outcome(() => rigFrom(data, "fuzz.yaml"));
      }),
      { seed: 43, numRuns: 3000 },
    );
  });
});
