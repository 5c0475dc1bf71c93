/** What each part of a rode carries, and how it is written down: by two solvers alike, and by the forces at the ends. */
import { describe, expect, it } from "vitest";
import { settleContact } from "../../src/rode/contact/settle-contact.ts";
import {
  GRAVITY,
  type LinePart,
  type PointPart,
  partLoads,
  type Rig,
  readRig,
  rigToFile,
  settleTraced,
} from "../../src/rode/index.ts";
import { rng } from "../../src/statistics/index.ts";
import { plausiblePull, plausibleRig } from "./random-rigs.ts";

const chain: LinePart = {
  kind: "line",
  name: "chain",
  length: 14,
  massPerLength: 2.3,
  density: 7850,
  diameter: 0.01,
  material: "chain",
  stretch: { kind: "rigid" },
};
const point = (mass: number, density = 7850): PointPart => ({ kind: "point", name: `${mass} kg`, mass, density });
type WaterSetting = Extract<Rig["setting"], { medium: "water" }>;
const water: WaterSetting = {
  medium: "water",
  depth: 7,
  rollerHeight: 0,
  waterDensity: 1025,
  bottomSlope: 0,
  bottomFriction: 0.5,
  current: 0,
};
const rig = (rode: Rig["rode"], setting: Rig["setting"] = water): Rig => ({
  name: "rig",
  setting,
  rode,
  uncertainty: {},
});

describe("loads of the parts", () => {
  it("are the same by the fast solver and by the one for what touches", () => {
    let compared = 0;
    for (let seed = 1; seed <= 150; seed++) {
      const random = rng(seed);
      const of = plausibleRig(random);
      const pull = plausiblePull(random, of);
      const fast = settleTraced(of, pull);
      if (!("settled" in fast) || fast.settled.horizontal === 0) continue;
      const touching = settleContact(of, pull);
      if (!("settled" in touching)) continue;
      const [a, b] = [partLoads(fast), partLoads(touching)];
      const forces = fast.settled.bow.tension + fast.settled.anchor.tension;
      for (const [i, load] of a.entries()) expect(Math.abs(load - b[i]!)).toBeLessThan(1e-6 * forces);
      compared++;
    }
    expect(compared).toBeGreaterThan(100);
  });

  it.each([
    ["in still water", water],
    ["in a current", { ...water, current: 0.4 } as WaterSetting],
    ["with a float on the rode", water],
  ])("%s are the tensions beside each part: a point carries the more loaded of its two sides", (name, setting) => {
    const float: PointPart[] = name === "with a float on the rode" ? [point(2, 300)] : [];
    const of = rig([chain, point(9), { ...chain, length: 9 }, ...float, { ...chain, length: 6 }], setting);
    const traced = settleTraced(of, { at: "horizontal", newtons: 4000 });
    if (!("settled" in traced)) throw new Error(traced.cause);
    expect(traced.settled.grounded).toBe(0);
    const loads = partLoads(traced);
    // Tension grows toward the bow along what is heavier than water: a line's most is at its bow end.
    expect(loads.at(-1)).toBeCloseTo(traced.settled.bow.tension, 6);
    const H = traced.settled.horizontal;
    const hangs = (mass: number, density = 7850) => mass * GRAVITY * (1 - 1025 / density);
    if (setting === water && float.length === 0) {
      const V0 = traced.settled.anchor.tension * Math.sin(traced.settled.anchor.angle);
      const below = V0 + hangs(14 * 2.3);
      expect(loads[0]).toBeCloseTo(Math.hypot(H, below), 6);
      expect(loads[1]).toBeCloseTo(Math.hypot(H, below + hangs(9)), 6);
      expect(loads[2]).toBeCloseTo(Math.hypot(H, below + hangs(9) + hangs(9 * 2.3)), 6);
    }
    // A weight: as much as the line above it begins with; a float: as much as the line below ends with.
    expect(loads[1]).toBeGreaterThan(loads[0]!);
    expect(loads[1]).toBeLessThan(loads[2]!);
    if (float.length > 0) {
      expect(loads[3]).toBeCloseTo(loads[2]!, 6);
      expect(Math.hypot(H, Math.sqrt(loads[3]! ** 2 - H * H) + hangs(2, 300))).toBeLessThan(loads[3]!);
    }
  });

  it("of a weight hung in water next to the anchor counts its buoyancy", () => {
    const of = rig([point(20), { ...chain, length: 30 }]);
    const traced = settleTraced(of, { at: "horizontal", newtons: 9000 });
    if (!("settled" in traced)) throw new Error(traced.cause);
    const V0 = traced.settled.anchor.tension * Math.sin(traced.settled.anchor.angle);
    expect(partLoads(traced)[0]).toBeCloseTo(
      Math.hypot(traced.settled.horizontal, V0 + 20 * GRAVITY * (1 - 1025 / 7850)),
      6,
    );
  });
});

describe("a weight at rest on the bottom", () => {
  const friction = 0.5;
  const w = (mass: number) => mass * GRAVITY * (1 - 1025 / 7850);
  it("carries what pulls at it there, less than at the bow by the friction between; the bottom carries its own weight", () => {
    // 40 m of chain rest before the weight, so much that the pull never reaches it: slack there, it carries nothing.
    const far = settleTraced(rig([{ ...chain, length: 5 }, point(12), { ...chain, length: 80 }]), {
      at: "bow",
      newtons: 500,
    });
    if (!("settled" in far)) throw new Error(far.cause);
    expect(far.settled.grounded).toBeGreaterThan(50);
    expect(partLoads(far)[1]).toBe(0);
    // Nearer: H less the friction of all that rests between the weight and where the chain leaves the bottom.
    const near = settleTraced(rig([{ ...chain, length: 20 }, point(12), { ...chain, length: 60 }]), {
      at: "bow",
      newtons: 900,
    });
    if (!("settled" in near)) throw new Error(near.cause);
    const between = near.settled.grounded - 20;
    expect(between).toBeGreaterThan(1);
    expect(partLoads(near)[1]).toBeCloseTo(near.settled.horizontal - friction * w(2.3 * between), 6);
  });
  it("next to the anchor carries the anchor's own load and the friction on itself", () => {
    const traced = settleTraced(rig([point(2), { ...chain, length: 60 }]), { at: "bow", newtons: 1600 });
    if (!("settled" in traced)) throw new Error(traced.cause);
    expect(traced.settled.grounded).toBeGreaterThan(1);
    expect(partLoads(traced)[0]).toBeCloseTo(traced.settled.anchor.tension + friction * w(2), 6);
  });
});

describe("a rig written down", () => {
  it.each([
    [10_000, '"?10 kN'],
    [9999, '"?9999 N'],
    [12_500, '"?12.5 kN'],
    [4448.2216152605, '"?1000 lbf'],
  ])("states a strength of %d N as people do", (workingLoad, text) => {
    const of = rig([{ ...chain, length: 40, workingLoad }]);
    const written = rigToFile(of);
    expect(written).toMatch(new RegExp(`workingLoad: ${text}`));
    expect((readRig(written, "rig").rode[0] as LinePart).workingLoad).toBe(workingLoad);
  });
  it("keeps each field of its setting its own", () => {
    const setting = {
      ...water,
      depth: 7.25,
      rollerHeight: 1.375,
      current: 0.5,
      bottomSlope: (3 * Math.PI) / 180,
      bottomFriction: 0.625,
      waterDensity: 1010,
    } as WaterSetting;
    const back = readRig(rigToFile(rig([{ ...chain, length: 40 }], setting)), "rig").setting;
    expect(back).toEqual(setting);
  });
});
