/** How a table of readings is taken apart and what its columns are taken for: small tables, each with what it says worked out here. */
import { describe, expect, test } from "vitest";
import { cellsOf, isOverload, linesOf, lookOf } from "../../src/log/cells.ts";
import { guessDateOrder } from "../../src/log/date-order.ts";
import { delimiterName, guessLayout, isComment } from "../../src/log/dialect.ts";
import { headerIn } from "../../src/log/header-again.ts";
import { NumberReader } from "../../src/log/number.ts";
import { oddCell } from "../../src/log/odd-cell.ts";
import { arePlaces, guessPlace } from "../../src/log/place-column.ts";
import { readPreamble } from "../../src/log/preamble.ts";
import { rhythmOf } from "../../src/log/rhythm.ts";
import { RowColumns } from "../../src/log/row-columns.ts";
import { askWhichLoad, loadsOf, repeatsOf } from "../../src/log/several-loads.ts";
import { isCount, perSecond, stampFormats } from "../../src/log/stamp-format.ts";
import { guessStampFormat } from "../../src/log/stamp-guess.ts";
import { TimeOrder } from "../../src/log/time-order.ts";
import { readTitle } from "../../src/log/title.ts";
import { shown, Troubles, visible } from "../../src/log/troubles.ts";
import { dimensionsOf, isVagueTon, readUnit, unitsFor } from "../../src/log/unit-name.ts";
import { choices, guessed, readAll } from "./read-table.ts";

const bytes = (text: string) => new TextEncoder().encode(text);
const table = (header: string, row: (i: number) => string, n = 12) =>
  bytes(`${header}\n${Array.from({ length: n }, (_, i) => `${row(i)}\n`).join("")}`);

describe("lines and cells", () => {
  test("lines end with any of the three ends, the last one too without", () => {
    expect(linesOf("a\r\nb\rc\n\nd", 10)).toEqual([
      { number: 1, at: 0, text: "a" },
      { number: 2, at: 3, text: "b" },
      { number: 3, at: 5, text: "c" },
      { number: 4, at: 7, text: "" },
      { number: 5, at: 8, text: "d" },
    ]);
    expect(linesOf("a\nb\nc", 2)).toHaveLength(2);
    expect(linesOf("a\n", 10)).toHaveLength(1);
    expect(linesOf("", 10)).toEqual([]);
  });
  test.each<[string, string, string[]]>([
    ["a, b ,c", ",", ["a", "b", "c"]],
    ["a,,", ",", ["a", "", ""]],
    ['"a,b",c', ",", ["a,b", "c"]],
    ['"say ""so""" ,2', ",", ['say "so"', "2"]],
    ['"12" kN,3', ",", ["12 kN", "3"]],
    ['"open,3', ",", ['"open', "3"]],
    ["  1  2\t3 ", " ", ["1", "2", "3"]],
    ["1\t \t3", "\t", ["1", "", "3"]],
    ["one two", "", ["one two"]],
    ['"a ""b"""', "", ['a "b"']],
    ["\u00a01;2", ";", ["1", "2"]],
  ])("%j parted by %j: %j", (line, delimiter, cells) => expect(cellsOf(line, delimiter as ",")).toEqual(cells));
  test.each<[string, readonly string[]]>([
    ["number", ["1", "-1.5", "−2,5", "+.5", "1e-3", "12 kN", "1,234.5", "1.234.567,8", "12 345", "1'234.5 N", "5°"]],
    [
      "stamp",
      [
        "10:20",
        "10:20:30.5",
        "10:20:30 pm",
        "2024-05-03",
        "3. Mai 2024",
        "3 May 2024 10:20",
        "May 3, 2024",
        "20240503T102030",
        "20240503 1020Z",
        "10:20:30 +02:00",
      ],
    ],
    ["missing", ["NaN", "n/a", "-", "--", "OL", "OVER RANGE", "#N/A", "err", "no data", "-Inf", "> 5000 N", "?"]],
    ["text", ["slack", "a b", "12 furlongs per x", "x".repeat(49), "10 20"]],
    ["blank", [""]],
  ])("a cell looks like a %s: %j", (look, cells) => {
    for (const cell of cells) expect(lookOf(cell), cell).toBe(look);
  });
  test("an overload is one of the words for none", () => {
    for (const cell of ["OL", "O.L", "0L", "over", "Overload", "sat", ">500 kN"])
      expect(isOverload(cell), cell).toBe(true);
    for (const cell of ["nan", "-", "open"]) expect(isOverload(cell), cell).toBe(false);
  });
});

describe("an odd cell", () => {
  const of = (text: string, more: { grouping?: string; decimal?: string; kind?: "load" | "angle" } = {}) => {
    const numbers = new NumberReader({
      decimal: (more.decimal ?? ".").charCodeAt(0),
      grouping: (more.grouping ?? "").charCodeAt(0) || 0,
    });
    const all = bytes(text);
    return oddCell(all, 0, all.length, { numbers, kind: more.kind ?? "load", encoding: "utf-8" });
  };
  test("is a number with its unit, a word for none, or trouble", () => {
    expect(of(" 12.5 kN ")).toEqual({ kind: "number", value: 12.5, scale: 1000 });
    expect(of("12.5")).toEqual({ kind: "number", value: 12.5, scale: null });
    expect(of("−12.5")).toEqual({ kind: "number", value: -12.5, scale: null });
    expect(of("–3 daN")).toEqual({ kind: "number", value: -3, scale: 10 });
    expect(of("12 345,5", { grouping: " ", decimal: "," })).toMatchObject({ value: 12345.5 });
    expect(of("12\u202f345", { grouping: " " })).toMatchObject({ value: 12345 });
    expect(of("12’345", { grouping: "'" })).toMatchObject({ value: 12345 });
    expect(of("45°", { kind: "angle" })).toMatchObject({ value: 45, scale: Math.PI / 180 });
    expect(of("   ")).toEqual({ kind: "blank" });
    expect(of("n/a")).toEqual({ kind: "missing" });
    expect(of("OL")).toEqual({ kind: "overload" });
    for (const text of ["12 m", "slack", "12 furlongs"]) expect(of(text), text).toEqual({ kind: "trouble" });
  });
});

