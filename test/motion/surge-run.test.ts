import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { runSurge, type SurgePeak, type SurgeRun } from "../../src/motion/index.ts";
import { type Rig, readRig, settle } from "../../src/rode/index.ts";
import { jonswap, readBoat } from "../../src/sea/index.ts";
import { snatchByEnergy, surgeInWaves } from "../../src/sizing/index.ts";
import { root } from "../support/command-line.ts";

const read = (path: string): string => readFileSync(join(root, path), "utf8");
const chain = readRig(read("data/examples/rigs/all-chain-afloat.yaml"), "chain.yaml");
const boat = readBoat(read("data/boats/marsh-tern.yaml"), "boat.yaml");
const held = (rig: Rig, newtons: number): number => {
  const settled = settle(rig, { at: "bow", newtons });
  if (settled.kind !== "settled") throw new Error(settled.cause);
  return settled.horizontal;
};
const peakOf = (rig: Rig, horizontal: number, surge: SurgeRun, options = {}): SurgePeak => {
  const found = runSurge(rig, horizontal, surge, options);
  if (found?.kind !== "peak") throw new Error("no peak");
  return found;
};
const fast: SurgeRun = { kind: "speed", speed: 0.7717, mass: 7940 };
const sea = jonswap(0.6, 3);
const waves = surgeInWaves(boat, sea, 9.1);
const H = held(chain, 1500);

describe("a surge as a short run in time", () => {
  it.each<[string, SurgeRun]>([
    ["at a speed", fast],
    ["to and fro over a distance", { kind: "distance", distance: 0.45, period: 3 }],
    ["in waves", waves],
  ])("%s changes its highest load by next to nothing with twice the elements and half the step", (_, surge) => {
    const finer = { elements: 32, step: surge.kind === "waves" ? 0.025 : 0.0125 };
    const [usual, fine] = [peakOf(chain, H, surge), peakOf(chain, H, surge, finer)];
    // In waves a tail is fitted, which a hundredth of a peak moves by more: less than it doubts itself.
    const close = surge.kind === "waves" ? usual.drawnU : 0.01 * fine.bow;
    expect(Math.abs(usual.bow - fine.bow)).toBeLessThan(close);
    expect(Math.abs(usual.moved / fine.moved - 1)).toBeLessThan(surge.kind === "waves" ? 0.03 : 0.01);
  });

  it("of a line that weighs and drags next to nothing ends where energy on its own curve says", () => {
    const light = readRig(
      `format: rodebench/rig@1
setting: { medium: air, rise: 0.5 m }
rode: [{ line: { length: 30 m, massPerLength: 0.001 kg/m, density: 1140 kg/m3, stretch: [[0.06, "1500 N"], [0.12, "5 kN"]] } }]
`,
      "light.yaml",
    );
    const surge = { kind: "speed", speed: 0.6, mass: 5000 } as const;
    const byEnergy = snatchByEnergy(light, { at: "bow", newtons: 800 }, surge);
    if (byEnergy.kind !== "snatch") throw new Error(byEnergy.kind);
    const ridden = peakOf(light, held(light, 800), surge, { step: 0.005 });
    // 2e-3: the step samples the peak, and the line is cut into straight pieces.
    expect(Math.abs(ridden.bow / byEnergy.peak.bow.tension - 1)).toBeLessThan(2e-3);
  });

  it("of all chain ends in a third of what energy says: drag and the chain's own mass take the rest (7.4 against 22.2 kN, common practice, no source)", () => {
    const byEnergy = snatchByEnergy(chain, { at: "bow", newtons: 1500 }, fast);
    if (byEnergy.kind !== "snatch") throw new Error(byEnergy.kind);
    expect(byEnergy.peak.bow.tension).toBeGreaterThan(20_000);
    const ridden = peakOf(chain, H, fast).bow;
    expect(Math.abs(ridden / 7400 - 1)).toBeLessThan(0.1);
  });

  it("of all chain moved by the sea pulls harder than at rest: the chain must be dragged along", () => {
    const surge = { kind: "distance", distance: 0.45, period: 3 } as const;
    const byEnergy = snatchByEnergy(chain, { at: "bow", newtons: 1500 }, surge);
    if (byEnergy.kind !== "snatch") throw new Error(byEnergy.kind);
    expect(peakOf(chain, H, surge).bow).toBeGreaterThan(1.3 * byEnergy.peak.bow.tension);
  });

  it("moved ever more slowly is the rode at rest", () => {
    const surge = { kind: "distance", distance: 0.3, period: 60 } as const;
    const still = snatchByEnergy(chain, { at: "bow", newtons: 1500 }, surge);
    if (still.kind !== "snatch") throw new Error(still.kind);
    // 1 %: a minute a stroke is not for ever.
    expect(Math.abs(peakOf(chain, H, surge, { step: 0.1 }).bow / still.peak.bow.tension - 1)).toBeLessThan(0.01);
  });

  it("in waves says what other draws of them say, within what it doubts", () => {
    const [one, ...others] = [1, 2, 3, 4].map((seed) => peakOf(chain, H, waves, { seed }));
    // Four draws of a normal law lie within 3.3 u of each other but once in a thousand; the tail of a fit is wider than normal.
    for (const other of others)
      expect(Math.abs(other.bow - one!.bow)).toBeLessThan(4 * Math.hypot(one!.drawnU, other.drawnU));
    expect(one!.drawnU).toBeGreaterThan(0.01 * one!.bow);
    expect(one!.drawnU).toBeLessThan(0.3 * one!.bow);
  });

  it("asks no more energy than the boat has: heavier seas end in less than her mass at their speed would", () => {
    const steep = surgeInWaves(boat, jonswap(1.2, 4), 9.1);
    const speed = (2 * Math.PI * steep.largest) / steep.period;
    const ridden = peakOf(chain, H, steep);
    const byEnergy = snatchByEnergy(chain, { at: "bow", newtons: 1500 }, { kind: "speed", speed, mass: steep.mass });
    if (byEnergy.kind !== "snatch") throw new Error(byEnergy.kind);
    expect(ridden.bow).toBeLessThan(byEnergy.peak.bow.tension);
  });
});
