/** The law of load over wind: how many of the points' freedoms a fit has used up, and which end it speaks of. */
import { describe, expect, it } from "vitest";
import { type Boat, calibrate, type LoadLaw, predictLoad, windForLoad } from "../../src/sea/index.ts";
import { plain } from "./demo.ts";

type Point = Boat["measured"][number];
const point = (wind: number, load: number, u = 0.02): Point =>
  ({ wind, load, at: "bow", uncertainty: { wind: 0.001 * wind, load: u * load } }) as Point;
const lawOf = (points: readonly Point[]): LoadLaw => calibrate({ ...plain, measured: points })[0]!.mean;

describe("degrees of freedom of a law of load over wind", () => {
  const winds = [5, 7, 9, 12, 16, 20];
  /** Off the law by a tenth, up and down, which no straight line in logarithms follows. */
  const signs = [1, -1, -1, 1, 1, -1];
  const scattered = winds.map((v, i) => point(v, 6 * v * v * Math.exp(0.1 * signs[i]!)));

  it("are the points less two where the exponent is fitted too, less one where it is held", () => {
    const free = lawOf(scattered);
    expect(free.exponentFrom).toBe("fitted");
    expect(free.dof).toBe(4);
    const held = lawOf([8, 9, 10, 11].map((v, i) => point(v, 6 * v * v * Math.exp(0.1 * signs[i]!))));
    expect(held.exponentFrom).toBe("square law");
    expect(held.dof).toBe(3);
    expect(lawOf([point(10, 600)]).dof).toBe(0);
  });

  it("scale the scatter: Birge's ratio √(χ²/ν) of the residuals, and with it every u", () => {
    const law = lawOf(scattered);
    const chi2 = law.residuals.reduce((sum, r) => sum + r * r, 0);
    expect(law.scatter).toBeCloseTo(Math.sqrt(chi2 / 4), 10);
    // By the textbook's straight line: every point weighs nearly alike, u(ln F) = 0.02, so s² is that of six residuals.
    const x = winds.map((v) => Math.log(v));
    const y = scattered.map((p) => Math.log(p.load));
    const mean = (of: readonly number[]): number => of.reduce((a, b) => a + b, 0) / of.length;
    const sxx = x.reduce((sum, v) => sum + (v - mean(x)) ** 2, 0);
    const slope = x.reduce((sum, v, i) => sum + (v - mean(x)) * (y[i]! - mean(y)), 0) / sxx;
    const rss = y.reduce((sum, v, i) => sum + (v - mean(y) - slope * (x[i]! - mean(x))) ** 2, 0);
    const u = Math.sqrt(rss / 4 / sxx);
    // The wind's tenth of a per cent moves the weights by (0.002/0.02)²/2.
    expect(law.exponent.value).toBeCloseTo(slope, 6);
    expect(Math.abs(law.exponent.u / u - 1)).toBeLessThan(1e-3);
    expect(Math.abs(law.variance.level / (rss / 4 / 6) - 1)).toBeLessThan(1e-3);
  });

  it("widen the band by Student's t of them: 2.776 for four, 3.182 for three (tables of t at 0.975, recalled)", () => {
    const band = (law: LoadLaw): number => {
      const { value, u, high } = predictLoad(law, { value: law.wind, u: 0 });
      return Math.log(high / value) / (u / value);
    };
    // Points that scatter wildly beyond what they say: all of the scatter is estimated from them.
    const wildly = (points: readonly Point[]): readonly Point[] =>
      points.map((p) => ({ ...p, uncertainty: { wind: 1e-6 * p.wind, load: 1e-5 * p.load } }));
    expect(band(lawOf(wildly(scattered)))).toBeCloseTo(2.776, 3);
    const three = [8, 9, 10, 11].map((v, i) => point(v, 6 * v * v * Math.exp(0.1 * signs[i]!)));
    expect(band(lawOf(wildly(three)))).toBeCloseTo(3.182, 3);
    // Those that scatter some five times as far: between that and the normal law.
    expect(band(lawOf(scattered))).toBeLessThan(2.776);
    expect(band(lawOf(scattered))).toBeGreaterThan(2.6);
    // Points that scatter no more than they say: normal.
    expect(band(lawOf(winds.map((v) => point(v, 6 * v * v))))).toBeCloseTo(1.96, 2);
  });

  it("tell the wind of a load by the same law, its u over the exponent", () => {
    const law = lawOf(scattered);
    const back = windForLoad(law, { value: law.load, u: 0.1 * law.load });
    expect(back.value).toBeCloseTo(law.wind, 9);
    expect(back.u / back.value).toBeCloseTo(Math.sqrt(law.variance.level + 0.01) / law.exponent.value, 9);
  });
});

describe("points of one end", () => {
  it("speak of that end alone", () => {
    const at = (end: "anchor" | "bow"): Point[] =>
      [5, 10, 20].map((v) => ({ ...point(v, 6 * v * v), at: end }) as Point);
    expect(calibrate({ ...plain, measured: at("anchor") }).map((c) => c.at)).toEqual(["anchor"]);
    expect(calibrate({ ...plain, measured: at("bow") }).map((c) => c.at)).toEqual(["bow"]);
  });
});