describe("units as loggers spell them", () => {
  test.each<[kind: "load" | "speed" | "angle" | "depth" | "latitude", spelled: string, unit: string, scale: number]>([
    ["load", " kN. ", "kN", 1000],
    ["load", "Metric  Ton", "tf", 9806.65],
    ["load", "kip", "kip", 4448.2216152605],
    ["load", "kp", "kgf", 9.80665],
    ["speed", "kts", "kn", 1852 / 3600],
    ["speed", "km/h", "km/h", 1 / 3.6],
    ["speed", "mph", "mph", 0.44704],
    ["speed", "fps", "ft/s", 0.3048],
    ["angle", "º", "deg", Math.PI / 180],
    ["angle", "mrad", "mrad", 0.001],
    ["depth", "fathoms", "fathom", 1.8288],
    ["depth", '"', "in", 0.0254],
    ["depth", "'", "ft", 0.3048],
    ["latitude", "deg N", "deg", 1],
    ["latitude", "rad", "rad", 180 / Math.PI],
    ["latitude", "mrad", "mrad", 0.18 / Math.PI],
  ])("over a %s %j is %s", (kind, spelled, unit, scale) => {
    const read = readUnit(spelled, kind)!;
    expect(read.unit).toBe(unit);
    expect(read.scale).toBeCloseTo(scale, 12);
  });
  test("are doubted where a mass stands for its weight", () => {
    const doubts = (spelled: string) => readUnit(spelled, "load")!.doubt;
    expect(["kg", "kilos", "lb", "#", "pounds", "t", "tonnes", "kgf", "lbf", "kN"].map(doubts)).toEqual([
      ...["kg", "kg", "lb", "lb", "lb", "t", "t", undefined, undefined, undefined],
    ]);
    expect([isVagueTon("ton"), isVagueTon("Tons."), isVagueTon("tonne")]).toEqual([true, true, false]);
  });
  test("speak for the quantities they are of", () => {
    expect([dimensionsOf("kn"), dimensionsOf("m"), dimensionsOf("N"), dimensionsOf("x")]).toEqual([
      ["force", "speed"],
      ["length"],
      ["force"],
      [],
    ]);
    expect(unitsFor("load").split(", ")).toEqual(["N", "daN", "kN", "lbf", "kip", "kgf", "tf"]);
  });
  test("of counts are so many a second", () => {
    const counts = stampFormats.filter(isCount);
    expect(counts).toEqual([
      "epoch-s",
      "epoch-ms",
      "epoch-us",
      "elapsed-s",
      "elapsed-ms",
      "elapsed-us",
      "elapsed-min",
      "elapsed-h",
      "count",
    ]);
    expect(counts.map(perSecond)).toEqual([1, 1e3, 1e6, 1, 1e3, 1e6, 1 / 60, 1 / 3600, 1]);
    expect(perSecond("ymd")).toBe(1);
  });
});

describe("the order of a date", () => {
  const order = (
    cells: string[],
    title = "When",
    hints: { delimiter: "," | ";"; decimal: "." | "," } = { delimiter: ",", decimal: "." },
    least = cells.length,
  ) => guessDateOrder(cells, readTitle(title), hints, least);
  test.each<[claim: string, cells: string[], title: string, value: string, why: string, sure: [number, number]]>([
    ["year first", ["2024-05-03", "2024-05-04"], "When", "ymd", "yearFirst", [1, 1]],
    ["no other is a date", ["99/12/31"], "When", "ymd", "onlyYearFirst", [1, 1]],
    ["a day past twelve", ["13/05/2024", "03/05/2024"], "When", "dmy", "noMonthPast12", [1, 1]],
    ["a month in letters, the day before it", ["3 May 2024"], "When", "dmy", "monthsInLetters", [0.9, 1]],
    ["a month in letters, first", ["May 3, 2024"], "When", "mdy", "monthsInLetters", [1, 1]],
    ["the title says it", ["03/05/2024"], "Date mm/dd/yyyy", "mdy", "titleTellsOrder", [1, 1]],
    ["midnight", ["03/05/2024 23:59", "04/05/2024 00:01"], "When", "dmy", "midnightStepsADay", [0.6, 0.99]],
    ["points between", ["03.05.2024"], "When", "dmy", "pointsDayFirst", [0.6, 0.94]],
  ])("%s", (_, cells, title, value, why, [low, high]) => {
    const guess = order(cells, title)!;
    expect([guess.value, guess.why.kind, guess.open]).toEqual([value, why, undefined]);
    expect(guess.confidence).toBeGreaterThanOrEqual(low);
    expect(guess.confidence).toBeLessThanOrEqual(high);
  });
  test("is day first where decimals are commas or cells parted by semicolons, unless am and pm are written", () => {
    for (const hints of [
      { delimiter: ";", decimal: "." },
      { delimiter: ",", decimal: "," },
    ] as const) {
      const guess = order(["03/05/2024 10:00"], "When", hints)!;
      expect([guess.value, guess.why.kind]).toEqual(["dmy", "writtenDayFirst"]);
      expect(guess.confidence).toBeGreaterThanOrEqual(0.6);
      expect(guess.confidence).toBeLessThan(0.95);
      expect(order(["03/05/2024 10:00 pm"], "When", hints)).toMatchObject({
        value: "mdy",
        confidence: 0.5,
        open: ["dmy", "mdy"],
      });
    }
    expect(order(["03/05/2024 10:00"])).toMatchObject({
      value: "dmy",
      why: { kind: "severalOrders", cell: "03/05/2024 10:00", orders: ["dmy", "mdy"] },
    });
  });
  test("is none where too few cells are dates", () => {
    expect(order(["03/05/2024", "x", "y"], "When", undefined, 2)).toBeNull();
    expect(order(["2024-05-03", "x"], "When", undefined, 1)?.value).toBe("ymd");
  });
});

