/** What a reduction makes of falls, movements and turns that are given by hand: each branch with its cause and its numbers. */
import { describe, expect, it } from "vitest";
import { chanceMoved } from "../../../src/pull/anchor/chance-moved.ts";
import type { AnchorPath, Moved } from "../../../src/pull/anchor/index.ts";
import { settingsWith } from "../../../src/pull/index.ts";
import { findDrags } from "../../../src/pull/trace/drags.ts";
import type { Drop } from "../../../src/pull/trace/drops.ts";
import { atMost, heldLoad } from "../../../src/pull/trace/held.ts";
import { loadedOf } from "../../../src/pull/trace/loaded.ts";
import type { Mark } from "../../../src/pull/trace/marks.ts";
import { findPeaks, timeAbove } from "../../../src/pull/trace/peaks.ts";
import type { Plateau } from "../../../src/pull/trace/plateaus.ts";
import { findTurns, judgeReversal, setDistance } from "../../../src/pull/trace/set-and-reset.ts";
import { readings } from "../../../src/pull/trace/trace.ts";
import { wayAtLoads } from "../../../src/pull/trace/way.ts";
import { findZero, zeroAt } from "../../../src/pull/trace/zero.ts";

const settings = settingsWith();
/** A movement of which nothing but the chance matters. */
const moved = (value: number, u: number, chance: (over: number) => number): Moved => ({ value, u, chance });
const surely = (way: number): Moved => moved(way, 0.1, (over) => (over < way ? 1 : 0));

describe("what a pull held, told by how far the anchor moved", () => {
  const mark = (kind: Mark["kind"], from: number, to: number, value: number, u = 5): Mark => ({
    id: `${kind}@${from}`,
    kind,
    from,
    to,
    value,
    u,
    of: "force",
    why: { kind: "went", times: from },
  });
  const rule = (ways: Readonly<Record<string, Moved>>, more: object = {}) => ({
    heldFor: 8,
    heldWithin: 1,
    moved: (m: Mark) => ways[m.id] ?? null,
    ...more,
  });
  const sure = moved(0.1, 0.2, (over) => (over >= 0.5 ? 0.01 : 0.5));
  const likely = moved(0.8, 0.6, (over) => (over >= 2 ? 0.01 : over >= 1 ? 0.4 : 0.9));
  const open = moved(1.4, 0.9, (over) => (over >= 1 ? 0.7 : 0.95));

  it("a plateau of eight seconds counts, one shorter does not", () => {
    const of = (to: number) => heldLoad([mark("plateau", 10, to, 900)], "bow", { heldFor: 8, heldWithin: 1 });
    expect(of(18)).toMatchObject({
      kind: "heldTo",
      untold: "slowPlough",
      why: { kind: "held", seconds: 8, most: null, rule: null, gaveWayAtLess: false, open: null },
    });
    expect(of(17.9)).toEqual({ kind: "notKnown", why: { kind: "nothingHeld", heldFor: 8 }, untold: null });
  });

  it("one in which the anchor surely stayed is told with what it moved less than", () => {
    const held = heldLoad([mark("plateau", 0, 20, 900)], "bow", rule({ "plateau@0": sure }));
    expect(held).toMatchObject({ kind: "heldTo", untold: null, why: { kind: "held", seconds: 20, rule: null } });
    // 95 %: the chance falls below a twentieth at half a metre.
    expect(held.why).toHaveProperty("most", expect.closeTo(0.5, 6));
    expect(atMost(sure)).toBeCloseTo(0.5, 6);
  });

  it("one in which it likelier stayed is told with the rule it may break; a likelier movement leaves it open", () => {
    expect(heldLoad([mark("plateau", 0, 20, 900)], "bow", rule({ "plateau@0": likely }))).toMatchObject({
      kind: "heldTo",
      untold: "smallMovement",
      why: { kind: "held", rule: 1, most: expect.closeTo(2, 6) },
    });
    expect(heldLoad([mark("plateau", 5, 25, 900)], "bow", rule({ "plateau@5": open }))).toEqual({
      kind: "notKnown",
      untold: "smallMovement",
      why: { kind: "open", open: { from: 5, seconds: 20, way: { value: 1.4, u: 0.9 } } },
    });
  });

  it("what lies open at more is told beside what is known, not where it gave way at more still", () => {
    const marks = [mark("plateau", 0, 20, 900), mark("plateau", 30, 60, 1500)];
    const ways = rule({ "plateau@0": sure, "plateau@30": open });
    expect(heldLoad(marks, "bow", ways)).toMatchObject({
      kind: "heldTo",
      newtons: 900,
      why: { open: { from: 30, seconds: 30, way: { value: 1.4, u: 0.9 } } },
    });
    const beyond = heldLoad([...marks, mark("drag", 70, 72, 1600)], "bow", ways);
    expect(beyond).toMatchObject({
      kind: "gaveWay",
      newtons: 1600,
      why: { kind: "gaveWay", drag: { times: 70 }, open: null },
    });
    const below = heldLoad([...marks, mark("drag", 22, 24, 1000)], "bow", ways);
    expect(below).toMatchObject({
      kind: "gaveWay",
      newtons: 1000,
      why: { kind: "gaveWay", drag: { times: 22 }, open: { from: 30 } },
    });
  });

  it("it held more than it gave way at by twice the ± of both, or it gave way", () => {
    const of = (value: number) =>
      heldLoad([mark("drag", 0, 2, 1000, 3), mark("plateau", 20, 40, value, 4)], "bow", { heldFor: 8, heldWithin: 1 });
    // 2 hypot(3, 4) = 10.
    expect(of(1010.1)).toMatchObject({ kind: "heldTo", why: { gaveWayAtLess: true } });
    expect(of(1009.9)).toMatchObject({ kind: "gaveWay", newtons: 1000, u: 3 });
  });

  it("a drag within three seconds of a plateau's end ends what was held there", () => {
    const of = (from: number) =>
      heldLoad([mark("plateau", 0, 30, 2000, 3), mark("drag", from, from + 2, 1900, 4)], "anchor", {
        heldFor: 8,
        heldWithin: 1,
        byLoadAlone: () => true,
      });
    expect(of(33)).toEqual({
      kind: "gaveWay",
      newtons: 2000,
      u: 5,
      at: "anchor",
      mark: "drag@33",
      why: { kind: "heldThenGaveWay", seconds: 30, drag: { kind: "went", times: 33 } },
      untold: "fall",
    });
    expect(of(33.5)).toMatchObject({ kind: "heldTo", newtons: 2000 });
  });

  it("a plateau of which a drag takes more than half held nothing", () => {
    const of = (to: number) =>
      heldLoad([mark("plateau", 0, 40, 2000), mark("drag", 10, to, 1500)], "bow", { heldFor: 8, heldWithin: 1 });
    expect(of(30)).toMatchObject({ kind: "heldTo" });
    expect(of(31)).toMatchObject({ kind: "gaveWay", newtons: 1500, untold: null });
  });
});

