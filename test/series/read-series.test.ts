/** A series file: every quantity in SI, converted by hand, and every wrong one in one line with its place. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readSeries, seriesBook, seriesFileSchema } from "../../src/series/index.ts";

const TEXT = readFileSync("data/series/creek-trial.yaml", "utf8");
const DEGREE = Math.PI / 180;
/** The file with some of its text otherwise; what is to be changed must be there. */
function changed(...changes: readonly (readonly [from: string, to: string])[]): string {
  return changes.reduce((text, [from, to]) => {
    if (!text.includes(from)) throw new Error(`not in the file: ${from}`);
    return text.replace(from, to);
  }, TEXT);
}
const utc = (text: string): number => Date.parse(text) / 1000;

describe("a series file", () => {
  const series = readSeries(TEXT, "creek.yaml");

  it("has its question, anchors and pulls in SI", () => {
    expect(series.name).toBe("Two anchors in the creek");
    expect(series.question).toBe("compare");
    expect(series.tell).toBe(1.5);
    for (const [i, angle] of series.angles.entries()) expect(angle).toBeCloseTo([2, 12][i]! * DEGREE, 12);
    expect(series.loads).toEqual([1000, 2000, 3000]);
    expect(series.anchors).toEqual([
      { name: "Plough A", mass: 6 },
      { name: "Scoop B", mass: 6 },
    ]);
    expect([series.repeats, series.hold, series.pullTime, series.changeTime]).toEqual([3, 60, 25 * 60, 10 * 60]);
    expect(series.holdRule).toEqual({ heldFor: 30, heldWithin: 0.5 });
    expect(series.gaugeU).toBeCloseTo(0.5 * DEGREE, 12);
    expect([series.seed, series.changes]).toEqual([7, "few"]);
    expect(series.pulls).toEqual([]);
  });

  it("has the boat's points by turns a second", () => {
    expect(series.boat).toMatchObject({ name: "Marsh Tern", length: 11.6, draught: 1.75, rollerHeight: 1.35 });
    expect(series.boat.thrust.map(({ newtons }) => newtons)).toEqual([750, 1600, 2600]);
    for (const [i, { speed }] of series.boat.thrust.entries()) expect(speed).toBeCloseTo([20, 30, 40][i]!, 9);
  });

  it("has sites with their water, room and bottom, and rodes part by part", () => {
    const [creek, bank] = series.sites;
    expect(creek).toMatchObject({
      name: "Creek mouth",
      depth: { least: 2, most: 7 },
      seabed: "mud",
      room: 60,
      bottomSlope: 0,
      bottomFriction: 0.6,
      waterDensity: 1025,
    });
    expect(creek!.tide).toEqual({
      kind: "turns",
      turns: [
        { at: utc("2026-06-02T04:10:00Z"), level: 4.1 },
        { at: utc("2026-06-02T10:25:00Z"), level: 0.7 },
        { at: utc("2026-06-02T16:40:00Z"), level: 4.3 },
      ],
    });
    expect(bank).toMatchObject({ depth: { least: 4, most: 6 }, seabed: "sand" });
    expect(bank).not.toHaveProperty("room");
    if (bank!.tide.kind !== "harmonic") throw new Error(bank!.tide.kind);
    expect(bank!.tide.mean).toBe(2.4);
    expect(bank!.tide.constituents.map(({ name, amplitude }) => [name, amplitude])).toEqual([
      ["M2", 1.5],
      ["S2", 0.5],
      ["N2", 0.3],
      ["K1", 0.1],
      ["O1", 0.1],
    ]);
    for (const [i, { lag }] of bank!.tide.constituents.entries())
      expect(lag).toBeCloseTo([40, 85, 20, 120, 300][i]! * DEGREE, 12);
    expect(
      series.rodes.map(({ name, parts }) => [name, parts.map((part) => part.kind === "line" && part.length)]),
    ).toEqual([
      ["all chain", [45]],
      ["chain and rope", [8, 40]],
    ]);
  });

  it("has its days in universal time, two hours behind the clock of the place", () => {
    expect(series.days).toEqual([
      {
        date: "2026-06-02",
        site: "Creek mouth",
        from: utc("2026-06-02T06:00:00Z"),
        to: utc("2026-06-02T09:30:00Z"),
        offset: 7200,
      },
      {
        date: "2026-06-03",
        site: "Outer bank",
        from: utc("2026-06-03T06:00:00Z"),
        to: utc("2026-06-03T08:00:00Z"),
        offset: 7200,
      },
    ]);
    const west = readSeries(changed(['to: "11:30", zone: "+02:00"', 'to: "11:30", zone: "-05:30"']), "x");
    expect(west.days[0]).toMatchObject({ from: utc("2026-06-02T13:30:00Z"), offset: -5.5 * 3600 });
    const ut = readSeries(changed([', to: "11:30", zone: "+02:00"', ', to: "11:30"']), "x");
    expect(ut.days[0]).toMatchObject({ from: utc("2026-06-02T08:00:00Z"), offset: 0 });
  });

  it("takes what is usual for what it leaves out", () => {
    const bare = readSeries(
      changed(
        ["name: Two anchors in the creek\n", ""],
        ["  tell: 1.5\n", ""],
        [", mass: 6 kg", ""],
        ["  name: Marsh Tern\n  length: 11.6 m\n", ""],
        ["    seabed: mud\n    room: 60 m\n    bottomFriction: 0.6\n", ""],
        [
          "pulls: { repeats: 3, hold: 60 s, heldFor: 30 s, heldWithin: 0.5 m, each: 25 min, change: 10 min }\ngauge: 0.5 deg\norder: { seed: 7, changes: few }\n",
          "",
        ],
      ),
      "x",
    );
    // docs/series.md: a ratio of 1.3, 3 pulls of 25 min, 10 min to change, held 60 s, counting as held from 8 s and below 1 m, gauge 0.5°, all of the working load, 0.5 m under the keel.
    expect(bare).toMatchObject({
      name: "series",
      tell: 1.3,
      repeats: 3,
      hold: 60,
      holdRule: { heldFor: 8, heldWithin: 1 },
      pullTime: 1500,
      changeTime: 600,
      workingLoadShare: 1,
      underKeel: 0.5,
      seed: 1,
      changes: "few",
      boat: { name: "boat", length: 0 },
    });
    expect(bare.gaugeU).toBeCloseTo(0.5 * DEGREE, 12);
    expect(bare.anchors[0]).toEqual({ name: "Plough A" });
    expect(bare.sites[0]).toMatchObject({ bottomFriction: 0 });
    expect(bare.sites[0]).not.toHaveProperty("seabed");
    const slope = readSeries(changed(["kind: compare", "kind: letsGo"], ["  tell: 1.5\n", ""]), "x");
    expect(slope.tell).toBe(0.03);
  });

  it("takes what it states of limits, slope, water and order", () => {
    const stated = readSeries(
      changed(
        ["gauge: 0.5 deg", "gauge: 1 deg\nlimits: { workingLoad: 80 %, underKeel: 3 ft }"],
        ["    bottomFriction: 0.6\n", "    bottomSlope: -3 deg\n    waterDensity: 1000 kg/m3\n"],
        ["changes: few", "changes: free"],
      ),
      "x",
    );
    expect(stated.workingLoadShare).toBeCloseTo(0.8, 12);
    expect(stated.underKeel).toBeCloseTo(0.9144, 12);
    expect(stated.gaugeU).toBeCloseTo(DEGREE, 12);
    expect(stated.sites[0]!.bottomSlope).toBeCloseTo(-3 * DEGREE, 12);
    expect(stated.sites[0]!.waterDensity).toBe(1000);
    expect(stated.changes).toBe("free");
  });

  it("takes of the hold rule what it states, and the rest as usual", () => {
    const feet = readSeries(changed(["heldFor: 30 s, heldWithin: 0.5 m", "heldWithin: 2 ft"]), "x");
    expect(feet.holdRule.heldFor).toBe(8);
    expect(feet.holdRule.heldWithin).toBeCloseTo(0.6096, 12);
    expect(readSeries(changed(["heldFor: 30 s, heldWithin: 0.5 m", "heldFor: 2 min"]), "x").holdRule).toEqual({
      heldFor: 120,
      heldWithin: 1,
    });
  });

  it("names its table of pulls, where it names one", () => {
    expect(seriesBook(`${TEXT}book: ours.csv\n`, "x")).toBe("ours.csv");
    expect(seriesBook(TEXT, "x")).toBeUndefined();
  });

  it("has a shape for other programs", () => {
    const schema = seriesFileSchema() as { required: string[]; properties: object };
    expect([...schema.required].sort()).toEqual(["anchors", "boat", "format", "question", "rodes", "sites"]);
    expect(Object.keys(schema.properties)).toContain("days");
  });
});

