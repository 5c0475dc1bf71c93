import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type DrawChains, type Pull, sampleOneChain } from "../../src/holding/index.ts";
import { beliefOf, drawTruths, powerWith, readSeries } from "../../src/series/index.ts";
import { normalBelow, rng } from "../../src/statistics/index.ts";

const series = readSeries(readFileSync("data/series/creek-trial.yaml", "utf8"), "x");
const drawHere: DrawChains = (input, plan) =>
  Promise.resolve(Array.from({ length: plan.chains }, (_, chain) => sampleOneChain(input, plan, chain)));
const random = rng(21);
/** Forty pulls of each anchor, all of which gave way, at one angle. */
const pulls: Pull[] = Array.from({ length: 80 }, (_, i) => ({
  anchor: i % 2 === 0 ? "Plough A" : "Scoop B",
  hold: { kind: "gaveWay", newtons: 1800 * Math.exp((i % 2 === 0 ? 0 : 0.3) + 0.4 * random.normal()) },
}));
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const sd = (values: readonly number[]) =>
  Math.sqrt(values.reduce((sum, value) => sum + (value - mean(values)) ** 2, 0) / (values.length - 1));

describe("truths drawn on the pulls so far", () => {
  it("lie about the difference of the two means as two samples of a normal law tell it", async () => {
    const drawn = await drawTruths({ ...series, pulls }, drawHere);
    if (drawn.kind !== "drawn") throw new Error(drawn.kind);
    const logs = (name: string) =>
      pulls.flatMap(({ anchor, hold }) => (anchor === name && hold.kind === "gaveWay" ? [Math.log(hold.newtons)] : []));
    const [a, b] = [logs("Plough A"), logs("Scoop B")];
    const scatter = Math.sqrt((sd(a) ** 2 + sd(b) ** 2) / 2);
    // Closed form: the difference of means with deviation σ √(2/n). The prior of the anchors (0.7 and wider) draws it toward
    // nothing by some hundredths; 400 draws leave a twentieth of the deviation.
    const u = scatter * Math.sqrt(2 / 40);
    const differences = drawn.truths.map(({ terms }) => terms[2]! - terms[1]!);
    expect(Math.abs(mean(differences) - (mean(b) - mean(a)))).toBeLessThan(0.35 * u);
    expect(sd(differences) / u).toBeGreaterThan(0.85);
    expect(sd(differences) / u).toBeLessThan(1.15);
    expect(Math.abs(mean(drawn.truths.map(({ sigma }) => sigma)) / scatter - 1)).toBeLessThan(0.05);
    expect(await drawTruths({ ...series, pulls }, drawHere)).toEqual(drawn);
  });

  it("are none where no pull of these anchors is held", async () => {
    expect(await drawTruths({ ...series, pulls: [] }, drawHere)).toEqual({ kind: "noPulls" });
    const other: Pull[] = pulls.map((pull) => ({ ...pull, anchor: "Fluke C" }));
    expect(await drawTruths({ ...series, pulls: other }, drawHere)).toEqual({ kind: "noPulls" });
  });

  it("give the closed form of how many pulls where their scatter is one and no pull is ended", () => {
    // Φ(δ √(n/2) / σ − z), z = 1.6449 (recalled), as for a normal law.
    const truth = { terms: beliefOf(series)!.mean, sigma: 0.6 };
    const expected = normalBelow((Math.log(1.5) * Math.sqrt(40 / 2)) / 0.6 - 1.6449);
    const { share } = powerWith({ ...series, angles: [0.1] }, [truth], [Number.POSITIVE_INFINITY], 40, 1500);
    expect(Math.abs(share - expected)).toBeLessThan(4 * Math.sqrt((expected * (1 - expected)) / 1500) + 0.02);
  });
});
