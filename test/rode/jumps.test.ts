/** A rode that snaps from one shape to another as the pull grows: what is stated between the two is no answer. */
import { describe, expect, it, vi } from "vitest";
import type * as Close from "../../src/rode/contact/close-legs.ts";
import type * as Laying from "../../src/rode/contact/lay-out.ts";
import { contactRode, layContact } from "../../src/rode/contact/settle-contact.ts";
import { TO_BOW } from "../../src/rode/contact/walk.ts";
import type { Rig } from "../../src/rode/index.ts";

/** Forces at the bow below and above a force of 700 N at the lowest end, as a share of it. */
const shape = vi.hoisted(() => ({ below: 1, above: 1, refused: 0, asked: 0 }));
vi.mock("../../src/rode/contact/close-legs.ts", async (original) => ({
  ...(await original<typeof Close>()),
  closeLegs: () => ({ kind: "open", H: Number.NaN }),
}));
vi.mock("../../src/rode/contact/lay-out.ts", async (original) => {
  const real = await original<typeof Laying>();
  const layOut: typeof real.layOut = (_rode, _stepper, H) => {
    shape.asked++;
    if (H < shape.refused) return "stuck";
    const end = { part: 0, offset: 0, x: 10, z: 8, H: H * (H < 700 ? shape.below : shape.above), V: 0, inAir: false };
    return { legs: [{ stage: { kind: "anchor", H }, value: 0, stop: TO_BOW }], end, anchor: H, lift: 0, grounded: 0 };
  };
  return { ...real, layOut };
});

const rig: Rig = {
  name: "snapping",
  setting: {
    ...{ medium: "water", depth: 7, rollerHeight: 1, waterDensity: 1025 },
    ...{ bottomSlope: 0, bottomFriction: 0, current: 0 },
  },
  rode: [
    {
      ...{ kind: "line", name: "chain", length: 30, massPerLength: 2, density: 7850 },
      stretch: { kind: "rigid" },
    },
    { kind: "point", name: "float", mass: 3, density: 200 },
  ],
  uncertainty: {},
};
const laid = (newtons: number, below: number, above: number, refused = 0) => {
  Object.assign(shape, { below, above, refused, asked: 0 });
  return layContact(contactRode(rig), { at: "horizontal", newtons });
};

describe("a load that is stated within a jump", () => {
  it("has no answer, whether the shape below it or the one above it is nearer", () => {
    // 700 N below and 1400 N above; 650 N below and 720 N above.
    expect(laid(720, 1, 2)).toMatchObject({ kind: "noEquilibrium", cause: "noSuchValue", given: 720 });
    expect(laid(1390, 1, 2)).toMatchObject({ kind: "noEquilibrium", cause: "noSuchValue", given: 1390 });
  });
  it("on either side of the jump has its own, found in a few dozen tries", () => {
    for (const [newtons, force] of [
      [300, 300],
      [690, 690],
      [1500, 750],
      [9000, 4500],
    ] as const) {
      const answer = laid(newtons, 1, 2);
      if ("kind" in answer) throw new Error(answer.cause);
      expect(Math.abs(answer.H / force - 1)).toBeLessThan(1e-9);
      expect(Math.abs(answer.laid.end.H / newtons - 1)).toBeLessThan(1e-9);
      expect(shape.asked).toBeLessThan(100);
    }
  });
  it("is looked for from below where nothing is laid out at the load itself", () => {
    // From 600 N on it is laid out; what is stated lies at 800.
    const answer = laid(400, 0.5, 0.5, 600);
    // Halved from 400 on, no force is laid out at all.
    expect(answer).toMatchObject({ kind: "noEquilibrium", cause: "unknownState" });
    const found = laid(1000, 0.5, 0.5, 600);
    if ("kind" in found) throw new Error(found.cause);
    expect(found.H).toBeCloseTo(2000, 5);
  });
});
