/** What a rode does where it touches bottom or surface, step by step, against sums done here. */
import { describe, expect, it } from "vitest";
import { compile } from "../../src/rode/compile.ts";
import type { Cursor } from "../../src/rode/contact/cursor.ts";
import { touchAt } from "../../src/rode/contact/lay-out.ts";
import { nearStillWater } from "../../src/rode/contact/near-still-water.ts";
import { floatableFrom, restableFrom, restOnBottom, restOnSurface } from "../../src/rode/contact/resting.ts";
import { begin, bounds } from "../../src/rode/contact/stage.ts";
import { bandAt, blurOf, closedFormStepper, weightAt } from "../../src/rode/contact/stepper.ts";
import { aboveBottom, TO_BOW, walk } from "../../src/rode/contact/walk.ts";
import { GRAVITY, type LinePart, type PointPart, type Rig, settle } from "../../src/rode/index.ts";
import { STATED_HORIZONTAL, STATED_SPAN } from "../../src/rode/solve-state.ts";
import { AFLOAT, LIFTED, makeTrace, POINT, RESTING, TRACE_COLUMNS, type Trace } from "../../src/rode/trace.ts";

const WATER = 1025;
const STIFF = 1e5;
const line = (more: Partial<LinePart>): LinePart => ({
  ...{ kind: "line", name: "line", length: 20, massPerLength: 2, density: 7850 },
  stretch: { kind: "linear", stiffness: STIFF },
  ...more,
});
const point = (mass: number, density: number): PointPart => ({ kind: "point", name: "point", mass, density });
const made = (rode: Rig["rode"], over: object = {}): Rig => ({
  name: "touching",
  setting: {
    ...{ medium: "water", depth: 7, rollerHeight: 1, waterDensity: WATER },
    ...{ bottomSlope: 0, bottomFriction: 0, current: 0 },
    ...over,
  } as Rig["setting"],
  rode,
  uncertainty: {},
});
const at = (over: Partial<Cursor>): Cursor => ({ part: 0, offset: 0, x: 0, z: 0, H: 0, V: 0, inAir: false, ...over });
const inWater = (mass: number, density: number): number => mass * GRAVITY * (1 - WATER / density);
const rowsOf = (trace: Trace): number[][] =>
  Array.from({ length: trace.rows }, (_, row) => [
    ...trace.data.subarray(row * TRACE_COLUMNS, (row + 1) * TRACE_COLUMNS),
  ]);

