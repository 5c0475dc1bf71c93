import { describe, expect, test } from "vitest";
import { readColumnChoice, readStart, readZone } from "../../src/log/choices.ts";
import { guessTable } from "../../src/log/guess.ts";
import { guessLog } from "../../src/log/kind.ts";
import { readTitle, speaksFor } from "../../src/log/title.ts";
import { readUnit } from "../../src/log/unit-name.ts";
import { logQuestionWords } from "../../src/words/index.ts";
import { choices, guessed } from "./read-table.ts";

const bytes = (text: string) => new TextEncoder().encode(text);
const rows = (header: string, row: (i: number) => string, n = 12) =>
  bytes(`${header}\n${Array.from({ length: n }, (_, i) => `${row(i)}\n`).join("")}`);

describe("a title and its unit", () => {
  test.each([
    ["Load (lbf)", "Load", "lbf"],
    ["F [kN]", "F", "kN"],
    ["Load/kN", "Load", "kN"],
    ["load_kN", "load", "kN"],
    ["Force, N", "Force", "N"],
    ["Tension kgf", "Tension", "kgf"],
    ["Load - kN", "Load", "kN"],
    ["Load in kN", "Load", "kN"],
    ["Winkel (°)", "Winkel", "°"],
    ["kN", "", "kN"],
    ["Load", "Load", ""],
    ["Load cell 1", "Load cell 1", ""],
  ])("%s is %j in %j", (text, name, unit) => expect(readTitle(text)).toMatchObject({ name, unit }));

  test.each([
    ["Load (lbf)", "load"],
    ["Zugkraft [kN]", "load"],
    ["Fuerza (N)", "load"],
    ["Angle (deg)", "angle"],
    ["AWS (kn)", "windSpeed"],
    ["TWD", "windDirection"],
    ["Depth (ft)", "depth"],
    ["SOG (kn)", "speed"],
    ["HDG", "heading"],
    ["Latitude", "latitude"],
    ["Peak load (kN)", "other"],
    ["Battery %", "other"],
    ["Timestamp", "time"],
    ["Datum", "date"],
    ["Sample", "count"],
  ])("%s speaks for %s", (text, kind) => expect(speaksFor(readTitle(text)).for).toBe(kind));
});

describe("a unit is read by what it stands over", () => {
  test("kn is knots over a wind and kilonewtons over a load", () => {
    expect(readUnit("kn", "windSpeed")).toMatchObject({ unit: "kn", scale: 1852 / 3600 });
    expect(readUnit("kn", "load")).toMatchObject({ unit: "kN", scale: 1000 });
  });
  // Exact by definition: pound 0.45359237 kg, standard gravity 9.80665 m/s².
  test.each([
    ["lb", 4.4482216152605],
    ["lbs", 4.4482216152605],
    ["kg", 9.80665],
    ["daN", 10],
    ["t", 9806.65],
    ["kip", 4448.2216152605],
  ])("1 %s over a load is %f N", (unit, newtons) => {
    expect(readUnit(unit, "load")!.scale).toBeCloseTo(newtons, 9);
  });
  test("weights over a load are doubted aloud", () => expect(readUnit("kg", "load")!.doubt).toBe("kg"));
  test("metres are no load", () => expect(readUnit("m", "load")).toBeNull());
});

describe("what a file leaves open is asked", () => {
  test.each<[string, Uint8Array, string, RegExp]>([
    ["a load without a unit", rows("Time (s),Load", (i) => `${i},${i}.5`), "unit", /"Load" states no unit/],
    ["a ton", rows("Time (s),Load (ton)", (i) => `${i},${i}.5`), "unit", /a ton may be/],
    ["no time", rows("Load (kN),Note", (i) => `${i}.5,x`), "time", /how many rows are there a second/],
    ["sample numbers", rows("Sample,Load (kN)", (i) => `${i},${i}.5`), "time", /how many rows/],
    [
      "day or month",
      rows("Time,Load (kN)", (i) => `03/04/2024 10:00:${10 + i},${i}.5`),
      "day and month",
      /may be read with the day or the month first/,
    ],
    [
      "thousands or decimals",
      rows("Time (s)\tLoad (N)", (i) => `${i}\t1,${100 + i}`),
      "decimal mark",
      /may mark thousands or decimals/,
    ],
    [
      "decimal commas between commas",
      rows("Time,Load (kN)", (i) => `${i},${i},5`),
      "delimiter",
      /do commas mark decimals too/,
    ],
    ["no column of readings", rows("Time (s),Temp (C)", (i) => `${i},${20 + i}`), "load", /no column of readings/],
  ])("%s", (_, file, about, question) => {
    const guess = guessed(file);
    expect(guess.plan).toBeNull();
    const asked = guess.questions.find((one) => one.about === about);
    expect(asked && logQuestionWords(asked).question).toMatch(question);
    expect(asked!.answers.length).toBeGreaterThan(0);
  });

  test("each answer that is an option is one the reader takes", () => {
    const file = rows("Time,Load", (i) => `03/04/2024 10:00:${10 + i},${i}.5`);
    const told = guessed(file).questions.flatMap(({ answers }) => answers[0]!.split(" "));
    expect(guessed(file, choices(told)).plan).not.toBeNull();
  });
});

