/** Sentences, deltas, their sources and cells, field by field against sums done here; layouts of NMEA 0183 and Signal K recalled. */
import { describe, expect, test } from "vitest";
import { daysIn, daysSince1970 } from "../../src/log/calendar.ts";
import { Cells, chooseCells, chooseSources, MESSAGE_KINDS, NO_LOAD, planOf } from "../../src/log/message-plan.ts";
import { guessNmea, nmeaReader } from "../../src/log/nmea.ts";
import { date, dateOf, depth, number, signed, speedOf, timeOfDay } from "../../src/log/nmea-fields.ts";
import { checksum, prefixTime, readSentence, type Sentence } from "../../src/log/nmea-sentence.ts";
import { SentenceFilter, SourceCount, sourceOf } from "../../src/log/nmea-sources.ts";
import { sentenceValues } from "../../src/log/nmea-values.ts";
import {
  DeltaFilter,
  deltaReadings,
  guessSignalK,
  loadOf,
  pathReadings,
  signalKReader,
} from "../../src/log/signalk.ts";
import { SparseRows } from "../../src/log/sparse-rows.ts";
import type { Question } from "../../src/log/table-guess.ts";
import { readLines } from "./read-lines.ts";

const DEG = Math.PI / 180;
const KN = 1852 / 3600;
const summed = (body: string) => `$${body}*${checksum(body).toString(16).toUpperCase().padStart(2, "0")}`;
const parsed = (body: string): Sentence => {
  const read = readSentence(summed(body));
  if (read?.kind !== "sentence") throw new Error(body);
  return read;
};
const values = (body: string) => sentenceValues(parsed(body))!;
/** What a sentence says, rounded past where roundings differ. */
const said = (body: string) =>
  Object.fromEntries(values(body).readings.map(({ kind, value }) => [kind, Number(value.toPrecision(12))]));
const round = (of: Record<string, number>) =>
  Object.fromEntries(Object.entries(of).map(([kind, value]) => [kind, Number(value.toPrecision(12))]));

