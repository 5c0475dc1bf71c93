import fc from "fast-check";
import { expect, test } from "vitest";
import { bytesOf } from "../../src/log/encoding.ts";
import { NumberReader } from "../../src/log/number.ts";

const read = (text: string, decimal = ".", grouping = "") => {
  const reader = new NumberReader({
    decimal: decimal.charCodeAt(0),
    grouping: grouping === "" ? 0 : grouping.charCodeAt(0),
  });
  const bytes = bytesOf(text);
  return { value: reader.read(bytes, 0, bytes.length), at: reader.at };
};

const decimalText = fc
  .tuple(
    fc.constantFrom("", "-", "+"),
    fc.stringMatching(/^\d{0,20}$/),
    fc.boolean(),
    fc.stringMatching(/^\d{0,20}$/),
    fc.option(fc.integer({ min: -330, max: 330 }), { freq: 3 }),
  )
  .filter(([, whole, point, after]) => whole.length + (point ? after.length : 0) > 0)
  .map(([sign, whole, point, after, e]) => `${sign}${whole}${point ? `.${after}` : ""}${e === null ? "" : `e${e}`}`);

test("a number of bytes is Number of the text, to the last bit", () => {
  fc.assert(
    fc.property(decimalText, (text) => {
      const { value, at } = read(text);
      expect(at).toBe(text.length);
      expect(Object.is(value, Number(text))).toBe(true);
    }),
    { seed: 21, numRuns: 5000 },
  );
});

test("any double written out comes back as it was", () => {
  fc.assert(
    fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (x) => {
      // String(-0) is "0".
      expect(read(String(x)).value === x).toBe(true);
    }),
    { seed: 22, numRuns: 5000 },
  );
});

test("a decimal comma is a decimal point by another name", () => {
  fc.assert(
    fc.property(decimalText, (text) => {
      expect(Object.is(read(text.replace(".", ","), ",").value, Number(text))).toBe(true);
    }),
    { seed: 23, numRuns: 1000 },
  );
});

test.each([
  ["1,234,567.5", ".", ",", 1234567.5],
  ["1.234.567,5", ",", ".", 1234567.5],
  ["12 345", ".", " ", 12345],
  ["1'234.5", ".", "'", 1234.5],
  ["12,34", ".", ",", 12],
  ["1,2345", ".", ",", 1],
])("%s with decimal %s and thousands %s", (text, decimal, grouping, value) => {
  expect(read(text, decimal, grouping).value).toBe(value);
});

test.each(["", "-", "+", ".", "abc", "e5", "-.", "NaN"])("%j is no number", (text) => {
  expect(read(text)).toEqual({ value: Number.NaN, at: 0 });
});

test("what follows a number is left", () => {
  expect(read("12.5kN")).toEqual({ value: 12.5, at: 4 });
  expect(read("3e")).toEqual({ value: 3, at: 1 });
  expect(read("1e+x")).toEqual({ value: 1, at: 1 });
});
