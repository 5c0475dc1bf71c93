/** How often a search marches the rode: Newton's steps close in a handful, brackets in some tens. */
import { describe, expect, it } from "vitest";
import { closeRise } from "../../src/rode/close-rise.ts";
import { type CompiledRode, compile } from "../../src/rode/compile.ts";
import { find, type LinePart, type PointPart, type Rig } from "../../src/rode/index.ts";
import { Z } from "../../src/rode/march.ts";
import { pullForAngle } from "../../src/rode/pull-for-angle.ts";
import { solve } from "../../src/rode/solve.ts";
import { solveBracketed } from "../../src/rode/solve-bracketed.ts";
import {
  KINDS,
  SOLVED,
  STATED_ANCHOR,
  STATED_BOW,
  STATED_HORIZONTAL,
  STATED_SPAN,
  solution,
  state,
} from "../../src/rode/solve-state.ts";
import { sweepExcess } from "../../src/rode/sweep-excess.ts";
import { sweepForce } from "../../src/rode/sweep-force.ts";
import { rigInWater } from "./rig-in-water.ts";

/** A rode whose marches are counted: each looks once at which of its parts are lines. */
function watched(of: Rig): { readonly rode: CompiledRode; readonly marches: (run: () => unknown) => number } {
  let count = 0;
  const rode = compile(of);
  const { isLine } = rode;
  Object.defineProperty(rode, "isLine", {
    get: () => {
      count++;
      return isLine;
    },
  });
  return {
    rode,
    marches(run) {
      count = 0;
      run();
      return count;
    },
  };
}

const line = (more: Partial<LinePart>): LinePart => ({
  ...{ kind: "line", name: "line", length: 30, massPerLength: 2.3, density: 7850 },
  stretch: { kind: "linear", stiffness: 2e5 },
  ...more,
});
const kellet: PointPart = { kind: "point", name: "kellet", mass: 15, density: 7850 };
const rope = line({ length: 12, massPerLength: 0.2, density: 1140 });
const rigs: readonly (readonly [string, Rig])[] = [
  ["of chain", rigInWater([line({ stretch: { kind: "rigid" } })])],
  ["of chain that rubs", rigInWater([line({})], { bottomFriction: 0.7 })],
  ["of chain, a kellet and rope", rigInWater([line({ length: 15 }), kellet, rope], { bottomFriction: 0.4 })],
  ["up a slope", rigInWater([line({}), rope], { bottomSlope: 0.05, bottomFriction: 0.5 })],
  ["down a slope", rigInWater([line({}), rope], { bottomSlope: -0.06, bottomFriction: 0.5 })],
];

describe.each(rigs)("a rode %s", (_, of) => {
  const { rode, marches } = watched(of);
  const straight = Math.sqrt(rode.totalLength ** 2 - 64);
  it.each([
    ["horizontal", STATED_HORIZONTAL, [200, 900, 5000]],
    ["bow", STATED_BOW, [300, 900, 5000]],
    ["anchor", STATED_ANCHOR, [300, 900, 5000]],
    ["span", STATED_SPAN, [straight - 3, straight - 0.5]],
  ] as const)(
    "is solved for what is stated at the %s in a dozen marches, by brackets in some hundred",
    (at, kind, targets) => {
      expect(KINDS[at]).toBe(kind);
      for (const target of targets) {
        let how = Number.NaN;
        const newton = marches(() => {
          how = solve(rode, kind, target);
        });
        expect(how).toBe(SOLVED);
        expect(newton, `${target}`).toBeLessThanOrEqual(14);
        const brackets = marches(() => {
          how = solveBracketed(rode, kind, target);
        });
        expect(how).toBe(SOLVED);
        expect(brackets, `${target}`).toBeLessThanOrEqual(160);
      }
    },
  );

  it("comes to its rise at a force in some ten marches, from anywhere", () => {
    for (const H of [150, 900, 6000])
      for (const start of [-0.99, -0.5, -0.01, 0.3, 5]) {
        const steps = marches(() => closeRise(rode, H, start * rode.totalLow));
        expect(Math.abs(state[Z]! - 8)).toBeLessThan(1e-11);
        expect(steps, `${H} ${start}`).toBeLessThanOrEqual(40);
      }
    // A start below all that can rest is none.
    expect(closeRise(rode, 900, -2 * rode.totalLow)).toBe(SOLVED);
    expect(Math.abs(state[Z]! - 8)).toBeLessThan(1e-11);
  });

  it("has the pull of an angle in some fifteen marches", () => {
    for (const angle of [0, 0.02, 0.1]) {
      let found = null as ReturnType<typeof pullForAngle>;
      const steps = marches(() => {
        found = pullForAngle(rode, angle);
      });
      expect(found).not.toBeNull();
      expect(steps, `${angle}`).toBeLessThanOrEqual(20);
    }
    // What is steeper than straight is seen to be so, not searched for two hundred times.
    expect(marches(() => pullForAngle(rode, 1.2))).toBeLessThanOrEqual(60);
  });

  it("is swept through force by force, or lift by lift, up to where the target is passed and no further", () => {
    const target = 900;
    expect(marches(() => sweepForce(rode, STATED_BOW, target))).toBeLessThanOrEqual(900);
    expect(solution[0]).toBeGreaterThan(0);
    if (rode.tanSlope <= 0) expect(marches(() => sweepExcess(rode, STATED_BOW, target))).toBeLessThanOrEqual(2500);
  });
});

describe("a length that is found", () => {
  it("near where it was found before takes a few equilibria, not a sweep of all lengths", () => {
    const own = rigInWater([line({ stretch: { kind: "rigid" } })]);
    let asked = 0;
    // Each length that is tried is put in place of the rig's own.
    const of: Rig = Object.defineProperty({ ...own }, "rode", {
      enumerable: true,
      get: () => {
        asked++;
        return own.rode;
      },
    });
    const question = {
      unknown: { what: "length", part: 1 },
      goal: { goal: "angleToBottom", angle: 0.05 },
      pull: { at: "bow", newtons: 1500 },
    } as const;
    const first = find(of, question);
    if (first.kind !== "found") throw new Error(first.cause);
    const { value } = first;
    const whole = asked;
    expect(value).toBeGreaterThan(8);
    for (const [near, share] of [
      [value * 1.0004, 0.5],
      [value / 1.003, 0.5],
      [value * 1.2, 0.75],
      [value / 1.5, 1],
    ] as const) {
      asked = 0;
      const again = find(of, { ...question, near, tolerance: 1e-10 });
      if (again.kind !== "found") throw new Error(again.cause);
      expect(again.value / value).toBeCloseTo(1, 8);
      expect(asked, `${near / value}`).toBeLessThan(share * whole);
    }
    // What lies nowhere near is not looked for through the whole range.
    expect(find(of, { ...question, near: 1e9, tolerance: 1e-10 })).toMatchObject({ cause: "noSuchValue" });
    expect(find(of, { ...question, near: 1e9 })).toMatchObject({ kind: "found", value: expect.closeTo(value, 6) });
  });
});
