/** A boat surging on a line that is all but a spring: what she brings against what a spring takes, and a sea that moves her. */
import { describe, expect, it } from "vitest";
import { runSurge, type SurgePeak, type SurgeRun } from "../../src/motion/index.ts";
import { type Rig, readRig, settle } from "../../src/rode/index.ts";
import { jonswap } from "../../src/sea/index.ts";

// 30 m that weigh 3 N in all, half a metre up: straight to parts in a thousand under 800 N.
const EA = 40_000;
const L = 30;
const spring = readRig(
  `format: rodebench/rig@1
setting: { medium: air, rise: 0.5 m }
rode: [{ line: { length: 30 m, massPerLength: 0.01 kg/m, density: 1140 kg/m3, stiffness: 40 kN } }]
`,
  "spring",
);
const STIFF = EA / L;
const H0 = 800;
const peakOf = (surge: SurgeRun, rig: Rig = spring, horizontal = H0, options = {}): SurgePeak => {
  const found = runSurge(rig, horizontal, surge, { elements: 5, step: 0.02, ...options });
  if (found?.kind !== "peak") throw new Error("no peak");
  return found;
};

describe("a boat on a spring", () => {
  it.each([
    [0.5, 4000],
    [1, 2000],
    [0.2, 9000],
  ])("at %d m/s with %d kg goes as far as ½ m v² = ½ k d², and loads it so much more", (speed, mass) => {
    const far = speed * Math.sqrt(mass / STIFF);
    const { moved, bow, anchor, drawnU, anchorAngle } = peakOf({ kind: "speed", speed, mass });
    // The step samples the peak; the line's own mass is 0.3 kg, its way is not quite level.
    expect(Math.abs(moved / far - 1)).toBeLessThan(0.01);
    expect(Math.abs((bow - H0) / (STIFF * far) - 1)).toBeLessThan(0.015);
    expect(Math.abs(anchor / bow - 1)).toBeLessThan(0.005);
    expect(drawnU).toBe(0);
    expect(Math.abs(anchorAngle - 0.5 / L)).toBeLessThan(2e-3);
  });
  it.each([
    [0.3, 4],
    [0.3, 6],
    [0.12, 3],
  ])("moved %d m to either side in %d s is loaded by its stiffness, whatever the time", (distance, period) => {
    const { moved, bow, anchor, drawnU } = peakOf({ kind: "distance", distance, period });
    expect(Math.abs(moved / distance - 1)).toBeLessThan(0.005);
    expect(Math.abs((bow - H0) / (STIFF * distance) - 1)).toBeLessThan(0.02);
    expect(Math.abs(anchor / bow - 1)).toBeLessThan(0.01);
    expect(drawnU).toBe(0);
  });
  it("in waves resists them: the peak lies between rest and what the free boat's travel would load, its ± told", () => {
    const sea = jonswap(0.5, 3);
    const hull = { waterline: 8, draught: 0.5, reach: 4.5 };
    const surge: SurgeRun = { kind: "waves", sea, hull, period: 2.6, mass: 5000 };
    const coarse = { step: 0.1, elements: 3 };
    const one = peakOf(surge, spring, H0, coarse);
    expect(one.bow).toBeGreaterThan(H0 * 1.02);
    expect(one.bow).toBeLessThan(H0 + STIFF * 1.5);
    expect(one.drawnU).toBeGreaterThan(0);
    expect(one.drawnU).toBeLessThan(0.5 * one.bow);
    expect(peakOf(surge, spring, H0, { ...coarse, seed: 2 }).bow).not.toBe(one.bow);
    // A flat sea moves her by next to nothing, though the bow heaves as little.
    const flat = peakOf({ ...surge, sea: jonswap(0.01, 3) }, spring, H0, coarse);
    expect(Math.abs(flat.bow / H0 - 1)).toBeLessThan(0.02);
    expect(flat.moved).toBeLessThan(0.05);
  });
  it("that has no rest says why", () => {
    const short = { ...spring, rode: spring.rode.map((part) => ({ ...part, length: 0.3 })) } as Rig;
    const stiff = { ...short, rode: short.rode.map((part) => ({ ...part, stretch: { kind: "rigid" } })) } as Rig;
    expect(runSurge(stiff, H0, { kind: "speed", speed: 1, mass: 1000 })).toMatchObject({ kind: "noEquilibrium" });
  });
});

it("chain moved along by its shapes at rest begins with the load it rests under", () => {
  const chain = readRig(
    `format: rodebench/rig@1
setting: { medium: water, depth: 6 m, rollerHeight: 1 m, bottomFriction: 0.6 }
rode: [{ chain: { grade: "30", size: 8 mm, length: 30 m } }]
`,
    "chain",
  );
  const rest = settle(chain, { at: "horizontal", newtons: 900 });
  if (rest.kind !== "settled") throw new Error(rest.cause);
  const slow = peakOf({ kind: "speed", speed: 0.01, mass: 3000 }, chain, 900, { elements: 12 });
  // At a hundredth of a metre a second what she brings is a seventh of a joule.
  expect(Math.abs(slow.bow / rest.bow.tension - 1)).toBeLessThan(0.05);
  const quick = peakOf({ kind: "speed", speed: 0.5, mass: 3000 }, chain, 900, { elements: 12 });
  expect(quick.bow).toBeGreaterThan(1.2 * slow.bow);
  expect(quick.moved).toBeGreaterThan(slow.moved);
});
