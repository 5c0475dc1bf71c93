import { describe, expect, it } from "vitest";
import { calibrate, predictLoad, readBoat, weather, windForLoad } from "../../src/sea/index.ts";

const kn = 1852 / 3600;
const lbf = 4.4482216152605;

// common practice, no source: one cruising boat pulled about 200 lbf in 20 kn, with brief peaks of 300 lbf; by the square
// law that is about 800 lbf at 40 kn. The boat's size and the uncertainties of "about" are ours.
const boat = readBoat(
  `format: rodebench/boat@1
name: A cruising boat
length: 12 m
beam: 3.8 m
draught: 1.8 m
displacement: 9000 kg
bowRollerHeight: 1.3 m
measured:
  - { wind: 20 kn, load: 200 lbf, peak: 300 lbf, at: bow, uncertainty: { wind: 1 kn, load: 20 lbf, peak: 40 lbf } }
`,
  "boat.yaml",
);

describe("common practice, no source: 200 lbf with peaks of 300 in 20 kn", () => {
  const { mean, peak } = calibrate(boat)[0]!;

  it("is 800 lbf at 40 kn by the square law, with its ±", () => {
    const { value, u } = predictLoad(mean, { value: 40 * kn, u: 0 });
    // Rounding only: the law is exact through its one point.
    expect(value / lbf).toBeCloseTo(800, 8);
    // First order by hand: load 10 %, wind 2 × 5 %, exponent 0.1 × ln 2 = 6.9 %: 15.7 %.
    expect(u / lbf).toBeCloseTo(800 * Math.sqrt(0.1 ** 2 + 0.1 ** 2 + (0.1 * Math.log(2)) ** 2), 8);
    expect(u / lbf).toBeGreaterThan(100);
    expect(u / lbf).toBeLessThan(150);
  });

  it("peaks at 1200 lbf at 40 kn", () => {
    expect(predictLoad(peak!, { value: 40 * kn, u: 0 }).value / lbf).toBeCloseTo(1200, 8);
  });

  it("works backwards: 800 lbf is worth 40 kn", () => {
    const { value, u } = windForLoad(mean, { value: 800 * lbf, u: 0 });
    expect(value / kn).toBeCloseTo(40, 9);
    // Half the relative uncertainty of the load there.
    expect(u / kn).toBeCloseTo(20 * Math.sqrt(0.1 ** 2 + 0.1 ** 2 + (0.1 * Math.log(2)) ** 2), 8);
  });

  it("comes the same through the whole answer", () => {
    const answer = weather(boat, { value: 40 * kn, u: 0 });
    expect(answer.measured[0]!.mean.value / lbf).toBeCloseTo(800, 8);
    expect(answer.windage).toBeUndefined();
  });
});

describe("common practice, no source: wind force goes with the square of the speed", () => {
  it("so twice the wind is four times the load by windage", () => {
    const withWindage = { ...boat, windage: { kind: "shapes", shapes: [{ kind: "hull", freeboard: 1.2 }] } } as const;
    const load = (wind: number): number => weather(withWindage, { value: wind, u: 0 }).windage!.steady.value;
    expect(load(20) / load(10)).toBeCloseTo(4, 12);
  });
});
