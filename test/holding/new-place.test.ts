/** Loads at a place not pulled at yet, against the integral over places, summed here; and curves of bounds, by their own conditions. */
import { describe, expect, it } from "vitest";
import { chanceAbove, chanceAhead, scatterQuantile } from "../../src/holding/predict.ts";
import type { Hold } from "../../src/holding/pull.ts";
import { turnbull } from "../../src/holding/turnbull.ts";
import { rng } from "../../src/statistics/index.ts";

/** ∫ f(z) φ(z) dz by the middle rule to ten deviations. */
function overPlaces(f: (z: number) => number): number {
  let sum = 0;
  const n = 20_000;
  for (let k = 0; k < n; k++) {
    const z = -10 + (20 * (k + 0.5)) / n;
    sum += (f(z) * Math.exp(-0.5 * z * z) * (20 / n)) / Math.sqrt(2 * Math.PI);
  }
  return sum;
}
/** Share of a law's pulls above ln load over scatter w: of Weibull the extreme value, of the log-logistic the logistic. */
const ABOVE = {
  weibull: (w: number) => Math.exp(-Math.exp(w)),
  loglogistic: (w: number) => 1 / (1 + Math.exp(w)),
} as const;

describe.each(["weibull", "loglogistic"] as const)("a load at a new place, %s", (law) => {
  it.each([
    [-0.8, 0.3, 0.4],
    [0.2, 0.3, 0.4],
    [0.5, 0.15, 0.25],
  ])("%s above the middle, spread %s, scatter %s, is held with the share over all places", (x, spread, sigma) => {
    const expected = overPlaces((z) => ABOVE[law]((x - spread * z) / sigma));
    // Sixteen nodes: seen to 1e-4 where the spread is no larger than the scatter.
    expect(Math.abs(chanceAbove(law, x, spread, sigma) - expected)).toBeLessThan(1e-4);
  });

  it.each([0.05, 0.5, 0.9])("below which %s of pulls lie is found by that share", (p) => {
    const [spread, sigma] = [0.3, 0.35];
    const x = scatterQuantile(law, p, spread, sigma);
    expect(Math.abs(overPlaces((z) => 1 - ABOVE[law]((x - spread * z) / sigma)) - p)).toBeLessThan(2e-4);
  });

  it("without a spread of places is the law's own quantile", () => {
    // Inverse of each law, by hand.
    const own = { weibull: Math.log(-Math.log(1 - 0.2)), loglogistic: Math.log(0.2 / 0.8) }[law];
    expect(scatterQuantile(law, 0.2, 0, 0.4)).toBeCloseTo(0.4 * own, 9);
    expect(chanceAbove(law, 0.4 * own, 0, 0.4)).toBeCloseTo(0.8, 9);
  });
});

describe("the normal law at a new place", () => {
  it("has the scatter and the spread of places together, square to each other", () => {
    // 5 % of a normal law lie below −1.644854 deviations (recalled); hypot(0.3, 0.4) = 0.5.
    expect(scatterQuantile("lognormal", 0.05, 0.3, 0.4)).toBeCloseTo(-1.6448536 * 0.5, 6);
    expect(chanceAbove("lognormal", -1.6448536 * 0.5, 0.3, 0.4)).toBeCloseTo(0.95, 4);
  });
});

describe("one pull against another on the same site and day", () => {
  it.each([-0.4, 0.1, 0.7])("is ahead by the share of the difference of two draws, %s ahead in the mean", (ahead) => {
    const sigma = 0.35;
    // P(ahead + σ w₁ > σ w₂): over w₁ by its own quantiles.
    const share = (above: (w: number) => number, quantile: (u: number) => number): number => {
      let sum = 0;
      const n = 20_000;
      for (let k = 0; k < n; k++) sum += 1 - above(ahead / sigma + quantile((k + 0.5) / n));
      return sum / n;
    };
    const weibull = share(ABOVE.weibull, (u) => Math.log(-Math.log(1 - u)));
    expect(chanceAhead("weibull", ahead, sigma)).toBeCloseTo(weibull, 4);
    let normal = 0;
    const random = rng(3);
    for (let k = 0; k < 40_000; k++) if (ahead + sigma * (random.normal() - random.normal()) > 0) normal++;
    // Four standard errors of 40 000 draws.
    expect(Math.abs(chanceAhead("lognormal", ahead, sigma) - normal / 40_000)).toBeLessThan(0.01);
  });
});

