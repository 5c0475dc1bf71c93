import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import {
  checkShape,
  type Dimension,
  fieldPath,
  InputError,
  issueText,
  parseQuantity,
  readDocument,
  roundToUncertainty,
} from "../../src/quantity/index.ts";

const page = readFileSync(join(import.meta.dirname, "../../docs/quantities.md"), "utf8");

/** Rows of the table below a heading, cells stripped of their code marks. */
function tableUnder(heading: string): string[][] {
  const section = page.split(`## ${heading}\n`)[1]!.split("\n## ")[0]!;
  const rows = section.split("\n").filter((line) => line.startsWith("| "));
  return rows.slice(2).map((line) =>
    line
      .slice(2, -2)
      .split(" | ")
      .map((cell) => cell.replace(/^`|`$/g, "")),
  );
}

describe("the page on quantities", () => {
  const read = tableUnder("What is read");
  it("has something to check", () => expect(read.length).toBeGreaterThan(25));

  it.each(read)("says that %s as a %s is %s", (text, dimension, value) => {
    expect(parseQuantity(text!, dimension as Dimension, "docs")).toBe(Number(value));
  });

  it.each(tableUnder("What is refused, and how"))("says how %s as a %s is refused", (text, dimension, line) => {
    expect(() => parseQuantity(text!, dimension as Dimension, "rode #3.length")).toThrow(
      expect.objectContaining({ name: "InputError", message: line }),
    );
  });

  it.each(tableUnder("How it is shown"))("says how %s ± %s is shown", (value, u, shown) => {
    const rounded = roundToUncertainty(Number(value), Number(u));
    expect(`${rounded.value} ± ${rounded.u}`).toBe(shown);
  });

  it("names only units that are read", () => {
    const list = /Units known: (.*)/
      .exec(page)![1]!
      .replace("and any length over a time", "")
      .replace("as an acceleration.", "");
    const units = list.split(/[ ·]+/).filter(Boolean);
    expect(units.length).toBeGreaterThan(50);
    const dimensions: Dimension[] = [
      "length",
      "mass",
      "force",
      "massPerLength",
      "speed",
      "angle",
      "ratio",
      "time",
      "volume",
      "pressure",
      "energy",
      "power",
      "frequency",
    ];
    for (const unit of units) {
      const reads = dimensions.some((dimension) => {
        try {
          return parseQuantity(`1 ${unit}`, dimension, "docs") > 0;
        } catch {
          return false;
        }
      });
      expect(reads, unit).toBe(true);
    }
  });
});

describe("readDocument", () => {
  it.each([
    ["a: 1\nb: [x, 2.5, true, null]", { a: 1, b: ["x", 2.5, true, null] }],
    ['{"a": "12 m"}', { a: "12 m" }],
    ["\ufeffa: 1", { a: 1 }],
    ["a: yes\nb: 012\nc: 2026-01-01", { a: "yes", b: 12, c: "2026-01-01" }],
    ["", null],
  ])("reads %j as plain data", (text, data) => {
    expect(readDocument(text, "file")).toEqual(data);
  });

  it.each([
    ["a: 1\na: 2", "file: line 2: a stands twice in one group; each name once is expected"],
    ["a: {b: 1", "file: line 1: a { that is not closed; a } at its end is expected"],
    ["a: 1\n---\nb: 2", "file: line 2: a second document; one document is expected"],
    ["a: *x", "file: the alias *x; every value is expected to be written out"],
    ["a: &x 1", "file: the anchor mark &x; every value is expected to be written out"],
    ["a: !secret 1", "file: line 1: the tag !secret; a value without a tag is expected"],
  ])("refuses %j in one line", (text, line) => {
    expect(() => readDocument(text, "file")).toThrow(expect.objectContaining({ name: "InputError", message: line }));
    expect(() => readDocument(text, "file")).toThrow(InputError);
  });
});

describe("checkShape", () => {
  const shape = z.strictObject({
    kind: z.discriminatedUnion("is", [
      z.strictObject({ is: z.literal("gust"), factor: z.number() }),
      z.strictObject({ is: z.literal("mean"), minutes: z.number() }),
    ]),
    rows: z.array(z.strictObject({ load: z.number(), angle: z.number().optional() })).optional(),
    named: z.record(z.string(), z.strictObject({ colour: z.string() })).optional(),
  });

  it("gives good data back", () => {
    const data = { kind: { is: "gust", factor: 1.4 }, rows: [{ load: 3 }] };
    expect(checkShape(data, shape, "file")).toEqual(data);
  });

  it.each([
    [{ kind: { is: "gust", facter: 1 } }, "file: kind.facter: no such field; is factor meant?"],
    [{ kind: { is: "mean", factor: 1 } }, "file: kind.factor: no such field; one of is, minutes is expected"],
    [{ kind: { is: "gust", factor: "1" } }, 'file: kind.factor: "1"; a number is expected'],
    [{ kind: 1 }, "file: kind: 1; a group of fields is expected"],
    [{}, "file: kind: nothing given; a group of fields is expected"],
    [[], "file: an empty list; a group of fields is expected"],
    [
      { kind: { is: "mean", minutes: 1 }, rows: [{ load: 1 }, { laod: 2 }] },
      "file: rows #2.laod: no such field; is load meant?",
    ],
    [{ kind: { is: "mean", minutes: 1 }, rows: {} }, "file: rows: a group of fields; a list is expected"],
    [
      { kind: { is: "mean", minutes: 1 }, named: { a: { color: "x" } } },
      "file: named.a.color: no such field; is colour meant?",
    ],
  ])("tells what is wrong with %j", (data, line) => {
    expect(() => checkShape(data, shape, "file")).toThrow(
      expect.objectContaining({ name: "InputError", message: line }),
    );
  });

  const span = z
    .strictObject({ from: z.number(), to: z.number() })
    .superRefine(({ from, to }, context) => {
      const message = issueText("an end before the beginning", "an end after it is expected");
      if (to < from) context.addIssue({ code: "custom", path: ["to"], message });
    })
    .transform(({ from, to }) => to - from);

  it.each([
    [{ from: 3, to: 1 }, "file: to: an end before the beginning; an end after it is expected"],
    [{ from: 3, too: 1 }, "file: too: no such field; is to meant?"],
    [null, "file: an empty file; a group of fields is expected"],
  ])("tells of %j what the schema says was given, and knows its fields before they are transformed", (data, line) => {
    expect(checkShape({ from: 1, to: 3 }, span, "file")).toBe(2);
    expect(() => checkShape(data, span, "file")).toThrow(
      expect.objectContaining({ name: "InputError", message: line }),
    );
  });

  it("writes a path as people do", () => {
    expect(fieldPath(["rode", 2, "chain", "size"])).toBe("rode #3.chain.size");
    expect(fieldPath([])).toBe("");
  });
});