describe("the chance that the anchor moved", () => {
  it("is Bayes' of staying (0.7) or going some way, three metres in the mean", () => {
    const just = (value: number, u: number) => ({ stayed: 0, went: [{ value, u, inside: 1, share: 0 }] });
    for (const [value, u] of [
      [0.2, 0.3],
      [1.5, 0.5],
      [4, 1],
    ] as const) {
      const seen = (way: number) => Math.exp(-0.5 * ((value - way) / u) ** 2) / (u * Math.sqrt(2 * Math.PI));
      const went = (from: number): number => {
        let sum = 0;
        const n = 40_000;
        for (let k = 0; k < n; k++) {
          const way = from + (40 * (k + 0.5)) / n;
          sum += 0.3 * (Math.exp(-way / 3) / 3) * seen(way) * (40 / n);
        }
        return sum;
      };
      for (const over of [0.3, 1, 3])
        expect(chanceMoved([just(value, u)])(over)).toBeCloseTo(went(over) / (0.7 * seen(0) + went(0)), 6);
    }
    // Thirteen of its ± short of the distance, ten short of having stayed: less than exp(-(13² - 10²) / 2), 1e-15.
    expect(chanceMoved([just(-1, 0.1)])(0.3)).toBeLessThan(1e-15);
    expect(chanceMoved([just(500, 0.1)])(1)).toBe(1);
  });
});

/** 100 s in grains of 0.1 s: slack, 2000 N from 20 to 80 s, slack. */
const even = {
  start: 0,
  grain: 0.1,
  value: Float64Array.from({ length: 1000 }, (_, k) => (k >= 200 && k < 800 ? 2000 : 0)),
};
const loaded = loadedOf(even, settings, { noise: 1, interval: 0.1 });
const drop = (over: Partial<Drop> = {}): Drop => ({
  from: 50,
  to: 51,
  before: { value: 2000, u: 3 },
  after: { value: 1500, u: 4 },
  clear: 12,
  quick: 1,
  toSlack: false,
  ...over,
});
const path = (of: Partial<AnchorPath>): AnchorPath =>
  ({ stretches: [], movements: [], moved: () => null, ...of }) as AnchorPath;
