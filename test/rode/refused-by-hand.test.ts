/** Why a rode does not settle, and the number that parts it from one that does, worked out here. */
import { describe, expect, it } from "vitest";
import { compile } from "../../src/rode/compile.ts";
import {
  checkUnknown,
  find,
  GRAVITY,
  type LinePart,
  type NoEquilibrium,
  type Pull,
  type Rig,
  readUnknown,
  settle,
  settleTraced,
  shapeOf,
} from "../../src/rode/index.ts";
import { pullForAngle } from "../../src/rode/pull-for-angle.ts";
import { chain, RISE, rigInAir, w } from "./rig-in-air.ts";

const air = (over: object = {}, rode: Rig["rode"] = [chain]): Rig => rigInAir(rode, over);
const afloat = (over: object, rode: Rig["rode"]): Rig =>
  air({ medium: "water", depth: 7, rollerHeight: 1, waterDensity: 1025, current: 0, ...over }, rode);

function none(of: Rig, pull: Pull): NoEquilibrium {
  const answer = settle(of, pull);
  if (answer.kind === "settled") throw new Error("it settles");
  return answer;
}
const said = (cause: string, given: number, limit: number) => ({
  ...{ kind: "noEquilibrium", cause, given: expect.closeTo(given, 6), limit: expect.closeTo(limit, 6) },
});

describe("a rode that does not settle", () => {
  it("is shorter than its rise, of chain or wire", () => {
    for (const material of ["chain", "wire"] as const)
      expect(none(air({}, [{ ...chain, length: 7.5, material }]), { at: "bow", newtons: 900 })).toEqual(
        said("shorterThanRise", 7.5, 8),
      );
    expect(none(air({}, [{ ...chain, length: 8, material: "chain" }]), { at: "bow", newtons: 900 })).toEqual(
      said("shorterThanRise", 8, 8),
    );
    // Rope that does not stretch is no better.
    expect(none(air({}, [{ ...chain, length: 7.5, material: "rope" }]), { at: "bow", newtons: 900 })).toEqual(
      said("shorterThanRise", 7.5, 8),
    );
  });

  it("is rope too short until it is stretched: limp it hangs from the bow by its weight and what stretches it to there", () => {
    const rope: LinePart = { ...chain, length: 7.9, material: "rope", stretch: { kind: "linear", stiffness: 5000 } };
    // Upright, its mean tension stretches 7.9 m by 0.1: (T − w l/2) l / EA = 0.1.
    const mean = (0.1 / 7.9) * 5000;
    const half = (w * 7.9) / 2;
    if (mean > half) throw new Error("the weight alone is to stretch it");
    // Its own weight stretches it more than that: it comes to the bottom.
    expect(none(air({}, [rope]), { at: "bow", newtons: 10 }).cause).toBe("shortUntilStretched");
    const light = { ...rope, massPerLength: 0.2 };
    const top = mean + 0.1 * GRAVITY * 7.9;
    expect(none(air({}, [light]), { at: "bow", newtons: 20 })).toEqual(said("shortUntilStretched", 20, top));
    expect(none(air({}, [light]), { at: "anchor", newtons: 20 })).toEqual(
      said("shortUntilStretched", 20, top - 0.2 * GRAVITY * 7.9),
    );
    expect(settle(air({}, [light]), { at: "bow", newtons: top * 1.01 }).kind).toBe("settled");
  });

  it("is pulled with less than hangs from the bow", () => {
    expect(none(air(), { at: "bow", newtons: 100 })).toEqual(said("lighterThanHanging", 100, w * RISE));
    // On a slope it hangs to the anchor's own level, straight above it.
    expect(none(air({ bottomSlope: 0.1 }), { at: "bow", newtons: 50 }).cause).toBe("lighterThanHanging");
    expect(settle(air(), { at: "bow", newtons: w * RISE * 1.001 }).kind).toBe("settled");
  });

  it("is pulled at the anchor by less than what lies there slides down with", () => {
    // Nothing rubs: down a slope of −0.1 the lying part pulls the anchor by its weight along it.
    const slope = -0.1;
    const answer = none(air({ bottomSlope: slope }), { at: "anchor", newtons: 1e-3 });
    expect(answer.cause).toMatch(/^lighterThan/);
    // It hangs upright from the bow to the bottom under it: x tan + hangs = rise, x / cos + hangs = length.
    const x = (30 - RISE) / (1 / Math.cos(slope) - Math.tan(slope));
    const rests = x / Math.cos(slope);
    if (answer.cause === "lighterThanResting")
      expect(answer.limit).toBeCloseTo(Math.max(0, -w * rests * Math.sin(slope)) * -Math.sign(slope), 3);
    const tooNear = none(air({ bottomSlope: slope }), { at: "span", metres: x - 3 });
    expect(tooNear).toEqual({ kind: "noEquilibrium", cause: "tooNear", given: x - 3, limit: expect.closeTo(x, 3) });
  });

  it("spans more than it reaches", () => {
    const straight = Math.sqrt(900 - 64);
    expect(none(air(), { at: "span", metres: 29.5 })).toEqual(said("beyondReach", 29.5, straight));
    expect(settle(air(), { at: "span", metres: straight - 1e-3 }).kind).toBe("settled");
    const float = { kind: "point", name: "float", mass: 2, density: 200 } as const;
    const floating = none(afloat({}, [{ ...chain, length: 15 }, float, { ...chain, length: 15 }]), {
      at: "span",
      metres: 29.5,
    });
    expect(floating).toEqual(said("beyondReach", 29.5, straight));
  });

  it("lies on a bottom that comes up to the roller or the surface", () => {
    const reached = RISE / Math.tan(0.4);
    expect(none(air({ bottomSlope: 0.4 }), { at: "span", metres: reached + 1 })).toMatchObject({
      ...{ cause: "aground", limit: expect.closeTo(reached, 9) },
    });
    expect(none(afloat({ bottomSlope: 0.4 }, [chain]), { at: "span", metres: 18 })).toMatchObject({
      ...{ cause: "aground", limit: expect.closeTo(7 / Math.tan(0.4), 9) },
    });
    // 60 m of it lie up a steep beach whatever pulls.
    expect(none(air({ bottomSlope: 0.7 }, [{ ...chain, length: 60 }]), { at: "bow", newtons: 1000 })).toEqual(
      said("aground", 0, RISE / Math.tan(0.7)),
    );
    const float = { kind: "point", name: "float", mass: 0.5, density: 500 } as const;
    const floats = none(afloat({ bottomSlope: 0.4 }, [chain, float, chain]), { at: "horizontal", newtons: 5000 });
    expect(floats).toMatchObject({ cause: "aground", limit: expect.closeTo(7 / Math.tan(0.4), 9) });
  });

  it("with floats is pulled with less than hangs from the bow", () => {
    const float = { kind: "point", name: "float", mass: 0.5, density: 500 } as const;
    // The float lies far off on the bottom side: 7 m hang in water, 1 m in air.
    const of = afloat({}, [{ ...chain, length: 1 }, float, { ...chain, length: 30 }]);
    const hanging = w * 7 * (1 - 1025 / 7850) + w;
    const answer = none(of, { at: "bow", newtons: 0.5 * hanging });
    expect(answer).toMatchObject({ cause: "lighterThanHanging", given: 0.5 * hanging });
    expect(answer.limit / hanging).toBeCloseTo(1, 4);
  });
});

