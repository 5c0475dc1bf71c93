import { describe, expect, it } from "vitest";
import {
  ANCHOR_ANGLE,
  ANCHOR_TENSION,
  atRest,
  BOW_TENSION,
  bodyBow,
  cutIntoElements,
  END_SLOTS,
  endForces,
  generalisedAlpha,
  ledBow,
  step,
  surroundingsOf,
} from "../../src/motion/index.ts";
import { type Part, type Rig, riseOf, type Setting, settle, settleTraced } from "../../src/rode/index.ts";

const chain: Part = {
  kind: "line",
  name: "chain",
  length: 40,
  massPerLength: 2.3,
  density: 7850,
  diameter: 0.01,
  stretch: { kind: "linear", stiffness: 1e7 },
  material: "chain",
};
const nylon: Part = {
  kind: "line",
  name: "nylon",
  length: 20,
  massPerLength: 0.12,
  density: 1140,
  stretch: {
    kind: "curve",
    points: [
      [0.06, 1500],
      [0.12, 5000],
    ],
  },
  material: "rope",
};
const water: Setting = {
  medium: "water",
  depth: 8,
  rollerHeight: 1.5,
  waterDensity: 1025,
  bottomSlope: 0,
  bottomFriction: 0,
  current: 0,
};
const rig = (rode: readonly Part[], setting: Setting): Rig => ({ name: "", setting, rode, uncertainty: {} });

/** Loads at both ends, N, and the angle at the anchor, once a mass pulled by a steady force hangs still on the rode. */
function pulledStill(r: Rig, horizontal: number, elements: number): Float64Array {
  const traced = settleTraced(r, { at: "horizontal", newtons: 0.8 * horizontal });
  if (!("settled" in traced)) throw new Error(traced.cause);
  const e = cutIntoElements(r, elements, horizontal);
  const state = atRest(traced, e, surroundingsOf(r));
  // Drawn back slowly, as `settle` takes it; z is held. Heavy damping: the way there does not matter.
  const bow = bodyBow({
    mass: [200, 200, Number.POSITIVE_INFINITY],
    damping: 4000,
    force: (_q, _rate, _t, out) => {
      out.fill(0);
      out[0] = horizontal;
    },
  });
  for (let k = 0; k < 6000; k++) step(state, bow, generalisedAlpha(0), 0.05);
  const out = new Float64Array(END_SLOTS);
  endForces(state, out);
  return out;
}

describe("a moving rode left to itself comes to rest where settle has it", () => {
  // Bound: ten times what 100 elements differ by in a lifted rode (3e-6), for the half element at the touchdown.
  it.each([
    ["all chain, some at rest", rig([chain], water), 900],
    ["all chain, lifted", rig([chain], water), 6000],
    [
      "chain, kellet and nylon",
      rig([chain, { kind: "point", name: "kellet", mass: 15, density: 7850 }, nylon], water),
      1500,
    ],
    ["hanging in air", rig([chain], { medium: "air", rise: 9, bottomSlope: 0, bottomFriction: 0 }), 1500],
  ])("%s", (_, r, horizontal) => {
    const still = settle(r, { at: "horizontal", newtons: horizontal });
    if (still.kind !== "settled") throw new Error(still.cause);
    const ends = pulledStill(r, horizontal, 100);
    expect(ends[ANCHOR_TENSION]! / still.anchor.tension).toBeCloseTo(1, 4);
    expect(ends[BOW_TENSION]! / still.bow.tension).toBeCloseTo(1, 4);
    expect(ends[ANCHOR_ANGLE]!).toBeCloseTo(still.anchor.angleToBottom, 3);
  });

  it("with friction and a slope, drawn back over the bottom by a metre", () => {
    const r = rig([chain], { ...water, bottomSlope: 0.05, bottomFriction: 0.7 });
    const horizontal = 1200;
    const traced = settleTraced(r, { at: "horizontal", newtons: 300 });
    const there = settle(r, { at: "horizontal", newtons: horizontal });
    if (!("settled" in traced) || there.kind !== "settled") throw new Error("no equilibrium");
    const state = atRest(traced, cutIntoElements(r, 100, horizontal), surroundingsOf(r));
    const from = traced.settled.span;
    const bow = ledBow((t, p, v, a) => {
      const share = Math.min(1, t / 200);
      p[0] = from + share * (there.span - from);
      p[1] = 0;
      p[2] = riseOf(r.setting);
      v.fill(0);
      v[0] = t < 200 ? (there.span - from) / 200 : 0;
      a.fill(0);
    });
    for (let k = 0; k < 8000; k++) step(state, bow, generalisedAlpha(0), 0.05);
    const out = new Float64Array(END_SLOTS);
    endForces(state, out);
    expect(out[BOW_TENSION]! / there.bow.tension).toBeCloseTo(1, 3);
    // Friction moves with the last tenth of a millimetre: the anchor's load is held to a hundredth of the bow's.
    expect(Math.abs(out[ANCHOR_TENSION]! - there.anchor.tension) / there.bow.tension).toBeLessThan(0.01);
  });
});