describe("of several columns that could be the time", () => {
  const at = (i: number, form: string) =>
    ({
      date: `2024-05-03T12:00:${10 + i}Z`,
      epoch: `${1_714_737_600 + i}`,
      clock: `12:00:${10 + i}`,
      elapsed: `${i}.5`,
    })[form]!;
  const titles = { date: "Timestamp", epoch: "Time unix", clock: "Time of day", elapsed: "Time (s)" };
  test.each([
    ["date", "epoch"],
    ["epoch", "clock"],
    ["date", "clock"],
    ["clock", "elapsed"],
    ["epoch", "elapsed"],
  ] as const)("%s is taken before %s, whichever stands first", (better, other) => {
    for (const [first, second] of [
      [better, other],
      [other, better],
    ] as const) {
      const header = `${titles[first]},${titles[second]},Load (kN)`;
      const { plan } = guessed(rows(header, (i) => `${at(i, first)},${at(i, second)},${i}.5`));
      expect(plan?.time.column, header).toBe(first === better ? 0 : 1);
    }
  });
  test("what is beyond doubt is taken without a word", () => {
    const { plan, remarks } = guessed(rows("Timestamp,Load (kN)", (i) => `${at(i, "date")},${i}.5`));
    expect(plan).not.toBeNull();
    expect(remarks.map(({ kind }) => kind)).not.toContain("times");
  });
});

describe("what is told holds", () => {
  const file = rows("A;B;C", (i) => `${i};${i},5;${i * 2}`);
  test("by number and by title", () => {
    const plan = guessed(file, choices(["--map", "time=A:elapsed-s", "--map", "load=3:daN", "--map", "ignore=B"]))
      .plan!;
    expect(plan.time).toMatchObject({ column: 0, format: "elapsed-s" });
    expect(plan.values).toMatchObject([{ column: 2, scale: 10, channel: { name: "load" } }]);
  });
  test("two loads are load and load-2", () => {
    const plan = guessed(file, choices(["--map", "time=1:elapsed-s", "--map", "load=2:N", "--map", "load=3:N"])).plan!;
    expect(plan.values.map((value) => value.channel.name)).toEqual(["load", "load-2"]);
  });
  test("a column told by its number has a unit of its role behind the colon, or is refused", () => {
    expect(readColumnChoice("load=2:kN", "--map")).toEqual({ role: "load", column: "2", as: "kN" });
    expect(() => readColumnChoice("load=2:parsec", "--map")).toThrow(/"parsec" is no unit of load/);
    expect(() => readColumnChoice("time=1:moons", "--map")).toThrow(/"moons" is no format of a time/);
  });
  test("a title with a colon in it is still a title", () =>
    expect(readColumnChoice("load=Cell: front", "--map")).toEqual({ role: "load", column: "Cell: front" }));
});

describe("a time that was kept from an earlier file", () => {
  const file = rows("Stamp,Load (kN)", (i) => `05/${13 + i}/2024 10:00:00,${i}.5`);
  const kept = (as: "dmy" | "mdy", remembered: boolean) =>
    guessed(file, {
      columns: [{ role: "time", column: "Stamp", as, ...(remembered && { remembered: true as const }) }],
    }).plan?.time.format;
  test("holds where the cells agree", () => expect(kept("mdy", true)).toBe("mdy"));
  test("is let go where the cells contradict it", () => expect(kept("dmy", true)).toBe("mdy"));
  test("told now it is not let go for a kept one that is contradicted", () => {
    const both = guessed(
      rows("Stamp,Clock,Load (kN)", (i) => `05/${13 + i}/2024,${i},${i}.5`),
      {
        columns: [
          { role: "date", column: "Stamp", as: "dmy", remembered: true },
          { role: "time", column: "Clock", as: "elapsed-s" },
        ],
      },
    );
    expect(both.plan?.time).toMatchObject({ column: 1, format: "elapsed-s" });
  });
});

test.each([
  ["Z", 0],
  ["+02:00", 7200],
  ["-0330", -12600],
  ["UTC", 0],
])("the zone %s is %i s", (text, seconds) => expect(readZone(text, "--zone")).toBe(seconds));
test("a start may state its zone or take the one told", () => {
  const noon = Date.UTC(2024, 4, 3, 12) / 1000;
  expect(readStart("2024-05-03T12:00:00Z", "--start")).toBe(noon);
  expect(readStart("2024-05-03 14:00:00", "--start", 7200)).toBe(noon);
});

describe("a log is known by what stands in it", () => {
  test.each<[string, string]>([
    ["nmea", "$WIMWV,214.8,R,0.1,K,A*28\n$INDPT,2.3,0.0*46\n"],
    ["nmea", "2024-05-23T10:20:30Z $INDPT,2.3,0.0*46\n"],
    ["signalk", '{"updates":[{"timestamp":"2024-05-23T10:20:30Z","values":[{"path":"a","value":1}]}]}\n'],
    ["gpx", '<?xml version="1.0"?>\n<gpx/>'],
    ["gpx", "\ufeff<gpx></gpx>"],
    ["webvtt", "WEBVTT - dive\n\n00:01.000 --> 00:02.000\nx\n"],
    ["markTable", "time,mark\n0:05,slack\n"],
    ["table", "Time (s),Load (kN)\n0,1\n1,2\n"],
    ["notATable", "a letter\nto nobody\n"],
    ["notATable", ""],
  ])("%s: %j", (kind, text) => expect(guessLog(bytes(text), true).kind).toBe(kind));
});

test("the signature of a source is its titles, whatever stands above and below them", () => {
  const one = guessTable(
    rows("Time (s),Load (kN)", (i) => `${i},${i}.5`),
    true,
  );
  const two = guessTable(
    bytes(
      `Exported 2024-05-04\n\nTime (s),Load (kN)\n${Array.from({ length: 30 }, (_, i) => `${i}.25,${i}`).join("\n")}`,
    ),
    true,
  );
  expect(one.kind === "table" && two.kind === "table" && one.signature === two.signature).toBe(true);
});
