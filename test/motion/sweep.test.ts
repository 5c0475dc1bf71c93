import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, it } from "vitest";
import {
  readSweep,
  rideOfSweep,
  SWEEP_COLUMNS,
  type Sweep,
  shardRide,
  shardRides,
  sweepPaths,
  sweepRides,
  sweepTotals,
  uncertaintyOf,
} from "../../src/motion/index.ts";
import { sweepPlace } from "../../src/motion/sweep.ts";
import { root } from "../support/command-line.ts";

const path = join(root, "data/examples/sweeps/chain-or-nylon.yaml");
const text = readFileSync(path, "utf8");
const files = Object.fromEntries(
  sweepPaths(text, "sweep.yaml").map((name) => [
    name,
    { text: readFileSync(join(dirname(path), name), "utf8"), place: name },
  ]),
);
const read = (changed = text): Sweep => readSweep(changed, "sweep.yaml", files);

describe("a sweep", () => {
  it("has every rig with every boat, weather and seed, each once", () => {
    const sweep = read();
    expect(sweepRides(sweep)).toBe(12);
    const places = Array.from({ length: 12 }, (_, ride) => JSON.stringify(sweepPlace(sweep, ride)));
    expect(new Set(places).size).toBe(12);
    for (const place of places) {
      const { rig, boat, weather, seed } = JSON.parse(place);
      expect([rig < 2, boat === 0, weather < 2, seed >= 1 && seed <= 3]).toEqual([true, true, true, true]);
    }
  });

  it("cut into any number of parts loses no ride and has none twice", () => {
    const sweep = read();
    for (const of of [1, 2, 3, 5, 12, 40]) {
      const rides: number[] = [];
      for (let part = 1; part <= of; part++)
        for (let k = 0; k < shardRides(sweep, { part, of }); k++) rides.push(shardRide({ part, of }, k));
      expect(rides.sort((a, b) => a - b)).toEqual(Array.from({ length: 12 }, (_, i) => i));
    }
  });

  it("rides the squall its file states, and answers in the columns it promises", () => {
    const sweep = read(text.replace("hours: 0.05", "hours: 0.04"));
    const row = rideOfSweep(sweep, 1);
    expect(Object.keys(row)).toEqual(SWEEP_COLUMNS.map(([name]) => name));
    expect([row.weather, row.outcome, row.seed]).toEqual(["squall", "ridden", 1]);
    const calm = rideOfSweep(sweep, 0);
    expect(Number(row.bow_largest_N)).toBeGreaterThan(2 * Number(calm.bow_largest_N));
  });

  it("tells a rig without an equilibrium instead of ending", () => {
    const sweep = read(text.replace("wind: 18 kn", "wind: 115 kn"));
    const short = { ...sweep, rigs: sweep.rigs.map((rig) => ({ ...rig, rode: [rig.rode[0]!] })) } as Sweep;
    const tiny = {
      ...short,
      rigs: short.rigs.map((rig) => ({ ...rig, rode: [{ ...rig.rode[0]!, length: 1 }] })),
    } as Sweep;
    const row = rideOfSweep(tiny, 0);
    expect(row.outcome).toBe("noEquilibrium");
    expect(row.bow_mean_N).toBeNull();
  });

  it.each([
    [text.replace("sweep@1", "sweep@2"), "format"],
    [text.replace("wind: 18 kn", "wind: 18 m"), "weather #1.wind"],
    [text.replace("wind: 18 kn", "wind: 300 kn"), "weather #1.wind"],
    [text.replace("0.4 m, 2.8 s", "2 m, 2.8 s"), "weather #1.sea"],
    [text.replace("90 s, 32 kn", "50 s, 32 kn"), "weather #2.shifts #2"],
    [text.replace("name: squall", "name: fresh"), "weather"],
    [text.replace("seeds: 1..3", "seeds: 3..1"), "seeds"],
    [text.replace("seeds: 1..3", "seeds: 0..2147483648"), "rides"],
    [text.replace("seeds: 1..3", "seeds: many"), "seeds"],
    [text.replace("hours: 0.05", "hours: 0"), "hours"],
    [text.replace("hours: 0.05", "hours: 48\nelements: 2000"), "elements"],
    [text.replace("\nseeds:", "\nseed:"), "seed"],
    [text.replace("  - ../../demo/marsh-tern-nylon.yaml\n", "  - 7\n"), "rigs #2"],
  ])("is refused where it is wrong (%#)", (changed, place) => {
    expect(() => read(changed)).toThrow(place);
  });
});

describe("sums over rides", () => {
  it("are those of the numbers themselves, whatever their order", () => {
    const values = [3, 9, 4, 1, 7, 7];
    const row = (v: number) => ({
      rig: "a",
      boat: "b",
      weather: "c",
      bow_mean_N: v,
      bow_largest_N: v,
      outcome: "ridden",
    });
    const totals = sweepTotals();
    for (const v of values) totals.add(row(v));
    const [one] = totals.cases();
    const mean = values.reduce((a, b) => a + b) / 6;
    const squares = values.reduce((sum, v) => sum + (v - mean) ** 2, 0);
    expect(one!.bowLargest.mean).toBeCloseTo(mean, 12);
    expect(uncertaintyOf(one!.bowLargest)).toBeCloseTo(Math.sqrt(squares / 5 / 6), 12);
    expect(one!.bowLargest.largest).toBe(9);
    expect(totals.cases()).toHaveLength(1);
  });
});