const still = path({ moved: () => surely(0) });

describe("falls of the load", () => {
  const first = (given: Drop, by: AnchorPath | null) => findDrags([given], by, [], loaded, settings);

  it("without a track a quick one is a drag, told as not known from an easing", () => {
    const { drags, easings } = first(drop(), null);
    expect(easings).toEqual([]);
    expect(drags).toEqual([
      {
        id: "drag@50.0",
        from: 50,
        to: 51,
        seenIn: "load",
        load: { value: 2000, u: 3 },
        lost: { value: 500, u: 5 },
        distance: null,
        why: { kind: "fellUntracked", share: 0.25, seconds: 1, clear: 12 },
      },
    ]);
    expect(first(drop({ clear: Number.POSITIVE_INFINITY }), null).drags[0]!.why).toMatchObject({ clear: null });
  });

  it("a slow one, a part of a slower one, and one to slack that nothing follows are easings", () => {
    const longest = settings.drag.longestFall;
    expect(first(drop({ to: 50.1 + longest }), null).easings[0]).toMatchObject({
      id: "easing@50.0",
      lost: { value: 500, u: 5 },
      why: { kind: "fellSlowly", longest },
    });
    expect(first(drop({ quick: 0.59 }), null).easings[0]!.why).toEqual({ kind: "fellInPart", share: 0.25, seconds: 1 });
    expect(first(drop({ quick: 0.6 }), null).drags).toHaveLength(1);
    const end = { from: 79.5, to: 80.5, after: { value: 0, u: 1 }, toSlack: true };
    expect(first(drop(end), null).easings[0]!.why).toEqual({ kind: "fellToSlack", share: 1, seconds: 1 });
    // The load comes back after one in the middle of the pull.
    expect(first(drop({ toSlack: true }), null).drags).toHaveLength(1);
  });

  it("with a track that shows the anchor where it was, every one is an easing", () => {
    expect(first(drop(), still)).toMatchObject({ drags: [], easings: [{ why: { kind: "fellAndStayed" } }] });
  });

  it("with a track on which it likelier went, a quick one is a drag; a slow one only where that is sure", () => {
    const by = (chance: number) => path({ moved: () => moved(2.5, 0.4, () => chance) });
    expect(first(drop(), by(0.51)).drags[0]).toMatchObject({
      seenIn: "both",
      distance: { value: 2.5, u: 0.4 },
      why: { kind: "fellAndWent", share: 0.25, seconds: 1, clear: 12 },
    });
    expect(first(drop(), by(0.49)).drags).toEqual([]);
    expect(first(drop({ quick: 0.1 }), by(0.94)).drags).toEqual([]);
    expect(first(drop({ quick: 0.1 }), by(0.96)).drags).toHaveLength(1);
    // The window: a second and a half before, four after.
    const asked: unknown[] = [];
    const noted = path({
      moved: (span) => {
        asked.push(span);
        return surely(0);
      },
    });
    first(drop(), noted);
    expect(asked[0]).toEqual({ from: 48.5, to: 55 });
  });

  it("with a movement that begins with it, ends where that ends", () => {
    const movement = { from: 52, to: 58, distance: { value: 4, u: 0.5 } } as AnchorPath["movements"][number];
    const { drags } = first(drop(), path({ movements: [movement] }));
    expect(drags).toMatchObject([
      { from: 50, to: 58, seenIn: "both", distance: { value: 4, u: 0.5 }, why: { kind: "fellAndWent" } },
    ]);
  });

  it("with a plateau that begins at its foot and on which the anchor surely went, gave way at the load it fell from", () => {
    // Neither the seconds around the fall nor any movement by itself tell of it; the seconds of the plateau do.
    const by = (within: number) =>
      path({ moved: (span) => moved(4, 0.5, (over) => (span.to - span.from < 10 || over > within ? 0.1 : 0.99)) });
    const plateau = (from: number) => ({ from, to: from + 20, id: `plateau@${from}` }) as unknown as Plateau;
    const of = (from: number, within = 2) => findDrags([drop()], by(within), [plateau(from)], loaded, settings);
    const gaveWay = { from: 50, to: 71.5, seenIn: "both", load: { value: 2000 }, why: { kind: "fellAndWent" } };
    expect(of(51.5)).toMatchObject({ drags: [gaveWay], easings: [] });
    // One later than five seconds after the fall is a plough of its own; one that only may have gone is none.
    expect(of(56.5)).toMatchObject({
      drags: [{ from: 56.5, why: { kind: "ploughed" } }],
      easings: [{ from: 50, why: { kind: "fellAndStayed" } }],
    });
    expect(of(51.5, settings.heldWithin / 2)).toMatchObject({ drags: [], easings: [{ from: 50 }] });
  });
});