describe("rode laid on a bottom that falls and rubs", () => {
  const SLOPE = -0.1;
  const MU = 0.5;
  const rode = compile(
    made([line({}), point(30, 7850), line({ length: 10 }), point(5, 200), line({ length: 5 })], {
      ...{ bottomSlope: SLOPE, bottomFriction: MU },
    }),
  );
  const [sin, cos] = [Math.sin(SLOPE), Math.cos(SLOPE)];
  const phi = sin + MU * cos;
  const w = inWater(2, 7850);
  const W = inWater(30, 7850);

  it("can be so much of it: a metre counts one, a weight one, and a float ends it", () => {
    expect(restableFrom(rode, at({}))).toBe(31);
    expect(restableFrom(rode, at({ offset: 3 }))).toBe(28);
    expect(restableFrom(rode, at({ part: 1 }))).toBe(11);
    expect(restableFrom(rode, at({ part: 2, offset: 4 }))).toBe(6);
    expect(restableFrom(rode, at({ part: 3 }))).toBe(0);
    expect(restableFrom(rode, at({ part: 4, offset: 1 }))).toBe(4);
  });

  const from = at({ offset: 3, x: 1, z: 2 });
  /** Stretched length of l m whose tension grows by φw a metre from T on. */
  const run = (l: number, T: number) => l * (1 + (T + 0.5 * phi * w * l) / STIFF);

  it("pulls harder by what rubs and by the slope, and lies as long as that stretches it", () => {
    const { cursor, tension, grounded } = restOnBottom(rode, from, 500, 12, null);
    const T = 500 + phi * w * 12;
    expect([tension, grounded]).toEqual([expect.closeTo(T, 9), 12]);
    expect(cursor).toEqual({
      ...{ part: 0, offset: 15, inAir: false },
      x: expect.closeTo(1 + cos * run(12, 500), 10),
      z: expect.closeTo(2 + sin * run(12, 500), 10),
      H: expect.closeTo(T * cos, 9),
      V: expect.closeTo(T * sin, 9),
    });
    expect(from).toEqual(at({ offset: 3, x: 1, z: 2 }));
  });

  it("bears a share of a weight, the rest of which hangs on the rode above", () => {
    const trace = makeTrace(rode);
    const { cursor, tension, grounded } = restOnBottom(rode, from, 500, 17.4, trace);
    const below = 500 + phi * w * 17;
    const T = below + phi * W * 0.4;
    expect([tension, grounded]).toEqual([expect.closeTo(T, 9), 17]);
    expect(cursor).toMatchObject({ part: 2, offset: 0 });
    expect([cursor.H, cursor.V]).toEqual([expect.closeTo(T * cos, 9), expect.closeTo(T * sin + 0.6 * W, 9)]);
    const [lies, weight] = rowsOf(trace);
    const [x, z] = [1 + cos * run(17, 500), 2 + sin * run(17, 500)];
    const close = (values: number[]) => values.map((value) => expect.closeTo(value, 8));
    expect(lies).toEqual(close([0, RESTING, 1, 2, 17, 500 * cos, 500, below, run(17, 500), 3, 0, below]));
    expect(weight).toEqual(close([1, POINT, x, z, 0, T * cos, T * sin, 0.6 * W, 0, 0, 0, 0.6 * W]));
  });

  it("goes on beyond a weight that is borne whole", () => {
    const { cursor, tension, grounded } = restOnBottom(rode, from, 500, 20, null);
    const T = 500 + phi * (w * 19 + W);
    expect([tension, grounded]).toEqual([expect.closeTo(T, 9), 19]);
    expect(cursor).toMatchObject({ part: 2, offset: 2, V: expect.closeTo(T * sin, 9) });
  });

  it("lies slack and unstretched where nothing pulls it yet, and ends before a float", () => {
    const { cursor, grounded } = restOnBottom(rode, from, -1e5, 40, null);
    expect([cursor.H, cursor.V, cursor.part, grounded]).toEqual([0, expect.closeTo(0, 12), 3, 27]);
    expect(Math.hypot(cursor.x - 1, cursor.z - 2)).toBeCloseTo(27, 10);
  });

  it("begins at the anchor with what friction leaves of the pull, or lifted by a force of its own", () => {
    const [low, high] = bounds(rode, { kind: "anchor", H: 400 });
    expect([low, high]).toEqual([-31, Number.POSITIVE_INFINITY]);
    const rests = begin(rode, { kind: "anchor", H: 400 }, -8, null);
    const anchor = 400 / cos - phi * w * 8;
    expect(rests).toMatchObject({ anchor: expect.closeTo(anchor, 9), grounded: 8 });
    expect(rests.cursor).toMatchObject({
      offset: 8,
      x: expect.closeTo(cos * run(8, anchor), 9),
      H: expect.closeTo(400, 9),
      V: expect.closeTo(400 * Math.tan(SLOPE), 9),
    });
    // More friction than pull: the anchor feels none.
    expect(begin(rode, { kind: "anchor", H: 40 }, -19, null).anchor).toBe(0);
    for (const lift of [0, 90]) {
      const lifted = begin(rode, { kind: "anchor", H: 400 }, lift, null);
      const V = 400 * Math.tan(SLOPE) + lift;
      expect(lifted).toMatchObject({ anchor: expect.closeTo(Math.hypot(400, V), 9), grounded: 0 });
      expect(lifted.cursor).toEqual(at({ H: 400, V: expect.closeTo(V, 9) as unknown as number }));
    }
  });

  it("touches it again tangent, pulled by what pulls there", () => {
    const stage = touchAt(rode, "touching", at({ offset: 5, x: 6, z: 3, H: 300, V: 7 }));
    if (stage.kind !== "touching") throw new Error("touching is expected");
    expect(stage.from).toMatchObject({
      ...{ z: expect.closeTo(6 * Math.tan(SLOPE), 12), V: expect.closeTo(300 * Math.tan(SLOPE), 12), x: 6, offset: 5 },
    });
    expect(bounds(rode, stage)).toEqual([-26, 0]);
    const { cursor, anchor, grounded } = begin(rode, stage, -4, null);
    expect([anchor, grounded, cursor.offset]).toEqual([0, 4, 9]);
    expect(cursor.H / cos).toBeCloseTo(300 / cos + phi * w * 4, 9);
  });

  it("takes a weight that comes down on it: borne by a force square to the bottom, held by what rubs", () => {
    const stage = touchAt(rode, "landing", at({ part: 1, x: 6, z: 3, H: 300, V: -200 }));
    if (stage.kind !== "landing") throw new Error("landing is expected");
    expect(stage.from).toMatchObject({ z: expect.closeTo(6 * Math.tan(SLOPE), 12), V: -200 });
    expect(bounds(rode, stage)).toEqual([-11, 0]);
    // At the full share the rode beyond lies along the bottom: V₁ + W − N (cos − μ sin) = (H₁ + N (sin + μ cos)) tan.
    const N = (-200 + W - 300 * Math.tan(SLOPE)) / (cos - MU * sin + phi * Math.tan(SLOPE));
    for (const share of [0, 0.25, 1]) {
      const { cursor, grounded, anchor } = begin(rode, stage, -share, null);
      expect([anchor, grounded, cursor.part, cursor.offset]).toEqual([0, 0, 2, 0]);
      expect(cursor.H).toBeCloseTo(300 + share * N * phi, 8);
      expect(cursor.V).toBeCloseTo(-200 + W - share * N * (cos - MU * sin), 8);
    }
    const trace = makeTrace(rode);
    const beyond = begin(rode, stage, -3, trace);
    expect(beyond).toMatchObject({ grounded: 2, anchor: 0, cursor: { part: 2, offset: 2 } });
    expect(beyond.cursor.H / cos).toBeCloseTo((300 + N * phi) / cos + phi * w * 2, 8);
    expect(rowsOf(trace).map((row) => [row[0], row[1], row[7]])).toEqual([
      [1, POINT, expect.closeTo(W, 9)],
      [2, RESTING, expect.closeTo((300 + N * phi) / cos + phi * w * 2, 8)],
    ]);
  });
});

