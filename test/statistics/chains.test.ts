/** Whether chains may be believed, and how well each observation is foretold by the others: against series that are known. */
import { describe, expect, it } from "vitest";
import { diagnoseChains, leaveOneOut, normalQuantile, paretoFit, rng } from "../../src/statistics/index.ts";

const normals = (seed: number, n: number): Float64Array => {
  const random = rng(seed);
  return Float64Array.from({ length: n }, () => normalQuantile(random.uniform()));
};
/** x_t = φ x_{t−1} + √(1 − φ²) z_t: its draws are worth (1 − φ)/(1 + φ) of independent ones. */
const autoregressive = (seed: number, n: number, phi: number): Float64Array => {
  const z = normals(seed, n);
  const x = new Float64Array(n);
  x[0] = z[0]!;
  for (let t = 1; t < n; t++) x[t] = phi * x[t - 1]! + Math.sqrt(1 - phi * phi) * z[t]!;
  return x;
};

/** By the words of Vehtari and others (2021), sections 2 to 4, written out anew and slowly. */
function slowly(chains: readonly Float64Array[]) {
  const halves = chains.flatMap((c) => {
    const list = [...c];
    const half = Math.floor(list.length / 2);
    return [list.slice(0, half), list.slice(list.length - half)];
  });
  const all = halves.flat();
  const sorted = [...all].sort((a, b) => a - b);
  const at = (p: number) => {
    const place = p * (all.length - 1);
    const low = Math.floor(place);
    return sorted[low]! + (place - low) * ((sorted[low + 1] ?? sorted[low]!) - sorted[low]!);
  };
  const mean = (x: readonly number[]) => x.reduce((a, b) => a + b, 0) / x.length;
  const variance = (x: readonly number[]) => x.reduce((sum, v) => sum + (v - mean(x)) ** 2, 0) / (x.length - 1);
  const scores = (of: readonly number[][]) => {
    const flat = of.flat().sort((a, b) => a - b);
    return of.map((one) =>
      one.map((v) => {
        const first = flat.indexOf(v) + 1;
        const last = flat.lastIndexOf(v) + 1;
        return normalQuantile(((first + last) / 2 - 3 / 8) / (flat.length + 1 / 4));
      }),
    );
  };
  const rHat = (of: readonly number[][]) => {
    const n = of[0]!.length;
    const W = mean(of.map(variance));
    const B = n * variance(of.map(mean));
    return Math.sqrt((((n - 1) / n) * W + B / n) / W);
  };
  const worth = (of: readonly number[][]) => {
    const [m, n] = [of.length, of[0]!.length];
    const W = mean(of.map(variance));
    const plus = ((n - 1) / n) * W + variance(of.map(mean));
    const covariance = (lag: number) =>
      mean(
        of.map((one) => {
          const middle = mean(one);
          let sum = 0;
          for (let i = 0; i + lag < n; i++) sum += (one[i]! - middle) * (one[i + lag]! - middle);
          return sum / (n - 1);
        }),
      );
    const rho = (lag: number) => (lag === 0 ? 1 : 1 - (W - covariance(lag)) / plus);
    let tau = -1;
    let before = Number.POSITIVE_INFINITY;
    for (let k = 0; 2 * k + 1 < n; k++) {
      const pair = rho(2 * k) + rho(2 * k + 1);
      if (pair < 0) break;
      before = Math.min(before, pair);
      tau += 2 * before;
    }
    return (m * n) / Math.max(tau, 1 / Math.log10(m * n));
  };
  const middle = at(0.5);
  return {
    rHat: Math.max(rHat(scores(halves)), rHat(scores(halves.map((h) => h.map((v) => Math.abs(v - middle)))))),
    bulk: worth(scores(halves)),
    tail: Math.min(...[0.05, 0.95].map((p) => worth(halves.map((h) => h.map((v) => (v <= at(p) ? 1 : 0)))))),
  };
}

