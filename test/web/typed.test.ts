import { describe, expect, it } from "vitest";
import { isId } from "../../src/record/index.ts";
import { lineOf } from "../../src/web/api/client.ts";
import { newId } from "../../src/web/api/ids.ts";
import { quantityTyped } from "../../src/web/controls/quantity-typed.ts";

const above = { above: 0, most: 1e5, expected: "a length above zero is expected" };

describe("what is typed into a field", () => {
  it("is of the unit shown when it has none, and of its own when it has one", () => {
    expect(quantityTyped("12", "ft", "length", "depth", above)).toBeCloseTo(3.6576, 12);
    expect(quantityTyped("3/8", "in", "length", "size", above)).toBeCloseTo(0.009525, 12);
    expect(quantityTyped("9 1/2 in", "m", "length", "depth", above)).toBeCloseTo(0.2413, 12);
    expect(quantityTyped("105' 6\"", "m", "length", "depth", above)).toBeCloseTo(32.1564, 12);
    expect(quantityTyped("400 lbf", "N", "force", "load", undefined)).toBeCloseTo(1779.28864609, 6);
    expect(quantityTyped("3", "%", "ratio", "±", undefined)).toBeCloseTo(0.03, 12);
    expect(quantityTyped("0.6", "", "ratio", "friction", undefined)).toBe(0.6);
    expect(quantityTyped("-3", "°", "angle", "slope", undefined)).toBeCloseTo((-3 * Math.PI) / 180, 12);
  });

  it("is told in one line what is wrong with it, the field first", () => {
    for (const [text, line] of [
      ["12 kn", /^depth: "12 kn" is a speed; a length is expected/],
      ["", /^depth: /],
      ["0", /^depth: a length above zero is expected$/],
      ["-4 m", /^depth: a length above zero is expected$/],
      ["1,5", /^depth: .*decimal/],
      ["seven", /^depth: "seven/],
    ] as const) {
      const said = quantityTyped(text, "m", "length", "depth", above);
      expect(said).toMatch(line);
      expect(String(said)).not.toContain("\n");
    }
  });
});

describe("what goes between the bench and the book", () => {
  it("has ids the book takes, each once, in the order they were made", () => {
    const ids = Array.from({ length: 6000 }, () => newId());
    expect(ids.every(isId)).toBe(true);
    expect(new Set(ids).size).toBe(ids.length);
    expect([...ids].sort()).toEqual(ids);
    // A clock set back: later ids still come later.
    expect(newId(1000) > ids.at(-1)!).toBe(true);
  });

  it("says a refusal in one line as the command line does", () => {
    const body = { error: { place: "pull.depth", given: '"12 kn"', expected: "a length is expected" } };
    expect(lineOf(body, 400)).toBe('pull.depth: "12 kn"; a length is expected');
    expect(lineOf({}, 503)).toBe("the server answered 503");
  });
});