describe("a slack rode", () => {
  it.each([0, 0.08, -0.05])(
    "at a span hangs straight from the bow, and lies in whatever heap over a bottom of %d",
    (slope) => {
      const of = air({ bottomSlope: slope, bottomFriction: 0.5 });
      const span = 10;
      const traced = settleTraced(of, { at: "span", metres: span });
      if (!("settled" in traced)) throw new Error(traced.cause);
      const { settled } = traced;
      const hangs = RISE - span * Math.tan(slope);
      expect(settled).toMatchObject({ horizontal: 0, span, stretch: 0, anchor: { tension: 0 } });
      expect(settled.bow).toEqual({ tension: expect.closeTo(w * hangs, 8), angle: expect.closeTo(Math.PI / 2, 12) });
      expect([settled.grounded, settled.lifted]).toEqual([expect.closeTo(30 - hangs, 8), expect.closeTo(hangs, 8)]);
      // What lies is spread evenly along the slope; what hangs has its middle half way up.
      const lift = w * ((30 - hangs) * 0.5 * span * Math.tan(slope) + hangs * (RISE - 0.5 * hangs));
      expect(settled.energy.lift).toBeCloseTo(lift, 6);
      const { x, z, resting } = shapeOf(traced, 4);
      const touchdown = resting.lastIndexOf(1);
      expect([x[touchdown], z[touchdown]]).toEqual([
        expect.closeTo(span, 8),
        expect.closeTo(span * Math.tan(slope), 8),
      ]);
      expect([x.at(-1), z.at(-1)]).toEqual([expect.closeTo(span, 8), expect.closeTo(RISE, 8)]);
    },
  );
  it("slides down a bottom that does not hold it, and cannot lie where it does not reach", () => {
    expect(settle(air({ bottomSlope: -0.1 }), { at: "span", metres: 5 }).kind).toBe("noEquilibrium");
    expect(settle(air({}), { at: "span", metres: 21.9 })).toMatchObject({ kind: "settled", horizontal: 0 });
    const taut = settle(air({}), { at: "span", metres: 22.1 });
    expect(taut.kind === "settled" && taut.horizontal).toBeGreaterThan(0);
  });
});

