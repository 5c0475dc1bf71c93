/** Order statistics, scatter, the zero, falls and spikes of small series, against the same written out plainly. */
import { describe, expect, it } from "vitest";
import { settingsWith } from "../../../src/pull/index.ts";
import { findDrops, meanLoad } from "../../../src/pull/trace/drops.ts";
import { firstMovement } from "../../../src/pull/trace/first-movement.ts";
import { grainAt, loadedOf, varianceAt } from "../../../src/pull/trace/loaded.ts";
import { gainAt, lowPass, lowPassOf, peakKept } from "../../../src/pull/trace/low-pass.ts";
import {
  median,
  quantileInPlace,
  scaleAboutMedian,
  scaleAboutZero,
  scaleOfNearest,
} from "../../../src/pull/trace/order.ts";
import { findPlateaus, markId, measurePlateau } from "../../../src/pull/trace/plateaus.ts";
import { meanOfGrains, slowVariance } from "../../../src/pull/trace/scatter.ts";
import { bridge, spikes } from "../../../src/pull/trace/spikes.ts";
import { sustainedLoads } from "../../../src/pull/trace/sustained.ts";
import { findSwung } from "../../../src/pull/trace/swung.ts";
import { readings, type Trace } from "../../../src/pull/trace/trace.ts";
import { trackLater } from "../../../src/pull/trace/track-clock.ts";
import { below, findZero, rangeOf, withoutZero, zeroAt } from "../../../src/pull/trace/zero.ts";
import { rng } from "../../../src/statistics/index.ts";

const settings = settingsWith();
const none = Number.NaN;
const f = (...values: number[]) => Float64Array.from(values);

describe("order statistics", () => {
  it("a quantile lies straight between the sorted numbers", () => {
    expect(quantileInPlace(f(5, 1, 4, 2, 3), 0)).toBe(1);
    expect(quantileInPlace(f(5, 1, 4, 2, 3), 1)).toBe(5);
    expect(quantileInPlace(f(5, 1, 4, 2), 0.5)).toBe(3);
    expect(quantileInPlace(f(10, 0), 0.3)).toBeCloseTo(3, 12);
    expect(quantileInPlace(f(), 0.5)).toBeNaN();
    expect(median(f(7, 7, 7))).toBe(7);
  });
  it("scales are those of a normal law: its median and its nearest third by 0.6745 and 0.4307", () => {
    // Φ⁻¹(3/4) and Φ⁻¹(2/3) (tables of the normal law, recalled).
    expect(scaleAboutZero(f(-1, 2, -3))).toBeCloseTo(2 / 0.674489750196082, 10);
    expect(scaleAboutMedian(f(11, 12, 17))).toBeCloseTo(1 / 0.674489750196082, 10);
    expect(scaleOfNearest(f(1, 2, 3, 100), 1)).toBeCloseTo(1 / 0.430727299295457, 10);
    const random = rng(3);
    const normal = Float64Array.from({ length: 20_000 }, () => 5 + 2 * random.normal());
    for (const scale of [scaleAboutMedian(normal), scaleOfNearest(normal, 5), scaleAboutZero(normal.map((v) => v - 5))])
      expect(Math.abs(scale / 2 - 1)).toBeLessThan(0.03);
  });
});

