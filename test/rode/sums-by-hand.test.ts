/** Stretch and energy summed along a rode, against catenaries; and the forces at its ends alone, against the whole answer. */
import { describe, expect, it } from "vitest";
import { endForcesOf, GRAVITY, type LinePart, type Rig, settle, settleTraced, shapeOf } from "../../src/rode/index.ts";

const rope: LinePart = {
  ...{ kind: "line", name: "rope", length: 40, massPerLength: 0.5, density: 1400, diameter: 0.02, material: "rope" },
  stretch: { kind: "linear", stiffness: 4e4 },
};
const chain: LinePart = {
  ...{ kind: "line", name: "chain", length: 30, massPerLength: 2.3, density: 7850, material: "chain" },
  stretch: { kind: "rigid" },
};
const rig = (rode: Rig["rode"], setting: object): Rig => ({
  name: "summed",
  setting: { bottomSlope: 0, bottomFriction: 0, ...setting } as Rig["setting"],
  rode,
  uncertainty: {},
});
const water = (depth: number, over: object = {}) => ({
  ...{ medium: "water", depth, rollerHeight: 1, waterDensity: 1025, current: 0 },
  ...over,
});
function traced(of: Rig, newtons: number) {
  const found = settleTraced(of, { at: "horizontal", newtons });
  if (!("settled" in found)) throw new Error(found.cause);
  return found;
}

describe("sums along a rode", () => {
  it("stretch an elastic line in air by ½[V T + H² asinh(V/H)]/w over its stiffness, and keep ½T² of it", () => {
    for (const H of [60, 300, 3000]) {
      const { settled, integrals } = traced(rig([rope], { medium: "air", rise: 12 }), H);
      const w = 0.5 * GRAVITY;
      const top = Math.sqrt(settled.bow.tension ** 2 - H * H);
      const hanging = rope.length - settled.grounded;
      const at = (V: number) => (V * Math.hypot(H, V) + H * H * Math.asinh(V / H)) / (2 * w);
      const bottom = top - w * hanging;
      const lies = H * settled.grounded;
      expect(integrals.stretch).toBeCloseTo((at(top) - at(bottom) + lies) / 4e4, 9);
      const squares = H * H * rope.length + (top ** 3 - bottom ** 3) / (3 * w);
      expect(integrals.strain).toBeCloseTo(squares / (2 * 4e4), 7);
    }
  });
  it("lift a body by its weight in water to the surface, by that in air above", () => {
    const body = { kind: "point", name: "weight", mass: 4, density: 8000 } as const;
    const over = { ...chain, name: "over", length: 0.5 };
    for (const rollerHeight of [0.2, 3]) {
      const of = rig([chain, body, over], water(6, { rollerHeight }));
      const found = traced(of, 900);
      const { z } = shapeOf(found).points[0]!;
      const inWater = 4 * GRAVITY * (1 - 1025 / 8000);
      expect(z > 6).toBe(rollerHeight > 1);
      expect(found.integrals.byPart.lift[1]).toBeCloseTo(
        inWater * Math.min(z, 6) + 4 * GRAVITY * Math.max(0, z - 6),
        7,
      );
    }
  });
});

describe("the forces at the ends alone", () => {
  it("are those of the whole answer, lifted or at rest, on a level bottom and up and down a slope", () => {
    let lifted = 0;
    for (const bottomSlope of [0, 0.08, -0.08]) {
      const of = rig([chain, { ...rope, length: 20 }], water(8, { bottomSlope, bottomFriction: 0.3 }));
      const ends = endForcesOf(of);
      for (const pull of [
        { at: "horizontal", newtons: 150 },
        { at: "horizontal", newtons: 4000 },
        { at: "anchor", newtons: 2500 },
        { at: "bow", newtons: 1200 },
      ] as const) {
        const [is, whole] = [ends(pull)!, settle(of, pull)];
        if (whole.kind === "noEquilibrium") throw new Error(whole.cause);
        if (is.angleToBottom > 0.01) lifted++;
        expect(is.anchorAngle).toBeCloseTo(whole.anchor.angle, 9);
        expect(is.angleToBottom).toBeCloseTo(whole.anchor.angle - bottomSlope, 9);
        expect(is.bowAngle).toBeCloseTo(whole.bow.angle, 9);
        expect(is.anchor).toBeCloseTo(whole.anchor.tension, 5);
        expect(is.bow / whole.bow.tension).toBeCloseTo(1, 9);
        expect(is.horizontal / whole.horizontal).toBeCloseTo(1, 9);
        expect(is.span).toBeCloseTo(whole.span, 8);
        expect(is.grounded).toBeCloseTo(whole.grounded, 8);
      }
    }
    expect(lifted).toBeGreaterThan(2);
  });
});