describe("floats and floating line in the surface", () => {
  const rode = compile(
    made([
      line({ length: 8, massPerLength: 0.1, density: 900 }),
      point(3, 200),
      point(2, 400),
      line({ length: 5, massPerLength: 0.1, density: 900 }),
      line({ length: 3 }),
      point(1, 7850),
    ]),
  );
  const dry = [3, 2].map((mass) => mass * GRAVITY);
  const wet = [inWater(3, 200), inWater(2, 400)];

  it("can lie as far as they float", () => {
    expect(floatableFrom(rode, at({ offset: 2 }))).toBe(13);
    expect(floatableFrom(rode, at({ part: 2 }))).toBe(6);
    expect(floatableFrom(rode, at({ part: 3, offset: 1 }))).toBe(4);
    expect(floatableFrom(rode, at({ part: 4 }))).toBe(0);
    // The last point hangs at the bow and is none of it.
    expect(rode.tail).toBe(5);
  });

  it("lie stretched by the horizontal force, and pull nothing up or down", () => {
    const trace = makeTrace(rode);
    const here = restOnSurface(rode, at({ offset: 2, x: 1, z: 7, H: 100, V: 5 }), 4, true, trace);
    expect(here).toEqual(at({ offset: 6, x: expect.closeTo(1 + 4 * (1 + 100 / STIFF), 10) as never, z: 7, H: 100 }));
    const run = expect.closeTo(4 * (1 + 100 / STIFF), 10);
    expect(rowsOf(trace)).toEqual([[0, AFLOAT, 1, 7, 4, 100, 100, 100, run, 2, 0, 100]]);
  });

  it("end in a float that hangs its weight or lifts by its buoyancy, as far as the water does not bear it", () => {
    for (const [rises, free] of [
      [true, dry[0]!],
      [false, wet[0]!],
    ] as const) {
      const trace = makeTrace(rode);
      const here = restOnSurface(rode, at({ offset: 2, z: 7, H: 100 }), 6.25, rises, trace);
      expect([here.part, here.offset]).toEqual([2, 0]);
      expect(here.V).toBeCloseTo(0.75 * free, 9);
      expect(rowsOf(trace)[1]!.slice(0, 8)).toEqual([
        ...[1, POINT, here.x, 7, 0, 100, 0],
        expect.closeTo(0.75 * free, 9),
      ]);
    }
    // Two floats and two metres beyond: nothing hangs on those.
    const here = restOnSurface(rode, at({ offset: 2, z: 7, H: 100 }), 10, true, null);
    expect([here.part, here.offset, here.V]).toEqual([3, 2, 0]);
  });

  it("that hang in one place weigh together between what they weigh in water and in air, each alike deep", () => {
    const stage = touchAt(rode, "pointAfloat", at({ part: 1, x: 8, z: 6, H: 90, V: 55 }));
    if (stage.kind !== "pointAfloat") throw new Error("pointAfloat is expected");
    expect(stage.from).toMatchObject({ z: 7, V: 55 });
    const [low, high] = bounds(rode, stage);
    expect([low, high]).toEqual([expect.closeTo(wet[0]! + wet[1]!, 9), expect.closeTo(dry[0]! + dry[1]!, 9)]);
    for (const share of [0, 0.3, 1]) {
      const trace = makeTrace(rode);
      const value = low + share * (high - low);
      const { cursor } = begin(rode, stage, value, trace);
      expect(cursor).toMatchObject({ part: 3, offset: 0, x: 8, z: 7, H: 90, inAir: 55 + value > 0 });
      expect(cursor.V).toBeCloseTo(55 + value, 9);
      expect(rowsOf(trace).map((row) => row[7])).toEqual(
        [0, 1].map((i) => expect.closeTo(wet[i]! + share * (dry[i]! - wet[i]!), 9)),
      );
    }
  });

  it("leave the surface upward or downward, as far along as is asked", () => {
    const stage = touchAt(rode, "lineAfloat", at({ offset: 2, x: 1, z: 6.5, H: 100, V: 3 }));
    if (stage.kind !== "lineAfloat") throw new Error("lineAfloat is expected");
    expect(stage.from).toMatchObject({ z: 7, V: 0 });
    expect(bounds(rode, stage)).toEqual([-13, 13]);
    for (const value of [10, -10]) {
      const { cursor, anchor, grounded } = begin(rode, stage, value, null);
      expect([anchor, grounded, cursor.offset, cursor.z, cursor.inAir]).toEqual([0, 0, 5, 7, value > 0]);
    }
  });
});