describe("the curve of loads known between bounds", () => {
  const random = rng(8);
  const holds = Array.from({ length: 60 }, (_, i): Hold => {
    const load = Math.round(1000 * Math.exp(0.5 * random.normal()));
    const step = 150 + 10 * (i % 7);
    const below = Math.floor(load / step) * step;
    if (i % 5 === 0) return { kind: "heldTo", newtons: Math.max(step, below) };
    if (i % 11 === 0) return { kind: "gaveWay", newtons: load };
    return below === 0
      ? { kind: "neverHeld", newtons: step }
      : { kind: "between", heldTo: below, gaveWayBy: below + step };
  });
  const found = turnbull(holds);
  const bounds = holds.map((hold): [number, number] =>
    hold.kind === "gaveWay"
      ? [hold.newtons, hold.newtons]
      : hold.kind === "heldTo"
        ? [hold.newtons, Number.POSITIVE_INFINITY]
        : hold.kind === "neverHeld"
          ? [0, hold.newtons]
          : [hold.heldTo, hold.gaveWayBy],
  );
  /** Mass of the intervals that lie within the bounds of a pull. */
  const massOf = ([low, high]: [number, number]): number =>
    found.intervals.reduce(
      (sum, { from, to, mass }) =>
        sum +
        ((low === high ? from === low && to === low : from >= low && to <= high && !(from === low && to === low))
          ? mass
          : 0),
      0,
    );

  it("is the likeliest: no interval would gain, and none with mass would lose (Kuhn & Tucker)", () => {
    expect(found.intervals.reduce((sum, { mass }) => sum + mass, 0)).toBeCloseTo(1, 9);
    const shares = bounds.map(massOf);
    expect(Math.min(...shares)).toBeGreaterThan(0);
    expect(found.logLikelihood).toBeCloseTo(
      shares.reduce((sum, share) => sum + Math.log(share), 0),
      6,
    );
    for (const { from, to, mass } of found.intervals) {
      const gain =
        bounds.reduce((sum, bound) => {
          const own = massOf(bound);
          const [low, high] = bound;
          const has =
            low === high ? from === low && to === low : from >= low && to <= high && !(from === low && to === low);
          return sum + (has ? 1 / own : 0);
        }, 0) / holds.length;
      expect(gain).toBeLessThan(1 + 1e-8);
      if (mass > 1e-6) expect(gain).toBeGreaterThan(1 - 1e-8);
    }
    expect(found.gainLeft).toBeLessThan(1e-10);
  });

  it("is come a hundred times nearer to in sixty turns than by self-consistency alone", () => {
    const has = bounds.map(([low, high]) =>
      found.intervals.map(({ from, to }) =>
        (low === high ? from === low && to === low : from >= low && to <= high && !(from === low && to === low))
          ? 1
          : 0,
      ),
    );
    let mass = found.intervals.map(() => 1 / found.intervals.length);
    const gainsOf = (): number[] => {
      const shares = has.map((row) => row.reduce<number>((sum, own, j) => sum + own * mass[j]!, 0));
      return mass.map((_, j) => has.reduce((sum, row, i) => sum + row[j]! / shares[i]!, 0) / holds.length);
    };
    for (let turn = 0; turn < 60; turn++) {
      const gains = gainsOf();
      mass = mass.map((own, j) => own * gains[j]!);
    }
    const left = Math.max(...gainsOf().map((gain) => gain - 1));
    expect(turnbull(holds, 1e-10, 60).gainLeft).toBeLessThan(left / 100);
  });

  it("counts who is at risk: those not gone below and not left, whole pulls in all", () => {
    const steps = found.steps;
    for (const [k, step] of steps.entries()) {
      if (k > 0) expect(step.atRisk).toBeLessThan(steps[k - 1]!.atRisk + 1e-9);
      expect(step.gaveWay).toBeGreaterThan(0);
      // The chance at a step is the mass above it.
      const above = found.intervals.reduce((sum, { to, mass }) => sum + (to > step.load ? mass : 0), 0);
      expect(step.chance).toBeCloseTo(above, 9);
    }
    const gone = steps.reduce((sum, { gaveWay }) => sum + gaveWay, 0);
    expect(gone).toBeCloseTo(holds.filter(({ kind }) => kind !== "heldTo").length, 6);
    expect(steps[0]!.atRisk).toBeLessThanOrEqual(60);
  });
});
