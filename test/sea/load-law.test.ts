import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Boat, calibrate, type MeasuredPoint, predictLoad, windForLoad } from "../../src/sea/index.ts";
import { plain, tern } from "./demo.ts";

const boat = (measured: readonly MeasuredPoint[], exponent?: number): Boat => ({
  ...plain,
  measured,
  uncertainty: exponent === undefined ? {} : { exponent },
});
const point = (wind: number, load: number, windU = 0.05 * wind, loadU = 0.1 * load): MeasuredPoint => ({
  wind,
  load,
  at: "bow",
  uncertainty: { wind: windU, load: loadU },
});

describe("load over wind from one point", () => {
  const law = calibrate(boat([point(10, 900, 0.5, 120)]))[0]!.mean;

  it("is the square law through it", () => {
    expect(law.exponentFrom).toBe("square law");
    for (const factor of [0.5, 1, 2, 3]) {
      // Through exp and log and back: a few units of the last place.
      expect(predictLoad(law, { value: 10 * factor, u: 0 }).value).toBeCloseTo(900 * factor ** 2, 8);
    }
  });

  it("carries the point's own uncertainty, that of its wind twice, and that of the exponent with distance", () => {
    const { u, value } = predictLoad(law, { value: 20, u: 1.5 });
    const expected = Math.hypot(120 / 900, 2 * 0.05, 0.1 * Math.log(2), 2 * (1.5 / 20));
    expect(u / value).toBeCloseTo(expected, 12);
  });

  it("is told back: the wind of the load of a wind is that wind", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 60, noNaN: true }), (wind) => {
        const load = predictLoad(law, { value: wind, u: 0 });
        const back = windForLoad(law, { value: load.value, u: 0 });
        expect(Math.abs(back.value - wind)).toBeLessThan(1e-12 * wind);
        // The law's own doubt is the same either way: u(F)/F = n u(V)/V.
        expect(Math.abs(back.u / back.value - load.u / load.value / 2)).toBeLessThan(1e-12);
      }),
      { seed: 3 },
    );
  });

  it("keeps a band for a new reading wider than that of the law", () => {
    const { low, high, newReading, value } = predictLoad(law, { value: 15, u: 0 });
    expect(newReading.low).toBeLessThan(low);
    expect(low).toBeLessThan(value);
    expect(value).toBeLessThan(high);
    expect(high).toBeLessThan(newReading.high);
  });
});