describe("a sentence says", () => {
  test.each<[body: string, is: Record<string, number>]>([
    [
      "GPRMC,102030,A,1230.6,S,04515.9,E,5.0,88.0,230524,,",
      { latitude: -12.51, longitude: 45.265, speed: 5 * KN, course: 88 * DEG },
    ],
    ["GPRMC,102030,V,1230.6,S,04515.9,E,5.0,88.0,230524,,", {}],
    ["GPRMC,102030,A,1230.6,S,04515.9,E,5.0,88.0,230524,,,N", {}],
    [
      "GPRMC,102030,A,1230.6,S,04515.9,E,5.0,88.0,230524,,,A",
      { latitude: -12.51, longitude: 45.265, speed: 5 * KN, course: 88 * DEG },
    ],
    ["GPRMC,102030,A,,,,,5.0,,230524,,", { speed: 5 * KN }],
    ["GPGLL,1230.6,N,04515.9,W,102030,A", { latitude: 12.51, longitude: -45.265 }],
    ["GPGLL,1230.6,N,04515.9,W,102030,V", {}],
    ["GPGLL,1230.6,N,04515.9,W", { latitude: 12.51, longitude: -45.265 }],
    ["GPVTG,90.0,T,80.0,M,4.0,N,7.4,K", { course: 90 * DEG, speed: 4 * KN }],
    ["GPVTG,90.0,T,80.0,M,,N,7.2,K", { course: 90 * DEG, speed: 2 }],
    ["GPVTG,90.0,80.0,4.0,7.4", { course: 90 * DEG, speed: 4 * KN }],
    ["WIMWV,30.0,T,7.0,M,A", { trueWindAngle: 30 * DEG, trueWindSpeed: 7 }],
    ["WIMWV,30.0,R,36.0,K,A", { windAngle: 30 * DEG, windSpeed: 10 }],
    ["WIMWV,30.0,R,3600.0,S,A", { windAngle: 30 * DEG, windSpeed: 1609.344 }],
    ["WIMWV,30.0,R,7.0,X,A", { windAngle: 30 * DEG }],
    ["WIMWV,30.0,X,7.0,M,A", {}],
    ["WIMWD,120.0,T,118.0,M,10.0,N,,M", { windDirection: 120 * DEG, trueWindSpeed: 10 * KN }],
    ["WIMWD,120.0,M,118.0,M,10.0,N,5.1,M", { trueWindSpeed: 5.1 }],
    [
      "WIMDA,30.0,I,1.01,B,20.1,C,18.2,C,50,,10.0,C,225.0,T,220.0,M,,N,6.2,M",
      { windDirection: 225 * DEG, trueWindSpeed: 6.2 },
    ],
    ["WIMDA,30.0,I,1.01,B,20.1,C,18.2,C,50,,10.0,C,225.0,M,220.0,M,4.0,N,,M", { trueWindSpeed: 4 * KN }],
    ["SDDPT,4.0,-0.7", { depthBelowTransducer: 4 }],
    ["SDDPT,4.0,0.7", { depthBelowTransducer: 4, depth: 4.7 }],
    ["SDDBT,10.0,f,,M,,F", { depthBelowTransducer: 3.048 }],
    ["SDDBT,,f,,M,2.0,F", { depthBelowTransducer: 3.6576 }],
    ["SDDBS,10.0,f,3.5,M,1.0,F", { depth: 3.5 }],
    ["HCHDG,350.0,4.0,E,8.0,E", { heading: 354 * DEG, headingTrue: 2 * DEG }],
    ["HCHDG,2.0,4.0,W,,", { heading: 358 * DEG }],
    ["HCHDG,2.0,,,5.0,W", { heading: 2 * DEG, headingTrue: 357 * DEG }],
    ["HCHDM,77.0,M", { heading: 77 * DEG }],
    ["HEHDT,78.0,T", { headingTrue: 78 * DEG }],
    ["VWVHW,200.0,T,195.0,M,4.0,N,7.4,K", { headingTrue: 200 * DEG, heading: 195 * DEG }],
    ["IIVWR,45.0,R,8.0,N,4.1,M,14.8,K", { windAngle: 45 * DEG, windSpeed: 8 * KN }],
    ["IIVWR,180.5,R,8.0,N,,M,,K", { windSpeed: 8 * KN }],
    ["IIVWT,60.0,L,,N,4.0,M,,K", { trueWindAngle: 300 * DEG, trueWindSpeed: 4 }],
    ["YXXDR,A,-12.0,D,Anchor line,A,3.0,D,Heel,N,900,N,Cell", { angle: -12 * DEG, load: 900 }],
    ["YXXDR,A,12.0,R,rode", {}],
  ])("%s: %j", (body, is) => expect(said(body)).toEqual(round(is)));

  test("the time of day and the date where it has them", () => {
    const day = Date.UTC(2024, 4, 23) / 86400000;
    for (const [body, time, at] of [
      ["GPRMC,102030.5,A,,,,,,,230524,,", 37230.5, day],
      ["GPGGA,102030,1230.6,S,04515.9,E,1,08,1,5,M,,M,,", 37230, null],
      ["GNGNS,102030,1230.6,S,04515.9,E,AN,08,1,5,,,", 37230, null],
      ["GPGLL,1230.6,S,04515.9,E,102030,A", 37230, null],
      ["GPZDA,102030,23,05,2024,00,00", 37230, day],
      ["WIMWV,30.0,R,7.0,M,A", null, null],
    ] as const)
      expect(values(body)).toMatchObject({ timeOfDay: time, date: at, unknown: 0 });
    expect(sentenceValues(parsed("GPGSV,1,1,00"))).toBeNull();
  });

  test("of loads in units nobody knows that they are there", () => {
    expect(values("YXXDR,N,900,L,Cell,G,5,,Load,G,5,,Fuel,N,,N,Cell")).toMatchObject({ readings: [], unknown: 2 });
    expect(values("YXXDR,N,900,N,Cell").readings).toEqual([{ kind: "load", value: 900, from: "Cell" }]);
    expect(values("YXXDR,N,900,N, Cell ,N,800,N,Two").readings.map(({ from }) => from)).toEqual(["Cell", "Two"]);
  });
});

