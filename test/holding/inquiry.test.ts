/** The whole inquiry, with chains handed in instead of sampled: what is asked for, in which order, and what comes of it. */
import { describe, expect, it } from "vitest";
import {
  type DrawChains,
  type Inquired,
  type Inquiry,
  incidence,
  inquire,
  loadAtChance,
  Model,
  type ModelInput,
  morePulls,
  type Pull,
  patient,
  type SamplingPlan,
  USUAL_PLAN,
  USUAL_PRIORS,
  widened,
} from "../../src/holding/index.ts";
import { gather } from "../../src/holding/posterior.ts";
import { type Chain, normalBelow, rng } from "../../src/statistics/index.ts";

const stream = rng(17);
/** Eight pulls of each of two anchors, alike but for their luck; one more of each states no mass. */
const pulls: readonly Pull[] = Array.from(
  { length: 18 },
  (_, i): Pull => ({
    anchor: i % 2 === 0 ? "A" : "B",
    ...(i < 16 ? { mass: 10 + (i % 4) } : {}),
    hold: { kind: i % 4 === 3 ? "heldTo" : "gaveWay", newtons: 3000 * Math.exp(0.3 * stream.normal()) },
  }),
);
const plan: SamplingPlan = { chains: 2, warmUp: 50, draws: 1000, seed: 1, acceptance: 0.9 };
const inquiry: Inquiry = {
  pulls,
  terms: ["anchor", "mass"],
  random: [],
  laws: ["lognormal", "weibull"],
  priors: USUAL_PRIORS,
  wanted: { conditions: { mass: 12 }, chances: [0.9] },
  plan,
};

interface Made {
  readonly lead?: number;
  readonly divergent?: number;
  readonly length?: number;
  readonly drift?: number;
}
/** Draws about a place that fits the pulls, each parameter for itself; `lead` of A over B in ln load. */
function chainOf(input: ModelInput, own: ReturnType<typeof rng>, made: Made, chain: number): Chain {
  const model = new Model(input);
  const length = made.length ?? 1000;
  const draws = new Float64Array(length * model.parameters);
  for (let s = 0; s < length; s++) {
    for (const [k, name] of model.names.entries()) {
      const [middle, sd] =
        name === "m"
          ? [Math.log(3000) + (made.drift ?? 0) * chain, 0.1]
          : name === "mass"
            ? [0.9, 0.1]
            : name === "lnScatter"
              ? [Math.log(input.law === "weibull" ? 0.25 : 0.3), 0.1]
              : name === "anchor:A"
                ? [made.lead ?? 0, 0.1]
                : name === "anchor:B"
                  ? [0, 0.1]
                  : [0, 0.05];
      draws[s * model.parameters + k] = middle + sd * own.normal();
    }
  }
  return {
    draws,
    parameters: model.parameters,
    length,
    divergent: made.divergent ?? 0,
    energyMixing: 1,
  } as unknown as Chain;
}
type Asked = { law: string; label: string; plan: SamplingPlan; input: ModelInput };
async function asked(
  over: Partial<Inquiry> = {},
  made: (asked: Asked) => Made | "stopped" = () => ({}),
): Promise<{ inquired: Inquired; calls: Asked[] }> {
  const calls: Asked[] = [];
  const own = rng(3);
  const drawChains: DrawChains = async (input, how, label) => {
    const call = { law: input.law, label, plan: how, input };
    calls.push(call);
    const how2 = made(call);
    if (how2 === "stopped") return [chainOf(input, own, {}, 0)];
    return Array.from({ length: how.chains }, (_, chain) => chainOf(input, own, how2, chain));
  };
  return { inquired: await inquire({ ...inquiry, ...over }, drawChains), calls };
}
function concluded(inquired: Inquired): Extract<Inquired, { kind: "concluded" }> {
  if (inquired.kind !== "concluded") throw new Error(inquired.kind);
  return inquired;
}

