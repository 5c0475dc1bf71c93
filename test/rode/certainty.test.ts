/** Uncertainty of settled rodes near the corners of the model: lift-off, and straight. */
import { describe, expect, it } from "vitest";
import { carry } from "../../src/pull/index.ts";
import {
  certaintyOf,
  endForcesOf,
  find,
  foundUncertainty,
  isUneven,
  match,
  matchedUncertainty,
  movedRig,
  type Rig,
  uncertaintyOf,
} from "../../src/rode/index.ts";
import { loads } from "../pull/run/demo.ts";

const WEIGHT = 2.3 * 9.80665;
const [L, RISE] = [30, 9];
/** Lift-off of a rigid uniform rode on level ground: H = w (L² − h²)/2h, bow load H + w h (Irvine 1981, ch. 1). */
const LIFTOFF = (WEIGHT * (L * L - RISE * RISE)) / (2 * RISE) + WEIGHT * RISE;

const rigOf = (uncertainty: string, setting = "{ medium: air, rise: 9 m }"): Rig =>
  loads({ loads: [1], setting, rigUncertainty: uncertainty }).rig;

describe("an equilibrium near lift-off", () => {
  it("says the chance of lift-off, which follows from the load at which it lifts off", () => {
    const rig = rigOf("{ massPerLength: 3 % }");
    const { spread, firstOrder } = uncertaintyOf(rig, { at: "bow", newtons: 0.985 * LIFTOFF })!;
    // First order stands on the side of no lift and sees none.
    expect(firstOrder!.anchorAngle).toBe(0);
    // Lift-off goes with the weight: it lifts where 1 + 0.03 z < 0.985, Φ(−0.5) = 0.3085; four deviations of 4000 draws.
    expect(Math.abs(spread!.lifted / spread!.draws - 0.3085)).toBeLessThan(0.03);
    expect(spread!.without).toBe(0);
    expect(spread!.bounds.anchorAngle.low).toBe(0);
    // 97.5 of 100 draws weigh at least 1 − 1.96 · 0.03 of the estimate.
    const light = movedRig(rig, { massPerLength: -1.96 * 0.03 })!;
    const angle = endForcesOf(light)({ at: "bow", newtons: 0.985 * LIFTOFF })!.anchorAngle;
    expect(Math.abs(spread!.bounds.anchorAngle.high! / angle - 1)).toBeLessThan(0.1);
    expect(isUneven(0, 0, spread!.bounds.anchorAngle)).toBe(true);
  });

  it("is even far from it", () => {
    const { spread, firstOrder } = uncertaintyOf(rigOf("{ massPerLength: 1 % }"), { at: "bow", newtons: 2 * LIFTOFF })!;
    expect(spread!.lifted).toBe(spread!.draws);
    const rig = endForcesOf(rigOf(""))({ at: "bow", newtons: 2 * LIFTOFF })!;
    expect(isUneven(rig.anchorAngle, firstOrder!.anchorAngle, spread!.bounds.anchorAngle)).toBe(false);
  });
});

describe("an equilibrium near straight", () => {
  it("leaves open the end that the draws do not have, and counts those without an answer", () => {
    // A span 2 cm short of straight, known to 2 cm: in one draw of six the rode does not reach.
    const straight = Math.sqrt(L * L - RISE * RISE);
    const pull = { at: "span", metres: straight - 0.02 } as const;
    const { spread } = uncertaintyOf(rigOf(""), pull, { pullU: 0.02 })!;
    // Φ(−1) = 0.1587.
    expect(Math.abs(spread!.without / spread!.draws - 0.1587)).toBeLessThan(0.024);
    expect(spread!.bounds.bowTension.high).toBeNull();
    const low = endForcesOf(rigOf(""))({ at: "span", metres: straight - 0.02 - 1.96 * 0.02 })!.bow;
    expect(Math.abs(spread!.bounds.bowTension.low! / low - 1)).toBeLessThan(0.05);
  });
});