describe("chains", () => {
  it.each([
    ["independent", [1, 2, 3, 4].map((seed) => normals(seed, 101))],
    ["slow", [5, 6, 7].map((seed) => autoregressive(seed, 120, 0.8))],
    ["turning", [8, 9].map((seed) => autoregressive(seed, 130, -0.4))],
    ["one elsewhere", [normals(10, 90), normals(11, 90).map((x) => x + 1)]],
    ["one wider", [normals(12, 90), normals(13, 90).map((x) => 3 * x)]],
    ["with ties", [normals(14, 100), normals(15, 100)].map((c) => c.map((x) => Math.round(3 * x)))],
    ["drifting", [normals(16, 100).map((x, i) => x + i / 50), normals(17, 100)]],
  ] as const)("%s are told as by the definitions", (_, chains) => {
    const told = diagnoseChains(chains);
    const slow = slowly(chains);
    expect(told.rHat).toBeCloseTo(slow.rHat, 9);
    expect(told.bulk / slow.bulk).toBeCloseTo(1, 9);
    expect(told.tail / slow.tail).toBeCloseTo(1, 9);
  });
  it("of independent draws are worth all of them, of slow ones (1 − φ)/(1 + φ)", () => {
    const four = (phi: number) => diagnoseChains([1, 2, 3, 4].map((seed) => autoregressive(40 + seed, 5000, phi)));
    for (const [phi, share] of [
      [0, 1],
      [0.5, 1 / 3],
      [0.9, 1 / 19],
    ] as const) {
      const told = four(phi);
      // Their own scatter is some per cent at so many draws.
      expect(Math.abs(told.bulk / (20_000 * share) - 1)).toBeLessThan(0.15);
      expect(told.rHat).toBeLessThan(1.01);
      expect(told.rHat).toBeGreaterThanOrEqual(0.999);
    }
  });
  it("that stand apart, or differ in width alone, are not believed", () => {
    expect(diagnoseChains([normals(1, 500), normals(2, 500).map((x) => x + 1)]).rHat).toBeGreaterThan(1.1);
    expect(diagnoseChains([normals(1, 500), normals(2, 500).map((x) => 4 * x)]).rHat).toBeGreaterThan(1.1);
  });
  it("that never moved are told as one value, and any rising change of all draws changes nothing of the bulk", () => {
    expect(diagnoseChains([new Float64Array(10).fill(3), new Float64Array(10).fill(3)])).toEqual({
      rHat: 1,
      bulk: 20,
      tail: 20,
    });
    const chains = [normals(21, 200), normals(22, 200)];
    expect(diagnoseChains(chains.map((c) => c.map(Math.exp))).bulk).toBeCloseTo(diagnoseChains(chains).bulk, 9);
  });
});

describe("the generalised Pareto law of a tail", () => {
  /** Middle quantiles of the law: x(p) = σ ((1 − p)^(−k) − 1)/k. */
  const tail = (k: number, sigma: number, n: number): Float64Array =>
    Float64Array.from({ length: n }, (_, i) => {
      const p = (i + 0.5) / n;
      return k === 0 ? -sigma * Math.log1p(-p) : (sigma * ((1 - p) ** -k - 1)) / k;
    });
  it.each([-0.4, 0, 0.3, 0.7, 1])("of shape %d is found again, drawn to 0.5 as ten more would", (k) => {
    const n = 4000;
    const found = paretoFit(tail(k, 2.5, n));
    // Middle quantiles are a little tamer than draws of a heavy tail.
    expect(Math.abs(found.k - (n * k + 5) / (n + 10))).toBeLessThan(0.012);
    expect(Math.abs(found.sigma / 2.5 - 1)).toBeLessThan(0.02);
  });
  it("of few numbers is drawn farther: ten count for as much as they are", () => {
    const [few, many] = [paretoFit(tail(-0.5, 1, 20)).k, paretoFit(tail(-0.5, 1, 2000)).k];
    expect(few - many).toBeGreaterThan(0.2);
    expect(few).toBeLessThan(0.2);
  });
  it("stretches with its numbers: σ by as much, k not at all", () => {
    const x = tail(0.4, 1, 300);
    const [one, other] = [paretoFit(x), paretoFit(x.map((v) => 1000 * v))];
    expect(other.k).toBeCloseTo(one.k, 11);
    expect(other.sigma / one.sigma).toBeCloseTo(1000, 7);
  });
});

