import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Pull } from "../../src/holding/index.ts";
import {
  type Belief,
  beliefOf,
  informationAt,
  nextPulls,
  planSeries,
  powerOf,
  powerWith,
  readSeries,
} from "../../src/series/index.ts";
import { normalBelow, rng } from "../../src/statistics/index.ts";

const TEXT = readFileSync("data/series/creek-trial.yaml", "utf8");
const series = readSeries(TEXT, "x");
const oneAngle = { ...series, angles: [0.1] };
/** A belief with a scatter that is known, as if from pulls. */
const known = (sigma: number): Belief => ({ ...beliefOf(series)!, sigma, pulls: 1 });

describe("how many pulls, by simulation", () => {
  // Closed form of two samples of a normal law with known scatter: Φ(δ √(n/2) / σ − z), z = 1.6449 (recalled).
  it.each([
    [0.75, 60],
    [0.5, 60],
    [0.9, 100],
  ])("is the closed form where no pull is ended: σ = %s, %s pulls of each", (sigma, each) => {
    const expected = normalBelow((Math.log(1.5) * Math.sqrt(each / 2)) / sigma - 1.6449);
    const { share, ended } = powerWith(oneAngle, known(sigma), [Number.POSITIVE_INFINITY], each, 1500);
    // Four standard deviations of 1500 series, and 0.02 for a scatter that is fitted instead of known.
    expect(Math.abs(share - expected)).toBeLessThan(4 * Math.sqrt((expected * (1 - expected)) / 1500) + 0.02);
    expect(ended).toBe(0);
  });

  it("falls as the engine ends more pulls, and tells the contrary hardly ever", () => {
    const shares = [Number.POSITIVE_INFINITY, 2000, 600].map((limit) =>
      powerWith(oneAngle, known(0.6), [limit], 40, 600),
    );
    expect(shares[1]!.ended).toBeGreaterThan(shares[0]!.ended);
    expect(shares[2]!.ended).toBeGreaterThan(shares[1]!.ended);
    expect(shares[1]!.share).toBeLessThan(shares[0]!.share);
    expect(shares[2]!.share).toBeLessThan(shares[1]!.share);
    for (const { wrong } of shares) expect(wrong).toBeLessThan(0.02);
  });

  it("is the same for the same seed, and not told where nobody knows about which load the anchors give way", () => {
    const plan = planSeries(series);
    expect(powerOf(series, plan.table, 40)).toEqual(powerOf(series, plan.table, 40));
    const light = { ...series, anchors: [{ name: "Plough A" }, { name: "Scoop B" }] };
    expect(powerOf(light, plan.table, 40)).toEqual({ kind: "massUnknown" });
    expect(nextPulls(light, plan.table)).toEqual([]);
  });
});

describe("what a pull ended at a load tells of its centre", () => {
  it("is the mean square of the slope of its log-likelihood, by drawing pulls", () => {
    const random = rng(11);
    for (const z of [-1.5, -0.5, 0, 0.8, 2]) {
      let sum = 0;
      const draws = 200_000;
      for (let i = 0; i < draws; i++) {
        const x = random.normal();
        // d/dη of ln φ(x − η) is x; of ln(1 − Φ(z − η)) it is φ(z)/(1 − Φ(z)).
        const hazard = Math.exp(-z * z * 0.5) / Math.sqrt(2 * Math.PI) / (1 - normalBelow(z));
        sum += (x <= z ? x : hazard) ** 2;
      }
      // Four standard deviations of a mean of such squares.
      expect(Math.abs(informationAt(z) - sum / draws)).toBeLessThan(4 * Math.sqrt(3 / draws));
    }
  });

  it("goes from nothing to all that a free pull tells", () => {
    expect(informationAt(-9)).toBe(0);
    expect(informationAt(9)).toBe(1);
    expect(informationAt(7.9)).toBeCloseTo(1, 9);
  });
});