describe("a step of a rode that hangs", () => {
  const bent = line({
    length: 50,
    stretch: {
      kind: "curve",
      points: [
        [0.01, 150],
        [0.03, 250],
        [0.04, 900],
      ],
    },
  });
  const rode = compile(made([line({ length: 50 }), bent, point(4, 7850)], { bottomSlope: 0.1 }));
  const w = inWater(2, 7850);
  const stepper = closedFormStepper(rode);

  it("weighs by where it is: in water, in air, at the bow", () => {
    expect(weightAt(rode, at({}))).toBeCloseTo(w, 10);
    expect(weightAt(rode, at({ inAir: true }))).toBeCloseTo(2 * GRAVITY, 10);
    expect(weightAt(rode, at({ part: 2 }))).toBeCloseTo(4 * GRAVITY, 10);
  });

  it("lies in the band its tension is in; on a corner the way it goes decides", () => {
    const first = rode.firstBand[1]!;
    for (const [tension, band] of [
      [1, 0],
      [149, 0],
      [151, 1],
      [249, 1],
      [251, 2],
      [5000, 2],
    ] as const)
      for (const rising of [true, false]) expect(bandAt(rode, 1, tension, rising)).toBe(first + band);
    expect([bandAt(rode, 1, 150, true), bandAt(rode, 1, 150, false)]).toEqual([first + 1, first]);
    expect([bandAt(rode, 1, 250, true), bandAt(rode, 1, 250, false)]).toEqual([first + 2, first + 1]);
    expect(bandAt(rode, 0, 1e6, true)).toBe(0);
  });

  it("ends where it is level, where it runs along the bottom, and where the stretch law bends", () => {
    const reach = (V: number, part = 0, H = 100) => stepper.reach(at({ H, V, part }), 40);
    const along = 100 * Math.tan(0.1);
    expect(reach(-5 * w)).toBeCloseTo(5, 9);
    expect(reach(0)).toBeCloseTo(along / w, 9);
    expect(reach(along)).toBe(40);
    expect(reach(along + 1)).toBe(40);
    // T = 150 N is met where V = √(150² − 100²), from below; from above where it sinks.
    const up = Math.sqrt(150 ** 2 - 100 ** 2);
    expect(reach(up - 3 * w, 1)).toBeCloseTo(3, 9);
    expect(reach(-up - 3 * w, 1)).toBeCloseTo(3, 9);
    const next = Math.sqrt(250 ** 2 - 100 ** 2);
    expect(reach(up, 1)).toBeCloseTo((next - up) / w, 8);
    expect(reach(next + 1, 1)).toBe(40);
  });

  it("moves by the catenary, its stretch with it", () => {
    const [H, V, l] = [100, 30, 4];
    const end = at({});
    stepper.at(at({ part: 0, offset: 2, x: 1, z: 0.5, H, V }), l, end);
    const V2 = V + w * l;
    const [T1, T2] = [Math.hypot(H, V), Math.hypot(H, V2)];
    expect(end).toMatchObject({ part: 0, offset: 6, H, V: expect.closeTo(V2, 10), inAir: false });
    expect(end.x).toBeCloseTo(1 + (H / w) * (Math.asinh(V2 / H) - Math.asinh(V / H)) + (H * l) / STIFF, 10);
    expect(end.z).toBeCloseTo(0.5 + (T2 - T1) / w + (V2 ** 2 - V ** 2) / (2 * w * STIFF), 10);
  });

  it("takes two upright forces for one where they differ by roundings", () => {
    expect(blurOf(rode, 1000)).toBeGreaterThan(0.9e-9);
    expect(blurOf(rode, 1000)).toBeLessThan(1.2e-9);
    expect(blurOf(rode, 0)).toBeLessThan(1e-11);
    expect(blurOf(rode, 0)).toBeGreaterThan(0);
  });
});

