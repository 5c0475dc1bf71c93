/** `find` undoes `settle`: what brought an answer about is found again from the answer, whatever was unknown. */
import { describe, expect, it } from "vitest";
import {
  boundsOf,
  checkUnknown,
  currentValue,
  find,
  type Goal,
  type LinePart,
  type Part,
  type Pull,
  partLoads,
  type Rig,
  readUnknown,
  riseOf,
  type Settled,
  settle,
  settleTraced,
  type Unknown,
  withValue,
  workingLoadUsed,
} from "../../src/rode/index.ts";

const DEGREE = Math.PI / 180;
const chain: LinePart = {
  kind: "line",
  name: "chain",
  length: 22,
  massPerLength: 2.3,
  density: 7850,
  diameter: 0.01,
  material: "chain",
  stretch: { kind: "rigid" },
  workingLoad: 8000,
};
const kellet: Part = { kind: "point", name: "kellet", mass: 12, density: 7850, workingLoad: 2500 };
const afloat = (over: Partial<Extract<Rig["setting"], { medium: "water" }>> = {}): Rig => ({
  name: "afloat",
  setting: {
    medium: "water",
    depth: 7,
    rollerHeight: 1.6,
    waterDensity: 1025,
    bottomSlope: 0,
    bottomFriction: 0,
    current: 0,
    ...over,
  },
  rode: [chain, kellet, { ...chain, length: 14 }],
  uncertainty: {},
});
const inAir: Rig = {
  ...afloat(),
  name: "in air",
  setting: { medium: "air", rise: 8.6, bottomSlope: 0, bottomFriction: 0 },
};

function settled(rig: Rig, pull: Pull): Settled {
  const answer = settle(rig, pull);
  if (answer.kind !== "settled") throw new Error(answer.cause);
  return answer;
}
function found(rig: Rig, unknown: Unknown, goal: Goal, pull: Pull) {
  const answer = find(rig, { unknown, goal, pull });
  if (answer.kind !== "found") throw new Error(answer.cause);
  return answer;
}

/** All that may be unknown, and another value of it to begin from. */
const unknowns: [text: string, elsewhere: number][] = [
  ["length:1", 40],
  ["length:3", 25],
  ["depth", 4],
  ["rise", 5],
  ["mass:2", 30],
  ["place:2", 12],
];
const BOW = 2600;
const pulls: Pull[] = [
  { at: "bow", newtons: BOW },
  { at: "anchor", newtons: 2400 },
  { at: "horizontal", newtons: 2500 },
];

describe.each([
  ["afloat", afloat()],
  ["on a bottom that falls", afloat({ bottomSlope: -3 * DEGREE })],
  ["in air", inAir],
])("%s, from the angle at the anchor", (_, rig) => {
  const asked = unknowns.filter(([text]) => text !== "depth" || rig.setting.medium === "water");
  describe.each(asked)("%s is found again", (text, elsewhere) => {
    const unknown = readUnknown(text, "--unknown");
    it.each(pulls)("under a load at the $at", (pull) => {
      const value = currentValue(rig, unknown)!;
      const { anchor } = settled(rig, pull);
      expect(anchor.angleToBottom).toBeGreaterThan(0.01);
      const start = withValue(rig, unknown, elsewhere);
      expect(currentValue(start, unknown)).toBeCloseTo(elsewhere, 12);
      const answer = found(start, unknown, { goal: "anchorAngle", angle: anchor.angle }, pull);
      expect(Math.abs(answer.value / value - 1)).toBeLessThan(1e-8);
      expect(answer.settled.anchor.angle).toBeCloseTo(anchor.angle, 8);
      expect(currentValue(answer.rig, unknown)).toBe(answer.value);
    });
  });
  it.each(["anchor", "bow", "horizontal"] as const)(
    "the load at the %s is found again, and stands at that end",
    (at) => {
      const before = settled(rig, { at: "bow", newtons: BOW });
      const load = { anchor: before.anchor.tension, bow: before.bow.tension, horizontal: before.horizontal }[at];
      const answer = found(
        rig,
        { what: "pull" },
        { goal: "anchorAngle", angle: before.anchor.angle },
        { at, newtons: 1 },
      );
      expect(Math.abs(answer.value / load - 1)).toBeLessThan(1e-6);
      expect(Math.abs(answer.settled.bow.tension / BOW - 1)).toBeLessThan(1e-6);
    },
  );
  it("of a pull that is stated by its span, the load found is the horizontal one", () => {
    const before = settled(rig, { at: "bow", newtons: BOW });
    const goal = { goal: "anchorAngle", angle: before.anchor.angle } as const;
    const answer = found(rig, { what: "pull" }, goal, { at: "span", metres: before.span });
    expect(Math.abs(answer.value / before.horizontal - 1)).toBeLessThan(1e-6);
    expect(Math.abs(answer.settled.horizontal / answer.value - 1)).toBeLessThan(1e-9);
    expect(answer.settled.bow.tension).toBeGreaterThan(answer.value * 1.05);
  });
});

