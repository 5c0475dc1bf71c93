// Source: JCGM 100:2008, Evaluation of measurement data - Guide to the expression of uncertainty in measurement, annex H.
import { describe, expect, test } from "vitest";
import { budget, fromReadings, type UncertainInput } from "../../src/statistics/index.ts";

// H.1, end-gauge calibration. Lengths in nm. Printed values seen; the unrounded ones computed independently from the
// inputs as printed: u 31.70509 nm, dof 16.64461, k 2.920782, U 92.6036 nm.
describe("JCGM 100 H.1, calibration of an end gauge", () => {
  const inputs: UncertainInput[] = [
    { name: "standard", value: 50_000_623, u: 25, dof: 18 },
    { name: "difference, observations", value: 215, u: 5.8, dof: 24 },
    { name: "difference, random effects of the comparator", value: 0, u: 3.9, dof: 5 },
    { name: "difference, systematic effects of the comparator", value: 0, u: 6.7, dof: 8 },
    { name: "expansion of the standard", value: 11.5e-6, u: 1.2e-6 },
    { name: "temperature of the test bed", value: -0.1, u: 0.41 },
    { name: "difference of expansion", value: 0, u: 0.58e-6, dof: 50 },
    { name: "difference of temperature", value: 0, u: 0.029, dof: 2 },
  ];
  const length = (x: ArrayLike<number>): number =>
    x[0]! + x[1]! + x[2]! + x[3]! - x[0]! * (x[6]! * x[5]! + x[4]! * x[7]!);
  const found = budget(length, inputs, { coverage: 0.99, secondOrder: true });

  test("length and its combined uncertainty", () => {
    expect(found.value).toBeCloseTo(50_000_838, 6);
    // Printed 32 nm; its u² of 1002 nm² is a sum of rounded parts, 1005.213 unrounded: half a nm is the rounding.
    expect(Math.abs(found.u - 32)).toBeLessThan(0.5);
    expect(found.u).toBeCloseTo(31.70509, 5);
  });

  test("each source's part: 25, 9.7, 2.9 and 16.6 nm", () => {
    const part = found.sources.map((source) => Math.abs(source.contribution));
    expect(part[0]).toBeCloseTo(25, 1);
    expect(Math.hypot(part[1]!, part[2]!, part[3]!)).toBeCloseTo(9.7, 1);
    // 0.41 degrees and the expansion of the standard drop out: their partner is zero.
    expect(part[4]).toBeCloseTo(0, 6);
    expect(part[5]).toBeCloseTo(0, 6);
    expect(part[6]).toBeCloseTo(2.9, 1);
    // The printed 16.6 nm comes from 11.5e-6 · 0.029 · 50 mm = 16.675; printed to one digit it is 16.7.
    expect(Math.abs(part[7]! - 16.6)).toBeLessThan(0.1);
    expect(found.sources.reduce((sum, source) => sum + source.share, 0)).toBeCloseTo(1, 12);
  });

  test("16.7 effective degrees of freedom, t 2.92, expanded 93 nm at 99 %", () => {
    expect(found.dof).toBeCloseTo(16.64461, 5);
    expect(Math.abs(found.dof - 16.7)).toBeLessThan(0.1);
    expect(found.coverageFactor).toBeCloseTo(2.920782, 6);
    expect(found.expanded).toBeCloseTo(92.6036, 4);
    expect(Math.round(found.expanded)).toBe(93);
  });

  test("34 nm with the second-order terms (recalled)", () => {
    expect(Math.round(found.withSecondOrder!)).toBe(34);
    // The model is bilinear there, so the terms are exact: 50 000 623 nm times 0.58e-6 · 0.41 and 1.2e-6 · 0.029.
    const bilinear = Math.hypot(31.70509, 50_000_623 * 0.58e-6 * 0.41, 50_000_623 * 1.2e-6 * 0.029);
    expect(found.withSecondOrder).toBeCloseTo(bilinear, 4);
  });
});

// H.2, simultaneous resistance and reactance. Readings of table H.2 recalled, and confirmed: they give the correlation
// coefficients seen to four digits (-0.3553, 0.8576, -0.6451) and the results of table H.4 seen (R 127.732 ± 0.071,
// X 219.847 ± 0.295, Z 254.260 ± 0.236 ohm).
describe("JCGM 100 H.2, resistance and reactance from correlated readings", () => {
  const readings = {
    voltage: [5.007, 4.994, 5.005, 4.99, 4.999],
    current: [19.663e-3, 19.639e-3, 19.64e-3, 19.685e-3, 19.678e-3],
    phase: [1.0456, 1.0438, 1.0468, 1.0428, 1.0433],
  };
  const columns = Object.values(readings);
  const inputs = Object.entries(readings).map(([name, values]) => fromReadings(name, values));
  const correlation = columns.map((a, i) =>
    columns.map((b, j) => {
      if (i === j) return 1;
      const between = (p: number[], q: number[], mp: number, mq: number): number =>
        p.reduce((sum, x, k) => sum + (x - mp) * (q[k]! - mq), 0);
      const [ma, mb] = [inputs[i]!.value, inputs[j]!.value];
      return between(a, b, ma, mb) / Math.sqrt(between(a, a, ma, ma) * between(b, b, mb, mb));
    }),
  );

  test("the readings give the published correlation coefficients", () => {
    expect(correlation[0]![1]).toBeCloseTo(-0.3553, 4);
    expect(correlation[0]![2]).toBeCloseTo(0.8576, 4);
    expect(correlation[1]![2]).toBeCloseTo(-0.6451, 4);
  });

  test.each<[string, (x: ArrayLike<number>) => number, number, number]>([
    ["R", (x) => (x[0]! / x[1]!) * Math.cos(x[2]!), 127.732, 0.071],
    ["X", (x) => (x[0]! / x[1]!) * Math.sin(x[2]!), 219.847, 0.295],
    ["Z", (x) => x[0]! / x[1]!, 254.26, 0.236],
  ])("%s and its uncertainty to the printed digits", (_, model, value, u) => {
    const found = budget(model, inputs, { correlation });
    // The guide rounds its means before it goes on: a unit of the last place.
    expect(Math.abs(found.value - value)).toBeLessThan(0.001);
    expect(Math.abs(found.u - u)).toBeLessThan(0.001);
    expect(found.sources.reduce((sum, source) => sum + source.share, 0)).toBeCloseTo(1, 12);
    expect(found.dof).toBeCloseTo(4, 10);
  });
});