describe("a field", () => {
  test("is a number written plainly, or none", () => {
    for (const [text, is] of [
      [" 4.5 ", 4.5],
      ["-.5", -0.5],
      ["+7.", 7],
      ["", Number.NaN],
      ["1e3", Number.NaN],
      ["4,5", Number.NaN],
    ] as const)
      expect(number(text)).toBe(is);
    expect([signed("4", "E"), signed("4", "W"), signed("4", "X")]).toEqual([4, -4, Number.NaN]);
  });
  test("of a speed is the first of knots, metres and kilometres that is written", () => {
    expect(speedOf("2", "9", "9")).toBeCloseTo(2 * KN, 12);
    expect(speedOf(" ", "3", "9")).toBe(3);
    expect(speedOf("", "", "36")).toBeCloseTo(10, 12);
    expect(depth("1", "5", "9")).toBe(5);
    expect(depth("10", "", "9")).toBeCloseTo(3.048, 12);
    expect(depth("", "", "1")).toBeCloseTo(1.8288, 12);
  });
  test("of a place is within the globe, its minutes within the hour, and not nought by nought", () => {
    const place = (fields: string) => said(`GPGLL,${fields},102030,A`);
    expect(place("9000.0,N,18000.0,W")).toEqual({ latitude: 90, longitude: -180 });
    for (const none of [
      "9000.1,N,04515.9,W",
      "1260.0,N,04515.9,W",
      "1230.6,N,18000.1,W",
      "1230.6,E,04515.9,W",
      "1230.6,N,04515.9,N",
      "0000.0,N,00000.0,E",
      ",,,",
    ])
      expect(place(none), none).toEqual({});
    expect(place("0000.0,N,00000.6,E")).toEqual({ latitude: 0, longitude: 0.01 });
    expect(place("0000.6,S,00000.0,E")).toEqual({ latitude: -0.01, longitude: 0 });
  });
  test("of a time is one of a day, a leap second's too", () => {
    expect([
      timeOfDay("235960"),
      timeOfDay("235961"),
      timeOfDay("240000"),
      timeOfDay("126000"),
      timeOfDay("1200"),
    ]).toEqual([...[86400, null, null, null, null]]);
    expect(timeOfDay("010203.25")).toBe(3723.25);
  });
  test("of a date is in a month that has it, of 1980 to 2079", () => {
    const days = (y: number, m: number, d: number) => Date.UTC(y, m - 1, d) / 86400000;
    expect(date("290224")).toBe(days(2024, 2, 29));
    expect([date("290223"), date("310424"), date("001224"), date("011324"), date("1124")]).toEqual([
      null,
      null,
      null,
      null,
      null,
    ]);
    expect(date("010180")).toBe(days(1980, 1, 1));
    expect(date("311279")).toBe(days(2079, 12, 31));
    expect([dateOf(1899, 1, 1), dateOf(2200, 1, 1), dateOf(2000, 0, 1), dateOf(Number.NaN, 1, 1)]).toEqual([
      null,
      null,
      null,
      null,
    ]);
    expect([dateOf(1900, 1, 1), dateOf(2199, 12, 31)]).toEqual([days(1900, 1, 1), days(2199, 12, 31)]);
    for (let month = 1; month <= 12; month++)
      for (const year of [1900, 2000, 2023, 2024])
        expect(daysIn(year, month)).toBe(new Date(Date.UTC(year, month, 0)).getUTCDate());
    expect(daysSince1970(1970, 1, 1)).toBe(0);
    expect(daysSince1970(1969, 12, 31)).toBe(-1);
  });
});

describe("a line of a log of sentences", () => {
  test("is taken apart: talker, type, fields, and what a logger wrote before", () => {
    expect(readSentence(`  10:20 ${summed("PGRME,15.0,M")}`)).toMatchObject({
      kind: "sentence",
      talker: "P",
      type: "PGRME",
      fields: ["15.0", "M"],
      prefix: "10:20",
      summed: true,
    });
    expect(readSentence("!AIVDM,1,1,,A,x,0")).toMatchObject({ talker: "AI", type: "VDM", summed: false, prefix: "" });
    expect(readSentence("$gpgga,x")).toBeNull();
    expect(readSentence("$GPGG,1")).toMatchObject({
      kind: "bad",
      expected: "a talker and a type of five letters are expected",
    });
    expect(readSentence("$INDPT,2.3,0.0*4")).toMatchObject({ expected: "a checksum *46 is expected at the end" });
    expect(readSentence(`${summed("SDDPT,1.0,0").toLowerCase().replace("sddpt", "SDDPT")}  `)?.kind).toBe("sentence");
  });
  test("is stamped by its logger in any of the usual ways", () => {
    const at = Date.UTC(2024, 4, 23, 10, 20, 30) / 1000;
    for (const [prefix, is] of [
      ["1716459630", at],
      ["[1716459630.5]", at + 0.5],
      ["1716459630500", at + 0.5],
      ["1716459630500000", at + 0.5],
      ["\\c:1716459630500*00\\", at + 0.5],
      ["\\g:1-1-1,c:1716459630*00\\", at],
      ["2024-05-23T10:20:30,5Z", at + 0.5],
      ["2024-05-23 10:20:30", at],
      ["2024-05-23 06:50:30-0330", at],
      ["2024-05-23 12:20:30+02:00", at],
      ["12345678", Number.NaN],
      ["", Number.NaN],
    ] as const)
      expect(prefixTime(prefix), prefix).toBe(is);
  });
});

