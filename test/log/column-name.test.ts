import { expect, test } from "vitest";
import { columnOf } from "../../src/log/column-name.ts";
import { readTitle } from "../../src/log/title.ts";

const titles = ["Time (s)", "Load (kN)", "2", "Angle"].map((title) => readTitle(title));

test.each<[string, number]>([
  ["Load (kN)", 1],
  [" load (KN) ", 1],
  ["load", 1],
  ["Time", 0],
  ["angle", 3],
  // A title beats a number.
  ["2", 2],
  ["1", 0],
  ["4", 3],
])("%j is column %i, the first 0", (asked, column) => expect(columnOf(asked, titles)).toBe(column));

test.each(["0", "5", "kN", "", "Tension"])("%j is no column, and the columns are told", (asked) =>
  expect(() => columnOf(asked, titles)).toThrow("a column of the file is expected: Time (s), Load (kN), 2, Angle"),
);
test("columns without a title are told by their number", () =>
  expect(() =>
    columnOf(
      "x",
      ["", "Load"].map((title) => readTitle(title)),
    ),
  ).toThrow("expected: 1, Load"));