describe("an inquiry", () => {
  it("draws each law, then the better one with priors half and twice as wide, of the pulls that state the terms", async () => {
    const { inquired, calls } = await asked();
    const { law, laws, ahead, sensitivity, conclusion, pulls: taken, posterior } = concluded(inquired);
    expect(calls.map(({ label }) => label)).toEqual(["lognormal", "weibull", "priors halved", "priors doubled"]);
    expect(calls.map((call) => call.law)).toEqual(["lognormal", "weibull", law, law]);
    expect(calls.map(({ plan: how }) => how)).toEqual([plan, plan, plan, plan]);
    expect(calls.map(({ input }) => input.priors)).toEqual([
      USUAL_PRIORS,
      USUAL_PRIORS,
      widened(USUAL_PRIORS, 0.5),
      widened(USUAL_PRIORS, 2),
    ]);
    expect(calls[0]!.input.terms).toEqual(["anchor", "mass"]);
    expect(taken).toEqual(pulls.slice(0, 16));
    expect(posterior.model.law).toBe(law);
    // The law that foretells the pulls better comes first; the other is what it is ahead of.
    expect(laws).toHaveLength(2);
    expect(laws[0]!.law).toBe(law);
    expect(laws[0]!.elpd).toBeGreaterThan(laws[1]!.elpd);
    expect(laws[0]!.elpd).toBe(conclusion.elpd.value);
    expect(ahead).toMatchObject({ of: laws[1]!.law, difference: expect.closeTo(laws[0]!.elpd - laws[1]!.elpd, 9) });
    expect(sensitivity.map(({ times, sound }) => [times, sound])).toEqual([
      [0.5, true],
      [2, true],
    ]);
    expect(sensitivity[0]!.holds.map(({ mass }) => mass)).toEqual([12, 12]);
  });

  it("has the error of that difference from pull to pull", async () => {
    const { inquired, calls } = await asked();
    const { ahead, posterior, law } = concluded(inquired);
    // The same chains once more, of the other law alone.
    const other = law === "lognormal" ? "weibull" : "lognormal";
    const own = rng(3);
    const chains = calls
      .slice(0, 2)
      .map(({ input }) => [0, 1].map((chain) => chainOf(input, own, {}, chain)))
      .map((pair, k) => gather(calls[k]!.input, pair));
    const { pullsLeftOut } = await import("../../src/holding/posterior.ts");
    const [best, next] = [
      chains.find(({ model }) => model.law === law)!,
      chains.find(({ model }) => model.law === other)!,
    ];
    expect(best.draws).toEqual(posterior.draws);
    const [one, two] = [pullsLeftOut(best).parts, pullsLeftOut(next).parts];
    const differences = Array.from(one, (x, i) => x - two[i]!);
    const mean = differences.reduce((a, b) => a + b, 0) / 16;
    const variance = differences.reduce((sum, x) => sum + (x - mean) ** 2, 0) / 15;
    expect(ahead!.se).toBeCloseTo(Math.sqrt(16 * variance), 9);
    expect(ahead!.difference).toBeCloseTo(16 * mean, 9);
  });

  it("asks how many more pulls only of pairs that cannot be told apart", async () => {
    const even = concluded((await asked({ laws: ["lognormal"] })).inquired);
    expect(even.conclusion.pairs[0]!.moreInTheMean).toBeGreaterThan(0.3);
    expect(even.conclusion.pairs[0]!.moreInTheMean).toBeLessThan(0.7);
    expect(even.more).toEqual([
      { first: "A", second: "B", answer: expect.objectContaining({ kind: expect.any(String) }) },
    ]);
    expect(even).not.toHaveProperty("ahead");
    // Effects are in units of their spread, e^0 here: 0.8 over an error of 0.14.
    const clear = concluded((await asked({ laws: ["lognormal"] }, () => ({ lead: 0.8 }))).inquired);
    expect(clear.conclusion.pairs[0]!.moreInTheMean).toBe(1);
    expect(clear.more).toEqual([]);
  });

  it("has a second, patient try where draws are unsound, and believes it when that is sound", async () => {
    const { inquired, calls } = await asked({ laws: ["lognormal"] }, ({ plan: how }) =>
      how.acceptance < 0.95 ? { drift: 1 } : {},
    );
    expect(inquired.kind).toBe("concluded");
    expect(calls.slice(0, 2).map(({ plan: how }) => how)).toEqual([plan, patient(plan)]);
    expect(patient(plan)).toEqual({ ...plan, warmUp: 100, acceptance: 0.99 });
    expect(USUAL_PLAN).toMatchObject({ chains: 4, warmUp: 1000, draws: 1000 });
  });

  it("concludes from the other law where one stays unsound, and from none where both do", async () => {
    const one = await asked({}, ({ law }) => (law === "lognormal" ? { drift: 1 } : {}));
    const { law, laws } = concluded(one.inquired);
    expect([law, laws.length]).toEqual(["weibull", 1]);
    const both = await asked({}, () => ({ drift: 1 }));
    expect(both.inquired).toMatchObject({ kind: "unsound", law: "lognormal" });
    expect(both.calls.map((call) => [call.law, call.plan.acceptance])).toEqual([
      ["lognormal", 0.9],
      ["lognormal", 0.99],
      ["weibull", 0.9],
      ["weibull", 0.99],
    ]);
  });

  it("takes one runaway in two hundred, no more; and fewer draws than were asked for are a stop", async () => {
    // 2000 draws: ten runaways.
    expect((await asked({ laws: ["lognormal"] }, () => ({ divergent: 5 }))).inquired.kind).toBe("concluded");
    const more = await asked({ laws: ["lognormal"] }, () => ({ divergent: 6 }));
    expect(more.inquired.kind).toBe("unsound");
    expect((await asked({}, () => "stopped")).inquired).toEqual({ kind: "stopped" });
    expect((await asked({}, () => ({ length: 999 }))).inquired).toEqual({ kind: "stopped" });
    const late = await asked({}, ({ label }) => (label === "priors doubled" ? "stopped" : {}));
    expect(late.inquired).toEqual({ kind: "stopped" });
    expect(late.calls).toHaveLength(4);
  });

  it("has nothing to say of no pulls", async () => {
    expect(await asked({ pulls: [] })).toEqual({ inquired: { kind: "noPulls" }, calls: [] });
  });
});