describe("the format of a time", () => {
  const guess = (cells: string[], title = "Time") =>
    guessStampFormat(cells, readTitle(title), { delimiter: ",", decimal: "." });
  const steps = (from: number, step: number, n = 6, digits = 0) =>
    Array.from({ length: n }, (_, i) => (from + i * step).toFixed(digits));
  test("is a spreadsheet's day where the rows part by less than a hundredth of one, else asked", () => {
    expect(guess(steps(45000.1, 0.009, 6, 5))).toMatchObject({ value: "excel", confidence: 0.8 });
    expect(guess(steps(45000.1, 0.015, 6, 5))).toMatchObject({ confidence: 0.5, open: ["elapsed-s", "excel"] });
    expect(guess(steps(45000.1, 0.009, 6, 4))).toMatchObject({ confidence: 0.5, open: ["elapsed-s", "excel"] });
  });
  test.each<[claim: string, cells: string[], title: string, value: string, why: string]>([
    ["eight digits", ["20240503T102030", "20240503T102031"], "Time", "compact", "eightDigits"],
    ["a clock time", ["10:20:30", "10:20:31"], "Time", "clock", "timeOfDay"],
    ["told to have elapsed", ["10:20:30", "10:20:31"], "Elapsed", "elapsed-clock", "titled"],
    ["minutes and seconds told", ["10:20", "10:21"], "mm:ss", "elapsed-clock", "titled"],
    ["hours and minutes told", ["10:20", "10:21"], "hh:mm", "clock", "timeOfDay"],
    ["from nought on", ["00:00:01", "00:00:02"], "Time", "elapsed-clock", "startsAt"],
    ["past any day", ["100:00:01", "100:00:02"], "Time", "elapsed-clock", "pastTimeOfDay"],
    ["seconds since 1970", steps(1.7e9, 1), "Time", "epoch-s", "sinceEpoch"],
    ["milliseconds since 1970", steps(1.7e12, 1000), "Time", "epoch-ms", "sinceEpoch"],
    ["microseconds since 1970", steps(1.7e15, 1e6), "Time", "epoch-us", "sinceEpoch"],
    ["days of a spreadsheet", steps(45415.5, 0.00001, 6, 5), "Time", "excel", "dayNumber"],
    ["a unit of minutes", steps(0, 1), "Time (min)", "elapsed-min", "unitInTitle"],
    ["of hours", steps(0, 1), "Time (h)", "elapsed-h", "unitInTitle"],
    ["of microseconds", steps(0, 1), "Time (us)", "elapsed-us", "unitInTitle"],
    ["of seconds", steps(0, 1), "Time (s)", "elapsed-s", "unitInTitle"],
    ["like seconds", steps(0, 0.1, 6, 1), "Time", "elapsed-s", "secondsWithoutUnit"],
  ])("%s", (_, cells, title, value, why) => {
    const found = guess(cells, title)!;
    expect([found.value, found.why.kind, found.open]).toEqual([value, why, undefined]);
    expect(found.confidence).toBeGreaterThanOrEqual(0.7);
    expect(found.confidence).toBeLessThanOrEqual(1);
  });
  test.each<[claim: string, cells: string[], title: string, open: string[]]>([
    ["two fields near nought", ["0:04", "0:05"], "Time", ["elapsed-clock", "clock"]],
    ["two fields past five hours", ["5:20", "5:21"], "Time", ["clock", "elapsed-clock"]],
    ["whole numbers one by one", steps(0, 1), "Time", ["elapsed-s", "count", "elapsed-min"]],
    ["whole numbers by fives", steps(0, 5), "Time", ["elapsed-ms", "elapsed-s"]],
    ["steps below a thousandth", steps(0, 0.0005, 6, 4), "Time", ["elapsed-min", "elapsed-s", "elapsed-h"]],
    ["steps of a sixtieth", steps(0, 1 / 60, 6, 5), "Time", ["elapsed-min", "elapsed-s", "elapsed-h"]],
    ["steps of a hundred and twentieth", steps(0, 1 / 120, 6, 5), "Time", ["elapsed-min", "elapsed-s", "elapsed-h"]],
    ["steps past sixty", steps(0, 60.5, 6, 1), "Time", ["elapsed-min", "elapsed-s", "elapsed-h"]],
    ["days or seconds", steps(45415.5, 0.001, 6, 3), "Time", ["elapsed-s", "excel"]],
    ["days or seconds, dated", steps(45415.5, 0.0001, 6, 4), "Datestamp", ["excel", "elapsed-s"]],
  ])("is asked: %s", (_, cells, title, open) => {
    expect(guess(cells, title)).toMatchObject({ value: open[0], confidence: 0.5, open });
  });
  test("is seconds for whole numbers by two to four, and for days that run too far", () => {
    expect(guess(steps(0, 2))).toMatchObject({ value: "elapsed-s", why: { kind: "secondsWithoutUnit" } });
    expect(guess(steps(45415.5, 1.00001, 6, 5))?.value).toBe("elapsed-s");
    expect(guess(["0", "1", "3", "4", "5"])).toMatchObject({ why: { kind: "secondsWithoutUnit" } });
  });
  test("passes over words at the end, and one cell that is none", () => {
    expect(guess(["10:20:30", "10:20:31", "end of log"])?.value).toBe("clock");
    expect(guess(["10:20:30", "x1:y", "10:20:32", "10:20:33", "10:20:34"])?.value).toBe("clock");
    expect(guess(["10:20:30", "x1:y", "z2:y", "10:20:33", "10:20:34"])).toBeNull();
    expect([guess([]), guess(["", "words"])]).toEqual([null, null]);
  });
});

