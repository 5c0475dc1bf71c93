/** ± of sizing, heat and locker room, each worked again by hand. */
import { describe, expect, it } from "vitest";
import type { LinePart, Part, Rig } from "../../src/rode/index.ts";
import { facts, type Rope, ropeHeat, type Surge, snatchCertainty, stowed, surgePeak } from "../../src/sizing/index.ts";

const rope: LinePart = {
  kind: "line",
  name: "rope",
  length: 30,
  massPerLength: 0.12,
  density: 1140,
  diameter: 0.014,
  material: "rope",
  stretch: { kind: "linear", stiffness: 9e4 },
};
const chain: LinePart = {
  ...rope,
  name: "chain",
  length: 15,
  massPerLength: 2.3,
  density: 7850,
  material: "chain",
  stretch: { kind: "rigid" },
};
const rig: Rig = {
  name: "Rig",
  setting: {
    medium: "water",
    depth: 6,
    rollerHeight: 1,
    waterDensity: 1025,
    bottomSlope: 0,
    bottomFriction: 0,
    current: 0,
  },
  rode: [chain, rope],
  uncertainty: { massPerLength: 0.04, rise: 0.3 },
};

const bowOf = (of: Rig, steady: number, surge: Surge): number => {
  const found = surgePeak(of, steady, surge);
  if (found?.kind !== "peak") throw new Error("no peak");
  return found.bow;
};

describe("the ± of a snatch", () => {
  const load = { at: "horizontal", newtons: 900 } as const;
  const surge = { kind: "speed", speed: 0.8, mass: 7000 } as const;
  const peakOf = (of: Rig, steady: number, speed: number, mass: number): number =>
    bowOf(of, steady, { kind: "speed", speed, mass });
  const u = { load: 60, speed: 0.1, mass: 500, stretch: 0.15 };
  /** The rig with one thing moved, as its name says. */
  const moved: Readonly<Record<string, (by: number) => number>> = {
    "mass per length": (by) =>
      peakOf(
        {
          ...rig,
          rode: [chain, rope].map((part) => ({ ...part, massPerLength: part.massPerLength * (1 + 0.04 * by) })),
        },
        900,
        0.8,
        7000,
      ),
    rise: (by) =>
      peakOf({ ...rig, setting: { ...rig.setting, depth: 6 + 0.3 * by } as Rig["setting"] }, 900, 0.8, 7000),
    "stretch of the rope": (by) =>
      peakOf(
        { ...rig, rode: [chain, { ...rope, stretch: { kind: "linear", stiffness: 9e4 / (1 + 0.15 * by) } }] },
        900,
        0.8,
        7000,
      ),
    "rope worked quickly": (by) =>
      peakOf(
        {
          ...rig,
          rode: [chain, { ...rope, stretch: { kind: "linear", stiffness: 9e4 / (1 + facts.rope.quick.u * by) } }],
        },
        900,
        0.8,
        7000,
      ),
    // This chain does not stretch at all.
    "stretch of the chain": () => 0,
    "steady load": (by) => peakOf(rig, 900 + 60 * by, 0.8, 7000),
    speed: (by) => peakOf(rig, 900, 0.8 + 0.1 * by, 7000),
    "mass that moves": (by) => peakOf(rig, 900, 0.8, 7000 + 500 * by),
  };
  const own = Object.fromEntries(Object.entries(moved).map(([name, at]) => [name, at(0.5) - at(-0.5)]));
  const variance = Object.values(own).reduce((sum, one) => sum + one ** 2, 0);
  const peak = peakOf(rig, 900, 0.8, 7000);

  it("is the root of what each input moves it by, and each has its share", () => {
    const found = snatchCertainty(rig, load, surge, u, peak)!;
    expect(found.value).toBe(peak);
    // The same runs, differenced over the same half of u.
    expect(found.u! / Math.sqrt(variance)).toBeCloseTo(1, 3);
    expect(found.shares.map((one) => one.name).sort()).toEqual(Object.keys(own).sort());
    for (const { name, share } of found.shares) expect(share).toBeCloseTo(own[name]! ** 2 / variance, 3);
  });
  it("counts no input that is exact, and is none where all are", () => {
    const sure: Rig = { ...rig, uncertainty: {} };
    const still: Rig = { ...sure, rode: [{ ...chain, material: "wire" }] };
    expect(snatchCertainty(still, { at: "horizontal", newtons: 100 }, { ...surge, speed: 0.1 }, {}, peak)).toBeNull();
    const speed = snatchCertainty(sure, load, surge, { speed: 0.1 }, peak)!;
    expect(speed.shares.map(({ name }) => name)).toEqual(["rope worked quickly", "stretch of the chain", "speed"]);
    const others = own["rope worked quickly"]! ** 2 + own["stretch of the chain"]! ** 2;
    expect(speed.u! / Math.sqrt(own.speed! ** 2 + others)).toBeCloseTo(1, 3);
  });
  it("of a stated distance has the distance's own and neither speed's nor mass's", () => {
    const over = { kind: "distance", distance: 0.6 } as const;
    const found = snatchCertainty(
      { ...rig, uncertainty: {} },
      load,
      over,
      { distance: 0.05, speed: 1, mass: 1e3 },
      peak,
    )!;
    const at = (distance: number) => bowOf(rig, 900, { kind: "distance", distance });
    expect(found.shares.map((one) => one.name)).toEqual(["rope worked quickly", "stretch of the chain", "distance"]);
    const share = found.shares.find((one) => one.name === "distance")!.share;
    expect((found.u! * Math.sqrt(share)) / Math.abs(at(0.625) - at(0.575))).toBeCloseTo(1, 3);
  });
});

