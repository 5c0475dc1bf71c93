/** What a ride is asked, how it is sampled, and what is said of it: from series set by hand and short rides. */
import { describe, expect, it } from "vitest";
import { passed } from "../../src/motion/extremes.ts";
import {
  afloat,
  checkRideCost,
  depthOf,
  fitTail,
  GUSTS,
  gustSpectrum,
  peaksBetweenRises,
  type Ride,
  type RideQuestion,
  type RideSeries,
  readHours,
  readMeanWind,
  readRideCurrent,
  readWindShifts,
  ride,
  rideAnswer,
  windOfSeries,
  withCurrent,
  withWindage,
} from "../../src/motion/index.ts";
import { type Rig, readRig, settle } from "../../src/rode/index.ts";
import { readBoat, USUAL_AIR, windForce } from "../../src/sea/index.ts";

const DEGREE = Math.PI / 180;
const rigOf = (rode: string, medium = "water, depth: 6 m, rollerHeight: 1 m, bottomFriction: 0.6"): Rig =>
  readRig(`format: rodebench/rig@1\nsetting: { medium: ${medium} }\nrode:\n${rode}`, "rig");
const rig = rigOf(`  - chain: { grade: "30", size: 8 mm, length: 12 m }
  - rope: { fibre: polyamide, lay: three-strand, diameter: 14 mm, length: 18 m }
`);
const boat = readBoat(
  `format: rodebench/boat@1
name: invented
length: 9 m
waterline: 8 m
beam: 3 m
draught: 1.5 m
bodyDraught: 0.5 m
displacement: 4000 kg
bowRollerHeight: 1 m
windage: { shapes: [hull: { freeboard: 1.1 m }] }
`,
  "boat",
);
const question = (over: Partial<RideQuestion> = {}): RideQuestion => ({
  rig,
  boat,
  air: USUAL_AIR,
  wind: [{ time: 0, speed: 10, toward: 0 }],
  gusts: null,
  sea: null,
  duration: 20,
  seed: 1,
  leftOut: 5,
  elements: 10,
  ...over,
});
function begun(over: Partial<RideQuestion> = {}): Ride {
  const one = ride(question(over));
  if (!("goOn" in one)) throw new Error(one.cause);
  return one;
}