describe("how stamps step", () => {
  const rhythm = (cells: string[], format = "elapsed-s") =>
    rhythmOf(
      cells.map((cell) => [cell]),
      {
        plan: { column: 0, format, date: null, clock: "elapsed", zone: 0, start: 0, rate: 4 },
        columns: new Map(),
      } as never,
      ".",
    );
  test("is the usual step, and how many rows share one", () => {
    expect(rhythm(["0", "1", "2", "4", "5", "9"])).toEqual({ step: 1, rowsPerStamp: 1 });
    expect(rhythm(["0", "1", "1", "1", "2", "2", "2", "3", "3", "3", "4", "4", "4", "5"])).toEqual({
      step: 1,
      rowsPerStamp: 3,
    });
    expect(rhythm(["0", "1", "1", "2", "2", "3", "3", "4"])).toEqual({ step: 1, rowsPerStamp: 2 });
    expect(rhythm(["0", "1", "1", "2", "2"])).toEqual({ step: 1, rowsPerStamp: 1 });
    expect(rhythm(["3", "2", "1", "2", "3"])).toEqual({ step: 1, rowsPerStamp: 1 });
    expect(rhythm(["x"])).toEqual({ step: 0, rowsPerStamp: 1 });
    expect(rhythm(["0", "1"], "count")).toEqual({ step: 0.25, rowsPerStamp: 1 });
    expect(rhythmOf([["0"]], { plan: null, columns: new Map() }, ".")).toEqual({ step: 0, rowsPerStamp: 1 });
  });
});

describe("times that run on", () => {
  const run = (times: number[], step = 1, ofDay = false) => {
    const order = new TimeOrder(step, ofDay);
    const out = times.map((t, i) => order.next(t, i, i + 2));
    return { order, out, marks: order.marks };
  };
  test("mark what happens with its row, line and both times", () => {
    expect(run([0, 1, 7, 8]).marks).toEqual([{ kind: "gap", row: 2, line: 4, from: 1, to: 7 }]);
    expect(run([0, 1, 6, 7]).marks).toEqual([]);
    expect(run([0, 1, 2, 3, 4, 1]).marks).toEqual([{ kind: "late", row: 5, line: 7, from: 4, to: 1 }]);
    expect(run([0, 1, 2, 3, 4, 0.5]).marks).toEqual([{ kind: "restart", row: 5, line: 7, from: 4, to: 0.5 }]);
    expect(run([43201, 0], 1, true).marks).toEqual([{ kind: "midnight", row: 1, line: 3, from: 43201, to: 86400 }]);
    expect(run([43200, 0], 1, true).marks).toMatchObject([{ kind: "restart" }]);
    expect(run([86399, 0, 86399, 0], 1, true).out).toEqual([86399, 86400, 172799, 172800]);
  });
  test("learn their step from the first two rows", () => {
    expect(run([0, 2, 4, 14, 25], 0).marks).toEqual([{ kind: "gap", row: 4, line: 6, from: 14, to: 25 }]);
  });
  test("run back behind a header: a restart, however little", () => {
    const order = new TimeOrder(1, false);
    for (const [i, t] of [0, 1, 2, 3].entries()) order.next(t, i, i);
    order.begunAnew();
    order.next(2, 4, 6);
    expect(order.marks.map(({ kind }) => kind)).toEqual(["restart"]);
    order.begunAnew();
    order.next(3, 5, 7);
    order.next(2.5, 6, 8);
    expect(order.marks.map(({ kind }) => kind)).toEqual(["restart", "late"]);
    expect(order.before).toBe(3);
    order.shared(3, 7, 9);
    expect(order.counts).toEqual({ gap: 0, restart: 1, late: 1, midnight: 0, rate: 0, shared: 1 });
  });
  test("take eight steps alike, within a fifth, for a new rate", () => {
    const slow = (n: number, step = 10) => [0, 1, 2, ...Array.from({ length: n }, (_, i) => 2 + step * (i + 1))];
    expect(run(slow(7)).order.counts).toMatchObject({ gap: 7, rate: 0 });
    expect(run(slow(8)).order.counts).toMatchObject({ gap: 0, rate: 1 });
    // Thereafter ten seconds are the usual step.
    expect(run([...slow(8), 132]).order.counts).toMatchObject({ gap: 0, rate: 1 });
    expect(run([...slow(8), 133]).order.counts).toMatchObject({ gap: 1, rate: 1 });
    const uneven = [0, 1, 2];
    for (let i = 0; i < 8; i++) uneven.push(uneven.at(-1)! + (i % 2 ? 10 : 13));
    expect(run(uneven).order.counts).toMatchObject({ gap: 8, rate: 0 });
  });
});

describe("columns that hold the load several times", () => {
  const value = (column: number, from: string, unit: string, scale: number | null) =>
    ({ column, channel: { name: "load", kind: "load", from, fromUnit: unit }, scale, unitColumn: -1 }) as const;
  const rows = [
    [1, 100, 2],
    [2, 200, 3],
    [3, 300, 5],
    [4, 400, 8],
    [0.01, 9, 0.2],
  ].map((row) => row.map(String));
  const of = (...values: ReturnType<typeof value>[]) => loadsOf(values, rows, 46, 0);
  test("are read in newtons", () => {
    const [one] = of(value(0, "A", "kN", 1000));
    expect(one!.newtons).toEqual([1000, 2000, 3000, 4000, 10]);
    const angle = {
      ...value(0, "A", "deg", 1),
      channel: { name: "angle", kind: "angle", from: "A", fromUnit: "deg" },
    } as never;
    expect(of(angle)).toEqual([]);
    expect(of(value(0, "A", "", null))[0]!.newtons[1]).toBe(2);
  });
  test("repeat an earlier one where they say the same in another unit", () => {
    const [a, b, c] = [value(0, "A", "kN", 1000), value(1, "B", "daN", 10), value(2, "C", "kN", 1000)];
    expect([...repeatsOf(of(a, b, c))]).toEqual([[b, a]]);
    // In one unit two cells may share a load evenly.
    expect(repeatsOf(of(a, value(1, "B", "kN", 10))).size).toBe(0);
  });
  test("are asked, the sum of the others guessed where one is", () => {
    const sum = [
      [1, 2, 3],
      [2, 3, 5],
      [4, 4, 8],
      [3, 1, 4],
    ].map((row) => row.map(String));
    const loads = loadsOf(
      [value(0, "A", "kN", 1000), value(1, "B", "kN", 1000), value(2, "All", "kN", 1000)],
      sum,
      46,
      0,
    );
    expect(askWhichLoad(loads)).toEqual({
      about: "several loads",
      question: { kind: "severalLoads", columns: ["A", "B", "All"], guess: "All", isSum: true },
      answers: ["--map load=3:kN", "--map load=1:kN", "--map load=2:kN", "--loads sum", "--loads each"],
    });
    const two = askWhichLoad(loads.slice(0, 2));
    expect(two.question).toMatchObject({ guess: "A", isSum: false });
    expect(askWhichLoad(loadsOf([value(0, "A", "", null), value(1, "B", "kN", 1)], sum, 46, 0)).answers[0]).toBe(
      "--map load=1",
    );
  });
});