describe("a walk along a rode", () => {
  const w = inWater(2, 7850);
  const rode = compile(made([line({ length: 30, stretch: { kind: "rigid" } })], { bottomSlope: 0.1 }));
  const stepper = closedFormStepper(rode);
  const whats = (walked: { events: readonly { what: string }[] }) => walked.events.map(({ what }) => what);

  it("comes to the bow out of the water, by its weight in either", () => {
    const H = 300;
    const V = H * Math.tan(0.1) + 40;
    const trace = makeTrace(rode);
    const walked = walk(rode, stepper, at({ H, V }), trace);
    expect(whats(walked)).toEqual(["emerges"]);
    expect([walked.arrived, walked.stopped]).toEqual([true, true]);
    // It comes to 7 m where T has grown by w·7.
    const there = walked.events[0]!.cursor;
    const T = Math.hypot(H, V) + w * 7;
    expect(there).toMatchObject({ z: 7, inAir: true, H });
    expect(Math.hypot(there.H, there.V)).toBeCloseTo(T, 8);
    expect(there.offset).toBeCloseTo((Math.sqrt(T * T - H * H) - V) / w, 8);
    const { end } = walked;
    expect(end.V).toBeCloseTo(there.V + 2 * GRAVITY * (30 - there.offset), 8);
    expect(end.z).toBeCloseTo(7 + (Math.hypot(H, end.V) - T) / (2 * GRAVITY), 8);
    expect(walked.deepest).toBeGreaterThan(0);
    const rows = rowsOf(trace);
    expect(rows.every((row) => row[1] === LIFTED)).toBe(true);
    expect(rows.reduce((sum, row) => sum + row[4]!, 0)).toBeCloseTo(30, 9);
    expect(rows[0]!.slice(5, 8)).toEqual([H, V, expect.closeTo(w, 8)]);
    expect(rows.at(-1)![7]).toBeCloseTo(2 * GRAVITY, 8);
    expect(rows.at(-1)![11]).toBeCloseTo(2 * GRAVITY, 10);
  });

  it("hits the bottom where it would sink through it, unless it is let through; there it says how deep it came", () => {
    // From 1 m above a sloping bottom, sinking: T − w z keeps, so at its lowest above level z = 1 − (T₁ − H)/w.
    const from = at({ z: 1, H: 100, V: -90 });
    const walked = walk(rode, stepper, from);
    expect(whats(walked)).toEqual(["hit"]);
    expect([walked.arrived, walked.stopped]).toEqual([false, false]);
    const through = walk(rode, stepper, from, null, TO_BOW, true);
    expect(through.arrived).toBe(true);
    expect(whats(through)[0]).toBe("trough");
    const along = 100 * Math.tan(0.1);
    const x = (100 / w) * (Math.asinh(along / 100) + Math.asinh(0.9));
    const z = 1 + (Math.hypot(100, along) - Math.hypot(100, 90)) / w;
    expect(through.deepest).toBeCloseTo(z - 0.1003346720854505 * x, 8);
    const trough = through.events[0]!.cursor;
    expect([trough.x, trough.z]).toEqual([expect.closeTo(x, 8), expect.closeTo(z, 8)]);
    expect(aboveBottom(rode, trough)).toBeCloseTo(through.deepest, 8);
  });

  it("stops where it is told: before it begins, at a trough, at a point, at a crest", () => {
    const from = at({ z: 6, H: 100, V: -90 });
    expect(walk(rode, stepper, from, null, { at: "start" })).toMatchObject({
      ...{ arrived: false, stopped: true, end: from, events: [] },
    });
    const trough = walk(rode, stepper, from, null, { at: "trough", nth: 1 });
    expect([trough.arrived, trough.stopped]).toEqual([false, true]);
    expect(trough.end.V).toBeCloseTo(100 * Math.tan(0.1), 8);
    const never = walk(rode, stepper, from, null, { at: "trough", nth: 2 });
    expect([never.arrived, never.stopped]).toEqual([false, false]);

    const floats = compile(
      made([
        line({ length: 9, massPerLength: 0.1, density: 500, stretch: { kind: "rigid" } }),
        point(4, 7850),
        line({}),
      ]),
    );
    const along = closedFormStepper(floats);
    const up = inWater(0.1, 500);
    const rising = at({ z: 2, H: 10, V: -5 * up });
    const crest = walk(floats, along, rising, null, { at: "crest", nth: 1 });
    expect(crest.stopped).toBe(true);
    expect(crest.end.offset).toBeCloseTo(5, 8);
    const atPoint = walk(floats, along, rising, null, { at: "point", part: 1 });
    expect(atPoint.end).toMatchObject({ part: 1, offset: 0 });
    expect(atPoint.stopped).toBe(true);
    expect(atPoint.end.V).toBeCloseTo(4 * up, 8);
    // Past the point its weight in water hangs on the rode.
    const on = walk(floats, along, at({ part: 1, z: 2, H: 10, V: 3 }), null, TO_BOW, true);
    expect(on.events[0]).toMatchObject({ what: "pointInWater", part: 1 });
    const dry = walk(floats, along, at({ part: 1, z: 7, H: 10, V: 3, inAir: true }), null, TO_BOW, true);
    expect(dry.events[0]).toMatchObject({ what: "pointInAir", part: 1 });
    expect(dry.end.V).toBeCloseTo(3 + 4 * GRAVITY + 20 * 2 * GRAVITY, 7);
  });
});