describe("a ride", () => {
  it("rests first in the force of its first mean wind, of twenty newtons at least", () => {
    const one = begun();
    const force = windForce(boat, 10, 0, USUAL_AIR).along;
    expect(force).toBeGreaterThan(20);
    const settled = settle(rig, { at: "horizontal", newtons: force });
    expect(one.atRest).toEqual(settled);
    expect(one.atRestLoads).toHaveLength(2);
    expect(one.atRestLoads[1]).toBeCloseTo(one.atRest.bow.tension, 6);
    expect(begun({ wind: [{ time: 0, speed: 1, toward: 0 }] }).atRest.horizontal).toBeCloseTo(20, 9);
    // Her middle lies half her length beyond her bow, turned a little off the wind.
    const [x, y, heading] = one.state.q as unknown as [number, number, number];
    expect(heading).toBeGreaterThan(0);
    expect(heading).toBeLessThan(0.2);
    expect(Math.hypot(x - one.atRest.span, y)).toBeCloseTo(4.5, 2);
    expect(Math.atan2(y, x - one.atRest.span)).toBeCloseTo(heading, 2);
  });

  it("is sampled every tenth of a second from the end of what is left out, to its last second", () => {
    const one = begun();
    expect(one.counted()).toBe(0);
    expect(one.goOn(4)).toBe(true);
    expect(one.counted()).toBe(0);
    expect(one.series().time).toHaveLength(0);
    expect(one.goOn(3)).toBe(true);
    expect(one.counted()).toBeCloseTo(2, 6);
    expect(one.goOn(100)).toBe(false);
    // However far it is asked to go, it ends with its last sample.
    expect(one.counted()).toBeCloseTo(20, 6);
    const { time, bowLoad, ropeLoads, x } = one.series();
    // 0, 0.1 … 20.
    expect(time).toHaveLength(201);
    time.forEach((t, i) => {
      expect(t).toBeCloseTo(i / 10, 6);
    });
    expect(one.brokeOffAt()).toBeNull();
    expect(one.goOn(1)).toBe(false);
    expect(ropeLoads.map(({ part }) => part)).toEqual([1]);
    // The rope next to the bow carries nearly what the bow does, and the middle of it less than its end.
    for (const [i, load] of ropeLoads[0]!.load.entries()) {
      expect(Math.abs(load / bowLoad[i]! - 1)).toBeLessThan(0.3);
      expect(x[i]).toBeGreaterThan(0);
    }
  });

  it("keeps the highest tension of each part, of what is counted alone", () => {
    const gale = begun({
      wind: [
        { time: -60, speed: 25, toward: 0 },
        { time: -40, speed: 25, toward: 0 },
        { time: -35, speed: 6, toward: 0 },
      ],
      leftOut: 60,
    });
    while (gale.goOn(10));
    const { bowLoad, anchorLoad } = gale.series();
    const [most, least] = [Math.max(...bowLoad), Math.max(...anchorLoad)];
    expect(gale.highest[1]! / most).toBeGreaterThan(0.85);
    expect(gale.highest[1]! / most).toBeLessThan(1.2);
    expect(gale.highest[0]!).toBeGreaterThan(0.9 * least);
    expect(gale.highest[1]).toBeLessThan(0.5 * windForce(boat, 25, 0, USUAL_AIR).along);
  });

  it("left to the wind is loaded between a boat lying still into it and one held across it", () => {
    const one = begun({ duration: 60, leftOut: 240 });
    while (one.goOn(60));
    const { bowLoad, bowAngle, anchorAngle, lifted } = one.series();
    const mean = bowLoad.reduce((a, b) => a + b, 0) / bowLoad.length;
    // She sheers for ever; the pull at the bow is the level one over the cosine of its slope.
    expect(mean / one.atRest.bow.tension).toBeGreaterThan(0.7);
    expect(mean * Math.cos(one.atRest.bow.angle)).toBeLessThan(windForce(boat, 10, Math.PI / 2, USUAL_AIR).resultant);
    expect(bowAngle.every((angle) => angle > 0 && angle < 1)).toBe(true);
    anchorAngle.forEach((angle, i) => {
      expect(angle > 0).toBe(lifted[i] === 1);
    });
  });

  it("is the same for the same seed, another for another, where there are gusts", () => {
    const load = (seed: number) => {
      const one = begun({ seed, gusts: gustSpectrum("froya", 10), duration: 5 });
      while (one.goOn(5));
      return one.series().bowLoad;
    };
    const first = load(1);
    expect(load(1)).toEqual(first);
    expect(load(2)).not.toEqual(first);
  });

  it("is none on a rode that cannot reach", () => {
    expect(ride(question({ rig: rigOf('  - chain: { grade: "30", size: 8 mm, length: 5 m }\n') }))).toMatchObject({
      kind: "noEquilibrium",
    });
  });
});