describe("devices that tell the same", () => {
  const count = (...bodies: string[]) => {
    const sources = new SourceCount();
    for (const body of bodies) sources.count(parsed(body));
    return {
      names: [...sources.names],
      groups: Object.fromEntries([...sources.groups()].map(([group, spoke]) => [group, Object.fromEntries(spoke)])),
    };
  };
  test("are counted by what they tell; talkers of satellites are one receiver unless two tell one thing", () => {
    expect(count("GPRMC,1", "GNGGA,1", "GPRMC,1", "IIGLL,1", "WIMWV,1", "IIVWR,1", "GPGSV,1")).toEqual({
      names: ["GP", "GN", "II", "WI"],
      groups: { position: { "G*": 3, II: 1 }, wind: { WI: 1, II: 1 } },
    });
    expect(count("GPRMC,1", "GNRMC,1").groups).toEqual({ position: { GP: 1, GN: 1 } });
    expect(count("GPRMC,1", "GPGGA,1").groups).toEqual({ position: { GP: 2 } });
    const groups = {
      MWD: "wind over the ground",
      MDA: "wind over the ground",
      HDG: "heading",
      HDM: "heading",
      HDT: "true heading",
      VHW: "heading of the log",
      DPT: "depth",
      DBT: "depth",
      DBS: "depth",
      VWT: "wind",
      VTG: "position",
      GNS: "position",
    };
    for (const [type, group] of Object.entries(groups))
      expect(Object.keys(count(`XX${type},1`).groups)).toEqual([group]);
  });
  test("are named by their tag block, else by their talker", () => {
    const tagged = readSentence(`\\g:1-1-1,s:mast,c:1716459630*00\\${summed("WIMWV,30.0,R,7.0,M,A")}`) as Sentence;
    expect([sourceOf(tagged), sourceOf(parsed("WIMWV,30.0,R,7.0,M,A"))]).toEqual(["mast", "WI"]);
  });
  test("are read from the one chosen, or whoever tells a thing first", () => {
    const filter = new SentenceFilter(planOf([], false, { position: "G*", wind: "WI" }, null));
    const some = [{ kind: "depth", value: 1 }] as const;
    const of = (body: string, readings: readonly { kind: "depth"; value: number }[] = some) =>
      filter.isOfSource(parsed(body), readings);
    expect([of("GPRMC,1"), of("GLGGA,1"), of("IIRMC,1"), of("WIMWV,1"), of("IIVWR,1"), of("IIXDR,1")]).toEqual([
      true,
      true,
      false,
      true,
      false,
      true,
    ]);
    // A first sentence that says nothing chooses nobody.
    expect([of("SDDPT,1", []), of("IIDBT,1"), of("SDDPT,1"), of("IIDPT,1")]).toEqual([true, true, false, true]);
    expect(filter.state()).toEqual({ sources: { position: "G*", wind: "WI", depth: "II" }, cell: null });
    const again = new SentenceFilter(planOf([], false, {}, null), JSON.parse(JSON.stringify(filter.state())));
    expect(again.isOfSource(parsed("SDDPT,1"), some)).toBe(false);
  });
});