describe("each observation foretold from the others", () => {
  // y_i ~ N(μ, 1), μ flat: μ given all ~ N(ȳ, 1/n); y_i given the others ~ N(ȳ₋ᵢ, 1 + 1/(n − 1)).
  const y = [0.3, -1.1, 0.8, 1.9, -0.4, 0.1, -0.9, 2.4];
  const n = y.length;
  const mean = y.reduce((a, b) => a + b, 0) / n;
  const draws = 4000;
  const mu = Float64Array.from({ length: draws }, (_, s) => mean + normalQuantile((s + 0.5) / draws) / Math.sqrt(n));
  const log = new Float64Array(draws * n);
  for (let s = 0; s < draws; s++)
    for (let i = 0; i < n; i++) log[s * n + i] = -0.5 * Math.log(2 * Math.PI) - 0.5 * (y[i]! - mu[s]!) ** 2;
  const exact = y.map((v) => {
    const others = (n * mean - v) / (n - 1);
    const width = 1 + 1 / (n - 1);
    return -0.5 * Math.log(2 * Math.PI * width) - (v - others) ** 2 / 2 / width;
  });
  const told = leaveOneOut(log, draws, n);

  it("has the closed form's density, and their sum", () => {
    for (const [i, part] of told.parts.entries()) expect(Math.abs(part - exact[i]!)).toBeLessThan(2e-3);
    expect(told.elpd).toBeCloseTo(
      told.parts.reduce((a, b) => a + b, 0),
      10,
    );
    // √n times the standard deviation of the parts.
    const spread = Math.sqrt(told.parts.reduce((sum, part) => sum + (part - told.elpd / n) ** 2, 0) / (n - 1));
    expect(told.se).toBeCloseTo(Math.sqrt(n) * spread, 10);
    expect(told.k.every((k) => k < 0.7)).toBe(true);
  });
  it("has no standard error of one observation, and no shape of a few draws", () => {
    const few = leaveOneOut(Float64Array.of(-1, -1.2, -0.8, -1.1), 4, 1);
    expect(few.se).toBe(0);
    expect(few.k[0]).toBe(Number.POSITIVE_INFINITY);
    // 1/mean of 1/p, of whole weights.
    const harmonic = 4 / [1, 1.2, 0.8, 1.1].reduce((sum, l) => sum + Math.exp(l), 0);
    expect(few.parts[0]).toBeCloseTo(Math.log(harmonic), 12);
  });
  it("shares the weights out over the draws: one in all, the tail of 3√S smoothed and no more, none above the largest", () => {
    const random = rng(5);
    const S = 1000;
    const one = Float64Array.from({ length: S }, () => 2.5 * Math.log(random.uniform()));
    const raw = [...one].map((l) => Math.exp(-l));
    let weights: number[] = [];
    const { k, parts } = leaveOneOut(one, S, 1, (_, w) => {
      weights = [...w];
    });
    expect(weights.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
    const order = raw.map((_, s) => s).sort((a, b) => raw[a]! - raw[b]!);
    const ratio = order.map((s) => weights[s]! / raw[s]!);
    const tail = Math.ceil(3 * Math.sqrt(S));
    for (let j = 0; j < S - tail; j++) expect(Math.abs(ratio[j]! / ratio[0]! - 1)).toBeLessThan(1e-9);
    expect(ratio.slice(S - tail).filter((r) => Math.abs(r / ratio[0]! - 1) > 1e-9).length).toBeGreaterThan(tail - 4);
    const ordered = order.map((s) => weights[s]!);
    expect(ordered).toEqual([...ordered].sort((a, b) => a - b));
    expect(weights[order.at(-1)!]! / weights[order[0]!]!).toBeLessThanOrEqual(
      (raw[order.at(-1)!]! / raw[order[0]!]!) * (1 + 1e-9),
    );
    // p = u^2.5: weights of a tail of index 0.4, shape 2.5; ten hold it a little down.
    expect(k[0]).toBeGreaterThan(1.3);
    expect(parts[0]).toBeCloseTo(Math.log(weights.reduce((sum, w, s) => sum + w * Math.exp(one[s]!), 0)), 10);
  });
  it("of a fifth of the draws where those are fewer than 3√S, and of weights all alike none", () => {
    const S = 60;
    const random = rng(6);
    const one = Float64Array.from({ length: S }, () => Math.log(random.uniform()));
    const raw = [...one].map((l) => Math.exp(-l));
    let weights: number[] = [];
    leaveOneOut(one, S, 1, (_, w) => {
      weights = [...w];
    });
    const order = raw.map((_, s) => s).sort((a, b) => raw[a]! - raw[b]!);
    const ratio = order.map((s) => weights[s]! / raw[s]!);
    for (let j = 0; j < S - 12; j++) expect(Math.abs(ratio[j]! / ratio[0]! - 1)).toBeLessThan(1e-9);
    expect(ratio.slice(S - 12).filter((r) => Math.abs(r / ratio[0]! - 1) > 1e-9).length).toBeGreaterThan(8);
    const alike = leaveOneOut(new Float64Array(200).fill(-1.5), 200, 1);
    expect(alike.k[0]).toBe(Number.NEGATIVE_INFINITY);
    expect(alike.parts[0]).toBeCloseTo(-1.5, 12);
  });
});
