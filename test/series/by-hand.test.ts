/** A series' numbers one at a time: information of an ended pull, hours, engine speeds, levels, the next pull and its reason. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Pull } from "../../src/holding/index.ts";
import { dot, informationAt, rowOf, solve } from "../../src/series/belief.ts";
import {
  beliefOf,
  canBeHad,
  lengthFor,
  nextPulls,
  planSeries,
  powerWith,
  readSeries,
  rodeOut,
  type Series,
  speedFor,
} from "../../src/series/index.ts";
import { limitsOf } from "../../src/series/power.ts";
import { tableOf } from "../../src/series/table.ts";

const TEXT = readFileSync("data/series/creek-trial.yaml", "utf8");
const series = readSeries(TEXT, "creek.yaml");
const DEGREE = Math.PI / 180;
const [creek] = series.sites as [Series["sites"][number]];
const [chain, mixed] = series.rodes as [Series["rodes"][number], Series["rodes"][number]];

describe("what a pull ended at z tells of its centre", () => {
  it.each([-1.5, -0.3, 0, 0.7, 2])(
    "z = %s: the square of its score in the mean, summed over where it may give way",
    (z) => {
      const density = (x: number) => Math.exp(-0.5 * x * x) / Math.sqrt(2 * Math.PI);
      const over = (f: (x: number) => number, from: number, to: number): number => {
        const n = 20_000;
        let sum = 0;
        for (let k = 0; k < n; k++) sum += f(from + ((to - from) * (k + 0.5)) / n) * ((to - from) / n);
        return sum;
      };
      // Given way at x: the score of the centre is x. Ended: φ(z)/(1 − Φ(z)).
      let seen = over((x) => x * x * density(x), -9, z);
      const above = over(density, z, 9);
      seen += above * (density(z) / above) ** 2;
      expect(informationAt(z)).toBeCloseTo(seen, 4);
    },
  );
  it("is all far above, nothing far below", () => {
    expect([informationAt(8.1), informationAt(-8.1)]).toEqual([1, 0]);
  });
});

describe("engine speed", () => {
  it("below the first point runs from nothing, thrust with the square of the speed", () => {
    // 750 N at 20 Hz: a quarter of it at half the speed.
    expect(speedFor(series.boat, 750 / 4)).toBeCloseTo(10, 9);
    expect(speedFor(series.boat, 0)).toBe(0);
    // 1600 N at 30 Hz, 2600 N at 40 Hz: half-way at √((900 + 1600)/2).
    expect(speedFor(series.boat, 2100)).toBeCloseTo(Math.sqrt(1250), 9);
  });
});

describe("hours of a series", () => {
  const belief = { ...beliefOf(series)!, pulls: 1 };
  it.each(["few", "free"] as const)("are every pull's time and every change of anchor, %s changes", (changes) => {
    const { hours, pulls } = powerWith({ ...series, changes }, belief, [1e9, 1e9], 5, 2);
    expect(pulls).toBe(5 * 2 * 2);
    // Few: one change a round of two anchors; free: one between any two of a round's four pulls.
    const each = changes === "few" ? 1 : 3;
    expect(hours).toBeCloseTo((20 * 1500 + 5 * each * 600) / 3600, 12);
  });
});

describe("levels and depths", () => {
  it("the table looks between the least depth at low water and the most at high water of the hours pulled", () => {
    const table = tableOf(series);
    // Creek: 08:00 to 11:30 at +02:00 is 06:00 to 09:30 UT, on the way from 4.1 m at 04:10 to 0.7 m at 10:25: a half cosine.
    const at = (minutes: number) => 4.1 + ((0.7 - 4.1) * (1 - Math.cos((Math.PI * minutes) / 375))) / 2;
    const [high, low] = [at(110), at(320)];
    const depths = table
      .filter(({ site, depths }) => site === "Creek mouth" && depths !== null)
      .map(({ depths }) => depths!);
    expect(depths.length).toBeGreaterThan(0);
    for (const { least, most } of depths) {
      expect(least).toBeGreaterThanOrEqual(Math.max(2 + low, 2.25) - 1e-9);
      expect(most).toBeLessThanOrEqual(7 + high + 1e-9);
    }
    expect(Math.max(...depths.map(({ most }) => most))).toBeCloseTo(7 + high, 9);
    const limits = limitsOf(series, table);
    for (const [i, angle] of series.angles.entries()) {
      const had = table.filter((cell) => cell.angle === angle && cell.had !== null).map(({ load }) => load);
      expect(limits[i]).toBe(Math.max(...had));
    }
  });

  it("a rode out is its parts from the anchor, the last cut", () => {
    const rig = rodeOut(mixed, series.boat, creek, 6, 20);
    expect(rig.rode.map((part) => part.kind === "line" && part.length)).toEqual([8, 12]);
    expect(rig.setting).toMatchObject({
      medium: "water",
      depth: 6,
      rollerHeight: 1.35,
      waterDensity: 1025,
      bottomFriction: 0.6,
      current: 0,
    });
    expect(rodeOut(mixed, series.boat, creek, 6, 8).rode).toHaveLength(1);
    expect(lengthFor({ name: "none", parts: [] }, series.boat, creek, 6, 0.1, 1000)).toEqual({ kind: "none" });
  });

  it("what is had tells scope, span and how the angle moves with the depth, by settling beside it", () => {
    const one = canBeHad(series, chain, creek, 6, 6 * DEGREE, 1500);
    if (one.kind !== "had") throw new Error(one.kind);
    expect(one.scope).toBeCloseTo(one.length / (6 + 1.35), 12);
    expect(one.angleToBottom).toBeCloseTo(6 * DEGREE, 9);
    const deeper = canBeHad({ ...series }, chain, creek, 6.1, 6 * DEGREE, 1500);
    // Deeper water wants more rode for the same angle, so with the same rode the angle grows.
    expect(deeper.kind === "had" && deeper.length).toBeGreaterThan(one.length);
    expect(one.angleByDepth).toBeGreaterThan(0);
    const { weakest } = one;
    expect(weakest!.load / weakest!.limit).toBeGreaterThan(0);
    const room = canBeHad(series, chain, { ...creek, room: one.span + 11.6 - 0.01 }, 6, 6 * DEGREE, 1500);
    expect(room).toMatchObject({
      kind: "notHad",
      against: [{ kind: "noRoom", needed: expect.closeTo(one.span + 11.6, 9) }],
    });
    expect(canBeHad(series, chain, { ...creek, room: one.span + 11.6 + 0.01 }, 6, 6 * DEGREE, 1500).kind).toBe("had");
  });
});

describe("the plan", () => {
  const plan = planSeries(series);
  it("takes each day from its first hour to its last pull's end", () => {
    let time = 0;
    for (const day of series.days) {
      const own = plan.pulls.filter((pull) => pull.day.date === day.date);
      if (own.length > 0) time += own.at(-1)!.at + 1500 - day.from;
    }
    expect(plan.time).toBe(time);
    expect(plan.pulls.map(({ number }) => number)).toEqual(plan.pulls.map((_, i) => i + 1));
  });
  it("has for each load up to the last that can be had the bow's load and the engine's speed", () => {
    for (const { how, level } of plan.pulls) {
      if (how.kind !== "had") continue;
      expect(how.charted + level!).toBeCloseTo(how.at.depth, 12);
      for (const { bow, load, speed } of how.loads) {
        expect(bow).toBeGreaterThan(0.9 * load);
        expect(speed === null || speed > 0).toBe(true);
      }
      const only = how.warnings.find(({ kind }) => kind === "onlyTo");
      expect(only !== undefined).toBe(how.loads.at(-1)!.load < 3000);
    }
  });
});

describe("the next pull", () => {
  const gave = (anchor: string, newtons: number): Pull => ({
    anchor,
    mass: 6,
    anchorAngle: 5 * DEGREE,
    hold: { kind: "gaveWay", newtons },
  });
  const table = tableOf(series);
  const held = { ...series, pulls: [gave("Plough A", 1200), gave("Plough A", 900), gave("Scoop B", 1400)] };

  it.each(["compare", "letsGo", "afterVeer"] as const)(
    "of %s gains what the variance asked about falls by (Sherman & Morrison)",
    (question) => {
      // An engine that ends nothing: each pull then tells all that a free one does, 1/σ².
      const boat = { ...held.boat, thrust: [{ speed: 20, newtons: 1e9 }] };
      const asked = { ...held, question, boat };
      const free = table.map((cell) => ({ ...cell, had: null }));
      const belief = beliefOf(asked)!;
      const k = 2;
      const c = new Float64Array(k + 3);
      if (question === "compare") c.set([0, 1, -1, 0, 0]);
      else c[question === "letsGo" ? k + 1 : k + 2] = 1;
      const before = dot(c, solve(belief.factor, c));
      const w = 1 / belief.sigma ** 2;
      for (const one of nextPulls(asked, free)) {
        const x = rowOf(asked, one.anchor, one.angle, question === "afterVeer");
        const reached = solve(belief.factor, x);
        const taken = (w * dot(c, reached) ** 2) / (1 + w * dot(x, reached));
        expect(one.gain).toBeCloseTo(1 - Math.sqrt((before - taken) / before), 9);
        expect(one.gainPerHour).toBeCloseTo(one.gain / (1500 / 3600), 12);
        expect(one.ended).toBeCloseTo(0, 9);
      }
      const gains = nextPulls(asked, free).map(({ gainPerHour }) => gainPerHour);
      expect(gains).toEqual([...gains].sort((a, b) => b - a));
      expect(gains[0]).toBeGreaterThan(0);
    },
  );

  it("says why: fewest pulls, an angle far from the middle, likely ended, or nothing in particular", () => {
    const strong = { ...held, boat: { ...held.boat, thrust: [{ speed: 20, newtons: 1e7 }] } };
    const free = table.map((cell) => ({ ...cell, had: null }));
    // Two pulls of A are held, one of B.
    for (const one of nextPulls(strong, free))
      expect(one.reason).toEqual(one.anchor === "Scoop B" ? { kind: "leastPulled", pulls: 1 } : { kind: "evenly" });
    const three = { ...strong, question: "letsGo" as const, angles: [2, 5, 12].map((degrees) => degrees * DEGREE) };
    for (const one of nextPulls(three, free)) {
      // The middle of 2, 5 and 12 is 6.33: 12 lies farthest.
      if (Math.abs(one.angle - 12 * DEGREE) < 1e-9) expect(one.reason).toEqual({ kind: "farAngle" });
      else expect(one.reason.kind).not.toBe("farAngle");
    }
    const weak = { ...held, boat: { ...held.boat, thrust: [{ speed: 20, newtons: 200 }] } };
    for (const one of nextPulls(weak, free)) expect(one.reason).toEqual({ kind: "likelyEnded", chance: one.ended });
  });
});