describe("places", () => {
  const place = (cells: (string | [string, string])[], title = "Lat", kind: "latitude" | "longitude" = "latitude") => {
    const rows = cells.map((cell) => (typeof cell === "string" ? [cell, "x"] : cell));
    return guessPlace(kind, 0, rows, [readTitle(title), readTitle("")]);
  };
  test("are decimal degrees, degrees with their marks, degrees and minutes in one, with letters beside or in the title", () => {
    expect(place(["50.1", "50.2"])).toEqual({ form: null, why: { kind: "decimalDegrees" } });
    expect(place(["50°12'N", "50°13'N"])).toMatchObject({
      form: { form: "text", side: -1, sign: 1 },
      why: { form: "marked", sideColumn: null },
    });
    expect(place(["5012.5", "5012.6"])).toMatchObject({
      form: { form: "degreesMinutes", side: -1 },
      why: { form: "degreesMinutes" },
    });
    expect(place(["5062.5", "5012.6"])).toMatchObject({ form: null });
    expect(place(["00412.5"], "Lon", "longitude")).toMatchObject({ form: { form: "degreesMinutes" } });
    expect(place(["150.5"], "Lon", "longitude")).toMatchObject({ form: null });
    expect(place(["150.5"])).toMatchObject({ form: { form: "degreesMinutes" } });
    expect(
      place([
        ["50.1", "S"],
        ["50.2", "N"],
      ]),
    ).toMatchObject({ form: { form: "text", side: 1, sign: 1 }, why: { form: "decimal", sideColumn: 2 } });
    expect(place(["50.1"], "Lat (S)")).toMatchObject({
      form: { form: "text", side: -1, sign: -1 },
      why: { sideInTitle: "S" },
    });
    expect(place(["-50.1"], "Lat (S)")).toMatchObject({ form: null });
    expect(place(["50.1"], "Lat (N)")).toMatchObject({ form: null });
    expect(place(["5.1"], "Lon W", "longitude")).toMatchObject({ form: { sign: -1 }, why: { sideInTitle: "W" } });
    expect(place([["5.1", "E"]], "Lon", "longitude")).toMatchObject({ form: { side: 1 } });
  });
});

test("cells are places where half of them lie on the globe", () => {
  for (const [kind, most] of [
    ["latitude", 90],
    ["longitude", 180],
  ] as const) {
    expect(arePlaces(kind, [`${most}`, `-${most}`], ".")).toBe(true);
    expect(arePlaces(kind, [`${most + 0.5}`, `-${most + 5}`], ".")).toBe(false);
    expect(arePlaces(kind, [`${most}`, `${most + 1}`], ".")).toBe(true);
    expect(arePlaces(kind, [`${most}`, `${most + 1}`, "x"], ".")).toBe(false);
    expect(arePlaces(kind, [], ".")).toBe(false);
  }
  expect(arePlaces("latitude", ["50,5"], ",")).toBe(true);
});

describe("lines above a table say", () => {
  test.each<[string, object]>([
    ["Unit: kN", { unit: { text: "kN", line: "Unit: kN" } }],
    ["# Einheit = daN", { unit: { text: "daN", line: "Einheit = daN" } }],
    ["Units: mm", {}],
    ["Sampling rate: 10 Hz", { rate: { hertz: 10, line: "Sampling rate: 10 Hz" } }],
    ["frequency, 2.5 sps", { rate: { hertz: 2.5, line: "frequency 2.5 sps" } }],
    ["rate: 0 Hz", {}],
    [
      "Started 2024-05-03 10:20:30",
      { start: { seconds: Date.UTC(2024, 4, 3, 10, 20, 30) / 1000, line: "Started 2024-05-03 10:20:30" } },
    ],
    ["Day 2024/05/03", { start: { seconds: Date.UTC(2024, 4, 3) / 1000, line: "Day 2024/05/03" } }],
    ["Day 2024/15/03", {}],
    ["Time zone: UTC+2", { zone: { seconds: 7200, line: "Time zone: UTC+2" } }],
    ["Serial UTC+2", {}],
  ])("%s: %j", (line, hints) => expect(readPreamble([line])).toEqual(hints));
  test("the first that says a thing holds", () => {
    expect(readPreamble(["Unit: kN", "Unit: lbf", "rate: 5 Hz", "rate: 6 Hz"])).toMatchObject({
      unit: { text: "kN" },
      rate: { hertz: 5 },
    });
  });
});

