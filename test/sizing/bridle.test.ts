import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { catalogue } from "../../src/gear/index.ts";
import { balanceByBrackets, balanceByNewton } from "../../src/sizing/bridle-balance.ts";
import { type Bridle, bridleAt, bridleLine, bridleReach, energyAt, loadAt, ropeOf } from "../../src/sizing/index.ts";

const rope = ropeOf({ fibre: "polyamide", lay: "three-strand", diameter: 0.014 }, catalogue, "rope");
const bridle = (heading: number, legs: [number, number] = [8, 8], beam = 2.6): Bridle => ({
  beam,
  heading,
  legs,
  stretch: rope.stretch,
});

describe("a bridle", () => {
  it("at zero heading is two equal springs: each leg carries half the pull over the cosine of its spread", () => {
    for (const pull of [200, 1000, 5000, 20_000]) {
      const at = bridleAt(bridle(0), pull);
      expect(at.legs[0]).toBeCloseTo(at.legs[1], 8);
      expect(at.across).toBeCloseTo(0, 12);
      const length = Math.hypot(at.along, 1.3);
      // Balanced to 1e-12 of the pull.
      expect((2 * at.legs[0] * at.along) / length / pull).toBeCloseTo(1, 10);
      expect(loadAt(rope.stretch, length / 8 - 1) / at.legs[0]).toBeCloseTo(1, 10);
    }
  });

  it("with its cleats in one place is two ropes side by side: twice the load at the strain of one", () => {
    const { length, stretch } = bridleLine(bridle(0, [8, 8], 1e-9));
    expect(length).toBeCloseTo(8, 9);
    for (const [strain, load] of stretch.kind === "curve" ? stretch.points : []) {
      expect(load / (2 * loadAt(rope.stretch, strain))).toBeCloseTo(1, 9);
    }
  });

  it("is balanced: the legs' pulls add up to the load along it and to nothing across, at any heading and lengths", () => {
    fc.assert(
      fc.property(
        fc.record({
          heading: fc.double({ min: -1.4, max: 1.4, noNaN: true }),
          first: fc.double({ min: 2, max: 20, noNaN: true }),
          second: fc.double({ min: 2, max: 20, noNaN: true }),
          beam: fc.double({ min: 0.2, max: 6, noNaN: true }),
          pull: fc.double({ min: 50, max: 30_000, noNaN: true }),
        }),
        ({ heading, first, second, beam, pull }) => {
          const one = bridle(heading, [first, second], beam);
          const { along, across, legs, turning } = bridleAt(one, pull);
          const [s, c] = [0.5 * beam * Math.sin(heading), 0.5 * beam * Math.cos(heading)];
          let [fx, fy, torque] = [0, 0, 0];
          for (const [i, [cx, cy]] of [
            [s, c],
            [-s, -c],
          ].entries()) {
            const [dx, dy] = [along - cx!, across - cy!];
            const length = Math.hypot(dx, dy);
            fx += (legs[i]! * dx) / length;
            fy += (legs[i]! * dy) / length;
            torque += (legs[i]! * (cx! * dy - cy! * dx)) / length;
          }
          expect(fx / pull).toBeCloseTo(1, 8);
          expect(fy / pull).toBeCloseTo(0, 8);
          // The moment about the middle, summed leg by leg.
          expect(torque / pull / beam).toBeCloseTo(turning / pull / beam, 7);
        },
      ),
      { seed: 21, numRuns: 300 },
    );
  });

  it("is found in the same place by Newton, who needs no other way, as by brackets", () => {
    for (const heading of [-1.2, -0.3, 0, 0.2, 0.9])
      for (const legs of [
        [8, 8],
        [3, 4.5],
        [15, 9],
      ] as const)
        for (const pull of [80, 1500, 25_000]) {
          const one = bridle(heading, [...legs]);
          const [newton, brackets] = [balanceByNewton(one, pull)!, balanceByBrackets(one, pull)];
          expect(newton, `${heading} ${legs} ${pull}`).not.toBeNull();
          expect(brackets[0]).toBeCloseTo(newton[0], 7);
          expect(brackets[1]).toBeCloseTo(newton[1], 7);
        }
  });

  it("lies where its energy less the pull's work is least", () => {
    const one = bridle(0.5, [8, 7.5]);
    const pull = 3000;
    const at = bridleAt(one, pull);
    const [s, c] = [1.3 * Math.sin(0.5), 1.3 * Math.cos(0.5)];
    const energy = (x: number, y: number): number =>
      8 * energyAt(rope.stretch, Math.hypot(x - s, y - c) / 8 - 1) +
      7.5 * energyAt(rope.stretch, Math.hypot(x + s, y + c) / 7.5 - 1) -
      pull * x;
    const least = energy(at.along, at.across);
    for (const [dx, dy] of [
      [0.01, 0],
      [-0.01, 0],
      [0, 0.01],
      [0, -0.01],
    ] as const)
      expect(energy(at.along + dx, at.across + dy)).toBeGreaterThan(least);
  });

  it("mirrors: the other heading swaps the legs and turns the moment round", () => {
    const [one, other] = [bridleAt(bridle(0.4), 2500), bridleAt(bridle(-0.4), 2500)];
    expect(other.legs[0]).toBeCloseTo(one.legs[1], 6);
    expect(other.legs[1]).toBeCloseTo(one.legs[0], 6);
    expect(other.turning).toBeCloseTo(-one.turning, 6);
  });

  it("loads the far leg more the farther the boat lies off, until the near one hangs slack, and turns it back", () => {
    let before = 0.5;
    for (const degrees of [5, 10, 15, 20, 30, 45]) {
      const { legs, turning } = bridleAt(bridle((degrees * Math.PI) / 180), 2500);
      const share = legs[1] / (legs[0] + legs[1]);
      if (legs[0] > 0) expect(share).toBeGreaterThan(before);
      else expect(share).toBe(1);
      expect(turning).toBeGreaterThan(0);
      before = share;
    }
    // At 45° the cleats lie 1.8 m apart along the pull, a quarter of the legs: more than this rope stretches at that load.
    expect(before).toBe(1);
  });

  it("hangs on one leg alone when the other is too long to reach", () => {
    const at = bridleAt(bridle(0, [6, 12]), 2500);
    expect(at.legs[1]).toBe(0);
    expect(at.legs[0] / 2500).toBeCloseTo(1, 9);
    expect(at.across).toBeCloseTo(1.3, 6);
    expect(bridleReach(bridle(0, [6, 12]))[0]).toBeCloseTo(6, 12);
  });
});