describe("which of several", () => {
  const asked = (): Question[] => [];
  test("sources is taken: the only one, the one told, else it is asked once for all that the same tell", () => {
    const groups = new Map([
      [
        "wind",
        new Map([
          ["WI", 3],
          ["II", 7],
        ]),
      ],
      ["depth", new Map([["SD", 2]])],
      [
        "heading",
        new Map([
          ["II", 5],
          ["WI", 4],
        ]),
      ],
      [
        "position",
        new Map([
          ["GP", 1],
          ["a mast", 1],
        ]),
      ],
    ]);
    const questions = asked();
    expect(chooseSources(groups, [], questions)).toEqual({ depth: "SD" });
    expect(questions).toEqual([
      {
        about: "several sources",
        question: { kind: "severalSources", of: ["wind", "heading"], names: ["WI", "II"], most: "II", readings: 7 },
        answers: ["--source WI", "--source II"],
      },
      {
        about: "several sources",
        question: { kind: "severalSources", of: ["position"], names: ["GP", "a mast"], most: "GP", readings: 1 },
        answers: ["--source GP", "--source 'a mast'"],
      },
    ]);
    const told = asked();
    expect(chooseSources(groups, ["WI", "a mast"], told)).toEqual({
      wind: "WI",
      depth: "SD",
      heading: "WI",
      position: "a mast",
    });
    expect(told).toEqual([]);
  });
  test("cells is the load: told, alone, added up or each, else it is asked", () => {
    const questions = asked();
    expect(chooseCells(["one"], {}, "paths", questions)).toEqual({ loads: ["one"], sum: false });
    expect(chooseCells([], { loads: "sum" }, "paths", questions)).toEqual({ loads: [], sum: false });
    expect(chooseCells(["one"], { loads: "sum" }, "paths", questions)).toEqual({ loads: ["one"], sum: false });
    expect(chooseCells(["one", "two"], { loads: "sum" }, "paths", questions)).toEqual({
      loads: ["one", "two"],
      sum: true,
    });
    expect(chooseCells(["one", "two"], { loads: "each" }, "paths", questions)).toEqual({
      loads: ["one", "two"],
      sum: false,
    });
    expect(chooseCells(["one", "two"], { loadPath: "two" }, "paths", questions)).toEqual({
      loads: ["two"],
      sum: false,
    });
    expect(chooseCells(["one", "two"], { loadPath: "none" }, "paths", questions)).toEqual({
      loads: [NO_LOAD],
      sum: false,
    });
    expect(questions).toEqual([]);
    expect(chooseCells(["one", "the two"], {}, "transducers", questions)).toEqual({
      loads: ["one", "the two"],
      sum: false,
    });
    expect(questions).toEqual([
      {
        about: "several loads",
        question: { kind: "severalCells", of: "transducers", names: ["one", "the two"] },
        answers: ["--load-path one", "--load-path 'the two'", "--loads sum", "--loads each"],
      },
    ]);
  });
  test("channels a plan has: its cells, one for their sum, and every other kind", () => {
    const names = (loads: string[], sum: boolean) =>
      planOf(loads, sum, {}, null)
        .channels.map(({ name, from }) => `${name}<${from}`)
        .filter((name) => name.startsWith("load"));
    expect(names([], false)).toEqual(["load<load"]);
    expect(names(["a"], false)).toEqual(["load<a"]);
    expect(names(["a", "b"], false)).toEqual(["load<a", "load-2<b"]);
    expect(names(["a", "b"], true)).toEqual(["load<a + b"]);
    const plan = planOf(["a"], false, { wind: "WI" }, "me");
    expect(plan).toMatchObject({ loads: ["a"], sum: false, sources: { wind: "WI" }, self: "me" });
    expect(plan.channels.slice(1).map(({ kind }) => kind)).toEqual(MESSAGE_KINDS);
    expect(plan.channels[0]).toEqual({ name: "load", kind: "load", from: "a", fromUnit: "N" });
  });
  test("readings of cells are handed on: the first met, each, or a sum once all have spoken anew", () => {
    const first = new Cells(planOf([], false, {}, null), null);
    expect([first.take("a", 5), first.take("b", 6), first.take("a", 7)]).toEqual([
      { channel: "load", value: 5 },
      undefined,
      { channel: "load", value: 7 },
    ]);
    expect(first.met).toBe("a");
    expect(new Cells(planOf([], false, {}, null), "b").take("a", 5)).toBeUndefined();
    const each = new Cells(planOf(["a", "b"], false, {}, null), null);
    expect([each.take("a", 5), each.take("b", 6), each.take("c", 7)]).toEqual([
      { channel: "load", value: 5 },
      { channel: "load-2", value: 6 },
      undefined,
    ]);
    const sum = new Cells(planOf(["a", "b"], true, {}, null), null);
    expect([sum.take("a", 5), sum.take("a", 8), sum.take("b", 6), sum.take("b", 1), sum.take("a", 2)]).toEqual([
      null,
      null,
      { channel: "load", value: 14 },
      null,
      { channel: "load", value: 3 },
    ]);
  });
});