describe("how many more pulls", () => {
  /** A is ahead of B by `lead` ± `sd` in ln load, scatter `sigma`, all loads seen. */
  function askedOf(lead: number, sd: number, sigma: number, of: readonly Pull[] = seen, series = 200, seed = 8) {
    const input: ModelInput = { pulls: of, law: "lognormal", terms: ["anchor"], random: [], priors: USUAL_PRIORS };
    const model = new Model(input);
    const own = rng(5);
    const draws = new Float64Array(400 * model.parameters);
    for (let s = 0; s < 400; s++)
      for (const [k, name] of model.names.entries())
        draws[s * model.parameters + k] =
          name === "m"
            ? Math.log(2000)
            : name === "lnScatter"
              ? Math.log(sigma)
              : name === "anchor:A"
                ? lead + sd * own.normal()
                : 0;
    const chain = { draws, parameters: model.parameters, length: 400, divergent: 0, energyMixing: 1 };
    return morePulls(gather(input, [chain as unknown as Chain]), of, "A", "B", rng(seed), series);
  }
  const seen = ["A", "B"].map((anchor): Pull => ({ anchor, hold: { kind: "gaveWay", newtons: 2000 } }));

  /**
   * With n loads of each, the difference of means weighs w = n/(2σ²) beside 1/τ² of what is believed. What is joined is
   * normal about λ with variance τ⁴w/(1 + τ²w) (truth drawn from λ ± τ), and told apart beyond 1.645 of its error.
   */
  function shareTold(n: number, lead: number, tau: number, sigma: number): number {
    const w = n / (2 * sigma ** 2);
    const sd = tau ** 2 * Math.sqrt(w / (1 + tau ** 2 * w));
    const error = 1 / Math.sqrt(1 / tau ** 2 + w);
    return normalBelow((lead - 1.645 * error) / sd) + normalBelow((-lead - 1.645 * error) / sd);
  }

  it.each([
    [0, 1, 0.5],
    [0.3, 0.5, 0.3],
    [0.5, 0.35, 0.4],
  ])("%s ahead, give or take %s, scatter %s: by the normal law", (lead, tau, sigma) => {
    const answer = askedOf(lead, tau, sigma);
    expect(answer.kind).toBe("enough");
    // 200 series: three errors of a share near 0.8 are 0.085; a few pulls' own error of σ makes it less sure yet.
    const { each, share } = answer;
    expect(Math.abs(share - shareTold(each, lead, tau, sigma))).toBeLessThan(0.1);
    const fewer = [3, 5, 8, 12, 20, 30, 50, 100].filter((n) => n < each);
    for (const n of fewer) expect(shareTold(n, lead, tau, sigma), `${n}`).toBeLessThan(0.9);
  });

  it("looks at eight numbers from three to a hundred, each found where it is the least", () => {
    // 2 (1 − Φ(1.645/√x)) with x = n/(2σ²) passes 0.8 at x = 42: at n = 84 σ² of each.
    const each = Array.from(
      { length: 72 },
      (_, k) => askedOf(0, 1, Math.sqrt((2.5 * 1.06 ** k) / 84), seen, 60, k).each,
    );
    expect([...new Set(each)].sort((a, b) => a - b)).toEqual([3, 5, 8, 12, 20, 30, 50, 100]);
  });

  it("says by how many not where they are alike", () => {
    const answer = askedOf(0, 0.02, 0.5);
    expect(answer).toMatchObject({ kind: "notBy", each: 100 });
    expect(answer.share).toBeLessThan(0.3);
  });

  it("takes more where the engine ends pulls before anchors give way", () => {
    const open = askedOf(0.3, 0.5, 0.3);
    const ended = askedOf(0.3, 0.5, 0.3, [
      ...seen,
      ...seen.map((pull): Pull => ({ ...pull, hold: { kind: "heldTo", newtons: 1500 } })),
    ]);
    expect(ended.each).toBeGreaterThan(open.each);
  });
});