describe("a layout", () => {
  const layout = (text: string, told?: ",") => guessLayout(linesOf(text, 1000), told);
  const rows = (row: string, n = 6) => `${row}\n`.repeat(n);
  test("has its lines: preamble, header, units, data, by the delimiter that makes rows of one width", () => {
    const found = layout(`Log of a pull\n\nTime;Load\ns;kN\n${rows("1,5;2,5")}`)!;
    expect(found).toMatchObject({
      delimiter: { value: ";", confidence: 1, why: { kind: "rowsOfWidth", rows: 6, lines: 6, width: 2 } },
      ...{ headerLine: 3, unitsLine: 4, dataLine: 5, width: 2 },
      ...{ titles: ["Time", "Load"], units: ["s", "kN"], preamble: ["Log of a pull"] },
    });
    expect(found.rows).toHaveLength(6);
    expect(found.rows[0]).toEqual(["1,5", "2,5"]);
    expect(layout(rows("1;2"))).toMatchObject({
      headerLine: null,
      unitsLine: null,
      dataLine: 1,
      titles: [],
      units: [],
    });
    expect(layout(`# time load\n${rows("1 2")}`)).toMatchObject({
      delimiter: { value: " " },
      titles: ["time", "load"],
    });
    expect(layout(`load\n${rows("1.5")}`)).toMatchObject({ delimiter: { value: "" }, width: 1, headerLine: 1 });
    expect(layout(`a|b\n${rows("1|2")}`)).toMatchObject({ delimiter: { value: "|" } });
    expect(layout("words\nand more\n")).toBeNull();
    expect(layout(`a;b\n${rows("1;2")}`, ",")).toBeNull();
    expect(layout(`a,b\n${rows("1,2")}`, ",")).toMatchObject({
      delimiter: { value: ",", confidence: 1, why: { kind: "told" } },
    });
  });
  test("begins behind the words that end a header, and passes over remarks", () => {
    const found = layout(`1,2\n2,3\n***End_of_Header***\nt,F\n${rows("1,2")}# slack now\n${rows("3,4")}`)!;
    expect(found).toMatchObject({ headerLine: 4, dataLine: 5 });
    expect(found.rows).toHaveLength(12);
    expect(found.delimiter.why).toMatchObject({ rows: 12, lines: 12 });
    expect([isComment("# slack"), isComment("// slack"), isComment("# 12"), isComment("slack #")]).toEqual([
      true,
      true,
      false,
      false,
    ]);
  });
  test("loses confidence by rows of another width and by cells of words", () => {
    const found = layout(`t,F\n${rows("1,2", 8)}${rows("1,2,3", 2)}`)!;
    expect(found.delimiter).toMatchObject({ confidence: 0.8, why: { rows: 8, lines: 10 } });
    expect(layout(`t;F\n${rows("1;x", 8)}`)!.delimiter.confidence).toBe(0.75);
  });
  test("names its delimiters", () => {
    expect((["\t", ";", "|", ",", " ", ""] as const).map(delimiterName)).toEqual([
      "tab",
      "semicolon",
      "bar",
      "comma",
      "blanks",
      "one column",
    ]);
  });
});

describe("a header among the rows", () => {
  const plan = guessed(table("Time (s),Load (kN),Note", (i) => `${i},${i}.5,`)).plan!;
  test("keeps the unit it does not state, and is another's where a column is called otherwise", () => {
    expect(headerIn("Time (s),Load (kN),Note", plan)).toEqual({ kind: "same" });
    expect(headerIn("# Time (s),Load (kN),Note", plan)).toEqual({ kind: "same" });
    expect(headerIn("Time (s),load,Note", plan)).toEqual({ kind: "units", scales: [1000] });
    expect(headerIn("Time (s),daN,Note", plan)).toEqual({ kind: "units", scales: [10] });
    expect(headerIn("Time (s),Load (m),Note", plan)).toEqual({ kind: "words" });
    expect(headerIn("Zeit,Kraft", plan)).toMatchObject({
      kind: "other",
      why: { kind: "otherHeader", header: "Zeit,Kraft" },
    });
    expect(headerIn("only", plan)).toBeNull();
  });
});