describe("rows from readings one at a time", () => {
  const names = ["load", "load-2", "depth"];
  test("are one a moment; a channel that speaks twice opens the next; what no instrument means is none", () => {
    const rows = new SparseRows(names, 100);
    expect(rows.timed).toBe(false);
    rows.at(10, 1);
    expect(rows.timed).toBe(true);
    expect([
      rows.add("load", 100, 1),
      rows.add("depth", 5, 1),
      rows.add("other", 5, 1),
      rows.add("load-2", 1e12, 1),
    ]).toEqual([true, true, true, true]);
    rows.add("depth", 6, 2);
    rows.at(10, 3);
    rows.add("load", 110, 3);
    rows.at(11, 4);
    rows.close(4);
    const batch = rows.take();
    const none = Number.NaN;
    expect([...batch.time]).toEqual([10, 10]);
    expect(batch.values.map((column) => [...column])).toEqual([
      [100, 110],
      [none, none],
      [5, 6],
    ]);
    expect([rows.ready, rows.room]).toEqual([0, true]);
    expect(rows.add("load", 32767, 5)).toBe(false);
    expect(rows.add("depth", 32767, 5)).toBe(true);
  });
  test("go on where they were left", () => {
    const whole = new SparseRows(names, 100);
    const first = new SparseRows(names, 100);
    for (const rows of [whole, first]) {
      rows.at(10, 1);
      rows.add("load", 100, 1);
      rows.at(12, 2);
      rows.add("depth", 4, 2);
    }
    first.take();
    const state = JSON.parse(JSON.stringify(first.state()));
    expect(state).toMatchObject({ rows: 1, now: 12, open: [null, null, 4], befores: [100, null, null] });
    const second = new SparseRows(names, 100, state);
    for (const rows of [whole, second]) {
      rows.add("load-2", 50, 3);
      rows.at(13, 4);
    }
    const [all, rest] = [whole.take(), second.take()];
    expect([...rest.time]).toEqual([...all.time.subarray(1)]);
    expect(rest.values.map((column) => column[0])).toEqual(all.values.map((column) => column[1]));
    expect(rest.values.map((column) => column[0])).toEqual([Number.NaN, 50, 4]);
  });
  test("have room while a line may still close a few", () => {
    const rows = new SparseRows(["depth"], 66);
    expect(rows.room).toBe(true);
    for (let i = 0; i < 3; i++) {
      rows.at(i, i);
      rows.add("depth", i, i);
    }
    expect([rows.ready, rows.room]).toEqual([2, false]);
  });
});

