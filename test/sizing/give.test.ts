import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { loadSweep } from "../../src/rode/index.ts";
import { type Give, giveBetween } from "../../src/sizing/index.ts";
import { allChain, inAir, kelleted, mixed, rigOf, rubbing, settled, straightRope } from "./rigs.ts";

function giveOf(...asked: Parameters<typeof giveBetween>): Give {
  const give = giveBetween(...asked);
  if (give.kind !== "give") throw new Error(give.cause);
  return give;
}

const whole = ({ parts }: Give) =>
  parts.reduce(
    (sum, { lift, stretch }) => ({
      movement: sum.movement + lift.movement + stretch.movement,
      energy: sum.energy + lift.energy + stretch.energy,
    }),
    { movement: 0, energy: 0 },
  );

describe("give by part", () => {
  it.each([
    ["all chain", allChain],
    ["chain, kellet and rope", mixed],
    ["a kellet between ropes", kelleted],
    ["chain in air", inAir],
    ["a light rope", straightRope],
  ])("adds up to the ladder's movement and work: %s", (_, rig) => {
    for (const [from, to] of [
      [300, 900],
      [900, 6000],
      [50, 20_000],
    ] as const) {
      const rungs = loadSweep(
        rig,
        [from, to].map((newtons) => ({ at: "horizontal", newtons })),
      );
      const rung = rungs[1]!;
      if (rung.kind !== "rung") throw new Error(rung.cause);
      const parts = whole(giveOf(rig, from, to));
      // Both sides are integrals closed to 1e-10 of themselves; two digits are left for the sums.
      expect(Math.abs(parts.movement / rung.movement - 1)).toBeLessThan(1e-8);
      expect(Math.abs(parts.energy / rung.work - 1)).toBeLessThan(1e-8);
    }
  });

  it("adds up for any rode of chain, kellet and rope, at any two loads", () => {
    fc.assert(
      fc.property(
        fc.record({
          depth: fc.double({ min: 2, max: 30, noNaN: true }),
          chain: fc.double({ min: 1.2, max: 6, noNaN: true }),
          rope: fc.double({ min: 0.3, max: 3, noNaN: true }),
          kellet: fc.double({ min: 0.5, max: 40, noNaN: true }),
          load: fc.double({ min: 100, max: 5000, noNaN: true }),
          times: fc.double({ min: 1.05, max: 12, noNaN: true }),
        }),
        ({ depth, chain, rope, kellet, load, times }) => {
          const rig = rigOf(
            `medium: water, depth: ${depth} m, rollerHeight: 1.3 m`,
            `chain: { grade: 30, size: 10 mm, length: ${chain * depth} m }`,
            `weight: { mass: ${kellet} kg, density: 7850 }`,
            `rope: { fibre: polyamide, lay: three-strand, diameter: 14 mm, length: ${rope * depth} m }`,
          );
          const give = giveOf(rig, load, load * times);
          expect(Math.abs(give.rest.movement)).toBeLessThan(1e-7 * give.movement);
          expect(Math.abs(give.rest.energy)).toBeLessThan(1e-7 * give.work);
        },
      ),
      { seed: 20, numRuns: 25 },
    );
  });

  it("gathers the parts by how they give, and loses none", () => {
    const { shares, movement, work } = giveOf(mixed, 400, 4000);
    const all = [shares.lifting, shares.kellet, shares.stretchingRope, shares.stretchingChain, shares.rest];
    expect(all.reduce((sum, one) => sum + one.movement, 0)).toBeCloseTo(movement, 9);
    expect(all.reduce((sum, one) => sum + one.energy, 0) / work).toBeCloseTo(1, 9);
    for (const one of all.slice(0, 4)) expect(one.movement).toBeGreaterThan(0);
  });

  it("a light rope moves by its stretch over the cosine of its slope, as geometry has it", () => {
    const rig = rigOf(
      "medium: air, rise: 3 m",
      "line: { length: 20 m, massPerLength: 1e-6 kg/m, density: 1140, stiffness: 90 kN }",
    );
    const give = giveOf(rig, 1000, 1001);
    const [a, b] = [settled(rig, 1000), settled(rig, 1001)];
    const cosine = Math.cos(a.bow.angle);
    // First order in a step of a thousandth, and no weight to speak of.
    expect(give.shares.stretchingRope.movement).toBeCloseTo((b.stretch - a.stretch) / cosine, 7);
    expect(give.movement).toBeCloseTo((b.stretch - a.stretch) / cosine, 7);
  });

  it("is the same taken in two steps as in one, part by part", () => {
    const [one, a, b] = [giveOf(mixed, 400, 3000), giveOf(mixed, 400, 1100), giveOf(mixed, 1100, 3000)];
    one.parts.forEach((part, i) => {
      expect(a.parts[i]!.lift.movement + b.parts[i]!.lift.movement).toBeCloseTo(part.lift.movement, 9);
      expect(a.parts[i]!.stretch.movement + b.parts[i]!.stretch.movement).toBeCloseTo(part.stretch.movement, 9);
    });
  });

  it("what friction takes is in no part, and is work at forces between the two loads", () => {
    const { rest, work } = giveOf(rubbing, 500, 3000);
    expect(rest.energy).toBeGreaterThan(1e-9 * work);
    expect(rest.energy / rest.movement).toBeGreaterThan(500);
    expect(rest.energy / rest.movement).toBeLessThan(3000);
  });

  it("a kellet's give is its weight in water times its rise, over the force", () => {
    const give = giveOf(kelleted, 800, 801);
    const kellet = give.parts[2]!;
    expect(kellet.kind).toBe("point");
    expect(kellet.lift.energy).toBeGreaterThan(0);
    // Over a step of a thousandth the force is 800.5 to 1e-6.
    expect(kellet.lift.movement * 800.5).toBeCloseTo(kellet.lift.energy, 6);
  });

  it("says why there is none for a rode that is too short", () => {
    const short = rigOf("medium: air, rise: 9 m", "chain: { grade: 30, size: 10 mm, length: 8 m }");
    expect(giveBetween(short, 500, 800).kind).toBe("noEquilibrium");
  });
});