describe("movements that no fall tells", () => {
  const from = (movement: object) =>
    findDrags([], path({ movements: [movement as never] }), [], loaded, settings).drags;

  it("of six seconds and more are ploughing at the mean load, shorter ones give way at the load before", () => {
    expect(from({ from: 40, to: 50, distance: { value: 3, u: 0.5 } })[0]).toMatchObject({
      id: "drag@40.0",
      seenIn: "movement",
      load: { value: expect.closeTo(2000, 6) },
      lost: null,
      distance: { value: 3, u: 0.5 },
      why: { kind: "ploughed", seconds: 10, speed: 0.3 },
    });
    expect(from({ from: 40, to: 45, distance: { value: 3, u: 0.5 } })[0]!.why).toEqual({ kind: "went", times: 6 });
  });

  it("are drags of a plateau where the anchor surely went farther than the hold rule allows", () => {
    const plateau = { from: 30, to: 45, id: "plateau@30.0" } as unknown as Plateau;
    const by = (way: Moved) => findDrags([], path({ moved: () => way }), [plateau], loaded, settings).drags;
    expect(by(surely(settings.heldWithin + 1))).toHaveLength(1);
    expect(by(surely(settings.heldWithin - 0.1))).toEqual([]);
  });
});

describe("the way until it set", () => {
  const plateau = { from: 40, to: 60, load: { value: 2000, u: 5 } } as unknown as Plateau;
  it("runs from a fifth of the first load held to that load", () => {
    const ramp = { ...even, value: even.value.map((v, k) => (k >= 200 && k < 400 ? 10 * (k - 200) : v)) };
    const rising = loadedOf(ramp, settings, { noise: 1, interval: 0.1 });
    const asked: unknown[] = [];
    const by = path({
      moved: (span) => {
        asked.push(span);
        return moved(1.7, 0.2, () => 1);
      },
    });
    expect(setDistance(rising, by, [plateau], true, "rig")).toEqual({
      kind: "measured",
      // Its ends are known to a tenth of a second, in which it may go a 160th of its way.
      distance: { value: expect.closeTo(1.7, 9), u: expect.closeTo(Math.hypot(0.2, 1.7 / 160), 5) },
      from: expect.closeTo(24, 6),
      to: 40,
      give: "rig",
    });
    // 400 N of 2000 are met at 24 s: 10 N a tenth of a second from 20 s on.
    expect(asked).toHaveLength(1);
  });
  it("is not known without a track, a load held, or the line of the pull", () => {
    expect(setDistance(loaded, null, [plateau], false, "rig")).toEqual({ kind: "notKnown", why: "noTrack" });
    expect(setDistance(loaded, still, [], true, "rig")).toEqual({ kind: "notKnown", why: "nothingHeld" });
    expect(setDistance(loaded, path({}), [plateau], true, "rig")).toEqual({ kind: "notKnown", why: "noLine" });
  });
  it("is nought of load and way where none is known", () => {
    expect(wayAtLoads(null, [plateau], { kind: "notKnown", why: "noTrack" })).toEqual([]);
  });
});

