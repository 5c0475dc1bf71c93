import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { DEEPEST, readDocument, readJson } from "../../src/quantity/index.ts";

const tooDeep = (place: string) => `${place}: nested too deeply; at most ${DEEPEST} levels are expected`;

/** Texts of some 200 kB that ask for a stack of a hundred thousand. */
const deep: readonly (readonly [string, string])[] = [
  ["- ", "- ".repeat(100_000)],
  ["? ", "? ".repeat(100_000)],
  [": ", ": ".repeat(100_000)],
  ["[", "[".repeat(200_000)],
  ["{a: ", "{a: ".repeat(50_000)],
  ["[? ", "[? ".repeat(60_000)],
  ['["]", ', '["]", '.repeat(40_000)],
  ["indented names", Array.from({ length: 600 }, (_, i) => `${" ".repeat(i)}a:`).join("\n")],
  ["indented lists", Array.from({ length: 600 }, (_, i) => `${" ".repeat(i)}-`).join("\n")],
  ['{"a":', '{"a":'.repeat(40_000)],
];

describe("a text nested by the thousand", () => {
  it.each(deep)("of %j is refused in one line", (_, text) => {
    expect(() => readDocument(text, "deep.yaml")).toThrow(
      expect.objectContaining({ name: "InputError", message: tooDeep("deep.yaml") }),
    );
  });

  it("is refused when it is closed again, as JSON", () => {
    const text = `${'{"a":['.repeat(20_000)}1${"]}".repeat(20_000)}`;
    for (const read of [readJson, readDocument])
      expect(() => read(text, "body")).toThrow(
        expect.objectContaining({ name: "InputError", message: tooDeep("body") }),
      );
  });
});

describe("as deep as it may be", () => {
  const nested = (levels: number) => `${"[".repeat(levels)}1${"]".repeat(levels)}`;
  it("it is read, and one level more is not", () => {
    for (const read of [readJson, readDocument]) {
      expect(JSON.stringify(read(nested(DEEPEST), "file"))).toBe(nested(DEEPEST));
      expect(() => read(nested(DEEPEST + 1), "file")).toThrow(/nested too deeply/);
    }
  });

  it("brackets within text open nothing", () => {
    const text = JSON.stringify({ remarks: `${"[{".repeat(500)}"\\`, more: ["\\", "\\\\", '"'] });
    expect(readJson(text, "file")).toEqual(JSON.parse(text));
    expect(readDocument(`a: '${"[".repeat(500)}'\nb: |\n  ${"[{ ".repeat(500)}\n`, "file")).toBeTypeOf("object");
  });
});

it("JSON of any kind is read as the language reads it", () => {
  fc.assert(
    fc.property(fc.json({ depthSize: "small", maxDepth: 6 }), (text) => {
      expect(readJson(text, "file")).toEqual(JSON.parse(text));
    }),
  );
});

it("what is not JSON is told in one line", () => {
  expect(() => readJson('{"a": 1', "body")).toThrow("body: not JSON; JSON is expected");
});

// Each was some seconds when every error was drawn with its line, and when each name was compared with all others.
it("a file full of one fault is refused by its first", () => {
  expect(() => readDocument("!a ".repeat(80_000), "f")).toThrow(/^f: line 1: A node can have at most one tag/);
  expect(() => readDocument("*a ".repeat(80_000), "f")).toThrow(/^f: line 1: /);
  const names = Array.from({ length: 30_000 }, (_, i) => `n${i}:`);
  expect(() => readDocument([...names, "n7:"].join("\n"), "f")).toThrow(
    "f: line 30001: n7 stands twice in one group; each name once is expected",
  );
});