describe("the mean of grains", () => {
  it("is that of its part, with the slope of least squares; of few grains by their own scatter", () => {
    const m = meanOfGrains(f(99, 1, 3, 2, 99), 1, 4);
    // Line 2 + ½(k − 1): off by −½, 1, −½.
    expect(m).toEqual({
      mean: 2,
      slope: 0.5,
      scatter: expect.closeTo(Math.sqrt(1.5), 12),
      u: expect.closeTo(Math.sqrt(1.5 / 3), 12),
      uSlope: expect.closeTo(Math.sqrt(1.5 / 2), 12),
      effective: 3,
    });
    expect(meanOfGrains(f(4, 6), 0, 2)).toMatchObject({ mean: 5, slope: 2, scatter: 0, u: 0 });
    expect(meanOfGrains(f(4), 0, 1)).toMatchObject({ mean: 4, slope: 0, scatter: 0 });
    expect(meanOfGrains(f(1, 2, 3, 4, 5, 6), 0, 6)).toMatchObject({
      mean: 3.5,
      slope: expect.closeTo(1, 12),
      u: expect.closeTo(0, 12),
    });
  });
  it("of white noise counts every grain, of noise that lasts fewer, of swings no more than all", () => {
    const random = rng(11);
    const white = Float64Array.from({ length: 2000 }, () => random.normal());
    const one = meanOfGrains(white, 0, 2000);
    expect(one.effective).toBeGreaterThan(1000);
    expect(one.u).toBeCloseTo(one.scatter / Math.sqrt(one.effective), 12);
    expect(one.uSlope / one.u).toBeCloseTo(Math.sqrt(2000 / ((2000 * (2000 ** 2 - 1)) / 12)), 10);
    // x' = ρx + noise has 2τ = (1 + ρ)/(1 − ρ).
    const slow = new Float64Array(4000);
    for (let k = 1; k < 4000; k++) slow[k] = 0.8 * slow[k - 1]! + random.normal();
    expect(4000 / meanOfGrains(slow, 0, 4000).effective).toBeGreaterThan(6);
    expect(4000 / meanOfGrains(slow, 0, 4000).effective).toBeLessThan(13);
    const swing = Float64Array.from({ length: 400 }, (_, k) => (k % 2 ? 1 : -1));
    expect(meanOfGrains(swing, 0, 400).effective).toBe(400);
  });
  it("of very many says the same by means of neighbours", () => {
    const ramp = Float64Array.from({ length: 12_000 }, (_, k) => 7 + 0.01 * k);
    const { mean, slope } = meanOfGrains(ramp, 0, 12_000);
    expect(mean).toBeCloseTo(7 + 0.01 * 5999.5, 9);
    expect(slope).toBeCloseTo(0.01, 12);
  });
  it("slow scatter is the white noise that would move block means so; ramps and steps are none", () => {
    const random = rng(5);
    const noise = Float64Array.from({ length: 4000 }, () => 3 * random.normal());
    expect(Math.sqrt(slowVariance([noise], 16)) / 3).toBeGreaterThan(0.95);
    expect(Math.sqrt(slowVariance([noise], 16)) / 3).toBeLessThan(1.35);
    const ramp = Float64Array.from({ length: 100 }, (_, k) => 5 * k);
    expect(slowVariance([ramp], 8)).toBeCloseTo(0, 12);
    expect(slowVariance([], 8)).toBe(0);
    // Swings slower than a grain: blocks of eight stand apart by all of it.
    const slow = Float64Array.from({ length: 400 }, (_, k) => ((k >> 3) % 2 ? 1 : -1));
    // Means of eight are ±1, their second differences ±4/√6: the scale of the nearest third, squared, times eight.
    expect(slowVariance([slow], 8)).toBeCloseTo(8 * (4 / Math.sqrt(6) / 0.4307272992954576) ** 2, 6);
  });
});

