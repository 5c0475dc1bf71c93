import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Plateau } from "../../../src/pull/trace/plateaus.ts";
import { matchSteps } from "../../../src/pull/trace/steps.ts";
import { InputError } from "../../../src/quantity/index.ts";

function plateau(load: number, from: number, to: number): Plateau {
  return {
    id: `plateau@${from}`,
    from,
    to,
    load: { value: load, u: 1 },
    creep: { value: 0, u: 0 },
    scatter: 1,
    effective: 10,
  };
}

describe("plateaus matched to the planned steps", () => {
  const plan = [1000, 2000, 3000].map((load) => ({ load, hold: 30 }));

  it("in their order, with how far off and how long", () => {
    const { steps, unplanned } = matchSteps(plan, [plateau(1020, 0, 30), plateau(1950, 40, 60), plateau(500, 70, 90)]);
    expect(steps.map((s) => s.outcome)).toEqual([
      { kind: "held", plateau: "plateau@0", off: expect.closeTo(0.02, 12), held: 30 },
      { kind: "cutShort", plateau: "plateau@40", off: expect.closeTo(-0.025, 12), held: 20 },
      { kind: "notReached" },
    ]);
    expect(unplanned).toEqual(["plateau@70"]);
  });

  it("a step held twice goes to the plateau nearer to the plan", () => {
    const { steps, unplanned } = matchSteps(plan, [
      plateau(1000, 0, 30),
      plateau(1880, 40, 70),
      plateau(2010, 80, 110),
    ]);
    expect(steps[1]!.outcome).toMatchObject({ plateau: "plateau@80" });
    expect(unplanned).toEqual(["plateau@40"]);
  });

  it("no pairing costs less (all pairings tried on small plans)", () => {
    const loads = fc.array(fc.double({ min: 500, max: 3000, noNaN: true }), { minLength: 0, maxLength: 4 });
    const alone = Math.log(1.25) ** 2 / 2;
    const least = (a: readonly number[], b: readonly number[]): number => {
      if (a.length === 0 || b.length === 0) return alone * (a.length + b.length);
      const d = Math.log(b[0]! / a[0]!);
      const pair = Math.abs(d) <= Math.log(1.25) ? d * d + least(a.slice(1), b.slice(1)) : Number.POSITIVE_INFINITY;
      return Math.min(pair, alone + least(a.slice(1), b), alone + least(a, b.slice(1)));
    };
    fc.assert(
      fc.property(loads, loads, (planned, held) => {
        const { steps, unplanned } = matchSteps(
          planned.map((load) => ({ load, hold: 10 })),
          held.map((load, i) => plateau(load, 100 * i, 100 * i + 20)),
        );
        let cost = alone * unplanned.length;
        for (const s of steps) cost += s.outcome.kind === "notReached" ? alone : Math.log(1 + s.outcome.off) ** 2;
        expect(cost).toBeCloseTo(least(planned, held), 10);
      }),
      { seed: 9, numRuns: 400 },
    );
  });

  it("a step without a load is refused", () => {
    expect(() => matchSteps([{ load: 0, hold: 10 }], [])).toThrow(InputError);
  });
});