describe("a pull turned round", () => {
  const twice = { ...even, value: even.value.map((v, k) => (k >= 450 && k < 550 ? 0 : v)) };
  const two = loadedOf(twice, settings, { noise: 1, interval: 0.1 });
  const towards = (was: number, is: number) =>
    path({
      stretches: [
        { from: 20, to: 45, direction: { value: was, u: 0.03 } },
        { from: 55, to: 80, direction: { value: is, u: 0.04 } },
      ] as unknown as AnchorPath["stretches"],
    });

  it("is one by a right angle and more, either way round", () => {
    expect(two.pulls).toHaveLength(2);
    const [turn] = findTurns(two, towards(0.1, 2.6), undefined);
    expect(turn).toMatchObject({ turn: expect.closeTo(2.5, 9), u: expect.closeTo(0.05, 9) });
    expect([turn!.from, turn!.to]).toEqual([two.pulls[0]!.to, two.pulls[1]!.from]);
    // From 3 to −3 rad is 0.283 round the back, not 6.
    expect(findTurns(two, towards(3, -3), undefined)).toEqual([]);
    expect(findTurns(two, towards(0, 1.5), undefined)).toEqual([]);
    expect(findTurns(two, null, undefined)).toEqual([]);
  });

  const plateau = (from: number, to: number, value: number) =>
    ({ from, to, load: { value, u: 5 } }) as unknown as Plateau;
  const span = { from: 45, to: 55 };
  const why = { kind: "turned", angle: 2.5 } as const;
  const judged = (plateaus: readonly Plateau[], drags: readonly { from: number }[] = []) =>
    judgeReversal(span, 2.5, two, still, plateaus, drags as never, why);

  it("set again where it held half of what it had held", () => {
    const set = judged([plateau(25, 44, 2000), plateau(60, 70, 1000), plateau(72, 79, 1500)]);
    expect(set).toMatchObject({ turn: 2.5, why, before: { value: 2000 }, after: { value: 1500 } });
    // 0 ± 0.1 m of an anchor that cannot go back: half a normal distribution, its rms 0.1 m as before.
    expect(set.outcome).toEqual({
      kind: "reset",
      at: 60,
      share: 0.75,
      distance: { value: expect.closeTo(0.1 * Math.sqrt(2 / Math.PI), 9), u: expect.closeTo(0.1, 4) },
    });
  });
  it("is told no surer by fixes that say the anchor went back", () => {
    const by = path({ moved: () => moved(-0.3, 0.1, () => 0) });
    const ramp = { ...even, value: even.value.map((v, k) => (k >= 200 && k < 400 ? 10 * (k - 200) : v)) };
    const set = setDistance(
      loadedOf(ramp, settings, { noise: 1, interval: 0.1 }),
      by,
      [plateau(40, 60, 2000)],
      true,
      "rig",
    );
    if (set.kind !== "measured") throw new Error(set.kind);
    expect(set.distance.value).toBeGreaterThan(0);
    expect(set.distance.value).toBeLessThan(0.05);
    expect(set.distance.u).toBeGreaterThan(0.3);
  });
  it("did not where it held less, and says whether it gave way", () => {
    expect(judged([plateau(25, 44, 2000), plateau(60, 70, 999)]).outcome).toEqual({
      kind: "didNotReset",
      share: 0.4995,
      gaveWay: false,
    });
    expect(judged([plateau(25, 44, 2000)], [{ from: 60 }]).outcome).toEqual({
      kind: "didNotReset",
      share: 0,
      gaveWay: true,
    });
    expect(judged([plateau(25, 44, 2000)], [{ from: 50 }]).outcome).toMatchObject({ gaveWay: false });
  });
  it("was not tried where nothing was held before, or nothing was pulled after", () => {
    expect(judged([plateau(60, 70, 1000)]).outcome).toEqual({ kind: "notTried" });
    expect(judgeReversal({ from: 85, to: 95 }, null, loaded, null, [plateau(25, 44, 2000)], [], why).outcome).toEqual({
      kind: "notTried",
    });
  });
});

describe("the zero of a cell", () => {
  const of = (values: (t: number) => number) =>
    findZero({ start: 0, grain: 0.1, value: Float64Array.from({ length: 1000 }, (_, k) => values(k / 10)) }, settings);
  it("is not found, and why", () => {
    expect(of(() => 500)).toEqual({ kind: "notFound", why: { kind: "unchanging" } });
    expect(of((t) => (t < 50 ? 1000 : 2000))).toEqual({ kind: "notFound", why: { kind: "neverSlack", share: 0.5 } });
    expect(zeroAt({ kind: "notFound", why: { kind: "unchanging" } }, 3)).toEqual({ value: 0, u: 0 });
  });
  it("stands between two slack stretches on their line, known worst half-way, where a warming cell is off it most", () => {
    const zero = of((t) => (t < 20 ? 10 : t >= 80 ? 50 : 3000));
    if (zero.kind !== "drifting") throw new Error(zero.kind);
    expect([zero.before.mean, zero.after.mean]).toEqual([expect.closeTo(10, 9), expect.closeTo(50, 9)]);
    const [t1, t2] = [(zero.before.from + zero.before.to) / 2, (zero.after.from + zero.after.to) / 2];
    expect(zero.rate.value).toBeCloseTo(40 / (t2 - t1), 9);
    expect(zero.rate.u).toBeCloseTo(Math.hypot(zero.before.u, zero.after.u) / (t2 - t1), 12);
    const half = zeroAt(zero, (t1 + t2) / 2);
    expect(half.value).toBeCloseTo(30, 9);
    // 15 % of the 40 N it moved.
    expect(half.u).toBeCloseTo(Math.hypot(zero.before.u / 2, zero.after.u / 2, 6), 9);
    expect(zeroAt(zero, t1)).toEqual({ value: expect.closeTo(10, 9), u: expect.closeTo(zero.before.u, 9) });
    expect(zeroAt(zero, t2).value).toBeCloseTo(50, 9);
  });
});