describe("the pull at an angle", () => {
  // Both ends of a rigid chain that hangs: with t = tan of the angle at the anchor, a (√(1 + (t + L/a)²) − √(1 + t²)) = h.
  const rode = compile(air());
  const root = (t: number): number => {
    let [lo, hi] = [1e-3, 1e6];
    for (let i = 0; i < 200; i++) {
      const a = Math.sqrt(lo * hi);
      if (a * (Math.hypot(1, t + 30 / a) - Math.hypot(1, t)) > RISE) lo = a;
      else hi = a;
    }
    return lo;
  };
  it.each([0, 0.03, 0.12, 0.24])("of %d rad is that of its catenary at both ends", (angle) => {
    const t = Math.tan(angle);
    const a = root(t);
    const pulled = pullForAngle(rode, angle)!;
    expect(pulled.horizontal / (w * a)).toBeCloseTo(1, 9);
    expect(pulled.anchor / (w * a * Math.hypot(1, t))).toBeCloseTo(1, 9);
    expect(pulled.bow / (w * a * Math.hypot(1, t + 30 / a))).toBeCloseTo(1, 9);
    expect(pulled.span).toBeCloseTo(a * (Math.asinh(t + 30 / a) - Math.asinh(t)), 8);
  });
  it("is none below the bottom, nor as steep as the straight rode or steeper", () => {
    expect(pullForAngle(rode, -0.01)).toBeNull();
    expect(pullForAngle(rode, Number.NaN)).toBeNull();
    expect(pullForAngle(rode, Math.asin(RISE / 30) + 0.01)).toBeNull();
    expect(pullForAngle(rode, 1.8)).toBeNull();
  });
});

describe("what a question that has no answer says", () => {
  it("is the nearest angle that can be had, above the bottom or above the horizontal", () => {
    const slope = 0.05;
    const of = air({ bottomSlope: slope });
    const unknown = { what: "length", part: 1 } as const;
    // 8 m of rode stand upright: no length pulls at more.
    for (const [goal, cause, given] of [
      [{ goal: "angleToBottom", angle: 1.7 }, "angleToBottomOutOfReach", 1.7],
      [{ goal: "anchorAngle", angle: 1.7 }, "angleOutOfReach", 1.7],
    ] as const) {
      const answer = find(of, { unknown, goal, pull: { at: "bow", newtons: 2000 } });
      expect(answer).toMatchObject({ kind: "noEquilibrium", cause, given });
      if (answer.kind === "noEquilibrium") expect(answer.limit).toBeLessThan(Math.PI / 2);
    }
    const noLimit = find(of, {
      unknown,
      goal: { goal: "workingLoad", share: 0.5 },
      pull: { at: "bow", newtons: 2000 },
    });
    expect(noLimit).toEqual({ kind: "noEquilibrium", cause: "noSuchValue", given: 0, limit: 0 });
  });
});

describe("an unknown that a rig does not have", () => {
  const weight = { kind: "point", name: "weight", mass: 5, density: 7850 } as const;
  const other = { ...chain, massPerLength: 3 };
  const of = air({}, [chain, weight, chain, weight, other]);
  it.each<[string, Rig, string]>([
    ["length:2", of, "a line is expected; part 2 is a point"],
    ["mass:1", of, "a point is expected; part 1 is a line"],
    ["place:3", of, "a point is expected; part 3 is a line"],
    ["length:6", of, "a part from 1 to 5 is expected"],
    ["length:2", air(), "part 1 is expected: the rode has no other"],
    ["place:4", of, "two lengths of one kind of line"],
    ["place:1", air({}, [weight, chain]), "a point between two lines is expected"],
    ["place:2", air({}, [chain, weight]), "a point between two lines is expected"],
    ["place:2", air({}, [chain, weight, { ...chain, density: 7000 }]), "two lengths of one kind of line"],
    ["place:2", air({}, [chain, weight, { ...chain, stretch: { kind: "linear", stiffness: 9 } }]), "one kind of line"],
    ["depth", of, "a rig in air has no depth"],
    ["scope", air({ rise: 0 }), "a rig whose upper end lies above its anchor"],
    ["scope", air({}, [weight]), "a rode with a line to pay out"],
  ])("%s is refused", (text, rig, why) => {
    expect(() => checkUnknown(rig, readUnknown(text, "unknown"), "unknown")).toThrow(why);
  });
  it("all others are taken", () => {
    for (const text of ["length:1", "length:5", "mass:2", "mass:4", "place:2", "rise", "scope", "pull"])
      expect(() => checkUnknown(of, readUnknown(text, "unknown"), "unknown"), text).not.toThrow();
    expect(() => checkUnknown(afloat({}, [chain]), { what: "depth" }, "unknown")).not.toThrow();
    for (const text of ["length", "length:0", "depth:1", "weight:1", ""])
      expect(() => readUnknown(text, "unknown"), text).toThrow("is expected");
  });
});