describe("load over wind from many points", () => {
  const winds = [5, 7, 9, 12, 16, 20];

  it("finds the exponent of points made from a power law, and says so", () => {
    for (const n of [1.8, 2, 2.2]) {
      const law = calibrate(boat(winds.map((v) => point(v, 6 * v ** n, 0.02 * v, 0.04 * 6 * v ** n))))[0]!.mean;
      expect(law.exponentFrom).toBe("fitted");
      expect(Math.abs(law.exponent.value - n)).toBeLessThan(1e-9);
      expect(law.scatter).toBe(1);
      expect(predictLoad(law, { value: 25, u: 0 }).value).toBeCloseTo(6 * 25 ** n, 6);
    }
  });

  it("has the standard deviations of a weighted straight line in logarithms (closed form)", () => {
    const law = calibrate(
      boat(winds.map((v, i) => point(v, 6 * v * v * (1 + 0.03 * (i % 2 === 0 ? 1 : -1)), 0.03 * v, 0.05 * 6 * v * v))),
    )[0]!.mean;
    // u(F)/F differs from 0.05 by the 3 % by which each load was moved.
    const sigma = winds.map((_, i) =>
      Math.hypot(0.05 / (1 + 0.03 * (i % 2 === 0 ? 1 : -1)), law.exponent.value * 0.03),
    );
    const weights = sigma.map((s) => s ** -2);
    const total = weights.reduce((a, b) => a + b, 0);
    const mean = weights.reduce((sum, w, i) => sum + w * Math.log(winds[i]!), 0) / total;
    const spread = weights.reduce((sum, w, i) => sum + w * (Math.log(winds[i]!) - mean) ** 2, 0);
    // Both sides settle the weights to 1e-12 of the exponent.
    expect(law.variance.exponent).toBeCloseTo(1 / spread, 9);
    expect(law.variance.level).toBeCloseTo(1 / total, 9);
    expect(Math.abs(law.variance.both)).toBeLessThan(1e-12);
  });

  it("keeps the square law where the winds lie too close together, or the points are too few", () => {
    expect(calibrate(boat([8, 9, 10, 11].map((v) => point(v, 6 * v ** 2.4))))[0]!.mean.exponentFrom).toBe("square law");
    expect(calibrate(boat([5, 20].map((v) => point(v, 6 * v ** 2.4))))[0]!.mean.exponentFrom).toBe("square law");
  });

  it("keeps the square law where a fit tells less, and shows the fit beside it", () => {
    const law = calibrate(boat([8, 10, 13].map((v) => point(v, 6 * v ** 2.2, 0.1 * v, 0.2 * 6 * v ** 2.2))))[0]!.mean;
    expect(law.exponentFrom).toBe("square law");
    expect(law.exponent.value).toBe(2);
    expect(law.setAside!.because).toBe("tellsLess");
    expect(law.setAside!.value).toBeCloseTo(2.2, 9);
  });

  it("keeps the square law where a fit is no law of wind", () => {
    const law = calibrate(boat([5, 10, 20].map((v) => point(v, 1000 - 10 * v, 0.02 * v, 20))))[0]!.mean;
    expect(law.exponent.value).toBe(2);
    expect(law.setAside!.because).toBe("noLawOfWind");
  });

  it("widens with scatter: points twice as far off have twice the doubt", () => {
    const scattered = (size: number) => {
      const loads = winds.map((v, i) => 6 * v * v * Math.exp(size * [1, -1, -1, 1, 1, -1][i]!));
      return calibrate(boat(winds.map((v, i) => point(v, loads[i]!, 0.001 * v, 0.01 * loads[i]!))))[0]!.mean;
    };
    const [small, large] = [scattered(0.1), scattered(0.2)];
    expect(small.scatter).toBeGreaterThan(5);
    // The exponent moves a little and with it the weight of the wind's tenth of a per cent: 1e-3.
    expect(Math.abs(large.exponent.u / small.exponent.u - 2)).toBeLessThan(1e-3);
  });

  it("covers: 95 of 100 new readings fall in the band for a new reading", () => {
    // Readings with the stated scatter, drawn by a fixed congruential generator and the central limit of twelve.
    let state = 12345;
    const uniform = (): number => {
      state = (1103515245 * state + 12345) % 2147483648;
      return state / 2147483648;
    };
    const normal = (): number => Array.from({ length: 12 }, uniform).reduce((a, b) => a + b, -6);
    let inside = 0;
    const trials = 2000;
    for (let t = 0; t < trials; t++) {
      const noisy = winds.map((v) => point(v * Math.exp(0.03 * normal()), 6 * v * v * Math.exp(0.08 * normal())));
      const stated = noisy.map((p) => ({ ...p, uncertainty: { wind: 0.03 * p.wind, load: 0.08 * p.load } }));
      const law = calibrate(boat(stated))[0]!.mean;
      const { newReading } = predictLoad(law, { value: 14, u: 0 });
      const reading = 6 * 14 * 14 * Math.exp(Math.hypot(0.08, 0.06) * normal());
      if (reading > newReading.low && reading < newReading.high) inside++;
    }
    // Binomial: 0.95 ± 0.005 of 2000; the scatter only ever widens, so a little above is right.
    expect(inside / trials).toBeGreaterThan(0.935);
    expect(inside / trials).toBeLessThan(0.985);
  });
});

