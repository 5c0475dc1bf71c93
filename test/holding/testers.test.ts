/** Several testers: each with an effect of its own, calibrated by simulation, found where there is one. */
import { describe, expect, it } from "vitest";
import {
  compare,
  comparedFields,
  holdingVerdicts,
  inquire,
  Model,
  type Pull,
  sampleOneChain,
  USUAL_PLAN,
  USUAL_PRIORS,
} from "../../src/holding/index.ts";
import { rng } from "../../src/statistics/index.ts";
import { sayHoldingVerdict, sayPriors } from "../../src/words/index.ts";
import { calibrated, gathered, uniformity } from "./calibration.ts";

/** Two shapes at three sites, pulled by two testers; the second's loads are `factor` times the first's. */
function pullsOf(factor: number, more: (i: number) => Partial<Pull> = () => ({})): Pull[] {
  const own = rng(5);
  return Array.from({ length: 40 }, (_, i): Pull => {
    const [anchor, second] = [i % 2, Math.floor(i / 2) % 2];
    const site = Math.floor(i / 4) % 3;
    const middle = 3000 * (anchor === 1 ? 1.3 : 1) * (second === 1 ? factor : 1) * Math.exp(0.25 * (site - 1));
    const newtons = middle * Math.exp(0.2 * own.normal());
    return {
      anchor: anchor === 1 ? "Heron" : "Plaice",
      tester: second === 1 ? "second" : "first",
      site: `site ${site}`,
      hold: { kind: "gaveWay", newtons },
      ...more(i),
    };
  });
}

async function asked(pulls: readonly Pull[]) {
  const compared = compare(pulls, { laws: [], permutations: 0 }, rng(1));
  const inquired = await inquire(
    {
      pulls,
      terms: compared.modelTerms,
      random: compared.random,
      laws: ["lognormal"],
      priors: USUAL_PRIORS,
      wanted: { conditions: {}, chances: [0.9] },
      plan: USUAL_PLAN,
    },
    async (input, plan) => Array.from({ length: plan.chains }, (_, chain) => sampleOneChain(input, plan, chain)),
  );
  if (inquired.kind !== "concluded") throw new Error(inquired.kind);
  return { compared, inquired };
}

describe("a random effect of tester", () => {
  it("truths drawn from the priors rank evenly among what their series say, and lie in their limits (30 series)", {
    timeout: 600_000,
  }, () => {
    const { names, ranks, coveredAll } = gathered([...calibrated(30, "lognormal", 23, false, ["site", "tester"])]);
    expect(names).toEqual(expect.arrayContaining(["ln spread of tester", "tester:tester 0", "tester:tester 1"]));
    // 16 parameters: one in a thousand each, some one in 60 for any; the seed stands still.
    for (const [k, name] of names.entries()) expect(uniformity(ranks[k]!).p, name).toBeGreaterThan(0.001);
    // 480 intervals, correlated within a series: 95 % within three standard errors of some 240 independent ones.
    expect(Math.abs(coveredAll - 0.95)).toBeLessThan(0.043);
  });

  it("is found where one tester's loads are half as much again, and the anchors are told apart as before", async () => {
    const { compared, inquired } = await asked(pullsOf(1.5));
    expect(compared.random).toEqual(["site", "tester"]);
    const testers = inquired.conclusion.testers!;
    const [first, second] = ["first", "second"].map((name) => testers.each.find(({ tester }) => tester === name)!);
    expect([first!.pulls, second!.pulls]).toEqual([20, 20]);
    // The middle of the draws: 1.5 within three standard errors of a difference of means (0.2 √(2/20) = 6 %).
    expect(second!.factor.middle / first!.factor.middle).toBeGreaterThan(1.5 * 0.81);
    expect(second!.factor.middle / first!.factor.middle).toBeLessThan(1.5 * 1.19);
    // The anchors' ratio is of the testers' making in nothing: 1.3 lies in its limits.
    const [pair] = inquired.conclusion.pairs;
    expect(pair!.first).toBe("Heron");
    expect(pair!.ratio.low).toBeLessThan(1.3);
    expect(pair!.ratio.high).toBeGreaterThan(1.3);
    const verdict = holdingVerdicts(compared, inquired).find(({ kind }) => kind === "testers")!;
    const said = sayHoldingVerdict(verdict, { units: "metric", pullName: () => "a pull" });
    expect(said).toMatch(
      /^testers differ by a factor of 1\.\d+ \(1\S* to \d\.\d+\); over what they find together, first 0\.\d+ /,
    );
    const fields = comparedFields(
      { rows: pullsOf(1.5).map((_, i) => i), leftOut: [] },
      compared,
      inquired,
      [],
      [],
      [],
    ) as {
      testers: { each: { tester: string; factor: number; low: number; high: number }[] };
    };
    expect(fields.testers.each.map(({ tester }) => tester)).toEqual(["first", "second"]);
    for (const { low, factor, high } of fields.testers.each) {
      expect(low).toBeLessThan(factor);
      expect(factor).toBeLessThan(high);
    }
  });

  it("makes what is told of a new place wider, not narrower", async () => {
    const two = await asked(pullsOf(1.5));
    const one = await asked(pullsOf(1.5, () => ({ tester: "one" })));
    const width = ({ inquired }: typeof two): number => {
      const { low, high } = inquired.conclusion.holds[0]!.chances[0]!;
      return Math.log(high / low);
    };
    expect(one.inquired.conclusion.testers).toBeUndefined();
    expect(width(two)).toBeGreaterThan(width(one));
  });

  it("is none where one tested, where some pull names none, and where testers are the sites over again", () => {
    const random = (pulls: readonly Pull[]) => compare(pulls, { laws: [], permutations: 0 }, rng(1)).random;
    expect(random(pullsOf(1, () => ({ tester: "one" })))).toEqual(["site"]);
    const { tester: _, ...nameless } = pullsOf(1)[0]!;
    expect(random([nameless, ...pullsOf(1).slice(1)])).toEqual(["site"]);
    expect(random(pullsOf(1, (i) => ({ site: i % 4 < 2 ? "creek" : "bay" })))).toEqual(["site"]);
    expect(random(pullsOf(1, (i) => ({ day: i % 2 === 0 ? "2031-05-11" : "2031-05-12" })))).toEqual([
      "site",
      "day",
      "tester",
    ]);
  });

  it("has a gradient that is the slope of its density", () => {
    const model = new Model({
      pulls: pullsOf(1.2),
      law: "weibull",
      terms: [],
      random: ["site", "tester"],
      priors: USUAL_PRIORS,
    });
    const at = model.drawPrior(rng(3));
    const gradient = new Float64Array(model.parameters);
    model.logDensity(at, gradient);
    const scratch = new Float64Array(model.parameters);
    for (let k = 0; k < model.parameters; k++) {
      const h = 1e-5;
      const moved = (by: number): number =>
        model.logDensity(
          at.map((x, j) => (j === k ? x + by : x)),
          scratch,
        );
      // Central differences of a step of 1e-5 are good to some 1e-6 of the values they are between.
      const slope = (moved(h) - moved(-h)) / (2 * h);
      expect(Math.abs(slope - gradient[k]!), model.names[k]).toBeLessThan(1e-5 * Math.max(10, Math.abs(slope)));
    }
  });

  it("is believed in words only where several tested", () => {
    expect(sayPriors(USUAL_PRIORS)).not.toContain("testers");
    expect(sayPriors(USUAL_PRIORS, { testers: true })).toContain("days 1.2, testers 1.2");
  });
});