describe("peaks and the time above a load", () => {
  const log = (time: number[], value: number[]) =>
    readings(Float64Array.from(time), Float64Array.from(value), 3, "load");
  const options = {
    filteredAt: (i: number) => i,
    prominence: 100,
    most: 10,
    shares: [0.5],
    hush: 10,
    uOf: (i: number) => i / 10,
    alone: (i: number) => i === 3,
  };

  it("a triangle is above half its height for half its foot, by straight lines between readings", () => {
    const time = [0, 1, 2, 3, 4, 5, 6];
    const load = [0, 300, 600, 900, 600, 300, 0];
    const { peaks, count } = findPeaks(log(time, load), Float64Array.from(load), options);
    expect(count).toBe(1);
    expect(peaks[0]).toMatchObject({
      id: "peak@3.0",
      at: 3,
      load: { value: 900, u: 0.3 },
      filtered: 3,
      prominence: 900,
      alone: true,
    });
    expect(peaks[0]!.above).toEqual([{ share: 0.5, from: 1.5, to: 4.5, seconds: 3 }]);
  });

  it("a dip of less than the hush does not end it, one of more does; a gap does", () => {
    const load = [0, 500, 445, 900, 430, 900, 0];
    const at = (hush: number) =>
      findPeaks(log([0, 1, 2, 3, 4, 5, 6], load), Float64Array.from(load), { ...options, hush }).peaks[0]!.above[0]!;
    // Half of 900 is 450: 445 is 5 below it, 430 is 20.
    expect(at(10)).toMatchObject({ from: expect.closeTo(0.9, 9), to: expect.closeTo(3 + 450 / 470, 9) });
    expect(at(30)).toMatchObject({ to: expect.closeTo(5.5, 9) });
    expect(at(1)).toMatchObject({ from: expect.closeTo(2 + 5 / 455, 9) });
    const apart = findPeaks(
      log([0, 10, 11, 12, 13, 30], [0, 500, 900, 700, 600, 0]),
      Float64Array.of(0, 500, 900, 700, 600, 0),
      options,
    );
    expect(apart.peaks[0]!.above[0]).toMatchObject({ from: 10, to: 13 });
  });

  it("the highest are kept, the highest first, of equals the earlier", () => {
    const load = [0, 500, 0, 900, 0, 900, 0, 50, 0];
    const { peaks, count } = findPeaks(
      log(
        load.map((_, i) => i),
        load,
      ),
      Float64Array.from(load),
      { ...options, most: 2 },
    );
    expect(count).toBe(3);
    expect(peaks.map(({ at }) => at)).toEqual([3, 5]);
  });

  it("is counted by straight lines, a rise anew only once it has fallen by the dead band", () => {
    const load = Float64Array.of(0, 200, 95, 200, 50, 200, 100, 100, 0);
    const time = [0, 1, 2, 3, 4, 5, 6, 7, 8];
    const [above] = timeAbove(log(time, [...load]), load, [100], 10);
    // Rises at the start and after 50; 95 is within the dead band.
    expect(above!.upcrossings).toBe(2);
    // ½ + 100/105 + 100/105 + 100/150 + 100/150 + 1 + 1 + 0, by similar triangles.
    expect(above!.seconds).toBeCloseTo(0.5 + 2 * (100 / 105) + 2 * (100 / 150) + 1 + 1, 9);
    const [gap] = timeAbove(log([0, 1, 50, 51], [200, 200, 200, 200]), Float64Array.of(200, 200, 200, 200), [100], 10);
    expect(gap).toMatchObject({ upcrossings: 0, seconds: 2 });
  });
});