describe("the zero of a cell", () => {
  const even = (of: (t: number) => number, n = 1000, grain = 0.1) => ({
    start: 50,
    grain,
    value: Float64Array.from({ length: n }, (_, k) => of((k + 0.5) * grain)),
  });
  it("lies between the lowest and highest loads kept for some seconds", () => {
    const spike = even((t) => (t > 30 && t < 30.5 ? 900 : t > 60 && t < 70 ? 400 : 20));
    expect(rangeOf(spike, 5)).toEqual({ low: expect.closeTo(20, 9), high: expect.closeTo(400, 9) });
    expect(rangeOf({ start: 0, grain: 1, value: f(3, 4) }, 10)).toEqual({ low: 3.5, high: 3.5 });
  });
  it("is looked for in stretches no higher than a limit that last long enough", () => {
    expect(below({ start: 10, grain: 2, value: f(1, 1, 9, 1, none, 1, 1, 1) }, 1, 4)).toEqual([
      { from: 10, to: 14 },
      { from: 20, to: 26 },
    ]);
    expect(below({ start: 10, grain: 2, value: f(1, 1, 9) }, 1, 4.1)).toEqual([]);
  });
  it("is taken off on a line, or as it stands", () => {
    const at = (mean: number, from: number, u: number) => ({ from, to: from + 10, mean, u });
    const drifting = {
      kind: "drifting",
      before: at(10, 0, 3),
      after: at(30, 100, 4),
      rate: { value: 0.2, u: 0.05 },
    } as const;
    expect([...withoutZero(drifting, 3, (i) => 5 + 50 * i, f(100, 100, 100))]).toEqual([90, 80, 70]);
    const fixed = { kind: "fixed", slack: at(7, 0, 2), side: "after" } as const;
    expect(zeroAt(fixed, 1e6)).toEqual({ value: 7, u: 2 });
    expect([...withoutZero(fixed, 2, (i) => i, f(10, 11))]).toEqual([3, 4]);
    // Beyond either end it runs on, surer of nothing.
    expect(zeroAt(drifting, 205)).toEqual({ value: 50, u: Math.hypot(3, 8) });
    expect(zeroAt(drifting, -95)).toEqual({ value: -10, u: Math.hypot(6, 4) });
  });
  it("with one slack side stands still there", () => {
    const after = findZero(
      even((t) => (t < 60 ? 3000 : 12)),
      settings,
    );
    expect(after).toMatchObject({ kind: "fixed", side: "after", slack: { mean: expect.closeTo(12, 9) } });
    const before = findZero(
      even((t) => (t < 40 ? 12 : 3000)),
      settings,
    );
    expect(before).toMatchObject({ kind: "fixed", side: "before" });
    if (before.kind !== "fixed") throw new Error(before.kind);
    // A slack rode carries 0.04 % of the highest load.
    expect(before.slack.u).toBeGreaterThanOrEqual(Math.hypot(0.0004 * 3000, settings.slack.u) - 1e-9);
    const pointed = findZero(
      even((t) => (t < 40 ? 12 : 3000)),
      settings,
      [{ from: 60, to: 80 }],
    );
    expect(pointed).toMatchObject({ kind: "fixed", slack: { from: 60, to: 80, mean: expect.closeTo(12, 9) } });
    expect(
      findZero(
        even((t) => (t > 98 ? 12 : 3000)),
        settings,
      ),
    ).toMatchObject({ kind: "notFound" });
  });
  it("of slack that still falls is lower by as much as it fell, and as unsure", () => {
    const falling = findZero(
      even((t) => (t < 30 ? 20 - 0.2 * t : 3000)),
      settings,
    );
    if (falling.kind !== "fixed") throw new Error(falling.kind);
    expect(falling.slack.mean).toBeLessThan(17);
    expect(falling.slack.u).toBeGreaterThan(0.4);
  });
});

describe("a low-pass", () => {
  it("has its gain of 1/√2 at its bandwidth, by the closed form on even steps", () => {
    for (const [bandwidth, interval] of [
      [0.5, 0.1],
      [1, 0.05],
      [0.02, 1],
    ] as const) {
      const filter = lowPassOf(bandwidth, interval);
      expect(filter).toMatchObject({ bandwidth, limitedByLog: false });
      expect(gainAt(filter, bandwidth, interval)).toBeCloseTo(Math.SQRT1_2, 12);
      const a = Math.exp(-interval / filter.timeConstant);
      const at = (hz: number) => ((1 - a) ** 2 / (1 - 2 * a * Math.cos(2 * Math.PI * hz * interval) + a * a)) ** 2;
      for (const hz of [0, 0.3 * bandwidth, 2 * bandwidth])
        expect(gainAt(filter, hz, interval)).toBeCloseTo(at(hz), 12);
    }
    expect(lowPassOf(5, 0.1)).toMatchObject({ bandwidth: 2.5, limitedByLog: true });
  });
  it("keeps of a peak the share of its kernel that lies within it", () => {
    const filter = lowPassOf(0.5, 0.1);
    const tau = filter.timeConstant;
    for (const duration of [0.2, 1, 4]) {
      let sum = 0;
      const n = 20_000;
      for (let k = 0; k < n; k++) {
        const t = Math.abs(duration * ((k + 0.5) / n - 0.5)) / tau;
        sum += ((duration / n) * (1 + t) * Math.exp(-t)) / (4 * tau);
      }
      expect(peakKept(filter, duration)).toBeCloseTo(sum, 6);
    }
  });
  it("leaves out what it is told to", () => {
    const log = readings(f(0, 1, 2, 3, 4), f(5, 5, 900, 5, 5), 3, "load");
    const out = lowPass(log, lowPassOf(0.1, 1), Uint8Array.of(0, 0, 1, 0, 0));
    for (const v of out) expect(v).toBeCloseTo(5, 9);
  });
});