describe("what a table is taken for", () => {
  const columns = (guess: ReturnType<typeof guessed>) => guess.columns.map(({ as, unit, why }) => [as, unit, why.kind]);
  test("column by column, with no question, and each believed enough", () => {
    const guess = guessed(
      table(
        "Timestamp,Load (kN),Angle (deg),Lat,Lon,SOG (kn),Battery %,Note",
        (i) => `2024-05-03T10:00:${10 + i}Z,${i}.5,${i},50.1,-4.2,3.${i % 10},80,x`,
      ),
    );
    expect(guess.questions).toEqual([]);
    expect(columns(guess)).toEqual([
      ["time", "ymd", "yearFirst"],
      ["load", "kN", "both"],
      ["angle", "deg", "both"],
      ["latitude", "deg", "both"],
      ["longitude", "deg", "both"],
      ["speed", "kn", "both"],
      ["not taken", "", "notOfItsOwn"],
      ["not taken", "", "holdsText"],
    ]);
    for (const { confidence } of guess.columns) {
      expect(confidence).toBeGreaterThanOrEqual(0.6);
      expect(confidence).toBeLessThanOrEqual(1);
    }
    expect(guess.remarks).toEqual([]);
    expect(guess.plan).toMatchObject({
      width: 8,
      dataLine: 2,
      step: 1,
      rowsPerStamp: 1,
      time: { column: 0, format: "ymd", clock: "utc", zone: 0, start: 0 },
    });
    expect(guess.plan!.values.map(({ column, scale }) => [column, scale])).toEqual([
      [1, 1000],
      [2, Math.PI / 180],
      [3, 1],
      [4, 1],
      [5, 1852 / 3600],
    ]);
  });
  test("takes for granted what changes little, and says so", () => {
    const remarks = (file: Uint8Array) =>
      guessed(file).remarks.map((one) => (one.kind === "unit" ? `unit ${one.taken}` : one.kind));
    expect(remarks(table("Time (s),Load (kg)", (i) => `${i}.5,${i}`))).toEqual(["unit kg"]);
    expect(remarks(table("Time (s),Load (kN),Angle", (i) => `${i}.5,${i},${i}`))).toEqual(["unit degrees"]);
    expect(remarks(table("Time,Load (kN)", (i) => `${(i / 10).toFixed(1)},${i}`))).toEqual(["times"]);
    expect(remarks(table("Time (s),XYZ (kN)", (i) => `${i}.5,${i}`))).toEqual([]);
    expect(
      guessed(
        table("Time (s),XYZ", (i) => `${i}.5,${i}`),
        choices(["--map", "load=2:kN"]),
      ).remarks,
    ).toEqual([]);
  });
  test("finds the unit in the cells, in a column, above the table, or asks", () => {
    const unit = (file: Uint8Array) => {
      const guess = guessed(file);
      return [
        guess.plan?.values[0]?.scale,
        guess.plan?.values[0]?.unitColumn,
        guess.questions.map(({ question }) => question.kind),
      ];
    };
    expect(unit(table("Time (s),Load", (i) => `${i}.5,${i} kN`))).toEqual([null, -1, []]);
    expect(unit(table("Time (s),Load,Unit", (i) => `${i}.5,${i},kN`))).toEqual([null, 2, []]);
    expect(unit(table("Time (s),Load,X", (i) => `${i}.5,${i},lbf`))).toEqual([null, 2, []]);
    expect(unit(bytes(`Unit: daN\nTime (s),Load\n${"1.5,2\n2.5,3\n3.5,4\n4.5,5\n"}`))).toEqual([10, -1, []]);
    expect(unit(table("Time (s),Load", (i) => `${i}.5,${i}`))[2]).toEqual(["loadWithoutUnit"]);
    expect(unit(bytes(`Unit: daN\nTime (s),Load (kN)\n${"1.5,2\n2.5,3\n3.5,4\n4.5,5\n"}`))[2]).toEqual([
      "otherUnitAbove",
    ]);
    expect(unit(bytes(`Unit: kN\nTime (s),Load (kN)\n${"1.5,2\n2.5,3\n3.5,4\n4.5,5\n"}`))[2]).toEqual([]);
    expect(unit(table("Time (s),Load (kN)", (i) => `${i}.5,${i} lbf`))[2]).toEqual(["otherUnitInCells"]);
    expect(unit(table("Time (s),Load (ton)", (i) => `${i}.5,${i}`))[2]).toEqual(["vagueTon"]);
  });
  test("leaves a quantity without a unit, and one column of unknown numbers is the load", () => {
    const depth = guessed(table("Time (s),Load (kN),Depth", (i) => `${i}.5,${i},4.${i}`));
    expect(columns(depth)[2]).toEqual(["not taken", "", "withoutUnit"]);
    const one = guessed(table("Time (s),XYZ", (i) => `${i}.5,${i}`));
    expect(one.questions.map(({ question, answers }) => [question.kind, answers[0]])).toEqual([
      ["loadWithoutUnit", "--map load=2:kN"],
    ]);
    const none = guessed(table("Time (s),XYZ,ABC", (i) => `${i}.5,${i},${i}`));
    expect(none.questions.map(({ question }) => question.kind)).toEqual(["noReadings"]);
  });
  test("adds up several loads, keeps each, or leaves out what repeats", () => {
    const file = table("Time (s),Front (kN),Rear (kN)", (i) => `${i}.5,${i},${2 * i + 1}`);
    expect(guessed(file).questions.map(({ about }) => about)).toEqual(["several loads"]);
    const sum = guessed(file, { loads: "sum" });
    expect(sum.plan!.values.map(({ channel }) => [channel.name, channel.from])).toEqual([
      ["load", "Front (kN) + Rear (kN)"],
    ]);
    expect(sum.plan!.addends!.map(({ column }) => column)).toEqual([2]);
    const read = readAll(file, sum.plan!);
    expect(read.values[0]).toEqual(Array.from({ length: 12 }, (_, i) => 1000 * (3 * i + 1)));
    const each = guessed(file, { loads: "each" });
    expect(each.plan!.values.map(({ channel }) => channel.name)).toEqual(["load", "load-2"]);
    expect(each.plan!.addends ?? []).toEqual([]);
    const twice = guessed(table("Time (s),Load (kN),Load (lbf)", (i) => `${i}.5,${i},${(i * 1000) / 4.4482216152605}`));
    expect(twice.questions).toEqual([]);
    expect(columns(twice)[2]).toEqual(["not taken", "", "sameLoadAs"]);
  });
  test("counts its rows where they have no time", () => {
    const file = table("Sample,Load (kN)", (i) => `${i + 3},${i}.5`);
    expect(guessed(file).questions.map(({ question, answers }) => [question.kind, answers])).toEqual([
      ["noTimes", ["--rate 10", "--map time=COLUMN:FORMAT"]],
    ]);
    const rated = guessed(file, { rate: 4 });
    expect(rated.plan!.time).toMatchObject({ column: 0, format: "count", clock: "elapsed", rate: 4, start: 0 });
    expect(readAll(file, rated.plan!).times).toEqual(Array.from({ length: 12 }, (_, i) => (i + 3) / 4));
    expect(guessed(file, { rate: 4, start: 1000 }).plan!.time).toMatchObject({ clock: "utc", start: 1000 });
    const bare = table("Load (kN)", (i) => `${i}.5`);
    const plain = guessed(bare, { rate: 4, start: 1000 });
    expect(plain.plan!.time).toMatchObject({ column: -1, format: "count" });
    expect(readAll(bare, plain.plan!).times).toEqual(Array.from({ length: 12 }, (_, i) => 1000 + i / 4));
  });
  test("knows what its clock counts from: its zone, a day above it, or what is told", () => {
    const clock = (header: string, row: (i: number) => string, told = {}, above = "") => {
      const all = `${above}${header}\n${Array.from({ length: 8 }, (_, i) => row(i)).join("\n")}\n`;
      const { time } = guessed(bytes(all), told).plan!;
      return [time.clock, time.zone, time.start];
    };
    const dated = (i: number) => `2024-05-03 10:00:${10 + i},${i}.5`;
    const timed = (i: number) => `10:00:${10 + i},${i}.5`;
    const day = Date.UTC(2024, 4, 3) / 1000;
    expect(clock("Time,Load (kN)", dated)).toEqual(["local", 0, 0]);
    expect(clock("Time (UTC),Load (kN)", dated)).toEqual(["utc", 0, 0]);
    expect(clock("Time,Load (kN)", dated, { zone: 7200 })).toEqual(["utc", 7200, 0]);
    expect(clock("Time,Load (kN)", (i) => `2024-05-03T10:00:${10 + i}+02:00,${i}.5`)).toEqual(["utc", 0, 0]);
    expect(clock("Time,Load (kN)", timed)).toEqual(["clock", 0, 0]);
    expect(clock("Time,Load (kN)", timed, { start: day })).toEqual(["local", 0, day]);
    expect(clock("Time,Load (kN)", timed, { start: day, zone: 7200 })).toEqual(["utc", 7200, day]);
    expect(clock("Time,Load (kN)", timed, {}, "Day 2024-05-03\n")).toEqual(["local", 0, day]);
    expect(clock("Time (UTC+2),Load (kN)", timed, {}, "Day 2024-05-03\n")).toEqual(["utc", 7200, day - 7200]);
    expect(clock("Time (s),Load (kN)", (i) => `${i}.5,${i}`)).toEqual(["elapsed", 0, 0]);
    expect(clock("Time (s),Load (kN)", (i) => `${i}.5,${i}`, { start: 77 })).toEqual(["utc", 0, 77]);
    expect(clock("Time,Load (kN)", (i) => `${1.7e9 + i},${i}`)).toEqual(["utc", 0, 0]);
  });
  test("joins a date and a clock that stand apart", () => {
    const file = table("Date,Clock,Load (kN)", (i) => `2024-05-03,23:59:${50 + (i % 10)},${i}.5`, 10);
    const { plan, columns: found } = guessed(file);
    expect(plan!.time).toMatchObject({
      column: 1,
      format: "clock",
      date: { column: 0, format: "ymd" },
      clock: "local",
    });
    expect(found.map(({ as }) => as)).toEqual(["date", "time", "load"]);
    expect(readAll(file, plan!).times[0]).toBe(Date.UTC(2024, 4, 3, 23, 59, 50) / 1000);
    const told = guessed(file, choices(["--map", "time=Clock:clock", "--map", "date=Date:ymd"])).plan!;
    expect(told.time).toEqual(plan!.time);
    expect(guessed(file, choices(["--map", "time=2:clock"])).plan!.time).toMatchObject({ date: { column: 0 } });
    expect(() => guessed(file, choices(["--map", "time=2:ymd"]))).toThrow("times as ymd are expected");
    expect(() => guessed(file, choices(["--map", "time=3"]))).not.toThrow();
    expect(() =>
      guessed(
        table("A,Load (kN)", (i) => `x${i}y,${i}`),
        choices(["--map", "time=1"]),
      ),
    ).toThrow("a column of times is expected");
  });
});

