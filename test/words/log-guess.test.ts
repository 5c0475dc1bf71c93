import { describe, expect, it } from "vitest";
import { bytesOf, type GrantedCause, guessLog, type OpenCause, readGranted } from "../../src/log/index.ts";
import {
  columnCauseWords,
  grantedWords,
  guessCauseWords,
  logGuessWords,
  logQuestionWords,
} from "../../src/words/index.ts";

describe("why something was guessed of a log", () => {
  it.each([
    [{ kind: "told" }, "told"],
    [{ kind: "rowsOfWidth", rows: 11, lines: 12, width: 1 }, "11 of 12 lines part into 1 cell"],
    [{ kind: "bothMarks", point: "1.5", comma: "1,5" }, "both 1.5 and 1,5 occur"],
    [
      { kind: "markBeforeThree", mark: ",", cell: "1,122", beside: "987" },
      "a comma before three digits may mark thousands or decimals, as in 1,122 (987 beside it speaks for thousands)",
    ],
    [
      { kind: "markBeforeThree", mark: ".", cell: "1.122", beside: null },
      "a point before three digits may mark thousands or decimals, as in 1.122",
    ],
    [
      { kind: "noMonthPast12", order: "dmy", cell: "13/04/2024" },
      "no month is past 12, so the day stands first in 13/04/2024",
    ],
    [
      { kind: "severalOrders", cell: "03/04/2024", orders: ["dmy", "mdy"] },
      "03/04/2024 may be read with the day or the month first",
    ],
    [{ kind: "sinceEpoch", value: 1714732496000, unit: "ms" }, "1714732496000 ms since 1970 is a day of this century"],
    [
      { kind: "severalTimeUnits", cell: "0", step: 1 / 60, guess: "minutes" },
      "0 and on by 0.0167 without a unit may be a time in several units (a guess: minutes, by the step)",
    ],
    [{ kind: "unitInCells", units: ["kN", "kgf"] }, "unit kN, kgf in the cells"],
    [
      { kind: "place", channel: "latitude", form: "degreesMinutes", sideColumn: 3, sideInTitle: null },
      "degrees and minutes in one number, as ddmm.mmm, N or S in column 3",
    ],
    [
      { kind: "place", channel: "longitude", form: "decimal", sideColumn: null, sideInTitle: "W" },
      "decimal degrees, W in the title",
    ],
    [
      { kind: "withoutUnit", channel: "depth", column: 4 },
      "water depth below the surface without a unit; --map depth=4:UNIT takes it",
    ],
  ] as const)("%j", (why, words) => expect(guessCauseWords(why)).toBe(words));

  it("tells a column's title and unit, and rows counted", () => {
    const titled = { kind: "titled", title: "Load (kg)" } as const;
    expect(
      columnCauseWords({
        kind: "both",
        whys: [titled, { kind: "unitInTitle", unit: "kg" }, { kind: "doubtedUnit", of: "kg" }],
      }),
    ).toBe('titled "Load (kg)"; unit kg in the title; kilograms over a load are the weight of those kilograms');
    expect(columnCauseWords({ kind: "counted", why: { kind: "titled", title: "Sample" }, rate: 10 })).toBe(
      'titled "Sample", 10 a second',
    );
  });
});

describe("what a log leaves open", () => {
  const open: readonly [OpenCause, string][] = [
    [
      { kind: "decimalMark", why: { kind: "bothMarks", point: "1.5", comma: "1,5" } },
      "both 1.5 and 1,5 occur: which mark parts the decimals?",
    ],
    [{ kind: "loadWithoutUnit", title: "Load", column: 2 }, '"Load" states no unit; which is the load in?'],
    [{ kind: "loadWithoutUnit", title: null, column: 2 }, "column 2 states no unit; which is the load in?"],
    [
      { kind: "severalLoads", columns: ["a", "b", "sum"], guess: "sum", isSum: true },
      '3 columns hold a load, "a", "b", "sum": which is the load of the pull? (a guess: "sum", the sum of the others in the rows looked at)',
    ],
    [
      { kind: "severalCells", of: "transducers", names: ["A", "B", "C", "D", "E"] },
      "5 transducers hold a load, A, B, C, D: which is the load of the pull? (a guess: A, the first met)",
    ],
    [
      { kind: "severalSources", of: ["wind"], names: ["WI", "II"], most: "WI", readings: 7 },
      "wind comes from 2 sources, WI, II: which is to be read? (a guess: WI, with 7 readings in the beginning of the file)",
    ],
  ];
  it.each(open)("%j", (question, words) =>
    expect(logQuestionWords({ about: "log", question, answers: ["--a"] })).toMatchObject({
      question: words,
      answers: ["--a"],
    }),
  );

  it("adds what helps where no option does", () => {
    const receivers = { about: "several sources", question: { kind: "twoReceivers" }, answers: [] } as const;
    expect(logQuestionWords(receivers).answers).toEqual([
      "a log with one of them, or with the source before each sentence,",
    ]);
  });
});

describe("what is taken for granted of a log", () => {
  const granted: readonly [GrantedCause, string][] = [
    [{ kind: "times", why: { kind: "secondsWithoutUnit" } }, "times: a number without a unit is taken as seconds"],
    [{ kind: "unit", from: "Load", taken: "lb" }, "Load: pounds over a load are pounds-force"],
    [{ kind: "unit", from: "Angle", taken: "degrees" }, "Angle: no unit stated: taken as degrees"],
    [
      { kind: "load", from: "F", why: { kind: "onlyNumbers" } },
      "F is taken for the load: the one column of numbers beside the time",
    ],
    [{ kind: "otherVessels", others: 2, deltas: 9 }, "2 of the first 9 deltas are of other vessels and left out"],
    [{ kind: "gzipCutOff" }, "the gzip file is cut off; what it holds is read"],
  ];
  it.each(granted)("%j", (cause, words) => {
    expect(grantedWords(cause)).toBe(words);
    expect(grantedWords(readGranted(JSON.parse(JSON.stringify(cause))))).toBe(words);
  });

  it("is told as written where an earlier import kept a sentence", () =>
    expect(grantedWords(readGranted("Load: as it was"))).toBe("Load: as it was"));
});

it("a guess in words has the fields it had, each cause a sentence", () => {
  const text = `Time (s),Load\n${Array.from({ length: 12 }, (_, i) => `${i},${i}.5\n`).join("")}`;
  const guess = guessLog(bytesOf(text), true);
  const words = logGuessWords(guess);
  expect(Object.keys(words)).toEqual(Object.keys(guess));
  expect(words).toMatchObject({
    encoding: { value: "utf-8", why: "all bytes are valid UTF-8" },
    delimiter: { why: "12 of 12 lines part into 2 cells" },
    decimal: { why: "cells such as 0.5" },
    columns: [{ why: "unit s in the title" }, { why: 'titled "Load"' }],
    questions: [{ about: "unit", question: '"Load" states no unit; which is the load in?' }],
    remarks: [],
  });
});
