import { describe, expect, it } from "vitest";
import {
  boundsOf,
  budget,
  combined,
  drawResults,
  jacobian,
  rng,
  type VectorModel,
} from "../../src/statistics/index.ts";

const inputs = [
  { name: "a", value: 3, u: 0.1 },
  { name: "b", value: 5, u: 0.2 },
];
const model: VectorModel = ([a, b], out) => {
  out[0] = a! * b!;
  out[1] = Math.sqrt(a!) - b!;
};

describe("one Jacobian of a model of several values", () => {
  it("asks the model once, and twice for every input that is uncertain", () => {
    let asked = 0;
    const counted: VectorModel = (x, out) => {
      asked++;
      model(x, out);
    };
    jacobian(counted, 2, [...inputs, { name: "exact", value: 1, u: 0 }]);
    expect(asked).toBe(5);
  });

  it("combines to the uncertainty of each value's own budget, with and without correlation", () => {
    for (const correlation of [
      undefined,
      [
        [1, 0.6],
        [0.6, 1],
      ],
    ]) {
      const first = jacobian(model, 2, inputs);
      if (first.kind !== "jacobian") throw new Error("has slopes");
      const { u, shares } = combined(first, correlation);
      for (const k of [0, 1]) {
        const own = budget(
          (x) => {
            const out = new Float64Array(2);
            model(Float64Array.from(x), out);
            return out[k]!;
          },
          inputs,
          correlation === undefined ? {} : { correlation },
        );
        // Differences over a sixty-fourth of u bend by its square.
        expect(Math.abs(u[k]! / own.u - 1)).toBeLessThan(1e-6);
        own.sources.forEach((source, i) => {
          expect(shares[i]![k]!).toBeCloseTo(source.share, 5);
        });
      }
    }
  });

  it("takes the side on which the model has a value, and says so; where it has none, it says which input", () => {
    const ends: VectorModel = ([x], out) => {
      out[0] = x! <= 1 ? 2 * x! : Number.NaN;
    };
    const first = jacobian(ends, 1, [{ name: "x", value: 1, u: 0.5 }]);
    expect(first).toMatchObject({ kind: "jacobian", oneSided: ["x"] });
    if (first.kind === "jacobian") expect(combined(first).u[0]).toBeCloseTo(1, 12);
    const alone: VectorModel = ([x], out) => {
      out[0] = x === 1 ? 2 : Number.NaN;
    };
    expect(jacobian(alone, 1, [{ name: "x", value: 1, u: 0.5 }])).toEqual({ kind: "cannotMove", input: "x" });
    expect(jacobian(alone, 1, [{ name: "x", value: 2, u: 0.5 }])).toEqual({ kind: "noValue" });
  });
});

describe("draws, some of which have no answer", () => {
  it("cover what the normal distribution does, where all have one", () => {
    const first = jacobian(model, 2, inputs);
    if (first.kind !== "jacobian") throw new Error("has slopes");
    const drawn = drawResults(model, inputs, first, { rng: rng(3), draws: 20_000 });
    expect(drawn.without).toBe(0);
    const { low, high } = boundsOf(drawn, 1);
    const { u } = combined(first);
    // The ends of 20 000 draws scatter by 0.02 u; five of that.
    expect(Math.abs(low! - (first.values[1]! - 1.96 * u[1]!))).toBeLessThan(0.1 * u[1]!);
    expect(Math.abs(high! - (first.values[1]! + 1.96 * u[1]!))).toBeLessThan(0.1 * u[1]!);
  });

  it("leave out the bound on the side on which the model ends, and count what is missing", () => {
    // 1/(1 − x) ends at x = 1: one draw in six lies beyond, where the result is past every bound.
    const ends: VectorModel = ([x], out) => {
      out[0] = x! < 1 ? 1 / (1 - x!) : Number.NaN;
      out[1] = x! < 1 ? -x! : Number.NaN;
    };
    const x = [{ name: "x", value: 0.5, u: 0.5 }];
    const first = jacobian(ends, 2, x);
    if (first.kind !== "jacobian") throw new Error("has slopes");
    const drawn = drawResults(ends, x, first, { rng: rng(5), draws: 20_000 });
    // Φ(−1) = 0.1587, to four standard deviations of the count.
    expect(Math.abs(drawn.without / 20_000 - 0.1587)).toBeLessThan(0.0104);
    const { low, high } = boundsOf(drawn, 0);
    expect(high).toBeNull();
    // At x = 0.5 − 1.96 · 0.5.
    expect(low! * (1 + 0.48)).toBeCloseTo(1, 1);
    expect(boundsOf(drawn, 1).low).toBeNull();
    expect(boundsOf(drawn, 1).high).not.toBeNull();
  });
});
