import { describe, expect, it } from "vitest";
import {
  type Chain,
  diagnoseChains,
  type LogDensity,
  mean,
  normalBelow,
  rng,
  sampleChain,
  standardDeviation,
} from "../../src/statistics/index.ts";

interface Drawn {
  readonly chains: readonly Chain[];
  column(k: number): Float64Array;
  effective(k: number): number;
  rHat(k: number): number;
}

function draw(density: LogDensity, parameters: number, seed: number, draws = 1000, acceptance = 0.8): Drawn {
  const stream = rng(seed);
  const chains = Array.from({ length: 4 }, () => {
    const own = stream.branch();
    const start = Float64Array.from({ length: parameters }, () => 2 * own.uniform() - 1);
    return sampleChain(density, start, own, { warmUp: 1000, draws, acceptance });
  });
  const parts = (k: number) =>
    chains.map(({ draws: all, length }) => Float64Array.from({ length }, (_, s) => all[s * parameters + k]!));
  return {
    chains,
    column: (k) => Float64Array.from(parts(k).flatMap((part) => [...part])),
    effective: (k) => diagnoseChains(parts(k)).bulk,
    rHat: (k) => diagnoseChains(parts(k)).rHat,
  };
}

describe("draws of a normal law in 20 dimensions, correlated 0.9 to the power of the distance, deviations 1 to 20", () => {
  // Covariance D C D with C an autoregression's: its inverse is tridiagonal and written down.
  const n = 20;
  const rho = 0.9;
  const density: LogDensity = (at, gradient) => {
    let value = 0;
    gradient.fill(0);
    const c = 1 / (1 - rho * rho);
    for (let i = 0; i < n; i++) {
      const z = at[i]! / (i + 1);
      const own = i === 0 || i === n - 1 ? 1 : 1 + rho * rho;
      value -= 0.5 * c * own * z * z;
      gradient[i] = gradient[i]! - (c * own * z) / (i + 1);
      if (i > 0) {
        const before = at[i - 1]! / i;
        value += c * rho * z * before;
        gradient[i] = gradient[i]! + (c * rho * before) / (i + 1);
        gradient[i - 1] = gradient[i - 1]! + (c * rho * z) / i;
      }
    }
    return value;
  };
  const drawn = draw(density, n, 1);

  it("have the means and deviations known, within 4.5 of their own standard errors", () => {
    for (let k = 0; k < n; k++) {
      const column = drawn.column(k);
      const effective = drawn.effective(k);
      expect(effective).toBeGreaterThan(400);
      // 40 comparisons: 4.5 standard errors come by chance once in some 3,700 runs, and the seed stands still.
      expect(Math.abs(mean(column)) / ((k + 1) / Math.sqrt(effective))).toBeLessThan(4.5);
      expect(Math.abs(standardDeviation(column) / (k + 1) - 1) * Math.sqrt(2 * effective)).toBeLessThan(4.5 * 1.5);
    }
  });

  it("are correlated as known", () => {
    for (const [a, b] of [
      [0, 1],
      [3, 8],
      [0, 19],
    ] as const) {
      const x = drawn.column(a);
      const y = drawn.column(b);
      const product = x.map((value, s) => (value * y[s]!) / ((a + 1) * (b + 1)));
      expect(Math.abs(mean(product) - rho ** (b - a))).toBeLessThan(0.15);
    }
  });

  it("mix: R-hat below 1.01, nothing divergent, energies free", () => {
    for (let k = 0; k < n; k++) expect(drawn.rHat(k)).toBeLessThan(1.01);
    for (const chain of drawn.chains) {
      expect(chain.divergent).toBe(0);
      expect(chain.energyMixing).toBeGreaterThan(0.3);
      expect(Math.abs(chain.meanAcceptance - 0.8)).toBeLessThan(0.12);
    }
  });
});

/**
 * Rubin (1981), J. Educ. Stat. 6, 377; Gelman et al., Bayesian Data Analysis, 5.5: data published; the posterior mean of μ,
 * 8 (recalled: 7.9), and of τ, flat on τ (recalled: 6.6 or so for half-Cauchy 5; computed here by quadrature for the
 * priors used: half-normal 10, μ ~ N(0, 20)).
 */