describe("what is said of a ride", () => {
  /** Ten seconds: loads, places and headings set by hand. */
  const n = 100;
  const at = (of: (i: number) => number) => Float64Array.from({ length: n }, (_, i) => of(i));
  const series: RideSeries = {
    time: at((i) => i / 10),
    // Each of 100 … 199 once, from 172 up to 199 at the 27th, then from 100 on.
    anchorLoad: at((i) => 100 + ((i + 72) % 100)),
    anchorAngle: at((i) => 0.001 * i),
    lifted: Uint8Array.from({ length: n }, (_, i) => (i % 4 === 0 ? 1 : 0)),
    // Slack twice, of which it comes taut beyond its mean once: 1000 but for zeros at 10 and 50, 300 up to 60, then 2000.
    bowLoad: at((i) => (i === 10 || i === 50 ? 0 : i > 10 && i < 60 ? 300 : i >= 60 ? 2000 : 1000)),
    bowAngle: at(() => 0.3),
    x: at((i) => 30 + 0.1 * i),
    y: at((i) => (i === 20 ? -8 : i === 70 ? 6 : 0)),
    heading: at((i) => (i === 33 ? -0.9 : 0.2)),
    ropeLoads: [],
  };
  const of = (toward: number): Ride =>
    ({
      question: question({ wind: [{ time: 0, speed: 10, toward }] }),
      series: () => series,
      brokeOffAt: () => 7,
    }) as unknown as Ride;
  const answer = rideAnswer(of(0));

  it("is its time, its ends, and the angle at the moment of the highest load at the anchor", () => {
    expect(answer.seconds).toBeCloseTo(10, 12);
    expect(answer.brokeOffAt).toBe(7);
    expect(answer.anchor).toMatchObject({ largest: 199, least: 100, mean: expect.closeTo(149.5, 9) });
    expect(answer.angleAtLargest).toBeCloseTo(0.027, 12);
    expect(answer.angle.largest).toBeCloseTo(0.099, 12);
    expect(answer.angle.mean).toBeCloseTo(0.0495, 12);
    expect(answer.liftedShare).toBe(0.25);
    // Too few peaks to say what a storm brings.
    expect([answer.anchorExtremes, answer.bowExtremes]).toEqual([null, null]);
  });

  it("is the share of the time above each tenth of the largest", () => {
    const { exceedance } = answer;
    expect(exceedance.map(({ load }) => load)).toEqual(
      Array.from({ length: 10 }, (_, k) => expect.closeTo(19.9 * k, 9)),
    );
    // 100 … 199: above 119.4 are 120 … 199, above 179.1 are 180 … 199.
    expect(exceedance.map(({ share }) => share)).toEqual([1, 1, 1, 1, 1, 1, 0.8, 0.6, 0.4, 0.2]);
  });

  it("counts a snatch where slack is followed by more than the mean, once", () => {
    expect(answer.snatches).toBe(1);
  });

  it("has the circle from the anchor, and what lies to the sides of the first wind", () => {
    expect(answer.circle).toBeCloseTo(39.9, 12);
    expect(answer.sideways).toBe(8);
    expect(answer.sheer).toBeCloseTo(0.9, 12);
    // In a wind that blows along y, x is to the side.
    const turned = rideAnswer(of(Math.PI / 2));
    expect(turned.sideways).toBeCloseTo(39.9, 9);
    expect(turned.sheer).toBeCloseTo(Math.PI / 2 + 0.9, 12);
  });

  it("is beside the rode at rest under its mean load", () => {
    const still = settle(rig, { at: "bow", newtons: answer.bow.mean });
    if (still.kind !== "settled") throw new Error(still.kind);
    expect(answer.atRest).toEqual(still);
    expect(answer.overStill!.bow).toBeCloseTo(2000 / answer.bow.mean, 9);
    expect(answer.overStill!.anchor).toBeCloseTo(199 / still.anchor.tension, 9);
  });

  it("pairs its cycles by rainflow, but for those below a twentieth of the largest", () => {
    // 1000 → 0 → 300 → 0 → 2000: the rise to 300 and back is a whole cycle of 300; 1000 to 0 and 0 to 2000 are halves.
    const found = answer.cycles.map(({ range, count }) => [range, count]).sort((a, b) => a[0]! - b[0]!);
    expect(found).toEqual([
      [300, 1],
      [1000, 0.5],
      [2000, 0.5],
    ]);
  });
});

describe("peaks and their tail", () => {
  it("are the highest between two rises through a level; what is not closed is none", () => {
    const load = Float64Array.of(5, 0, 2, 3, 1, -1, 4, 2, -2, 1, 9);
    // Rises through 0 at the second, the sixth and the ninth: the first stretch holds 3, the next 4.
    const { load: peaks, at } = peaksBetweenRises(load, 0);
    expect([...peaks]).toEqual([3, 4]);
    expect([...at]).toEqual([3, 6]);
  });

  it("are fitted by probability-weighted moments (Hosking & Wallis), the formulas by hand", () => {
    const peaks = Float64Array.from({ length: 100 }, (_, i) => 1000 - 200 * Math.log(1 - (i + 0.5) / 100));
    // Of an exponential law: a shape about nothing.
    const fit = fitTail(peaks)!;
    // Four in five lie below: the quantile straight between the 80th and 81st of a hundred.
    const sorted = [...peaks];
    const place = 0.8 * 99;
    const threshold = sorted[79]! + (place - 79) * (sorted[80]! - sorted[79]!);
    expect(fit.threshold).toBeCloseTo(threshold, 9);
    const excess = sorted.filter((p) => p > threshold).map((p) => p - threshold);
    expect(fit.peaks).toBe(excess.length);
    const n = excess.length;
    const b0 = excess.reduce((a, b) => a + b, 0) / n;
    const b1 = excess.reduce((sum, x, j) => sum + x * (1 - (j + 0.65) / n), 0) / n;
    const shape = b0 / (b0 - 2 * b1) - 2;
    expect(Math.abs(shape)).toBeLessThan(0.4);
    expect(fit.shape).toBeCloseTo(shape, 9);
    expect(fit.scale).toBeCloseTo((2 * b0 * b1) / (b0 - 2 * b1), 6);
    // Even peaks have a law that ends, of shape 1: held at a half, its scale by the mean of the excesses.
    const even = fitTail(Float64Array.from({ length: 100 }, (_, i) => i))!;
    expect(even.shape).toBe(0.5);
    const mean =
      Array.from({ length: 100 }, (_, i) => i)
        .filter((i) => i > 79.2)
        .reduce((sum, i) => sum + i - 79.2, 0) / 20;
    expect(even.scale).toBeCloseTo(1.5 * mean, 9);
    expect(fitTail(peaks.subarray(0, 29))).toBeNull();
    expect(fitTail(peaks.subarray(0, 30))).not.toBeNull();
  });

  it("are passed so often on average as the law says", () => {
    const fit = { threshold: 1000, peaks: 50, shape: 0.2, scale: 100 };
    // (1 − k y/a)^(1/k) = 1/count: y = a (1 − count^−k)/k.
    expect(passed(fit, 400, 1)).toBeCloseTo(1000 + (100 * (1 - 400 ** -0.2)) / 0.2, 9);
    expect(passed({ ...fit, shape: 0 }, 400, 1)).toBeCloseTo(1000 + 100 * Math.log(400), 9);
    expect(passed(fit, 400, 10)).toBeCloseTo(passed(fit, 40, 1), 9);
    expect(passed(fit, 1, 2)).toBe(1000);
  });
});

