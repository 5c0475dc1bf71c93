/** A rode cut into elements, its mass and weight lumped at nodes: together they are the rode's own. */
import { expect, it } from "vitest";
import { cutIntoElements } from "../../src/motion/index.ts";
import { lumped } from "../../src/motion/rode-state.ts";
import type { LinePart, Rig } from "../../src/rode/index.ts";
import { g, lineRig } from "./lines.ts";

const chain: LinePart = { ...(lineRig({}).rode[0] as LinePart), length: 12, massPerLength: 2.2 };
const rope: LinePart = { ...chain, length: 8, massPerLength: 0.2, density: 1140 };
const kellet = { kind: "point", name: "kellet", mass: 15, density: 11_000 } as const;
const afloat = (rode: Rig["rode"]): Rig => ({
  ...lineRig({}),
  setting: {
    ...{ medium: "water", depth: 6, rollerHeight: 1, waterDensity: 1025 },
    ...{ bottomSlope: 0, bottomFriction: 0, current: 0 },
  },
  rode,
});
const inWater = (mass: number, density: number) => mass * g * (1 - 1025 / density);

it("add up to its mass, and to its weight in water; a weight hung on it stands at its own node", () => {
  const e = cutIntoElements(afloat([chain, kellet, rope]), 40, 1000);
  const nodes = Array.from({ length: e.count + 1 }, (_, i) => lumped(e, i));
  const sum = (of: "mass" | "weight") => nodes.reduce((all, node) => all + node[of], 0);
  expect(sum("mass")).toBeCloseTo(12 * 2.2 + 15 + 8 * 0.2, 9);
  expect(sum("weight")).toBeCloseTo(inWater(26.4, 7850) + inWater(15, 11_000) + inWater(1.6, 1140), 6);
  // Half an element's chain below it, half one of rope above.
  const at = e.along.findIndex((s) => Math.abs(s - 12) < 1e-9);
  const below = 12 - e.along[at - 1]!;
  const above = e.along[at + 1]! - 12;
  expect(nodes[at]!.mass).toBeCloseTo(15 + 0.5 * (2.2 * below + 0.2 * above), 9);
  expect(nodes[at]!.weight).toBeCloseTo(
    inWater(15, 11_000) + 0.5 * (inWater(2.2 * below, 7850) + inWater(0.2 * above, 1140)),
    6,
  );
  // Half an element at either end.
  expect(nodes[0]!.mass).toBeCloseTo(1.1 * e.along[1]!, 9);
  expect(nodes.at(-1)!.mass).toBeCloseTo(0.1 * (20 - e.along[e.count - 1]!), 9);
});
