import fc from "fast-check";
import Papa from "papaparse";
import { expect, test } from "vitest";
import { cellsOf } from "../../src/log/cells.ts";
import { meansNone } from "../../src/log/load-watch.ts";
import type { TablePlan } from "../../src/log/plan.ts";
import { readAll } from "./read-table.ts";

type Marks = {
  readonly delimiter: ";" | "\t" | "|" | ",";
  readonly decimal: "." | ",";
  readonly newline: "\n" | "\r\n";
};

const marks = fc
  .record({
    delimiter: fc.constantFrom<Marks["delimiter"]>(";", "\t", "|", ","),
    decimal: fc.constantFrom<Marks["decimal"]>(".", ","),
    newline: fc.constantFrom<Marks["newline"]>("\n", "\r\n"),
  })
  .filter(({ delimiter, decimal }) => delimiter !== decimal);

const number = fc
  .tuple(fc.integer({ min: -99999, max: 99999 }), fc.integer({ min: 0, max: 4 }))
  .map(([n, digits]) => (n / 10 ** digits).toFixed(digits));
const words = fc.string({ maxLength: 12 }).filter((text) => !/\r(?!\n)|\0/.test(text));

function planFor({ delimiter, decimal }: Marks): TablePlan {
  return {
    encoding: "utf-8",
    delimiter,
    decimal,
    grouping: "",
    width: 3,
    dataLine: 1,
    dataOffset: 0,
    titles: [],
    time: { column: 0, format: "elapsed-s", date: null, clock: "elapsed", zone: 0, start: 0, rate: 1 },
    values: [
      { column: 1, channel: { name: "load", kind: "load", from: "load", fromUnit: "N" }, scale: 1, unitColumn: -1 },
    ],
    step: 0,
    // Rows may be alike here, and none is a repeat.
    rowsPerStamp: 2,
  };
}

test("the byte loop reads what papaparse reads: quotes, doubled quotes, delimiters and line ends within them", () => {
  fc.assert(
    fc.property(
      marks,
      // Numbers that stand for no reading are left out, which papaparse knows nothing of.
      fc.array(
        fc.tuple(
          number,
          number.filter((text) => !meansNone(Number(text))),
          words,
          fc.boolean(),
        ),
        {
          minLength: 1,
          maxLength: 12,
        },
      ),
      fc.integer({ min: 1, max: 40 }),
      (how, rows, piece) => {
        const written = rows.map(([t, v, note]) => [t, v].map((n) => n.replace(".", how.decimal)).concat(note));
        const text = Papa.unparse(written, { delimiter: how.delimiter, newline: how.newline, quotes: rows[0]![3] });
        const reference = Papa.parse<string[]>(text, { delimiter: how.delimiter, newline: how.newline }).data;
        expect(reference.length).toBe(rows.length);
        const bytes = new TextEncoder().encode(text);
        const read = readAll(bytes, planFor(how), piece);
        const toNumber = (cell: string) => Number(cell.replace(how.decimal, "."));
        expect(read.times).toEqual(reference.map((row) => toNumber(row[0]!)));
        expect(read.values[0]).toEqual(reference.map((row) => toNumber(row[1]!)));
        expect(read.troubles.rejected).toBe(0);
      },
    ),
    { seed: 26, numRuns: 1500 },
  );
});

test("the cells the guess looks at are those papaparse makes, blanks around them aside", () => {
  const cell = fc.oneof(
    number,
    fc.string({ maxLength: 8 }).filter((text) => !/[\r\n\0\u00a0]/.test(text)),
  );
  fc.assert(
    fc.property(
      fc.constantFrom(";", "\t", "|", ",") as fc.Arbitrary<";" | "\t" | "|" | ",">,
      fc.array(cell, { minLength: 1, maxLength: 6 }),
      (delimiter, row) => {
        const line = Papa.unparse([row], { delimiter });
        const reference = Papa.parse<string[]>(line, { delimiter, newline: "\n" }).data[0] ?? [""];
        // Quoted blanks are part of a cell to papaparse, and no reading to anybody.
        expect(cellsOf(line, delimiter).map((text) => text.trim())).toEqual(reference.map((text) => text.trim()));
      },
    ),
    { seed: 27, numRuns: 1500 },
  );
});