describe("the rise of a rig afloat", () => {
  it("is its depth and the roller's height together", () => {
    const rig = afloat();
    const pull = { at: "bow", newtons: BOW } as const;
    const { anchor } = settled(rig, pull);
    const goal = { goal: "anchorAngle", angle: anchor.angle } as const;
    const rise = found(withValue(rig, { what: "rise" }, 5), { what: "rise" }, goal, pull);
    const depth = found(withValue(rig, { what: "depth" }, 4), { what: "depth" }, goal, pull);
    expect(rise.value).toBeCloseTo(8.6, 7);
    expect(depth.value).toBeCloseTo(7, 7);
    expect(riseOf(rise.rig.setting)).toBeCloseTo(rise.value, 12);
    expect(rise.rig.setting).toMatchObject({ rollerHeight: 1.6 });
  });
});

describe("lift-off", () => {
  it("of plain chain is at the length of the catenary that leaves its anchor level: L² = h² + 2ah, a = H/w", () => {
    const rig: Rig = { ...inAir, rode: [{ ...chain, length: 60 }] };
    const w = 2.3 * 9.80665;
    for (const newtons of [300, 1500]) {
      const goal = { goal: "liftoff" } as const;
      const length = found(rig, { what: "length", part: 1 }, goal, { at: "horizontal", newtons });
      expect(length.value).toBeCloseTo(Math.sqrt(8.6 ** 2 + (2 * newtons * 8.6) / w), 7);
      const back = found(length.rig, { what: "pull" }, goal, { at: "horizontal", newtons: 1 });
      expect(Math.abs(back.value / newtons - 1)).toBeLessThan(1e-9);
      // T at the bow is H + w h where the anchor's end is level (Irvine 1981, ch. 1).
      expect(back.settled.bow.tension).toBeCloseTo(newtons + w * 8.6, 6);
      const atBow = found(length.rig, { what: "pull" }, goal, { at: "bow", newtons: 1 });
      expect(Math.abs(atBow.value / (newtons + w * 8.6) - 1)).toBeLessThan(1e-9);
    }
  });
});

describe("the share of a working load", () => {
  it("is the largest load of a part over that part's own limit", () => {
    const rig = afloat();
    const traced = settleTraced(rig, { at: "bow", newtons: BOW });
    if (!("settled" in traced)) throw new Error(traced.cause);
    const loads = partLoads(traced);
    // Above the kellet the load grows to the bow; the kellet bears what the upper chain pulls it with.
    expect(loads[2]).toBeCloseTo(BOW, 6);
    expect(loads[1]!).toBeLessThan(loads[2]!);
    expect(loads[1]!).toBeGreaterThan(loads[0]!);
    const used = [loads[0]! / 8000, loads[1]! / 2500, loads[2]! / 8000];
    expect(workingLoadUsed(rig, loads)).toBe(Math.max(...used));
    expect(
      workingLoadUsed({ ...rig, rode: rig.rode.map(({ workingLoad: _, ...part }) => part as Part) }, loads),
    ).toBeNull();
  });
  it("is reached by the load that is found, the horizontal one where the pull is stated by its span", () => {
    const goal = { goal: "workingLoad", share: 0.8 } as const;
    const answer = found(inAir, { what: "pull" }, goal, { at: "span", metres: 30 });
    expect(Math.abs(answer.settled.horizontal / answer.value - 1)).toBeLessThan(1e-9);
    const atBow = found(inAir, { what: "pull" }, goal, { at: "bow", newtons: 1 });
    expect(Math.abs(atBow.settled.bow.tension / answer.settled.bow.tension - 1)).toBeLessThan(1e-6);
    expect(atBow.value).toBeGreaterThan(answer.value * 1.005);
  });
  it("is reached by the load that is found", () => {
    const goal = { goal: "workingLoad", share: 0.8 } as const;
    const answer = found(inAir, { what: "pull" }, goal, { at: "bow", newtons: 1 });
    const traced = settleTraced(inAir, { at: "bow", newtons: answer.value });
    if (!("settled" in traced)) throw new Error(traced.cause);
    expect(workingLoadUsed(inAir, partLoads(traced))).toBeCloseTo(0.8, 9);
  });
});