describe("loads in grains", () => {
  // Slack to 20 s, 2000 N to 80 s, slack: grains of 0.1 s.
  const even = {
    start: 100,
    grain: 0.1,
    value: Float64Array.from({ length: 1000 }, (_, k) => (k >= 200 && k < 800 ? 2000 : 0)),
  };
  const loaded = loadedOf(even, settings, { noise: 2, interval: 0.05 });
  it("have a top, slack and pulls", () => {
    expect(loaded.top).toBeCloseTo(2000, 6);
    expect(loaded.slackLimit).toBeCloseTo(settings.slack.below * 2000, 6);
    expect(loaded.slack).toEqual([
      { from: 100, to: expect.closeTo(120, 9) },
      { from: expect.closeTo(180, 9), to: expect.closeTo(200, 9) },
    ]);
    expect(loaded.pulls).toEqual([{ from: expect.closeTo(120, 9), to: expect.closeTo(180, 9) }]);
    expect([grainAt(even, 100), grainAt(even, 110.04), grainAt(even, 0), grainAt(even, 1e9)]).toEqual([
      0, 100, 0, 1000,
    ]);
    expect(varianceAt({ ...loaded, variance: { slack: 3, perLoad: 0.01 } }, 20)).toBeCloseTo(7, 12);
    expect(meanLoad(loaded, { from: 119, to: 121 })).toBeCloseTo(1000, 6);
    // The level runs over half the shortest plateau: half of that to either side.
    const half = Math.round(settings.plateau.shortest / 4 / 0.1);
    expect(loaded.level[200]).toBeCloseTo((2000 * (half + 1)) / (2 * half + 1), 6);
  });
  it("a plateau has its mean, less sure by reading, zero and cell", () => {
    const zero = { kind: "fixed", slack: { from: 0, to: 10, mean: 5, u: 6 }, side: "before" } as const;
    const cell = { ...settings, cell: { ...settings.cell, relative: 0.01, step: 12 } };
    const plateau = measurePlateau(loaded, zero, cell, { from: 130, to: 150 });
    expect(plateau).toMatchObject({
      id: "plateau@130.0",
      from: 130,
      to: 150,
      creep: { value: expect.closeTo(0, 9) },
      scatter: expect.closeTo(0, 9),
    });
    expect(plateau.load.value).toBeCloseTo(2000, 9);
    expect(plateau.load.u).toBeCloseTo(Math.hypot(2 * Math.sqrt(0.05 / 20), 6, 20, 12 / Math.sqrt(12)), 9);
    expect(markId("drag", 12.34)).toBe("drag@12.3");
    const creeping = {
      ...loaded,
      even: { ...even, value: even.value.map((v, k) => (v > 0 ? v + 0.3 * (k - 500) : v)) },
    };
    expect(measurePlateau(creeping, zero, cell, { from: 130, to: 150 }).creep.value).toBeCloseTo(3, 6);
  });
  it("a step up and down are two plateaus and one fall, with what was before and after it", () => {
    const random = rng(17);
    const value = Float64Array.from({ length: 1200 }, (_, k) => {
      const level = k < 200 || k >= 1000 ? 0 : k < 600 ? 2000 : 1400;
      return level + 4 * random.normal();
    });
    const stepped = loadedOf({ start: 0, grain: 0.1, value }, settings, { noise: 4, interval: 0.1 });
    // What the longer means make of the same fall a little later is no quick one.
    const drops = findDrops(stepped, settings).filter(({ toSlack, quick }) => !toSlack && quick > 0.6);
    expect(drops).toHaveLength(1);
    const [drop] = drops;
    expect(Math.abs(drop!.from - 60)).toBeLessThan(0.35);
    expect(Math.abs(drop!.to - 60)).toBeLessThan(0.35);
    expect(Math.abs(drop!.before.value - 2000)).toBeLessThan(8);
    expect(Math.abs(drop!.after.value - 1400)).toBeLessThan(8);
    expect(drop!.quick).toBeGreaterThan(0.9);
    expect(drop!.quick).toBeLessThan(1.1);
    expect(drop!.clear).toBeGreaterThan(5);
    expect(drop!.before.u).toBeCloseTo(Math.sqrt(varianceAt(stepped, drop!.before.value) / 20), 9);
    const flats = findPlateaus(stepped, { kind: "notFound", why: { kind: "unchanging" } }, settings);
    expect(flats.map(({ from, to }) => [Math.round(from), Math.round(to)])).toEqual([
      [20, 60],
      [60, 100],
    ]);
    expect(flats.map(({ load }) => Math.round(load.value / 10))).toEqual([200, 140]);
  });
  it("a slow fall, and the back of a gust, are none", () => {
    const random = rng(19);
    const of = (at: (t: number) => number) =>
      findDrops(
        loadedOf(
          {
            start: 0,
            grain: 0.1,
            value: Float64Array.from({ length: 1200 }, (_, k) => at(k / 10) + 4 * random.normal()),
          },
          settings,
          { noise: 4, interval: 0.1 },
        ),
        settings,
      ).filter(({ toSlack }) => !toSlack);
    expect(of((t) => (t < 20 || t >= 100 ? 0 : 2000 - 8 * (t - 20)))).toEqual([]);
    expect(
      of((t) => (t < 20 || t >= 100 ? 0 : 2000 + (Math.abs(t - 60) < 3 ? 250 * (3 - Math.abs(t - 60)) : 0))),
    ).toEqual([]);
    expect(of((t) => (t < 20 || t >= 100 ? 0 : t < 60 ? 2000 : 1500)).filter(({ quick }) => quick > 0.6)).toHaveLength(
      1,
    );
  });
  it("a load that swings is a plateau in its mean", () => {
    const random = rng(23);
    const value = Float64Array.from({ length: 1000 }, (_, k) =>
      k < 100 || k >= 900 ? 0 : 2000 + 300 * Math.sin((2 * Math.PI * k) / 37) + 20 * random.normal(),
    );
    const swinging = loadedOf({ start: 0, grain: 0.1, value }, settings, { noise: 20, interval: 0.1 });
    const zero = { kind: "notFound", why: { kind: "unchanging" } } as const;
    const found = findSwung(swinging, zero, settings, [], []);
    expect(found.length).toBeGreaterThan(0);
    for (const { load, from, to } of found) {
      expect(Math.abs(load.value / 2000 - 1)).toBeLessThan(0.03);
      expect(from).toBeGreaterThanOrEqual(9.9);
      expect(to).toBeLessThanOrEqual(90.1);
      expect(to - from).toBeGreaterThanOrEqual(settings.plateau.shortest - 0.11);
    }
    expect(found.reduce((sum, { from, to }) => sum + to - from, 0)).toBeGreaterThan(50);
    // What is covered already, or broken, is not looked at again.
    const covered = findSwung(swinging, zero, settings, [], [{ from: 0, to: 60 }]);
    expect(covered.every(({ from }) => from >= 59.9)).toBe(true);
  });
});