describe("deltas", () => {
  test("name quantities by path", () => {
    const paths = {
      "navigation.speedOverGround": "speed",
      "navigation.courseOverGroundTrue": "course",
      "navigation.headingMagnetic": "heading",
      "navigation.headingTrue": "headingTrue",
      "environment.wind.speedApparent": "windSpeed",
      "environment.wind.angleApparent": "windAngle",
      "environment.wind.speedTrue": "trueWindSpeed",
      "environment.wind.angleTrueWater": "trueWindAngle",
      "environment.wind.directionTrue": "windDirection",
      "environment.depth.belowSurface": "depth",
      "environment.depth.belowTransducer": "depthBelowTransducer",
    };
    for (const [path, kind] of Object.entries(paths)) expect(pathReadings(path, 1.5)).toEqual([{ kind, value: 1.5 }]);
    // To port below zero: clockwise all round.
    for (const path of ["environment.wind.angleApparent", "environment.wind.angleTrueWater"])
      expect(pathReadings(path, -0.5)[0]!.value).toBeCloseTo(2 * Math.PI - 0.5, 12);
    expect(pathReadings("navigation.speedOverGround", -0.5)[0]!.value).toBe(-0.5);
    expect(pathReadings("navigation.position", { latitude: 5, longitude: -6 })).toEqual([
      { kind: "latitude", value: 5 },
      { kind: "longitude", value: -6 },
    ]);
    for (const none of [{ latitude: 0, longitude: 0 }, { latitude: 91, longitude: 0 }, { latitude: 5 }, 7, null])
      expect(pathReadings("navigation.position", none)).toEqual([]);
    expect(pathReadings("navigation.position", { latitude: 0, longitude: 7 })).toHaveLength(2);
    for (const none of ["5", Number.POSITIVE_INFINITY, null])
      expect(pathReadings("navigation.speedOverGround", none)).toEqual([]);
    expect(pathReadings("anchor.rode.load", 900)).toEqual([{ kind: "load", value: 900, from: "anchor.rode.load" }]);
    expect(pathReadings("sails.jib.load", 900)).toEqual([]);
    expect(pathReadings("sails.jib.load", 900, ["sails.jib.load"])).toEqual([
      { kind: "load", value: 900, from: "sails.jib.load" },
    ]);
    expect(pathReadings("anchor.rode.load", 900, ["sails.jib.load"])).toEqual([]);
  });
  test("hold the rode's load where the path says so", () => {
    const said = {
      rode: ["anchor.load", "load", "deck.winch.tension", "mooring.bow.force", "x.pull.pull"],
      open: ["sails.jib.load", "deck.pull"],
      none: ["anchor.loaded", "electrical.bow.load", "propulsion.rode.force", "tanks.anchor.load", "anchor.load.mean"],
    };
    for (const path of said.rode) expect(loadOf(path), path).toBe("rode");
    expect(loadOf("sails.jib.load")).toBe("open");
    for (const path of said.none) expect(loadOf(path), path).toBeNull();
  });
  const at = "2024-05-23T10:20:30Z";
  const line = (values: [string, unknown][], more: object = {}, context?: string) =>
    JSON.stringify({
      ...(context === undefined ? {} : { context }),
      updates: [{ timestamp: at, values: values.map(([path, value]) => ({ path, value })), ...more }],
    });
  test("are of the boat, and of the source a path was first told by", () => {
    const filter = new DeltaFilter(planOf([], false, {}, "me"));
    const speed: [string, unknown][] = [["navigation.speedOverGround", 2]];
    const of = (text: string) => deltaReadings(text, filter);
    const one = [{ channel: "speed", value: 2 }];
    expect(of(line(speed, { $source: "a" }))).toEqual(one);
    expect(of(line(speed, { $source: "b" }))).toEqual([]);
    for (const context of ["vessels.me", "vessels.self", "self", ""])
      expect(of(line(speed, { $source: "a" }, context)), context).toEqual(one);
    expect(of(line(speed, { $source: "a" }, "vessels.other"))).toEqual([]);
    expect(of(line([["environment.depth.belowSurface", 4]], { source: { label: "hub", talker: "II" } }))).toHaveLength(
      1,
    );
    expect(of(line([["environment.depth.belowSurface", 4]], { source: { label: "hub", src: "II" } }))).toHaveLength(1);
    expect(of(line([["environment.depth.belowSurface", 4]], { source: { type: "hub" } }))).toEqual([]);
    expect(filter.state().sources).toMatchObject({
      "navigation.speedOverGround": "a",
      "environment.depth.belowSurface": "hub.II",
    });
    expect(of("no delta")).toBe("a delta as JSON on one line is expected");
    expect(of("{broken")).toBe("a whole JSON document on one line is expected");
    expect(of('{"self":"vessels.me"}')).toEqual([]);
    expect(of('{"updates":[{"values":[{"value":1}]}]}')).toContain("updates.0.values.0.path");
  });
  test("are judged by their head: whose they are, what is told, where the load stands", () => {
    const load = line([["anchor.rode.load", 900]]);
    expect(guessSignalK(`{"self":"vessels.me"}\n${load}\n${load}\n`)).toMatchObject({
      timed: true,
      questions: [],
      paths: { "anchor.rode.load": 2 },
      plan: { loads: ["anchor.rode.load"], self: expect.anything() },
    });
    expect(guessSignalK("one\ntwo\nthree\nfour\n")).toBeNull();
    // Who speaks is no delta.
    expect(guessSignalK(`{"self":"vessels.me"}\n{"self":"vessels.me"}\none\n`)).toBeNull();
    expect(guessSignalK(`${load}\none\ntwo\n`)).not.toBeNull();
    expect(guessSignalK(`${load}\none\ntwo\nthree\n`)).toBeNull();
    const untimed = JSON.stringify({ updates: [{ values: [{ path: "anchor.rode.load", value: 900 }] }] });
    expect(guessSignalK(`${untimed}\n`)?.timed).toBe(false);
    expect(guessSignalK(`1716459630 ${untimed}\n`)?.timed).toBe(true);
    const two = line([
      ["anchor.rode.load", 900],
      ["bow.cell.load", 800],
    ]);
    expect(guessSignalK(`${two}\n`)?.questions.map(({ question }) => question.kind)).toEqual(["severalCells"]);
  });
  test("are read row by row, stamped by themselves or by their logger", () => {
    const untimed = JSON.stringify({ updates: [{ values: [{ path: "load", value: 900 }] }] });
    const text = `${untimed}\n${line([
      ["load", 910],
      ["environment.depth.belowSurface", 4],
    ])}\n1716459640 ${untimed}\nx\n${line([["load", 32767]])}\n`;
    const read = readLines(text, signalKReader(), 4096);
    const first = Date.UTC(2024, 4, 23, 10, 20, 30) / 1000;
    expect(read.times).toEqual([first, first + 10]);
    expect(read.column("load")).toEqual([910, 900]);
    expect(read.column("depth")).toEqual([4, Number.NaN]);
    expect(read.troubles).toMatchObject({ rejected: 1, unreadable: 1, standIns: 1 });
  });
});