const wrong: readonly (readonly [what: string, changes: readonly (readonly [string, string])[], line: string])[] = [
  [
    "an angle straight up",
    [["2 deg, 12 deg", "2 deg, 90 deg"]],
    'question.angles #2: "90 deg"; an angle below 90 deg is expected',
  ],
  [
    "an angle below the bottom",
    [["2 deg, 12 deg", "-1 deg, 12 deg"]],
    'question.angles #1: "-1 deg"; zero or more is expected',
  ],
  [
    "a load of nothing",
    [["1 kN, 2 kN, 3 kN", "0 N, 2 kN, 3 kN"]],
    'question.loads #1: "0 N"; a value above zero is expected',
  ],
  [
    "loads that do not rise",
    [["1 kN, 2 kN, 3 kN", "1 kN, 3 kN, 3 kN"]],
    "question.loads: entry 3 is no higher than the one before; rising values are expected",
  ],
  [
    "a ratio of one",
    [["tell: 1.5", "tell: 1"]],
    "question.tell: 1; a ratio of holding above 1 and below 100 is expected",
  ],
  [
    "a ratio beyond belief",
    [["tell: 1.5", "tell: 100"]],
    "question.tell: 100; a ratio of holding above 1 and below 100 is expected",
  ],
  [
    "a fall of nothing",
    [
      ["kind: compare", "kind: letsGo"],
      ["tell: 1.5", "tell: 0"],
    ],
    "question.tell: 0; a share a degree above 0 and below 1 is expected",
  ],
  [
    "a fall of all",
    [
      ["kind: compare", "kind: letsGo"],
      ["tell: 1.5", "tell: 1"],
    ],
    "question.tell: 1; a share a degree above 0 and below 1 is expected",
  ],
  [
    "one anchor to compare",
    [["  - { name: Scoop B, mass: 6 kg }\n", ""]],
    "anchors: one anchor; two or more are expected where anchors are compared",
  ],
  [
    "one angle where the angle is asked about",
    [
      ["kind: compare", "kind: letsGo"],
      ["tell: 1.5", "tell: 0.05"],
      ["2 deg, 12 deg", "2 deg, 2 deg"],
    ],
    "question.angles: one angle; two or more are expected where the angle is asked about",
  ],
  [
    "two anchors of one name",
    [["name: Scoop B", "name: Plough A"]],
    'anchors: "Plough A"; a name of its own is expected for each',
  ],
  [
    "two sites of one name",
    [["- name: Outer bank", "- name: Creek mouth"]],
    'sites: "Creek mouth"; a name of its own is expected for each',
  ],
  [
    "two rodes of one name",
    [["- name: chain and rope", "- name: all chain"]],
    'rodes: "all chain"; a name of its own is expected for each',
  ],
  // 23 signs: two of them number 529 pulls; 133 × 2 × 2 = 532.
  [
    "more pulls than can be coded",
    [["repeats: 3", "repeats: 133"]],
    "pulls.repeats: 532 pulls; at most 529 pulls are expected",
  ],
  ["a pull of no time", [["each: 25 min", "each: 0 s"]], "pulls.each: 0; a time above zero is expected"],
  [
    "a hold rule of no time",
    [["heldFor: 30 s", "heldFor: 0 s"]],
    'pulls.heldFor: "0 s"; a time from 0.1 s to a day is expected, such as 30 s',
  ],
  [
    "a hold rule in another measure",
    [["heldWithin: 0.5 m", "heldWithin: 0.5 kN"]],
    'pulls.heldWithin: "0.5 kN" is a force; a length is expected, such as "0.5 m"',
  ],
  [
    "a hold rule that lets an anchor go a league",
    [["heldWithin: 0.5 m", "heldWithin: 5 km"]],
    'pulls.heldWithin: "5 km"; a length from 1 mm to 1 km is expected, such as 0.5 m',
  ],
  ["a hold of less than no time", [["hold: 60 s", "hold: -1 s"]], 'pulls.hold: "-1 s"; zero or more is expected'],
  [
    "an anchor of no mass",
    [["name: Scoop B, mass: 6 kg", "name: Scoop B, mass: 0 kg"]],
    'anchors #2.mass: "0 kg"; a value above zero is expected',
  ],
  ["a gauge without error", [["gauge: 0.5 deg", "gauge: 0 deg"]], 'gauge: "0 deg"; a value above zero is expected'],
  [
    "engine speeds that fall",
    [["speed: 1800 rpm", "speed: 1100 rpm"]],
    "boat.thrust: entry 2 is no higher than the one before; rising values are expected",
  ],
  [
    "a thrust that falls",
    [["load: 1.6 kN", "load: 700 N"]],
    "boat.thrust: entry 2 is no higher than the one before; rising values are expected",
  ],
  [
    "an engine that stands",
    [["speed: 1200 rpm", "speed: 0 rpm"]],
    'boat.thrust #1.speed: "0 rpm"; a value above zero is expected',
  ],
  [
    "the greater depth first",
    [["depth: [2 m, 7 m]", "depth: [20 ft, 2 m]"]],
    "sites #1.depth: 20 ft before 2 m; the lesser depth first is expected",
  ],
  ["a room of nothing", [["room: 60 m", "room: 0 m"]], 'sites #1.room: "0 m"; a value above zero is expected'],
  [
    "a day at a site of no such name",
    [["site: Outer bank", "site: Outer banks"]],
    'days #2.site: "Outer banks"; one of the sites is expected: Creek mouth, Outer bank',
  ],
  [
    "a day that ends before it begins",
    [['to: "11:30"', 'to: "08:00"']],
    'days #1.to: "08:00"; an hour after from is expected',
  ],
  [
    "an hour that is none",
    [['to: "11:30"', 'to: "noon"']],
    'days #1.to: "2026-06-02Tnoon+02:00"; a time with its zone is expected, such as "2026-06-02T05:10Z"',
  ],
  [
    "a water without a zone",
    [["2026-06-02T10:25Z", "2026-06-02T10:25"]],
    'sites #1.tide.turns #2.at: "2026-06-02T10:25"; a time with its zone is expected, such as "2026-06-02T05:10Z"',
  ],
  [
    "waters that run back",
    [["2026-06-02T10:25Z", "2026-06-02T03:25Z"]],
    'sites #1.tide.turns #2.at: "2026-06-02T03:25Z"; a time after the one before is expected',
  ],
  [
    "two waters at one time",
    [["2026-06-02T16:40Z", "2026-06-02T10:25Z"]],
    'sites #1.tide.turns #3.at: "2026-06-02T10:25Z"; a time after the one before is expected',
  ],
  [
    "one water alone",
    [
      [
        '        - { at: "2026-06-02T10:25Z", level: 0.7 m }\n        - { at: "2026-06-02T16:40Z", level: 4.3 m }\n',
        "",
      ],
    ],
    "sites #1.tide.turns: 1 of them; two or more high and low waters are expected",
  ],
  [
    "a mean beside the waters",
    [["    tide:\n      turns:", "    tide:\n      mean: 2 m\n      turns:"]],
    'sites #1.tide.mean: "2 m"; constituents are expected with it, not high and low waters',
  ],
  [
    "waters and constituents",
    [["      mean: 2.4 m\n", '      turns: [{ at: "2026-06-02T04:10Z", level: 4 m }]\n']],
    "sites #2.tide: both turns and constituents; one of the two is expected",
  ],
  [
    "a tide of nothing",
    [
      [
        "    tide:\n      mean: 2.4 m\n      constituents: { M2: [1.5 m, 40 deg], S2: [0.5 m, 85 deg], N2: [0.3 m, 20 deg], K1: [0.1 m, 120 deg], O1: [0.1 m, 300 deg] }\n",
        "    tide: { mean: 2.4 m }\n",
      ],
    ],
    "sites #2.tide: neither turns nor constituents; one of the two is expected",
  ],
];

describe("a series file that is wrong", () => {
  it.each(wrong)("%s", (_, changes, line) => {
    expect(() => readSeries(changed(...changes), "creek.yaml")).toThrow(
      expect.objectContaining({ message: `creek.yaml: ${line}` }),
    );
  });

  it("is told which constituent may be meant", () => {
    expect(() => readSeries(changed(["{ M2: [1.5 m", "{ MM2: [1.5 m"]), "creek.yaml")).toThrow(
      /^creek\.yaml: sites #2\.tide\.constituents\.MM2: "MM2"; one of SA, .* is expected \(\w+\?\)$/,
    );
  });
});
