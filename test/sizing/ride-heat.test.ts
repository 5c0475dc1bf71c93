import { describe, expect, it } from "vitest";
import type { Ride, RideSeries } from "../../src/motion/index.ts";
import { facts, rideHeat } from "../../src/sizing/index.ts";
import { mixed, straightRope } from "./rigs.ts";

/** A ride of which nothing is looked at but the loads of its ropes. */
const ridden = (rig: Ride["question"]["rig"], part: number, load: number[]): Ride =>
  ({
    question: { rig },
    series: () =>
      ({
        time: Float64Array.from(load, (_, i) => i),
        ropeLoads: [{ part, load: Float64Array.from(load) }],
      }) as unknown as RideSeries,
  }) as unknown as Ride;

describe("the heat of a rope over a ride", () => {
  it("is the loss share of ½ (T₂² − T₁²) L/EA for every cycle of a straight rope (closed form)", () => {
    const [low, high, cycles] = [200, 1200, 12];
    const load = Array.from({ length: 2 * cycles + 1 }, (_, i) => (i % 2 === 0 ? low : high));
    const [one] = rideHeat(ridden(straightRope, 0, load));
    // 30 m of EA = 90 kN.
    const stored = (0.5 * (high ** 2 - low ** 2) * 30) / 90e3;
    const loss = facts.rope.loss.polyamide!;
    expect(one!.heat.value).toBeCloseTo(loss.value * cycles * stored, 9);
    expect(one!.heat.u / one!.heat.value).toBeCloseTo(loss.u / loss.value, 12);
    expect(one!.power).toBeCloseTo(one!.heat.value / (2 * cycles), 12);
  });

  it("is none at a steady load, and more where a rope works over a wider range", () => {
    const still = rideHeat(ridden(mixed, 2, new Array<number>(50).fill(900)))[0]!;
    expect(still.heat.value).toBe(0);
    const range = (half: number) => Array.from({ length: 101 }, (_, i) => 900 + half * (i % 2 === 0 ? -1 : 1));
    const [narrow, wide] = [100, 400].map((half) => rideHeat(ridden(mixed, 2, range(half)))[0]!.heat.value);
    expect(wide!).toBeGreaterThan(3.5 * narrow!);
  });
});