describe("a log of sentences is judged by its head", () => {
  const clock = summed("GPGGA,102030,1230.6,S,04515.9,E,1,08,1,5,M,,M,,");
  const wind = summed("WIMWV,30.0,R,7.0,M,A");
  test("where its times come from", () => {
    const at = "2024-05-23T10:20:30Z ";
    const of = (text: string) => {
      const guess = guessNmea(text)!;
      return [guess.times, guess.clock, guess.why.kind];
    };
    expect(of(`${at}${wind}\n`.repeat(10))).toEqual(["logger", "utc", "stampedByLogger"]);
    expect(of([...new Array<string>(9).fill(at + wind), clock].join("\n"))).toEqual([
      "clock",
      "clock",
      "timeOfDayOnly",
    ]);
    expect(of(`${summed("GPZDA,102030,23,05,2024,00,00")}\n${wind}\n`)).toEqual(["dated", "utc", "dateAndTime"]);
    expect(of(`${clock}\n${wind}\n`)).toEqual(["clock", "clock", "timeOfDayOnly"]);
    expect(of(`${wind}\n`)).toEqual([null, "elapsed", "noTime"]);
    expect(guessNmea(`${wind}\na\nb\n`)).not.toBeNull();
    expect(guessNmea(`${wind}\na\nb\nc\n`)).toBeNull();
    expect(guessNmea(`${wind}\n\n\n\n\n`)).not.toBeNull();
  });
  test("which sources and cells it holds, and which are left out", () => {
    const two = guessNmea(`${wind}\n${summed("IIVWR,45.0,R,8.0,N,4.1,M,14.8,K")}\n`, { sources: ["II"] })!;
    expect(two).toMatchObject({
      questions: [],
      remarks: [{ kind: "sourcesLeftOut", sources: ["WI"] }],
      plan: { sources: { wind: "II" } },
    });
    expect(
      guessNmea(`${wind}\n${summed("IIVWR,45.0,R,8.0,N,4.1,M,14.8,K")}\n`)!.questions.map(({ about }) => about),
    ).toEqual(["several sources"]);
    const cells = guessNmea(`${summed("YXXDR,N,900,N,one,N,800,N,two")}\n`, { loads: "sum" })!;
    expect(cells.plan).toMatchObject({ loads: ["one", "two"], sum: true });
  });
  test("whether one receiver is in two places by turns", () => {
    const fix = (lat: string) => summed(`GPGGA,102030,${lat},S,04515.9,E,1,08,1,5,M,,M,,`);
    const by = (other: string, n: number) =>
      Array.from({ length: n }, (_, i) => fix(i % 2 ? other : "1230.6000")).join("\n");
    const questions = (text: string) => guessNmea(text)!.questions.map(({ question }) => question.kind);
    expect(questions(by("1230.6100", 12))).toEqual(["twoReceivers"]);
    expect(questions(by("1230.6100", 11))).toEqual([]);
    // A metre apart is the receiver's own wander; one way on is a way sailed.
    expect(questions(by("1230.6006", 20))).toEqual([]);
    expect(questions(Array.from({ length: 20 }, (_, i) => fix((1230.6 + 0.01 * i).toFixed(4))).join("\n"))).toEqual([]);
  });
  test("and read by the logger's own clock where it has one", () => {
    const text = [10, 11, 12]
      .map((s) => `2024-05-23T10:20:${s}Z ${s === 11 ? "x" : summed(`YXXDR,N,${100 * s},N,Cell`)}`)
      .join("\n");
    const read = readLines(`${text}\n\n`, nmeaReader("logger"), 4096);
    const at = Date.UTC(2024, 4, 23, 10, 20) / 1000;
    expect(read.times).toEqual([at + 10, at + 12]);
    expect(read.column("load")).toEqual([1000, 1200]);
    expect(read.troubles).toMatchObject({ rejected: 1 });
    const day = Date.UTC(2024, 4, 23) / 1000;
    const clocked = readLines(`${clock}\n`, nmeaReader("clock", { start: day + 5000 }), 4096);
    expect(clocked.times).toEqual([day + 37230]);
  });
});
