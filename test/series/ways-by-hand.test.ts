/** How an angle is had, planned and told: beside what settling the rode says, and by small cases worked out here. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { lengthOf, type PointPart, settle, settleTraced, strengthOf } from "../../src/rode/index.ts";
import { triedBetween, waysTo } from "../../src/series/best-way.ts";
import { argumentOf } from "../../src/series/constituents.ts";
import {
  canBeHad,
  type Had,
  lengthFor,
  levelAt,
  orderOf,
  planSeries,
  pullCode,
  readPullCode,
  readSeries,
  rodeOut,
  type Series,
} from "../../src/series/index.ts";
import { lengthAboard } from "../../src/series/rode-out.ts";
import { tableOf } from "../../src/series/table.ts";

const TEXT = readFileSync("data/series/creek-trial.yaml", "utf8");
const series = readSeries(TEXT, "creek.yaml");
const DEGREE = Math.PI / 180;
const [creek, bank] = series.sites as [Series["sites"][number], Series["sites"][number]];
const [chain, mixed] = series.rodes as [Series["rodes"][number], Series["rodes"][number]];
function had(of: ReturnType<typeof canBeHad>): Had {
  if (of.kind !== "had") throw new Error(JSON.stringify(of.against));
  return of;
}

describe("how an angle is had", () => {
  const sloped = { ...creek, bottomSlope: 3 * DEGREE };
  it.each([
    ["level", creek, chain],
    ["sloped", sloped, chain],
    ["in the rope", creek, mixed],
  ] as const)("%s: every figure is that of the rode settled as laid out", (_, site, rode) => {
    const one = had(canBeHad(series, rode, site, 6, 8 * DEGREE, 1500));
    const at = (depth: number) => {
      const settled = settle(rodeOut(rode, series.boat, site, depth, one.length), { at: "anchor", newtons: 1500 });
      if (settled.kind !== "settled") throw new Error(settled.kind);
      return settled;
    };
    const own = at(6);
    expect(one).toMatchObject({
      kind: "had",
      rode: rode.name,
      depth: 6,
      scope: expect.closeTo(one.length / 7.35, 12),
      span: expect.closeTo(own.span, 6),
      bow: expect.closeTo(own.bow.tension, 6),
      horizontal: expect.closeTo(own.horizontal, 6),
      bowAngle: expect.closeTo(own.bow.angle, 9),
      angleToBottom: expect.closeTo(8 * DEGREE, 9),
    });
    // From the bottom, which rises to the boat: steeper above the level by the slope.
    expect(own.anchor.angle - own.anchor.angleToBottom).toBeCloseTo(site.bottomSlope, 9);
    const slope = (at(6.2).anchor.angleToBottom - at(5.8).anchor.angleToBottom) / 0.4;
    expect(one.angleByDepth / slope).toBeCloseTo(1, 2);
    const traced = settleTraced(one.rig, { at: "anchor", newtons: 1500 });
    if (!("settled" in traced)) throw new Error("not settled");
    const most = strengthOf(one.rig, traced)
      .filter(({ workingLoad }) => workingLoad !== null)
      .map(({ name, load, workingLoad }) => ({ part: name, load, limit: workingLoad! }))
      .sort((a, b) => b.load / b.limit - a.load / a.limit)[0];
    expect(one.weakest).toEqual(most ?? null);
  });

  it("is refused by a hair: the keel, the engine, the room, the working load", () => {
    const one = had(canBeHad(series, chain, creek, 6, 8 * DEGREE, 1500));
    const asked = (over: Partial<Series>, site = creek, depth = 6) =>
      canBeHad({ ...series, ...over }, chain, site, depth, 8 * DEGREE, 1500);
    const thrust = (newtons: number) => ({ boat: { ...series.boat, thrust: [{ speed: 20, newtons }] } });
    expect(asked(thrust(one.horizontal + 0.01)).kind).toBe("had");
    expect(asked(thrust(one.horizontal - 0.01))).toMatchObject({
      against: [{ kind: "engineTooSmall", needed: expect.closeTo(one.horizontal, 6), most: one.horizontal - 0.01 }],
    });
    const share = one.weakest!.load / one.weakest!.limit;
    expect(asked({ workingLoadShare: share * 1.0001 }).kind).toBe("had");
    expect(asked({ workingLoadShare: share * 0.9999 })).toMatchObject({
      against: [
        {
          kind: "pastWorkingLoad",
          part: one.weakest!.part,
          load: expect.closeTo(one.weakest!.load, 6),
          limit: expect.closeTo(one.weakest!.load * 0.9999, 6),
        },
      ],
    });
    // 1.75 m of draught and 0.5 m under her.
    expect(asked({}, creek, 2.2499)).toMatchObject({ against: [{ kind: "tooShallow", depth: 2.2499, needed: 2.25 }] });
    expect(asked({ underKeel: 0.4 }, creek, 2.2).kind).toBe("had");
  });

  it("longer than what is aboard says what would do, and whether the engine could pull it at all", () => {
    const asked = (newtons: number, load: number) =>
      canBeHad(
        { ...series, boat: { ...series.boat, thrust: [{ speed: 20, newtons }] } },
        chain,
        creek,
        7,
        0.2 * DEGREE,
        load,
      );
    const level = 2500 * Math.cos(0.2 * DEGREE);
    const short = asked(level + 1, 2500);
    const needed = short.kind === "notHad" && short.against[0]!.kind === "rodeTooShort" ? short.against[0]!.needed! : 0;
    expect(asked(level + 1, 2500)).toEqual({
      kind: "notHad",
      against: [{ kind: "rodeTooShort", needed, aboard: 45 }],
    });
    expect(asked(level - 1, 2500)).toMatchObject({
      against: [
        { kind: "rodeTooShort" },
        { kind: "engineTooSmall", needed: expect.closeTo(level, 6), most: level - 1 },
      ],
    });
    // Laid out with that much it gives the angle.
    const long = { ...chain, parts: chain.parts.map((part) => ({ ...part, length: 200 })) } as typeof chain;
    const settled = settle(rodeOut(long, series.boat, creek, 7, needed), { at: "anchor", newtons: 2500 });
    expect(settled.kind === "settled" && settled.anchor.angleToBottom).toBeCloseTo(0.2 * DEGREE, 7);
  });

  it("at lift-off is the catenary that leaves the anchor level: L² = h² + 2 h H/w", () => {
    const found = lengthFor(chain, series.boat, creek, 6, 0, 1500);
    if (found.kind !== "length") throw new Error(found.kind);
    const [part] = chain.parts;
    if (part?.kind !== "line") throw new Error("no line");
    const weight = part.massPerLength * 9.80665 * (1 - 1025 / part.density);
    const h = 6 + 1.35;
    // Chain stretches by less than a thousandth under such a load.
    expect(Math.abs(found.length / Math.sqrt(h * h + (2 * h * 1500) / weight) - 1)).toBeLessThan(1e-3);
    expect(found.settled.anchor.angleToBottom).toBeCloseTo(0, 6);
  });

  it("counts points of a rode as no length, and cuts only the last line", () => {
    const point: PointPart = { kind: "point", name: "shackle", mass: 0.5, density: 7850 };
    const [first, second] = mixed.parts;
    const joined = { name: "joined", parts: [first!, point, second!] };
    expect(lengthAboard(joined)).toBe(48);
    expect(rodeOut(joined, series.boat, creek, 6, 20).rode.map(lengthOf)).toEqual([8, 0, 12]);
    const found = lengthFor(joined, series.boat, creek, 6, 8 * DEGREE, 1500);
    if (found.kind !== "length") throw new Error(found.kind);
    expect(found.rig.rode.map(lengthOf)).toEqual([8, 0, expect.closeTo(found.length - 8, 9)]);
    expect(found.settled.anchor.angleToBottom).toBeCloseTo(8 * DEGREE, 9);
    // Steeper than the water over the bow leaves: no length.
    expect(lengthFor(chain, series.boat, creek, 6, 89 * DEGREE, 1e5).kind).toBe("none");
  });
});

describe("the best way", () => {
  const depths = [3, 5, 7];
  it("is with the first rode that gives it, where the angle moves least with the depth", () => {
    const [angle, load] = [8 * DEGREE, 1500];
    const each = depths.map((depth) => had(canBeHad(series, chain, creek, depth, angle, load)));
    const least = each.reduce((a, b) => (Math.abs(b.angleByDepth) < Math.abs(a.angleByDepth) ? b : a));
    const { best, depths: within, against } = waysTo(series, creek, depths, angle, load);
    expect(best).toEqual(least);
    // Not the first tried, so that a choice was made.
    expect(least.depth).not.toBe(each[0]!.depth);
    expect(within).toEqual(depths);
    expect(against).toEqual([]);
    const turned = waysTo({ ...series, rodes: [mixed, chain] }, creek, depths, angle, load);
    expect(turned.best!.rode).toBe(mixed.name);
  });

  it("says of each rode that does not give it what stands against it where least does, and which depths it gives", () => {
    // Two metres are too shallow for her; beyond, the room is short and the engine weak.
    const tight = { ...creek, room: 15 };
    const weak = { ...series, boat: { ...series.boat, thrust: [{ speed: 20, newtons: 1000 }] } };
    const { best, depths: within, against } = waysTo(weak, tight, [7, 2, 5], 8 * DEGREE, 1500);
    expect(best).toBeNull();
    expect(within).toEqual([]);
    expect(against.map(({ rode, against: list }) => [rode, list.map(({ kind }) => kind)])).toEqual([
      [chain.name, ["tooShallow"]],
      [mixed.name, ["tooShallow"]],
    ]);
    expect(waysTo(series, creek, [2, 5, 7], 8 * DEGREE, 1500).depths).toEqual([5, 7]);
  });

  it("looks at seven depths, both ends among them; at one where there is no range", () => {
    expect(triedBetween(2, 5)).toEqual([2, 2.5, 3, 3.5, 4, 4.5, 5]);
    expect(triedBetween(3, 3)).toEqual([3]);
  });
});

describe("the plan", () => {
  it("warns of the tide by the slope of the angle and what the level does during the pull", () => {
    const { pulls } = planSeries({ ...series, gaugeU: 1e-9 });
    let seen = 0;
    for (const { how, at, day, level } of pulls) {
      const site = series.sites.find(({ name }) => name === day.site)!;
      expect(level).toBe(levelAt(site.tide, at));
      if (how.kind !== "had") continue;
      const later = levelAt(site.tide, at + series.pullTime)!;
      const said = how.warnings.find(({ kind }) => kind === "tideMovesAngle");
      expect(said).toEqual({
        kind: "tideMovesAngle",
        by: expect.closeTo(how.at.angleByDepth * (later - level!), 12),
        gauge: 1e-9,
      });
      seen++;
      for (const { load, bow, speed } of how.loads) {
        const settled = settle(how.at.rig, { at: "anchor", newtons: load });
        if (settled.kind !== "settled") throw new Error(settled.kind);
        expect(bow).toBeCloseTo(settled.bow.tension, 9);
        // 0 to 750 N at 20 Hz, 1600 N at 30, 2600 N at 40.
        const h = settled.horizontal;
        const points = [
          [0, 0],
          [750, 20],
          [1600, 30],
          [2600, 40],
        ] as const;
        const k = points.findIndex(([newtons]) => h <= newtons);
        if (k < 0) expect(speed).toBeNull();
        else {
          const [[n0, s0], [n1, s1]] = [points[k - 1]!, points[k]!];
          expect(speed).toBeCloseTo(Math.sqrt(s0 ** 2 + ((h - n0) / (n1 - n0)) * (s1 ** 2 - s0 ** 2)), 9);
        }
      }
    }
    expect(seen).toBeGreaterThan(3);
    // A gauge that sees nothing is warned of nothing.
    for (const { how } of planSeries({ ...series, gaugeU: 1 }).pulls)
      if (how.kind === "had") expect(how.warnings.filter(({ kind }) => kind === "tideMovesAngle")).toEqual([]);
  });

  it("pulls to the most of the loads that can be had, and says what stands against the last", () => {
    // 2600 N of engine: 3 kN at 12° asks 2934 N of it, 2 kN 1956 N; with 900 N no load of 2 kN either.
    const { pulls } = planSeries(series);
    const own = pulls.filter(({ how }) => how.kind === "had");
    expect(own.length).toBeGreaterThan(0);
    for (const { how } of own) {
      if (how.kind !== "had") continue;
      expect(how.loads.map(({ load }) => load)).toEqual([1000, 2000]);
      const only = how.warnings.find(({ kind }) => kind === "onlyTo");
      expect(only).toMatchObject({ load: 2000, asked: 3000 });
      expect((only as { against: readonly { kind: string }[] }).against.map(({ kind }) => kind)).toContain(
        "engineTooSmall",
      );
    }
    const weak = planSeries({ ...series, boat: { ...series.boat, thrust: [{ speed: 20, newtons: 500 }] } });
    for (const { how } of weak.pulls) {
      expect(how).toMatchObject({ kind: "notHad", byTide: false });
      expect(how.kind === "notHad" && how.against.map(({ kind }) => kind)).toContain("engineTooSmall");
    }
  });

  it("does not plan a pull at an hour whose level nobody told", () => {
    const late = readSeries(TEXT.replace("date: 2026-06-02, site", "date: 2026-06-04, site"), "late.yaml");
    const own = planSeries(late).pulls.filter(({ day }) => day.site === "Creek mouth");
    expect(own.length).toBeGreaterThan(0);
    for (const { how, level } of own) expect([how, level]).toEqual([{ kind: "levelNotTold" }, null]);
  });

  it("puts a pull where it and a change of anchor end by the day's last minute, and no later", () => {
    const [day] = series.days as [Series["days"][number]];
    const asked = (minutes: number, anchors = series.anchors) =>
      orderOf({
        ...series,
        anchors,
        angles: [0.1],
        repeats: 1,
        days: [{ ...day, to: day.from + 60 * minutes }],
      });
    // 25 min a pull, 10 a change: two anchors take an hour.
    expect(asked(60)).toMatchObject({
      withoutHour: 0,
      placed: [{ at: day.from, block: 1, round: 1 }, { at: day.from + 2100 }],
    });
    expect(asked(59.99)).toMatchObject({ withoutHour: 1 });
    expect(asked(24.99)).toMatchObject({ withoutHour: 2, placed: [] });
    const two = orderOf({
      ...series,
      angles: [0.1],
      repeats: 2,
      days: [day, { ...day, from: day.from + 9e4, to: day.to + 9e4 }],
    });
    expect(new Set(two.placed.map(({ block }) => block))).toEqual(new Set([1]));
    // Nothing to change in the morning of the second block.
    const split = orderOf({
      ...series,
      angles: [0.1],
      repeats: 1,
      days: [
        { ...day, to: day.from + 1500 },
        { ...day, from: day.from + 9e4, to: day.from + 9e4 + 1500 },
      ],
    });
    expect(split.placed.map(({ at, block }) => [at - day.from, block])).toEqual([
      [0, 1],
      [9e4, 2],
    ]);
  });
});

describe("the table", () => {
  it("has a cell for each site, angle and load, and looks at the level as the mean has it where no hour is told", () => {
    const table = tableOf({ ...series, days: [] });
    expect(table.map(({ site, angle, load }) => [site, Math.round(angle / DEGREE), load])).toEqual(
      ["Creek mouth", "Outer bank"].flatMap((site) =>
        [2, 12].flatMap((a) => [1000, 2000, 3000].map((n) => [site, a, n])),
      ),
    );
    // 4 to 6 m and a mean of 2.4 m.
    const outer = table.find(({ site, angle, load }) => site === "Outer bank" && angle > 0.1 && load === 1000)!;
    expect(outer.depths).toEqual({ least: 6.4, most: expect.closeTo(8.4, 12) });
    // High and low waters tell no mean: the datum.
    const inner = table.find(({ site, angle, load }) => site === "Creek mouth" && angle > 0.1 && load === 1000)!;
    expect(inner.depths!.most).toBeCloseTo(7, 12);
    expect(inner.depths!.least).toBeGreaterThanOrEqual(2.25);
    expect(bank.tide).toMatchObject({ mean: 2.4 });
  });
});

describe("the level between high and low waters", () => {
  const turns = [
    { at: 1000, level: 4 },
    { at: 5000, level: 1 },
    { at: 9000, level: 3 },
  ];
  const tide = { kind: "turns", turns } as const;
  it("is a half cosine from each to the next, each at its own moment, and untold outside them", () => {
    // A sixth, a quarter and a half of the time: (1 − cos 30°)/2, (1 − cos 45°)/2, a half.
    expect(levelAt(tide, 1000 + 4000 / 6)).toBeCloseTo(4 - 3 * 0.0669873, 6);
    expect(levelAt(tide, 6000)).toBeCloseTo(1 + 2 * 0.1464466, 6);
    expect(levelAt(tide, 7000)).toBeCloseTo(2, 12);
    expect([1000, 5000, 9000].map((at) => levelAt(tide, at))).toEqual([
      4,
      expect.closeTo(1, 12),
      expect.closeTo(3, 12),
    ]);
    expect([999, 9001].map((at) => levelAt(tide, at))).toEqual([null, null]);
    expect(levelAt({ kind: "none" }, 5)).toBe(0);
  });
});

describe("the moon's node", () => {
  // Doodson's series, recalled: M2 f = 1.0004 − 0.0373 cos N + 0.0002 cos 2N, u = −2.14° sin N.
  it("is in compound tides as often as what they are made of", () => {
    const at = { T: 30, s: 100, h: 200, p: 40, p1: 283, N: 60 };
    const f = 1.0004 - 0.0373 * 0.5 + 0.0002 * -0.5;
    const u = -2.14 * Math.sin(60 * DEGREE);
    const still = 4 * at.T - 4 * at.s + 4 * at.h;
    expect(argumentOf("M4", at).f).toBeCloseTo(f ** 2, 9);
    expect(argumentOf("M4", at).u).toBeCloseTo(still + 2 * u, 6);
    // A difference turns the angle round, the factor stays one above.
    expect(argumentOf("MSF", at).f).toBeCloseTo(f, 9);
    expect(argumentOf("MSF", at).u).toBeCloseTo(2 * at.s - 2 * at.h - u, 6);
    expect(argumentOf("S2", at)).toEqual({ f: 1, u: 60 });
  });
});

describe("the code of a pull", () => {
  const SIGNS = "234679ACDEFHJKLMNPRTVWX";
  it("has two signs of the series by FNV-1a, two of the number, and their check", () => {
    // Published test vectors of FNV-1a of 32 bits (recalled).
    for (const [text, hash] of [
      ["", 0x811c9dc5],
      ["a", 0xe40c292c],
      ["foobar", 0xbf9cf968],
    ] as const)
      for (const number of [1, 23, 24, 529]) {
        const own = hash % 529;
        const at = number - 1;
        const places = [Math.floor(own / 23), own % 23, Math.floor(at / 23), at % 23];
        const check = (places[0]! + 2 * places[1]! + 3 * places[2]! + 4 * places[3]!) % 23;
        const code = [...places, check].map((place) => SIGNS[place]).join("");
        expect(pullCode(text, number)).toBe(code);
        expect(readPullCode(text, code)).toEqual({ kind: "read", number });
      }
  });
});