describe("where a rode in a current is looked for", () => {
  const rode = (length: number) =>
    made([line({ length: 6 }), point(12, 7850), line({ length })], { bottomFriction: 0.4 });
  it("is as it lies in still water: by its lift, or by what rests, a weight counting one", () => {
    for (const [newtons, length] of [
      [100, 40],
      [300, 40],
      [3000, 14],
    ] as const) {
      const of = rode(length);
      const near = nearStillWater(compile(of), STATED_HORIZONTAL, newtons)!;
      const settled = settle(of, { at: "horizontal", newtons });
      if (settled.kind !== "settled") throw new Error(settled.cause);
      expect(near.H).toBeCloseTo(newtons, 8);
      const [leg] = near.legs;
      expect(leg).toMatchObject({ stage: { kind: "anchor", H: near.H }, stop: TO_BOW });
      if (settled.grounded > 0) {
        expect(settled.grounded).toBeGreaterThan(6);
        expect(leg!.value).toBeCloseTo(-(settled.grounded + 1), 8);
      } else expect(leg!.value).toBeCloseTo(newtons * Math.tan(settled.anchor.angle), 6);
    }
    const rigid = made([line({ stretch: { kind: "rigid" } })]);
    expect(nearStillWater(compile(rigid), STATED_SPAN, 25)).toBeNull();
    expect(nearStillWater(compile(made([line({}), point(3, 200)])), STATED_HORIZONTAL, 100)).toBeNull();
  });
});