describe("inputs that may be stated as uncertain", () => {
  it("each move the equilibrium by their own slope", () => {
    const rig = loads({
      loads: [1],
      line: "{ name: rope, length: 30 m, massPerLength: 2.3 kg/m, density: 7850 kg/m3, stiffness: 90 kN }",
      setting: "{ medium: water, depth: 8 m, rollerHeight: 1 m, bottomFriction: 0.5, bottomSlope: 2 deg }",
    }).rig;
    const pull = { at: "bow", newtons: 700 } as const;
    const us = {
      massPerLength: 0.02,
      length: 0.01,
      stretch: 0.2,
      depth: 0.2,
      friction: 0.2,
      bottomSlope: 0.01,
      waterDensity: 5,
    };
    const own = Object.entries(us).map(([input, u]) => {
      const alone = certaintyOf({ ...rig, uncertainty: { [input]: u } }, pull)!;
      const at = (by: number) => endForcesOf(movedRig(rig, { [input]: by })!)(pull)!.span;
      // Differences as wide as the uncertainty bend a little more than those over a part of it.
      expect(Math.abs(alone.span / Math.abs((at(0.1 * u) - at(-0.1 * u)) / 0.2) - 1), input).toBeLessThan(0.01);
      expect(alone.span, input).toBeGreaterThan(0);
      return alone.span;
    });
    const together = certaintyOf({ ...rig, uncertainty: us }, pull, 30)!;
    const load = certaintyOf({ ...rig, uncertainty: {} }, pull, 30)!;
    expect(load.bowTension).toBeCloseTo(30, 9);
    expect(Math.abs(together.span / Math.hypot(...own, load.span) - 1)).toBeLessThan(1e-9);
  });

  it("ask for five equilibria where two are uncertain, and one more pair for the load", () => {
    // Counted by how often the moved rig is read: its name.
    let asked = 0;
    const rig = rigOf("{ massPerLength: 2 %, rise: 0.1 m }");
    const counted: Rig = Object.defineProperty({ ...rig }, "rode", {
      enumerable: true,
      get: () => {
        asked++;
        return rig.rode;
      },
    });
    certaintyOf(counted, { at: "bow", newtons: 2000 });
    // A moved rig reads the rode it moves once; its own equilibrium reads the copy.
    expect(asked).toBeLessThanOrEqual(10);
  });
});

describe("find and match", () => {
  it("the length at lift-off is as sure as the rise: by the closed form", () => {
    const rig = rigOf("{ rise: 0.1 m }");
    const question = {
      unknown: { what: "length", part: 1 },
      goal: { goal: "liftoff" },
      pull: { at: "bow", newtons: 1500 },
    } as const;
    const found = find(rig, question);
    if (found.kind !== "found") throw new Error(found.cause);
    // L² = h² + 2 h H/w with H = F − w h: L² = 2 h F/w − h².
    const byHand = ((1500 / WEIGHT - RISE) / Math.sqrt((2 * RISE * 1500) / WEIGHT - RISE * RISE)) * 0.1;
    const sure = foundUncertainty(rig, question, found)!;
    expect(Math.abs(sure.u! / byHand - 1)).toBeLessThan(1e-4);
    expect(isUneven(found.value, sure.u!, sure.spread!.bounds)).toBe(false);
  });

  it("one line in both rigs, in one medium, cancels what is not known of its mass in match's length", () => {
    const rig = rigOf("{ massPerLength: 3 % }");
    const pull = { at: "bow", newtons: 2000 } as const;
    const matched = match(rig, rig, pull);
    if (matched.kind !== "matched") throw new Error(matched.cause);
    expect(matched.partLength).toBeCloseTo(L, 9);
    expect(matchedUncertainty(rig, rig, pull, matched)!.u!).toBeLessThan(1e-5);
    const other = { ...rig, rode: rig.rode.map((part) => ({ ...part, name: "another" })) };
    expect(matchedUncertainty(rig, other, pull, matched)!.u!).toBeGreaterThan(0.3);
  });
});

describe("carry near lift-off of the stand-in", () => {
  it("counts the draws in which its anchor is not lifted", () => {
    const { run, rig } = loads({ loads: [Math.round(1.01 * LIFTOFF)], rigUncertainty: "{ massPerLength: 2 % }" });
    const { rows } = carry(run, rig, rig);
    const { spread } = rows[0]!;
    // Load and weight are both not known, to 1 % and 2 %: 0.01/√(0.01² + 0.02²) = 0.447 deviations, Φ = 0.6726.
    expect(Math.abs(spread!.lifted / spread!.draws - 0.6726)).toBeLessThan(0.035);
  });
});
