import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { median, quantileInPlace } from "../../../src/pull/trace/order.ts";
import { straightPieces } from "../../../src/pull/trace/pieces.ts";
import { normal, numbers } from "./simulated-pull.ts";

const alike = (n: number): Float64Array => new Float64Array(n).fill(1);

describe("straight pieces", () => {
  it("cuts a noiseless series exactly where its slope or level changes", () => {
    const y = Float64Array.from({ length: 120 }, (_, k) => (k < 40 ? 0 : k < 70 ? 10 * (k - 40) : k < 100 ? 500 : 100));
    expect(straightPieces(y, 1, alike(120)).map((p) => p.from)).toEqual([0, 40, 70, 100]);
  });

  it("finds steps of four standard deviations in noise to a grain or two, and seldom any other", () => {
    const random = numbers(77);
    let extra = 0;
    for (let trial = 0; trial < 50; trial++) {
      const y = Float64Array.from({ length: 300 }, (_, k) => (k < 100 ? 0 : k < 200 ? 4 : 0) + normal(random));
      const cuts = straightPieces(y, 3 * Math.log(300), alike(300)).map((p) => p.from);
      for (const step of [100, 200]) expect(cuts.some((c) => Math.abs(c - step) <= 3)).toBe(true);
      extra += cuts.length - 3;
    }
    // Joining from the bottom is greedy: a false cut in one series of five at most.
    expect(extra).toBeLessThanOrEqual(10);
  });

  it("covers every grain once, whatever the series", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 60 }),
        (values) => {
          const pieces = straightPieces(Float64Array.from(values), 10, alike(values.length));
          expect(pieces[0]!.from).toBe(0);
          expect(pieces.at(-1)!.to).toBe(values.length);
          for (let i = 1; i < pieces.length; i++) {
            expect(pieces[i]!.from).toBe(pieces[i - 1]!.to);
            expect(pieces[i]!.to).toBeGreaterThan(pieces[i]!.from);
          }
        },
      ),
      { seed: 5, numRuns: 300 },
    );
  });
});

describe("order statistics", () => {
  it("a quantile is the one of the sorted numbers", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1e3, max: 1e3, noNaN: true }), { minLength: 1, maxLength: 50 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (values, share) => {
          const sorted = [...values].sort((a, b) => a - b);
          const place = share * (values.length - 1);
          const low = Math.floor(place);
          const expected = sorted[low]! + (place - low) * ((sorted[low + 1] ?? sorted[low]!) - sorted[low]!);
          expect(quantileInPlace(Float64Array.from(values), share)).toBeCloseTo(expected, 9);
        },
      ),
      { seed: 6, numRuns: 300 },
    );
  });

  it("a median leaves the numbers in their places", () => {
    const values = Float64Array.from([3, 1, 2]);
    expect(median(values)).toBe(2);
    expect([...values]).toEqual([3, 1, 2]);
  });
});