describe("ends of the rode", () => {
  it("are fitted apart, the end with most points first", () => {
    const at = (p: MeasuredPoint, end: MeasuredPoint["at"]): MeasuredPoint => ({ ...p, at: end });
    const laws = calibrate(
      boat([at(point(10, 900), "anchor"), at(point(10, 1000), "bow"), at(point(15, 2200), "bow")]),
    );
    expect(laws.map(({ at: end, points }) => [end, points.length])).toEqual([
      ["bow", 2],
      ["anchor", 1],
    ]);
  });

  it("carry peaks as a law of their own", () => {
    const { peak, mean } = calibrate(tern)[0]!;
    const wind = { value: 10, u: 0 };
    expect(predictLoad(peak!, wind).value).toBeGreaterThan(predictLoad(mean, wind).value);
  });

  it("say what was assumed where the file states no uncertainty", () => {
    const bare = boat([{ wind: 10, load: 900, peak: 1300, at: "bow", uncertainty: {} }]);
    expect(calibrate(bare)[0]!.assumed).toEqual(["load", "wind", "peak", "exponent"]);
    expect(calibrate(boat([point(10, 900)], 0))[0]!.assumed).toEqual([]);
  });

  it("bring a wind read at the masthead down to 10 m", () => {
    const masthead = { ...point(10, 900), windHeight: 17 };
    const [up, down] = [calibrate(boat([masthead]))[0]!.mean, calibrate(boat([point(10, 900)]))[0]!.mean];
    // ln(10/z₀)/ln(17/z₀) with z₀ = 0.0002 m is 0.95325.
    expect(up.wind / down.wind).toBeCloseTo(Math.log(10 / 0.0002) / Math.log(17 / 0.0002), 12);
  });
});

describe("bands through few points", () => {
  const band = (third: number) => {
    const law = calibrate(boat([point(8, 400, 0.4, 20), point(10, 630, 0.5, 25), point(11, third, 0.5, 30)]))[0]!.mean;
    return { law, ...predictLoad(law, { value: 10.5, u: 0 }) };
  };

  it("move with the readings without a step: a newton more moves an end by a few newtons at most", () => {
    let before = band(700);
    let grew = 0;
    for (let load = 701; load <= 1100; load++) {
      const now = band(load);
      for (const end of ["low", "high"] as const) expect(Math.abs(now[end] - before[end]), `${load} N`).toBeLessThan(8);
      if (before.law.scatter === 1 && now.law.scatter > 1) grew++;
      before = now;
    }
    // The readings asked pass from scatter as stated to more than that.
    expect(grew).toBe(1);
  });

  it("are the normal law's where the points scatter as stated, and Student's with their freedom where they scatter wildly", () => {
    const calm = band(760);
    expect(calm.law.scatter).toBe(1);
    expect(Math.log(calm.high / calm.value) / (calm.u / calm.value)).toBeCloseTo(1.959964, 5);
    const wild = band(4000);
    // t(0.975; 2) = 4.302653 (Student's table, recalled); s⁴/(s² − 1)² is not yet 1.
    const k = Math.log(wild.high / wild.value) / (wild.u / wild.value);
    expect(k).toBeGreaterThan(3.9);
    expect(k).toBeLessThan(4.3027);
  });

  it("a cell's error is as many newtons in light winds: its share of the load grows", () => {
    const law = calibrate(
      boat(
        [10, 14, 20].map((v) => point(v, 6 * v * v, 0.001, 30)),
        1e-6,
      ),
    )[0]!.mean;
    const half = (wind: number): number => {
      const { newReading, value } = predictLoad(law, { value: wind, u: 0 });
      return newReading.high - value;
    };
    // 30 N of a reading and what the law itself has, at 95 of 100.
    for (const wind of [5, 10, 12]) expect(half(wind) / 1.96).toBeGreaterThan(30);
    expect(half(5) / 1.96).toBeLessThan(36);
    // Next to no wind: the cell's error is all there is, and the band stays of its size.
    expect(half(0.5) / 1.96).toBeGreaterThan(30);
    expect(half(0.5) / 1.96).toBeLessThan(36);
    expect(predictLoad(law, { value: 0.5, u: 0 }).newReading.low).toBe(0);
  });

  it("an anemometer's error counts once: stating for the wind asked what its points had changes no band of a new reading", () => {
    const law = calibrate(boat([point(10, 600, 0.5, 30), point(14, 1176, 0.5, 50), point(20, 2400, 0.5, 90)]))[0]!.mean;
    const [bare, stated] = [predictLoad(law, { value: 12, u: 0 }), predictLoad(law, { value: 12, u: 0.5 })];
    expect(stated.newReading.high / bare.newReading.high).toBeCloseTo(1, 9);
    expect(stated.u).toBeGreaterThan(bare.u);
    expect(predictLoad(law, { value: 12, u: 1 }).newReading.high).toBeGreaterThan(bare.newReading.high);
  });
});