describe("incidence by ending", () => {
  it("is the share ended so, each way beside the others, with held pulls leaving", () => {
    const curves = incidence(
      [
        { kind: "gaveWay", newtons: 100 },
        { kind: "heldTo", newtons: 200 },
        { kind: "between", heldTo: 150, gaveWayBy: 300 },
        { kind: "gaveWay", newtons: 400 },
      ],
      ["drag", "drag", "roll-out", undefined],
    );
    // One of four at 100; of two left at 300 one, of what held 3/4; then the last.
    expect(
      curves.map(({ ending, pulls: n, steps }) => [ending, n, steps.map(({ load, chance }) => [load, chance])]),
    ).toEqual([
      ["drag", 1, [[100, 0.25]]],
      ["not told", 1, [[400, 0.375]]],
      ["roll-out", 1, [[300, 0.375]]],
    ]);
  });

  it("has the binomial error where nothing was left before it ended", () => {
    const loads = [1, 2, 2, 3, 4, 5, 6, 7, 8, 9];
    const ended = loads.map((_, i) => (i % 3 === 0 ? "drag" : "roll-out"));
    for (const { ending, steps } of incidence(
      loads.map((newtons) => ({ kind: "gaveWay", newtons })),
      ended,
    ))
      for (const { load, chance, se } of steps) {
        const n = loads.filter((x, i) => x <= load && ended[i] === ending).length;
        expect(chance).toBeCloseTo(n / 10, 12);
        expect(se).toBeCloseTo(Math.sqrt((chance * (1 - chance)) / 10), 9);
      }
  });
});

describe("the load held with a chance", () => {
  it("is the first at which the curve is at it or below, none where it never is", () => {
    const steps = [0.75, 0.5, 0.2].map((chance, k) => ({ load: 100 * (k + 1), chance, atRisk: 4 - k, gaveWay: 1 }));
    expect(loadAtChance(steps, 0.75)).toBe(100);
    expect(loadAtChance(steps, 0.5)).toBe(200);
    expect(loadAtChance(steps, 0.49)).toBe(300);
    expect(loadAtChance(steps, 0.1)).toBeUndefined();
  });
});