describe("lone readings that stand out", () => {
  const random = rng(29);
  const time = Float64Array.from({ length: 600 }, (_, i) => i / 10);
  const value = Float64Array.from(time, (t) => 1000 + 5 * t + 2 * random.normal());
  value[300] = 1900;
  value[450] = 300;
  const log = readings(time, value, 3, "load");
  it("are found by their tips, up and down, and a pair that steps is none", () => {
    const found = spikes(log, 0.1, 10);
    expect(found.tips).toEqual([300, 450]);
    expect([...found.leftOut].reduce((sum, one) => sum + one, 0)).toBe(2);
    expect(found.noise).toBeGreaterThan(1);
    expect(found.noise).toBeLessThan(3.5);
    expect(found.reach).toBeCloseTo(0.1, 9);
    const step = readings(
      time,
      value.map((v, i) => (i === 300 || i === 450 ? 1150 : i > 200 ? v + 500 : v)),
      3,
      "load",
    );
    expect(spikes(step, 0.1, 10).tips.filter((i) => i < 250)).toEqual([]);
  });
  it("are bridged by straight lines, and put back", () => {
    const v = f(1, 9, 9, 4, 9);
    const undo = bridge(f(0, 1, 2, 3, 4), v, Uint8Array.of(0, 1, 1, 0, 1));
    expect([...v]).toEqual([1, 2, 3, 4, 4]);
    undo();
    expect([...v]).toEqual([1, 9, 9, 4, 9]);
    const first = f(9, 2, 3);
    bridge(f(0, 1, 2), first, Uint8Array.of(1, 0, 0));
    expect([...first]).toEqual([2, 2, 3]);
  });
});