describe("the next best pull", () => {
  const pull = (anchor: string, newtons: number): Pull => ({
    anchor,
    hold: { kind: "gaveWay", newtons },
    anchorAngle: 0.05,
  });
  const table = planSeries(series).table;
  it("is one of the anchor of which fewer pulls are held, and says so", () => {
    const held = { ...series, pulls: [1500, 1700, 1400, 1600, 1550].map((newtons) => pull("Plough A", newtons)) };
    const [best, ...others] = nextPulls(held, table);
    expect(best!.anchor).toBe("Scoop B");
    expect(best!.reason).toEqual({ kind: "leastPulled", pulls: 0 });
    expect(others.at(-1)!.anchor).toBe("Plough A");
    expect(best!.gain).toBeGreaterThan(others.at(-1)!.gain);
  });

  it("gains what the variance of the difference falls by, worked out anew with that pull held", () => {
    // The limit far off, so that the pull tells all; σ is fixed so long as few pulls are held.
    const far = table.map((cell) => (cell.had === null ? cell : { ...cell, load: 1e9 }));
    const [best] = nextPulls(series, far);
    const varianceOf = (belief: Belief) => {
      const c = new Float64Array(belief.size);
      c[1] = 1;
      c[2] = -1;
      // By Gaussian elimination of L Lᵀ x = c, written out here.
      const y = new Float64Array(belief.size);
      for (let i = 0; i < belief.size; i++) {
        let sum = c[i]!;
        for (let k = 0; k < i; k++) sum -= belief.factor[i * belief.size + k]! * y[k]!;
        y[i] = sum / belief.factor[i * belief.size + i]!;
      }
      return y.reduce((sum, value) => sum + value * value, 0);
    };
    const after = { ...series, pulls: [{ ...pull(best!.anchor, 2000), anchorAngle: best!.angle }] };
    const shrinks = 1 - Math.sqrt(varianceOf(beliefOf(after)!) / varianceOf(beliefOf(series)!));
    expect(best!.gain).toBeCloseTo(shrinks, 6);
  });

  it("of a question about the angle is at an end of the range", () => {
    const asked = { ...series, question: "letsGo" as const, tell: 0.03, angles: [0.02, 0.1, 0.3] };
    const [best] = nextPulls(asked, []);
    expect([0.02, 0.3]).toContain(best!.angle);
    expect(best!.reason.kind).toMatch(/farAngle|likelyEnded/);
  });
});

describe("what is believed", () => {
  it("is the ordinary mean of ln load where many pulls of one anchor gave way", () => {
    const random = rng(5);
    const loads = Array.from({ length: 400 }, () => Math.exp(7 + 0.4 * random.normal()));
    const held = {
      ...series,
      pulls: loads.map(
        (newtons): Pull => ({
          anchor: "Plough A",
          hold: { kind: "gaveWay", newtons },
          anchorAngle: (5 * Math.PI) / 180,
        }),
      ),
    };
    const belief = beliefOf(held)!;
    const mean = loads.reduce((sum, load) => sum + Math.log(load), 0) / loads.length;
    // The prior weighs as σ²/(n · 1.5²): less than a thousandth.
    expect(belief.mean[0]! + belief.mean[1]!).toBeCloseTo(mean, 2);
    expect(belief.sigma).toBeCloseTo(0.4, 1);
  });

  it("comes near the truth where the engine ended half of the pulls, as the mean of what was read does not", () => {
    const random = rng(9);
    const limit = Math.exp(7);
    const pulls = Array.from({ length: 600 }, (): Pull => {
      const load = Math.exp(7 + 0.4 * random.normal());
      return {
        anchor: "Plough A",
        anchorAngle: (5 * Math.PI) / 180,
        hold: load > limit ? { kind: "heldTo", newtons: limit } : { kind: "gaveWay", newtons: load },
      };
    });
    const belief = beliefOf({ ...series, pulls })!;
    // Standard error some 0.02.
    expect(Math.abs(belief.mean[0]! + belief.mean[1]! - 7)).toBeLessThan(0.08);
    expect(Math.abs(belief.sigma - 0.4)).toBeLessThan(0.06);
  });
});