describe("what a ride is asked", () => {
  it("has winds and shifts in SI, each later than the one before", () => {
    expect(readMeanWind("20 kn", "wind")).toBeCloseTo((20 * 1852) / 3600, 9);
    expect(readMeanWind("60 m/s", "wind")).toBe(60);
    expect(() => readMeanWind("60.1 m/s", "wind")).toThrow(/at most 60 m\/s/);
    expect(() => readMeanWind("0 m/s", "wind")).toThrow(/above zero/);
    const at = (i: number) => `shift ${i}`;
    expect(readWindShifts(["20 min, 15 m/s, 40 deg", "30 min, 12 m/s, -10 deg"], at)).toEqual([
      { time: 1200, speed: 15, toward: expect.closeTo(40 * DEGREE, 12) },
      { time: 1800, speed: 12, toward: expect.closeTo(-10 * DEGREE, 12) },
    ]);
    expect(() => readWindShifts(["20 min, 15 m/s, 0 deg", "20 min, 12 m/s, 0 deg"], at)).toThrow(/shift 1.*after/);
    expect(() => readWindShifts(["20 min, 15 m/s"], at)).toThrow(/a time, a speed and an angle/);
    expect(() => readWindShifts(["0 min, 15 m/s, 0 deg"], at)).toThrow(/above zero/);
  });

  it("has the published gusts by their names", () => {
    expect(GUSTS).toEqual(["froya", "ochi-shin", "kaimal-a", "kaimal-b", "kaimal-c", "none"]);
    expect(GUSTS.map((name) => gustSpectrum(name, 9))).toEqual([
      { kind: "froya", wind: 9, height: 10 },
      { kind: "ochi-shin", wind: 9 },
      { kind: "kaimal", wind: 9, height: 10, turbulence: "A" },
      { kind: "kaimal", wind: 9, height: 10, turbulence: "B" },
      { kind: "kaimal", wind: 9, height: 10, turbulence: "C" },
      null,
    ]);
  });

  it("has lengths, currents and rigs within reason", () => {
    expect(readHours(2, "2", "hours")).toBe(7200);
    expect([readHours(1 / 60, "", "h"), readHours(48, "", "h")]).toEqual([60, 172_800]);
    for (const hours of [0.016, 48.1, Number.NaN]) expect(() => readHours(hours, "x", "hours")).toThrow(/0.02 to 48/);
    expect(readRideCurrent("-1 kn", "current")).toBeCloseTo(-1852 / 3600, 9);
    expect(() => readRideCurrent("-5.1 m/s", "current")).toThrow(/at most 5 m\/s/);
    expect(readRideCurrent("5 m/s", "current")).toBe(5);
    expect(afloat(rig, "rig")).toBe(rig);
    const onLand = rigOf('  - chain: { grade: "30", size: 8 mm, length: 12 m }\n', "air, rise: 3 m");
    expect(() => afloat(onLand, "rig")).toThrow(/a rig in air/);
    expect([depthOf(rig), depthOf(onLand)]).toEqual([6, Number.POSITIVE_INFINITY]);
    expect(withCurrent(rig, 0.7).setting).toEqual({ ...rig.setting, current: 0.7 });
    expect(withWindage(boat, "boat")).toBe(boat);
    const { windage: _, ...bare } = boat;
    expect(() => withWindage(bare, "boat")).toThrow(/no windage/);
  });

  it("is refused beyond 600 hours of forty elements, and says how long it would take", () => {
    expect(() => checkRideCost(600 * 3600, 40, "elements")).not.toThrow();
    // 601 hours at 12 s: two hours.
    expect(() => checkRideCost(601 * 3600, 40, "elements")).toThrow(/601 h of them would take about 120 minutes/);
    expect(() => checkRideCost(48 * 3600, 500, "elements")).not.toThrow();
    expect(() => checkRideCost(48 * 3600, 501, "elements")).toThrow(/48 h/);
  });
});

