/**
 * Loads in groups of one size, all known: the maximum of the normal likelihood with a random intercept is closed.
 *
 *   l = −½ [k (n − 1) ln σ² + SSW/σ² + k ln λ + (SSB + k n (ȳ − μ)²)/λ] − ½ k n ln 2π,   λ = σ² + n ω²
 *   σ² = SSW/(k (n − 1)),   λ = SSB/k,   u(μ)² = λ/(k n),   u(ln σ)² and u(ln ω)² from the information of (σ², λ)
 *
 * (Searle, Casella & McCulloch, Variance Components, 1992, recalled.)
 */
import { describe, expect, it } from "vitest";
import { fitAft, type Hold, observations } from "../../src/holding/index.ts";
import { rng } from "../../src/statistics/index.ts";

function problemOf(loads: readonly (readonly number[])[], random = true) {
  const holds: Hold[] = loads.flat().map((ln) => ({ kind: "gaveWay", newtons: Math.exp(ln) }));
  const of = Int32Array.from(loads.flatMap((own, group) => own.map(() => group)));
  return {
    law: "lognormal" as const,
    observations: observations(holds),
    terms: { names: ["intercept"], rows: new Float64Array(holds.length).fill(1) },
    ...(random ? { random: { groups: loads.length, of } } : {}),
  };
}
const meanOf = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0) / list.length;

describe("a fit with groups of one size, every load known", () => {
  const stream = rng(12);
  const [k, n] = [9, 5];
  const loads = Array.from({ length: k }, () => {
    const own = 0.5 * stream.normal();
    return Array.from({ length: n }, () => 7 + own + 0.3 * stream.normal());
  });
  const means = loads.map(meanOf);
  const grand = meanOf(means);
  const within = loads.reduce((sum, own, i) => sum + own.reduce((all, y) => all + (y - means[i]!) ** 2, 0), 0);
  const among = n * means.reduce((sum, mean) => sum + (mean - grand) ** 2, 0);
  const s2 = within / (k * (n - 1));
  const lambda = among / k;
  const w2 = (lambda - s2) / n;
  const fit = fitAft(problemOf(loads));
  if (fit.kind !== "fitted") throw new Error(fit.kind);

  it("has the middle, scatter and spread of the closed form", () => {
    expect(w2).toBeGreaterThan(0);
    // The search ends where no parameter moves by more than some 1e-7 of its error.
    expect(fit.terms[0]!.value).toBeCloseTo(grand, 6);
    expect(fit.logScale.value).toBeCloseTo(0.5 * Math.log(s2), 6);
    expect(fit.logRandom!.value).toBeCloseTo(0.5 * Math.log(w2), 5);
  });

  it("has the standard errors of its information", () => {
    expect(fit.terms[0]!.u).toBeCloseTo(Math.sqrt(lambda / (k * n)), 6);
    // var σ² = 2σ⁴/(k(n−1)), var λ = 2λ²/k, independent; ω² = (λ − σ²)/n.
    const [vs, vl] = [(2 * s2 ** 2) / (k * (n - 1)), (2 * lambda ** 2) / k];
    expect(fit.logScale.u).toBeCloseTo(Math.sqrt(vs) / (2 * s2), 5);
    expect(fit.logRandom!.u).toBeCloseTo(Math.sqrt((vs + vl) / n ** 2) / (2 * w2), 5);
  });

  it("has the likelihood of the loads themselves", () => {
    const ofLogs =
      -0.5 * (k * (n - 1) * (Math.log(s2) + 1) + k * (Math.log(lambda) + 1) + k * n * Math.log(2 * Math.PI));
    // A density of loads is that of their logarithms over the load.
    expect(fit.logLikelihood).toBeCloseTo(ofLogs - loads.flat().reduce((a, b) => a + b, 0), 6);
  });

  it("without groups is the mean, and the scatter about it over n", () => {
    const plain = fitAft(problemOf(loads, false));
    if (plain.kind !== "fitted") throw new Error(plain.kind);
    const all = loads.flat();
    const v = meanOf(all.map((y) => (y - grand) ** 2));
    expect(plain.terms[0]).toMatchObject({
      value: expect.closeTo(grand, 7),
      u: expect.closeTo(Math.sqrt(v / all.length), 7),
    });
    expect(plain.logScale).toMatchObject({
      value: expect.closeTo(0.5 * Math.log(v), 7),
      u: expect.closeTo(1 / Math.sqrt(2 * all.length), 6),
    });
    expect(plain).not.toHaveProperty("logRandom");
  });

  it("says so where groups differ less than their own scatter makes them", () => {
    const alike = loads.map((own, i) => own.map((y) => y - means[i]!));
    expect(fitAft(problemOf(alike)).kind).toBe("noSpreadBetweenGroups");
  });
});

describe("pulls without a best fit", () => {
  const fitOf = (holds: readonly Hold[]) =>
    fitAft({
      law: "weibull",
      observations: observations(holds),
      terms: { names: ["intercept"], rows: new Float64Array(holds.length).fill(1) },
    });
  it("are told: none gave way, none held, all one load", () => {
    expect(fitOf([1, 2].map((newtons) => ({ kind: "heldTo", newtons })))).toEqual({
      kind: "noMaximum",
      law: "weibull",
      why: { kind: "noneGaveWay" },
    });
    expect(fitOf([1, 2].map((newtons) => ({ kind: "neverHeld", newtons })))).toEqual({
      kind: "noMaximum",
      law: "weibull",
      why: { kind: "noneHeld" },
    });
    expect(fitOf([5, 5, 5].map((newtons) => ({ kind: "gaveWay", newtons })))).toMatchObject({
      kind: "noMaximum",
      why: { kind: "noScatter" },
    });
  });

  it("and where a term has no end: an anchor that never gave way beside one that did", () => {
    const two = (second: readonly Hold[]) => {
      const first = [800, 1000, 1300, 1600].map((newtons): Hold => ({ kind: "gaveWay", newtons }));
      const holds = [...first, ...second];
      return fitAft({
        law: "lognormal",
        observations: observations(holds),
        terms: {
          names: ["intercept", "second"],
          rows: Float64Array.from(holds.flatMap((_, i) => [1, i < first.length ? 0 : 1])),
        },
      });
    };
    const held = [900, 1200].map((newtons): Hold => ({ kind: "heldTo", newtons }));
    expect(two(held)).toEqual({ kind: "noMaximum", law: "lognormal", why: { kind: "endless" } });
    const never = [900, 1200].map((newtons): Hold => ({ kind: "neverHeld", newtons }));
    expect(two(never)).toEqual({ kind: "noMaximum", law: "lognormal", why: { kind: "endless" } });
    expect(two([...held, { kind: "gaveWay", newtons: 2000 }]).kind).toBe("fitted");
  });
});
