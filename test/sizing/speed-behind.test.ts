import { describe, expect, it } from "vitest";
import { settle } from "../../src/rode/index.ts";
import { speedBehind, surgePeak } from "../../src/sizing/index.ts";
import { allChain, settled, straightRope } from "./rigs.ts";

const MASS = 6000;
const LOAD = { at: "horizontal", newtons: 1500 } as const;

describe("the speed behind a peak", () => {
  it.each([
    ["chain", allChain, 0.4],
    ["rope", straightRope, 0.9],
  ])("is the speed whose surge ends in that peak: %s", (_, rig, speed) => {
    const ridden = surgePeak(rig, LOAD.newtons, { kind: "speed", speed, mass: MASS });
    if (ridden?.kind !== "peak") throw new Error("no peak");
    const behind = speedBehind(rig, LOAD, { value: ridden.bow, u: 0 }, MASS, {});
    // A run's peak is good to a thousandth (docs/method-sizing.md), and a speed moves it by about as much.
    expect(behind.kind === "speed" && Math.abs(behind.value / speed - 1)).toBeLessThan(3e-3);
  });

  it("by energy alone is that of a mass stopped by a rope nearly straight: ½ m v² is the area under force over path", () => {
    const peak = 4000;
    const behind = speedBehind(straightRope, LOAD, { value: peak, u: 0 }, MASS, {});
    if (behind.kind !== "speed") throw new Error(behind.kind);
    // The area, by trapezoids over settled places.
    const last = settle(straightRope, { at: "bow", newtons: peak });
    if (last.kind !== "settled") throw new Error(last.cause);
    let area = 0;
    let before = settled(straightRope, LOAD.newtons);
    const steps = 2000;
    for (let i = 1; i <= steps; i++) {
      const H = LOAD.newtons + ((last.horizontal - LOAD.newtons) * i) / steps;
      const now = settled(straightRope, H);
      area += (0.5 * (now.horizontal + before.horizontal) - LOAD.newtons) * (now.span - before.span);
      before = now;
    }
    expect(behind.byEnergy).toBeCloseTo(Math.sqrt((2 * area) / MASS), 4);
    // A rode in water gives up some of the surge to drag: the same peak takes a little more speed.
    expect(behind.value).toBeGreaterThan(behind.byEnergy);
    expect(behind.value).toBeLessThan(1.2 * behind.byEnergy);
  });

  it("carries the ± of the reading by how the speed moves with the peak", () => {
    const at = (value: number, u: number) => {
      const behind = speedBehind(straightRope, LOAD, { value, u }, MASS, {});
      if (behind.kind !== "speed") throw new Error(behind.kind);
      return behind;
    };
    const slope = (at(4200, 0).value - at(3800, 0).value) / 400;
    // Beside the rope's own ±, which is there without one of the reading.
    const rope = at(4000, 0).u!;
    expect(rope).toBeGreaterThan(0);
    const reading = Math.sqrt(at(4000, 100).u! ** 2 - rope ** 2);
    // Runs are good to a thousandth, their slope over a tenth of the speed to a few hundredths.
    expect(reading / (100 * slope)).toBeGreaterThan(0.95);
    expect(reading / (100 * slope)).toBeLessThan(1.05);
  });

  it("is none for a peak no higher than the steady load, nor for one that no speed makes", () => {
    const steady = settled(allChain, LOAD.newtons).bow.tension;
    expect(speedBehind(allChain, LOAD, { value: steady, u: 10 }, MASS, {})).toEqual({
      kind: "noSpeed",
      why: "notAboveMean",
    });
    expect(speedBehind(straightRope, LOAD, { value: 1e9, u: 10 }, MASS, {})).toMatchObject({ kind: "noSpeed" });
  });
});