describe("eight schools", () => {
  const y = [28, 8, -3, 7, -1, 1, 18, 12];
  const sigma = [15, 10, 16, 11, 9, 11, 10, 18];
  // Non-centred: θ_j = μ + τ z_j; parameters μ, ln τ, z₁ … z₈.
  const density: LogDensity = (at, gradient) => {
    const mu = at[0]!;
    const tau = Math.exp(at[1]!);
    let value = -0.5 * (mu / 20) ** 2 - 0.5 * (tau / 10) ** 2 + at[1]!;
    gradient[0] = -mu / 400;
    gradient[1] = 1 - (tau * tau) / 100;
    for (let j = 0; j < 8; j++) {
      const z = at[2 + j]!;
      const residual = (y[j]! - mu - tau * z) / sigma[j]! ** 2;
      value -= 0.5 * z * z + 0.5 * residual * (y[j]! - mu - tau * z);
      gradient[0] = gradient[0]! + residual;
      gradient[1] = gradient[1]! + residual * tau * z;
      gradient[2 + j] = -z + residual * tau;
    }
    return value;
  };

  /** By quadrature: given τ, y_j ~ N(μ, σ_j² + τ²), so μ is normal; τ on a grid. */
  function exact(): { mu: number; tau: number; theta1: number } {
    let total = 0;
    const sums = { mu: 0, tau: 0, theta1: 0 };
    for (let tau = 0.005; tau < 60; tau += 0.01) {
      let precision = 1 / 400;
      let weighted = 0;
      let log = -0.5 * (tau / 10) ** 2;
      for (let j = 0; j < 8; j++) {
        const variance = sigma[j]! ** 2 + tau * tau;
        precision += 1 / variance;
        weighted += y[j]! / variance;
        log -= 0.5 * Math.log(variance) + (0.5 * y[j]! ** 2) / variance;
      }
      const mu = weighted / precision;
      log += 0.5 * mu * mu * precision - 0.5 * Math.log(precision);
      const weight = Math.exp(log);
      total += weight;
      sums.mu += weight * mu;
      sums.tau += weight * tau;
      const pull = tau ** 2 / (tau ** 2 + sigma[0]! ** 2);
      sums.theta1 += weight * (mu + pull * (y[0]! - mu));
    }
    return { mu: sums.mu / total, tau: sums.tau / total, theta1: sums.theta1 / total };
  }

  it("come to the means that quadrature gives", () => {
    const drawn = draw(density, 10, 2, 2000, 0.95);
    const known = exact();
    const within = (found: Float64Array, expected: number, effective: number) =>
      expect(Math.abs(mean(found) - expected) / (standardDeviation(found) / Math.sqrt(effective))).toBeLessThan(4);
    within(drawn.column(0), known.mu, drawn.effective(0));
    const tau = drawn.column(1).map(Math.exp);
    within(tau, known.tau, drawn.effective(1));
    const z1 = drawn.column(2);
    within(
      drawn.column(0).map((mu, s) => mu + tau[s]! * z1[s]!),
      known.theta1,
      Math.min(drawn.effective(0), drawn.effective(2)),
    );
    // Recalled: 7.9 under nearly these priors.
    expect(known.mu).toBeGreaterThan(6);
    expect(known.mu).toBeLessThan(9);
  });
});

describe("a funnel (Neal 2003): v ~ N(0, 3), nine x ~ N(0, e^(v/2))", () => {
  const funnel: LogDensity = (at, gradient) => {
    const v = at[0]!;
    const inverse = Math.exp(-v);
    let value = (-0.5 * v * v) / 9;
    gradient[0] = -v / 9;
    for (let k = 1; k < 10; k++) {
      const x = at[k]!;
      value -= 0.5 * x * x * inverse + 0.5 * v;
      gradient[0] = gradient[0]! + 0.5 * x * x * inverse - 0.5;
      gradient[k] = -x * inverse;
    }
    return value;
  };
  const straightened: LogDensity = (at, gradient) => {
    let value = 0;
    for (let k = 0; k < 10; k++) {
      const scale = k === 0 ? 9 : 1;
      value -= (0.5 * at[k]! ** 2) / scale;
      gradient[k] = -at[k]! / scale;
    }
    return value;
  };

  it("as it stands tells on itself: draws that ran away, or hardly any effective ones", () => {
    const drawn = draw(funnel, 10, 3);
    const divergent = drawn.chains.reduce((sum, chain) => sum + chain.divergent, 0);
    const poor = drawn.effective(0) < 400 || drawn.rHat(0) > 1.01;
    const stuck = drawn.chains.some((chain) => chain.energyMixing < 0.3);
    expect(divergent > 0 || poor || stuck).toBe(true);
  });

  it("straightened (x = e^(v/2) z) has the v known: N(0, 3)", () => {
    const drawn = draw(straightened, 10, 4);
    const v = drawn.column(0);
    for (const [below, share] of [-4, 0, 4].map((at) => [at, normalBelow(at / 3)] as const)) {
      const seen = v.filter((x) => x < below).length / v.length;
      // Four standard errors at 1000 effective draws.
      expect(Math.abs(seen - share)).toBeLessThan(4 * Math.sqrt((share * (1 - share)) / 1000));
    }
  });
});

it("the same seed draws the same, a stopped chain keeps what it drew", () => {
  const bell: LogDensity = (at, gradient) => {
    gradient[0] = -at[0]!;
    return -0.5 * at[0]! ** 2;
  };
  const run = (onDraw?: (done: number) => boolean) =>
    sampleChain(bell, [0.3], rng(5), { warmUp: 100, draws: 50, ...(onDraw === undefined ? {} : { onDraw }) });
  expect(run().draws).toEqual(run().draws);
  const stopped = run((done) => done < 120);
  expect(stopped.length).toBe(20);
  expect(stopped.draws).toEqual(run().draws.slice(0, 20));
});

it("counts the gradients taken after the warm-up, each one the density was asked for", () => {
  let asked = 0;
  let before = 0;
  const bell: LogDensity = (at, gradient) => {
    asked++;
    gradient[0] = -at[0]!;
    return -0.5 * at[0]! ** 2;
  };
  const onDraw = (done: number): boolean => {
    if (done === 100) before = asked;
    return true;
  };
  const chain = sampleChain(bell, [0.3], rng(6), { warmUp: 100, draws: 50, onDraw });
  expect(chain.gradients).toBeGreaterThanOrEqual(50);
  expect(chain.gradients).toBe(asked - before);
});