describe("heat in a cycled rope", () => {
  const { loss, specificHeat, film, conductivity } = facts.rope;
  const nylon = { fibre: "polyamide", massPerLength: 0.12, diameter: 0.014 } as Rope;
  const heat = ropeHeat(nylon, 8, 900, 6);
  it("is the loss share of what was stored, and warms the rope's own mass", () => {
    expect(heat.perCycle.value).toBeCloseTo(loss.polyamide!.value * 900, 9);
    expect(heat.perCycle.u).toBeCloseTo(loss.polyamide!.u * 900, 9);
    const kelvin = heat.perCycle.value / (0.12 * 8 * specificHeat.polyamide!.value);
    expect(heat.risePerCycle.value).toBeCloseTo(kelvin, 12);
    const relative = Math.hypot(
      loss.polyamide!.u / loss.polyamide!.value,
      specificHeat.polyamide!.u / specificHeat.polyamide!.value,
    );
    expect(heat.risePerCycle.u).toBeCloseTo(kelvin * relative, 12);
  });
  it("leaves an evenly warmed cylinder by its skin: P/(h π d L) + P/(4 π k L) (Carslaw & Jaeger, recalled)", () => {
    const perMetre = heat.perCycle.value / 6 / 8;
    const skin = perMetre / (film.value * Math.PI * 0.014);
    const core = perMetre / (4 * Math.PI * conductivity.value);
    expect(heat.steadyCore!.value).toBeCloseTo(skin + core, 9);
    const apart = Math.hypot(skin * (film.u / film.value), core * (conductivity.u / conductivity.value));
    expect(heat.steadyCore!.u).toBeCloseTo(
      Math.hypot(apart, (skin + core) * (loss.polyamide!.u / loss.polyamide!.value)),
      9,
    );
  });
  it("of one cycle alone has no steady core; of twice the rope half the rise; of an unknown fibre polyamide's figures", () => {
    expect(ropeHeat(nylon, 8, 900).steadyCore).toBeUndefined();
    expect(ropeHeat(nylon, 16, 900).risePerCycle.value).toBeCloseTo(heat.risePerCycle.value / 2, 12);
    expect(ropeHeat({ ...nylon, fibre: "hemp" }, 8, 900, 6)).toEqual(heat);
    const polyester = ropeHeat({ ...nylon, fibre: "polyester" }, 8, 900, 6);
    expect(polyester.risePerCycle.value).toBeCloseTo((0.15 * 900) / (0.12 * 8 * 1300), 9);
  });
});

describe("what a rode weighs and fills", () => {
  const kellet: Part = { kind: "point", name: "kellet", mass: 12, density: 7850 };
  it("is metal over the share of a heap that is metal, and a rope's round over that of a flaked heap", () => {
    const { chainSolid, ropeSolid } = facts.locker;
    const found = stowed([chain, kellet, rope]);
    expect(found.weight).toBeCloseTo(15 * 2.3 + 12 + 30 * 0.12, 12);
    const metal = (15 * 2.3 + 12) / 7850 / chainSolid.value;
    const round = ((Math.PI / 4) * 0.014 ** 2 * 30) / ropeSolid.value;
    expect(found.volume.value).toBeCloseTo(metal + round, 12);
    expect(found.volume.u).toBeCloseTo(
      Math.hypot(metal * (chainSolid.u / chainSolid.value), round * (ropeSolid.u / ropeSolid.value)),
      12,
    );
    const wire = stowed([{ ...chain, material: "wire" }]);
    expect(wire.volume.value).toBeCloseTo((15 * 2.3) / 7850 / chainSolid.value, 12);
  });
});
