/** All unknowns of a rode closed at once, from one that lies near: by itself, without the search that lays rodes out. */
import { describe, expect, it } from "vitest";
import { closeLegs, type Near } from "../../src/rode/contact/close-legs.ts";
import { contactRode, layContact } from "../../src/rode/contact/settle-contact.ts";
import type { Stepper } from "../../src/rode/contact/stepper.ts";
import type { LinePart, Rig } from "../../src/rode/index.ts";
import { rigInWater } from "./rig-in-water.ts";

const chain: LinePart = {
  ...{ kind: "line", name: "chain", length: 30, massPerLength: 2.3, density: 7850, diameter: 0.01, material: "chain" },
  stretch: { kind: "linear", stiffness: 5e6 },
};
const rope: LinePart = {
  ...{ kind: "line", name: "rope", length: 15, massPerLength: 0.12, density: 1140, diameter: 0.014, material: "rope" },
  stretch: { kind: "linear", stiffness: 9e4 },
};
const float = { kind: "point", name: "float", mass: 2, density: 200 } as const;
const rig = (rode: Rig["rode"], over: object): Rig => rigInWater(rode, { bottomFriction: 0.4, ...over });

describe.each<[string, Rig]>([
  ["of chain in a current", rig([chain], { current: 0.6 })],
  ["of chain and rope up a slope in a current", rig([chain, rope], { current: -0.5, bottomSlope: 0.05 })],
  ["with a float", rig([chain, float, { ...chain, length: 8 }, rope], {})],
  ["with a float in a current", rig([chain, float, { ...chain, length: 8 }, rope], { current: 0.4 })],
])("a rode %s", (_, of) => {
  const contact = contactRode(of);
  const { rode } = contact;
  let steps = 0;
  const stepper: Stepper = {
    ...contact.stepper,
    reach: (from, most) => {
      steps++;
      return contact.stepper.reach(from, most);
    },
  };
  const laid = (newtons: number) => {
    const found = layContact(contact, { at: "horizontal", newtons });
    if ("kind" in found) throw new Error(found.cause);
    return found;
  };
  // Alike in what they touch, or apart by a lift-off: each from the other.
  const loads = [150, 180, 900, 1100, 2500, 3500, 4500];
  const all = loads.map(laid);
  const shapeOf = ({ near }: { near: Near }) => near.legs.map(({ stage, stop }) => `${stage.kind} ${stop.at}`).join();
  it("closes from its neighbour on the same state, at rest or lifted, in a few walks", () => {
    let [tried, crossed] = [0, 0];
    for (const from of [0, 1, 2, 3, 4, 5, 6])
      for (const to of [from - 1, from + 1]) {
        const [a, b] = [all[from]!, all[to]];
        if (b === undefined || shapeOf(a) !== shapeOf(b)) continue;
        tried++;
        if (Math.sign(a.near.legs[0]!.value) !== Math.sign(b.near.legs[0]!.value)) crossed++;
        steps = 0;
        const target = loads[to]!;
        const { H, legs } = a.near;
        const closed = closeLegs(rode, stepper, { H, legs }, (end) => end.H / target - 1);
        if (closed.kind !== "closed") throw new Error(`${loads[from]} to ${target}: open`);
        expect(closed.H / b.near.H).toBeCloseTo(1, 8);
        expect(closed.laid.end.H / target).toBeCloseTo(1, 10);
        expect(closed.laid.end.z).toBeCloseTo(8, 9);
        closed.legs.forEach(({ value }, i) => {
          expect(Math.abs(value - b.near.legs[i]!.value)).toBeLessThan(1e-6 * (1 + Math.abs(value)));
        });
        expect(closed.laid.grounded).toBeCloseTo(b.laid.grounded, 6);
        expect(closed.laid.lift).toBeCloseTo(Math.max(0, b.near.legs[0]!.value), 4);
        // Differences and some walks, each of a few steps; once more where a lift-off is crossed.
        expect(steps, `${loads[from]} to ${target}`).toBeLessThanOrEqual(100 * legs.length);
        // With what it left behind, less still.
        const before = steps;
        steps = 0;
        const again = closeLegs(rode, stepper, closed, (end) => end.H / (target * 1.001) - 1);
        expect(again.kind).toBe("closed");
        expect(steps).toBeLessThan(before);
      }
    expect(tried).toBeGreaterThan(5);
    if (of.rode.length < 3) expect(crossed).toBeGreaterThan(0);
  });
  it("does not close on a bow that would have to push, or on what a rode cannot have", () => {
    // So much less than nothing that the current pulls the rode's end that way.
    if (of.setting.medium === "water" && of.setting.current > 0)
      expect(closeLegs(rode, stepper, { ...all[0]!.near }, (end) => (end.H + 20) / 100).kind).toBe("open");
    const { H, legs } = all[2]!.near;
    expect(closeLegs(rode, stepper, { H, legs }, () => 1).kind).toBe("open");
    expect(closeLegs(rode, stepper, { H, legs }, (end) => end.z / 9 - 1).kind).toBe("open");
  });
});