describe("columns gathered from batches", () => {
  const channels = [
    { name: "load", kind: "load" },
    { name: "depth", kind: "depth" },
    { name: "speed", kind: "speed" },
  ] as const;
  const batch = (time: number[], ...values: number[][]) => ({
    rows: time.length,
    time: Float64Array.from(time),
    values: values.map((each) => Float64Array.from(each)),
  });
  const none = Number.NaN;
  test("hold what was read, a channel that speaks late with none before, a silent one not at all", () => {
    const rows = new RowColumns(channels, undefined, 100);
    rows.append(batch([0, 1], [5, 6], [none, none], [none, none]), 10);
    rows.append(batch([], [], [], []), 10);
    rows.append(batch([2, 3], [7, 8], [none, 4], [none, none]), 10);
    const done = rows.done();
    expect(done.channels.map(({ name }) => name)).toEqual(["load", "depth"]);
    expect([...done.time]).toEqual([0, 1, 2, 3]);
    expect(done.values.map((column) => [...column])).toEqual([
      [5, 6, 7, 8],
      [none, none, none, 4],
    ]);
    const kept = new RowColumns(channels, ["depth"]);
    kept.append(batch([0], [5], [4], [3]), 10);
    expect(kept.done().channels.map(({ name }) => name)).toEqual(["depth"]);
  });
  test("grow past any room reckoned, nothing lost", () => {
    const rows = new RowColumns(channels.slice(0, 1), undefined, 20);
    const n = 5000;
    for (let k = 0; k < 4; k++)
      rows.append(
        batch(
          Array.from({ length: n }, (_, i) => k * n + i),
          Array.from({ length: n }, (_, i) => 2 * (k * n + i)),
        ),
        10,
      );
    const { time, values } = rows.done();
    expect([time.length, time[19_999], values[0]![12_345]]).toEqual([20_000, 19_999, 24_690]);
  });
});

describe("troubles", () => {
  test("are counted each by itself, the first twenty word for word, and go on from what was kept", () => {
    const troubles = new Troubles();
    for (let i = 0; i < 25; i++) troubles.note(i, `x${i}\n`, "y");
    expect([troubles.room, troubles.first.length, troubles.first[0]]).toEqual([
      false,
      20,
      { line: 0, value: "x0␣", expected: "y" },
    ]);
    const few = new Troubles();
    few.standIn(3, "32767");
    few.standIn(4, "32767");
    expect([few.standIns, few.first.length, few.first[0]!.line]).toEqual([2, 1, 3]);
    const names = [
      "rejected",
      "unreadable",
      "missing",
      "overload",
      "empty",
      "headersAgain",
      "repeatedRows",
      "standIns",
      "others",
      "otherUnits",
      "comments",
    ] as const;
    const all = new Troubles();
    names.forEach((name, i) => {
      all[name] = i + 1;
    });
    const count = all.count();
    names.forEach((name, i) => {
      expect(count[name]).toBe(i + 1);
    });
    expect(new Troubles(count).count()).toEqual(count);
  });
  test("are shown on one short line", () => {
    expect(shown("x".repeat(60))).toHaveLength(60);
    expect(shown("x".repeat(61))).toBe(`${"x".repeat(57)}...`);
    expect(visible("a\r\nb\u2028c\u007fd")).toBe("a␣b␣c␣d");
  });
});