describe("a wind that was measured", () => {
  const time = Array.from({ length: 11 }, (_, i) => 100 + 2 * i);
  const speed: readonly number[] = time.map((_, i) => (i < 5 ? 8 : 12));
  it("goes row by row from its first, with its own mean by the area under it", () => {
    const { turns, mean, seconds } = windOfSeries(time, speed, null, "wind.csv");
    expect(seconds).toBe(20);
    // Four spans of 8, one from 8 to 12, five of 12: (64 + 20 + 120)/20... each of 2 s.
    expect(mean).toBeCloseTo((4 * 8 + 10 + 5 * 12) / 10, 12);
    expect(turns).toHaveLength(12);
    expect(turns[0]).toEqual({ time: -60, speed: mean, toward: 0 });
    expect(turns[1]).toEqual({ time: 0, speed: 8, toward: 0 });
    expect(turns.at(-1)).toEqual({ time: 20, speed: 12, toward: 0 });
  });

  it("turns about the mean of its directions, clockwise from north to counter-clockwise from x, by the shorter way", () => {
    // From 350° and 10° in turn, as strong: the middle is north.
    const steady = time.map(() => 10);
    const from = time.slice(0, 10).map((_, i) => (i % 2 === 0 ? 350 : 10) * DEGREE);
    const { turns } = windOfSeries(time.slice(0, 10), steady.slice(0, 10), from, "wind.csv");
    // A wind that comes from farther left (350°) blows to the right: counter-clockwise by ten degrees.
    for (const [i, turn] of turns.slice(1).entries())
      expect(turn.toward).toBeCloseTo((i % 2 === 0 ? 10 : -10) * DEGREE, 9);
    // Round and round: it counts on.
    const round = time.slice(0, 10).map((_, i) => 100 * i * DEGREE);
    const winding = windOfSeries(time.slice(0, 10), steady.slice(0, 10), round, "wind.csv").turns.slice(1);
    for (let i = 1; i < 10; i++) expect(winding[i]!.toward - winding[i - 1]!.toward).toBeCloseTo(-100 * DEGREE, 9);
    // A row without a direction keeps the one before.
    const gap = windOfSeries(time.slice(0, 10), steady.slice(0, 10), from.with(3, Number.NaN), "wind.csv").turns;
    expect(gap[4]!.toward).toBe(gap[3]!.toward);
  });

  it("leaves out rows that are not read or go back in time, and refuses too few and what no wind is", () => {
    const broken = windOfSeries([...time, 119, Number.NaN, 130], [...speed, 5, 5, 12], null, "wind.csv");
    expect(broken.seconds).toBe(30);
    expect(broken.turns).toHaveLength(13);
    const nine = (extra: number) => windOfSeries(time.slice(0, 9 + extra), speed.slice(0, 9 + extra), null, "wind.csv");
    expect(() => nine(0)).toThrow(/9 rows of wind.*10 to 864000/);
    expect(nine(1).turns).toHaveLength(11);
    expect(() => windOfSeries(time, speed.with(2, 90.1), null, "wind.csv")).toThrow(/none to 90 m\/s/);
    expect(() => windOfSeries(time, speed.with(2, -0.1), null, "wind.csv")).toThrow(/none to 90 m\/s/);
    expect(() =>
      windOfSeries(
        time,
        time.map(() => 0),
        null,
        "wind.csv",
      ),
    ).toThrow(/no wind at all/);
  });
});