it("the highest load kept for a time is the lowest reading of the best stretch, the first of equals", () => {
  const time = f(0, 1, 2, 3, 4, 5, 6, 7);
  const load = f(0, 5, 6, 5, 0, 7, 7, 0);
  const of = (...durations: number[]) => sustainedLoads({ time }, load, durations, 1.5, (i) => i);
  expect(of(2)).toEqual([{ duration: 2, from: 1, to: 3, load: { value: 5, u: 3 } }]);
  expect(of(1)).toEqual([{ duration: 1, from: 5, to: 6, load: { value: 7, u: 6 } }]);
  expect(of(8)).toEqual([]);
  expect(sustainedLoads({ time: f(0, 1, 10, 11) }, f(5, 5, 6, 6), [2], 3, () => 0)).toEqual([]);
});

it("a track that is later has its times later, headings too", () => {
  const trace = {
    time: f(0),
    load: f(0),
    track: { time: f(1, 2), east: f(0, 0) },
    heading: { time: f(3), angle: f(0) },
  } as unknown as Trace;
  const later = trackLater(trace, 2.5);
  expect([[...later.track!.time], [...later.heading!.time], [...later.time]]).toEqual([[3.5, 4.5], [5.5], [0]]);
  expect(trackLater(trace, 0)).toBe(trace);
});

describe("the first movement", () => {
  const path = (movements: object[], u = 0.1) =>
    ({ stretches: [{ from: 0, to: 100 }], movements, moved: () => ({ value: 0, u, chance: () => 0 }) }) as never;
  const drag = (seenIn: string, from: number, to = from + 4) => ({ seenIn, from, to }) as never;
  it("is the earliest of what was marked, what the track shows and what fell with it", () => {
    const movement = { from: 40, to: 60, begins: { value: 42, u: 1 } };
    expect(firstMovement(path([movement]), [], true)).toEqual({
      ...{ kind: "moved", by: "track", unseen: 1 },
      at: { value: 42, u: expect.closeTo(Math.hypot(1, 2.5, 3), 12) },
    });
    expect(firstMovement(path([movement], 0.5), [drag("hand", 30)], true)).toEqual({
      kind: "moved",
      by: "hand",
      at: { value: 30, u: 1 },
      unseen: expect.closeTo(5.85 * 0.5, 12),
    });
    expect(firstMovement(path([movement]), [drag("both", 41)], true)).toMatchObject({ at: { value: 41, u: 2 } });
    expect(firstMovement(path([movement]), [drag("both", 20)], true)).toMatchObject({
      at: { value: 20, u: Math.hypot(2, 2) },
    });
    expect(firstMovement(path([]), [drag("movement", 20, 28)], true)).toMatchObject({
      at: { value: 20, u: Math.hypot(2.5, 2) },
    });
  });
  it("is none, or not known", () => {
    expect(firstMovement(path([], 0.4), [], true)).toEqual({ kind: "none", unseen: expect.closeTo(5.85 * 0.4, 12) });
    expect(firstMovement(path([]), [drag("load", 12)], true)).toEqual({ kind: "notKnown", why: "noLine", fell: 12 });
    expect(firstMovement(null, [], false)).toEqual({ kind: "notKnown", why: "noTrack", fell: null });
  });
});