describe("what cannot be found", () => {
  it("an angle no load reaches is refused with the nearest that can be had", () => {
    const goal = { goal: "anchorAngle", angle: 80 * DEGREE } as const;
    const answer = find(afloat(), { unknown: { what: "depth" }, goal, pull: { at: "bow", newtons: BOW } });
    expect(answer.kind).toBe("noEquilibrium");
    if (answer.kind !== "noEquilibrium") return;
    expect(answer.cause).toBe("angleOutOfReach");
    expect(answer.given).toBeCloseTo(80 * DEGREE, 12);
    // The steepest pull on the anchor is below straight up, and below what was asked.
    expect(answer.limit).toBeGreaterThan(20 * DEGREE);
    expect(answer.limit).toBeLessThan(80 * DEGREE);
  });
  it("an unknown the rig has not is refused by name", () => {
    const rig = afloat();
    for (const [text, expected] of [
      ["length:2", "a line is expected; part 2 is a point"],
      ["mass:1", "a point is expected; part 1 is a line"],
      ["mass:4", "a part from 1 to 3 is expected"],
      ["place:1", "a point is expected; part 1 is a line"],
    ] as const)
      expect(() => checkUnknown(rig, readUnknown(text, "--unknown"), "--unknown"), text).toThrow(expected);
    for (const text of ["length:1", "length:3", "mass:2", "place:2", "depth", "rise", "pull"])
      expect(() => checkUnknown(rig, readUnknown(text, "--unknown"), "--unknown"), text).not.toThrow();
    expect(() => checkUnknown(inAir, { what: "depth" }, "--unknown")).toThrow(
      "rise is expected: a rig in air has no depth",
    );
    const atEnd: Rig = { ...rig, rode: [kellet, chain] };
    expect(() => checkUnknown(atEnd, readUnknown("place:1", "--unknown"), "--unknown")).toThrow("between two lines");
    const heavier: Rig = { ...rig, rode: [chain, kellet, { ...chain, massPerLength: 1.4 }] };
    expect(() => checkUnknown(heavier, readUnknown("place:2", "--unknown"), "--unknown")).toThrow("one kind of line");
    for (const text of ["length", "length:0", "mass:-1", "span", "Depth"])
      expect(() => readUnknown(text, "--unknown"), text).toThrow("is expected");
  });
  it("a value is looked for where it makes sense: no rode shorter than the rise, no water over the roller", () => {
    const rig = afloat();
    expect(boundsOf(rig, { what: "depth" })[1]).toBeCloseTo(36 - 1.6, 12);
    expect(boundsOf(rig, { what: "rise" })[1]).toBeCloseTo(36, 12);
    expect(boundsOf(rig, { what: "rise" })[0]).toBeGreaterThan(1.6);
    const short: Rig = { ...rig, rode: [{ ...chain, length: 3 }, kellet, chain] };
    expect(boundsOf(short, { what: "length", part: 3 })[0]).toBeCloseTo(8.6 - 3, 6);
    const [low, high] = boundsOf(rig, { what: "place", part: 2 });
    expect([low, high].map((at) => Math.round(at * 100) / 100)).toEqual([0, 36]);
  });
});
