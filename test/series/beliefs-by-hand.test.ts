/** What is believed of a series, and truths drawn of it: against the normal law's own formulas, written out here. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  type DrawChains,
  type Hold,
  Model,
  type ModelInput,
  type Pull,
  USUAL_PRIORS,
} from "../../src/holding/index.ts";
import { dot, PRIOR_SIGMA, priorMiddle, rowOf, solve } from "../../src/series/belief.ts";
import { beliefOf, drawTruths, nextPulls, type Power, powerOf, powerWith, readSeries } from "../../src/series/index.ts";
import { tableOf } from "../../src/series/table.ts";
import { type Chain, normalBelow, rng } from "../../src/statistics/index.ts";

const DEGREE = Math.PI / 180;
const series = readSeries(readFileSync("data/series/creek-trial.yaml", "utf8"), "creek.yaml");
const three = { ...series, anchors: [{ name: "A", mass: 5 }, { name: "B", mass: 20 }, { name: "C" }] };
/** Deviations of the prior, as docs/method-holding.md has them: middle, anchors, a degree; after a veer, 0.3. */
const SD = [1.5, 0.7, 0.7, 0.7, 0.05, 0.3];
const phi = (x: number): number => Math.exp(-0.5 * x * x) / Math.sqrt(2 * Math.PI);
const pull = (anchor: string, hold: Hold, degrees?: number): Pull => ({
  anchor,
  hold,
  ...(degrees === undefined ? {} : { anchorAngle: degrees * DEGREE }),
});

describe("the row of a pull", () => {
  it("is the middle, its anchor, the degrees above five, and whether a veer came before", () => {
    expect([...rowOf(three, "B", 12 * DEGREE, true)]).toEqual([1, 0, 1, 0, expect.closeTo(7, 12), 1]);
    expect([...rowOf(three, "D", 2 * DEGREE, false)]).toEqual([1, 0, 0, 0, expect.closeTo(-3, 12), 0]);
  });
});

describe("what is believed before any pull", () => {
  it("lies about thirty times the weight of the anchors' middle mass, with the priors' deviations", () => {
    // √(5 · 20) = 10 kg; the one that states none does not count.
    const middle = Math.log(30 * 9.80665 * 10);
    expect(priorMiddle(three)).toBeCloseTo(middle, 12);
    const belief = beliefOf(three)!;
    expect(belief).toMatchObject({ size: 6, pulls: 0, sigma: PRIOR_SIGMA });
    expect([...belief.mean]).toEqual([expect.closeTo(middle, 12), 0, 0, 0, -0.03, 0]);
    for (let i = 0; i < 6; i++)
      for (let j = 0; j <= i; j++) expect(belief.factor[i * 6 + j]).toBeCloseTo(i === j ? 1 / SD[i]! : 0, 12);
    // The middle of a half-normal law of deviation 0.5: 0.6745 of it (recalled).
    expect(PRIOR_SIGMA).toBeCloseTo(0.5 * 0.6745, 3);
  });

  it("without a mass lies about the middle of the pulls held, and is nothing without those", () => {
    const nameless = { ...series, anchors: [{ name: "A" }, { name: "B" }] };
    expect(beliefOf(nameless)).toBeNull();
    const other = [pull("C", { kind: "gaveWay", newtons: 9000 })];
    expect(beliefOf({ ...nameless, pulls: other })).toBeNull();
    // Exact, held, never held, between 400 and 900: 600. No mean to lean on but theirs, which the fit then leaves be.
    const holds: Hold[] = [
      { kind: "gaveWay", newtons: 1000 },
      { kind: "heldTo", newtons: 2000 },
      { kind: "neverHeld", newtons: 500 },
      { kind: "between", heldTo: 400, gaveWayBy: 900 },
    ];
    const middle = (1000 * 2000 * 500 * 600) ** 0.25;
    const belief = beliefOf({ ...nameless, pulls: holds.map((hold) => pull("A", hold)) })!;
    expect(belief.pulls).toBe(4);
    expect(Math.abs(belief.mean[0]! - Math.log(middle))).toBeLessThan(0.3);
    const exact = beliefOf({
      ...nameless,
      pulls: [pull("A", holds[0]!), pull("B", { kind: "gaveWay", newtons: 4000 })],
    })!;
    expect(exact.mean[0]).toBeCloseTo(Math.log(2000), 9);
  });
});

describe("what is believed of pulls", () => {
  it("is prior and one load by the rule for normal laws", () => {
    const before = beliefOf(three)!;
    const held = { ...three, pulls: [pull("B", { kind: "gaveWay", newtons: 5000 }, 9)] };
    const after = beliefOf(held)!;
    const x = [1, 0, 1, 0, 4, 0];
    const variance = x.reduce((sum, xi, i) => sum + (xi * SD[i]!) ** 2, 0);
    const miss = Math.log(5000) - x.reduce((sum, xi, i) => sum + xi * before.mean[i]!, 0);
    for (let i = 0; i < 6; i++)
      expect(after.mean[i], `${i}`).toBeCloseTo(
        before.mean[i]! + (SD[i]! ** 2 * x[i]! * miss) / (variance + PRIOR_SIGMA ** 2),
        9,
      );
    // Too few to tell a scatter of their own.
    expect(after.sigma).toBe(PRIOR_SIGMA);
    // An angle nobody told counts as the five degrees of the middle.
    const untold = beliefOf({ ...three, pulls: [pull("B", { kind: "gaveWay", newtons: 5000 })] })!;
    expect(untold.mean[4]).toBeCloseTo(-0.03, 12);
  });

  it("ends where the slope of prior and of every kind of ending together is nothing", () => {
    const pulls = [
      pull("A", { kind: "gaveWay", newtons: 3000 }, 3),
      pull("A", { kind: "heldTo", newtons: 3600 }, 12),
      pull("B", { kind: "neverHeld", newtons: 2500 }, 6),
      pull("C", { kind: "between", heldTo: 2000, gaveWayBy: 2600 }, 9),
      pull("C", { kind: "between", heldTo: 4000, gaveWayBy: 4500 }, 2),
      pull("D", { kind: "gaveWay", newtons: 1 }, 2),
    ];
    const belief = beliefOf({ ...three, pulls })!;
    expect(belief.pulls).toBe(5);
    const s = belief.sigma;
    expect(s).toBe(PRIOR_SIGMA);
    const start = beliefOf(three)!.mean;
    const slope = Array.from(belief.mean, (value, i) => -(value - start[i]!) / SD[i]! ** 2);
    for (const { anchor, anchorAngle, hold } of pulls.slice(0, 5)) {
      const x = rowOf(three, anchor, anchorAngle!, false);
      const eta = dot(x, belief.mean);
      const z = (load: number): number => (Math.log(load) - eta) / s;
      const score =
        hold.kind === "gaveWay"
          ? z(hold.newtons)
          : hold.kind === "heldTo"
            ? phi(z(hold.newtons)) / (1 - normalBelow(z(hold.newtons)))
            : hold.kind === "neverHeld"
              ? -phi(z(hold.newtons)) / normalBelow(z(hold.newtons))
              : (phi(z(hold.heldTo)) - phi(z(hold.gaveWayBy))) /
                (normalBelow(z(hold.gaveWayBy)) - normalBelow(z(hold.heldTo)));
      for (let i = 0; i < 6; i++) slope[i] = slope[i]! + (x[i]! * score) / s;
    }
    for (const one of slope) expect(Math.abs(one)).toBeLessThan(1e-4);
  });

  it("has a scatter of its own once there are more pulls than terms: its squares beside four of the prior's", () => {
    const loads = [2000, 2600, 3100, 2400, 3900, 1800, 2900, 3300];
    const pulls = loads.map((newtons, i) =>
      pull(i % 2 === 0 ? "Plough A" : "Scoop B", { kind: "gaveWay", newtons }, 3 + i),
    );
    const belief = beliefOf({ ...series, pulls })!;
    const squares = pulls.reduce(
      (sum, { anchor, anchorAngle }, i) =>
        sum + (Math.log(loads[i]!) - dot(rowOf(series, anchor, anchorAngle!, false), belief.mean)) ** 2,
      0,
    );
    expect(belief.sigma).toBeCloseTo(Math.sqrt((squares + 4 * PRIOR_SIGMA ** 2) / 12), 6);
    // Five terms: five pulls are not more.
    expect(beliefOf({ ...series, pulls: pulls.slice(0, 5) })!.sigma).toBe(PRIOR_SIGMA);
    // One that only held scatters by what is not known of it, too: with some ended the scatter is no smaller.
    const ended = pulls.map((one, i): Pull => (i > 4 ? { ...one, hold: { kind: "heldTo", newtons: loads[i]! } } : one));
    const wide = beliefOf({ ...series, pulls: ended })!;
    let own = 4 * PRIOR_SIGMA ** 2;
    for (const [i, { anchor, anchorAngle }] of ended.entries()) {
      const eta = dot(rowOf(series, anchor, anchorAngle!, false), wide.mean);
      const z = (Math.log(loads[i]!) - eta) / wide.sigma;
      if (i <= 4) own += (Math.log(loads[i]!) - eta) ** 2;
      else {
        // Above z a normal law has mean λ and variance 1 + zλ − λ²: their sum of squares about the centre is 1 + zλ.
        const hazard = phi(z) / (1 - normalBelow(z));
        own += wide.sigma ** 2 * (1 + z * hazard);
      }
    }
    expect(wide.sigma).toBeCloseTo(Math.sqrt(own / 12), 4);
  });
});

describe("truths drawn on the pulls so far", () => {
  const held = {
    ...three,
    pulls: [
      { ...pull("A", { kind: "gaveWay", newtons: 3000 }, 4), mass: 5, site: "x", day: "1" },
      { ...pull("B", { kind: "gaveWay", newtons: 6000 }, 6), mass: 20, site: "y", day: "1" },
      { ...pull("B", { kind: "heldTo", newtons: 5000 }, 8), mass: 20, site: "y" },
      { ...pull("D", { kind: "gaveWay", newtons: 9 }, 8), mass: 20, site: "y" },
    ],
  };
  const values: Readonly<Record<string, number>> = {
    m: 8.1,
    angle: -0.05,
    mass: 0.8,
    lnScatter: Math.log(0.25),
    "ln spread of anchor": Math.log(0.5),
    "anchor:A": 0.6,
    "anchor:B": -0.4,
  };
  /** Draws about those values by a thousandth, so that chains differ. */
  const drawAbout =
    (seen: { input?: ModelInput; label?: string; plans: number[] }, drift = 0): DrawChains =>
    async (input, plan, label) => {
      seen.input = input;
      seen.label = label;
      seen.plans.push(plan.acceptance);
      const { names } = new Model(input);
      const own = rng(2);
      return Array.from({ length: plan.chains }, (_, chain) => {
        const length = 1000;
        const away = plan.acceptance < 0.95 ? drift * chain : 0;
        const draws = Float64Array.from({ length: length * names.length }, (_, at) => {
          const name = names[at % names.length]!;
          return (values[name] ?? (name.startsWith("ln") ? -1 : 0)) + 0.001 * own.normal() + away;
        });
        return { draws, parameters: names.length, length, divergent: 0, energyMixing: 1 } as unknown as Chain;
      });
    };
  const meanOf = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0) / list.length;
  const sdOf = (list: readonly number[]): number => Math.sqrt(meanOf(list.map((x) => (x - meanOf(list)) ** 2)));

  it("have the model's terms: each anchor's own effect and what its mass adds; of what was not pulled the prior's", async () => {
    const seen: { input?: ModelInput; label?: string; plans: number[] } = { plans: [] };
    const drawn = await drawTruths(held, drawAbout(seen));
    if (drawn.kind !== "drawn") throw new Error(drawn.kind);
    expect(seen.input).toMatchObject({ law: "lognormal", terms: ["anchor", "angle", "mass"], random: ["site"] });
    expect(seen.input!.pulls).toHaveLength(3);
    expect(seen.label).toBe("what the pulls so far say");
    expect(drawn.truths).toHaveLength(400);
    const term = (k: number) => drawn.truths.map(({ terms }) => terms[k]!);
    // ln M₀ of the three pulls: 5, 20 and 20 kg.
    const lnM0 = Math.log(5 * 20 * 20) / 3;
    for (const [k, expected] of [
      [0, 8.1],
      [1, 0.5 * 0.6 + 0.8 * (Math.log(5) - lnM0)],
      [2, 0.5 * -0.4 + 0.8 * (Math.log(20) - lnM0)],
      [4, -0.05],
    ] as const) {
      expect(meanOf(term(k)), `${k}`).toBeCloseTo(expected, 2);
      expect(sdOf(term(k)), `${k}`).toBeLessThan(0.01);
    }
    // C was not pulled, nothing after a veer: 400 draws of the priors' 0.7 and 0.3, four errors of each.
    for (const [k, sd] of [
      [3, 0.7],
      [5, 0.3],
    ] as const) {
      expect(Math.abs(meanOf(term(k)))).toBeLessThan((4 * sd) / 20);
      expect(Math.abs(sdOf(term(k)) / sd - 1)).toBeLessThan(0.15);
    }
    for (const { sigma } of drawn.truths) expect(sigma).toBeCloseTo(0.25, 2);
  });

  it("have the angle of the prior where no pull told one, and no site where all are one", async () => {
    const seen: { input?: ModelInput; plans: number[] } = { plans: [] };
    const pulls = held.pulls.map(({ anchorAngle: _, ...one }): Pull => ({ ...one, site: "x" }));
    const drawn = await drawTruths({ ...held, pulls }, drawAbout(seen));
    if (drawn.kind !== "drawn") throw new Error(drawn.kind);
    expect(seen.input).toMatchObject({ terms: ["anchor", "mass"], random: [] });
    const slopes = drawn.truths.map(({ terms }) => terms[4]!);
    expect(Math.abs(meanOf(slopes) - USUAL_PRIORS.angle.mean)).toBeLessThan(0.01);
    expect(Math.abs(sdOf(slopes) / 0.05 - 1)).toBeLessThan(0.15);
  });

  it("are tried again with patience where the first draws are unsound, and none where no chain comes back", async () => {
    const seen: { plans: number[] } = { plans: [] };
    expect((await drawTruths(held, drawAbout(seen, 1))).kind).toBe("drawn");
    expect(seen.plans).toEqual([0.9, 0.99]);
    expect(await drawTruths(held, async () => [])).toEqual({ kind: "unsound" });
  });
});

describe("the next pull, of three anchors", () => {
  const table = tableOf(three).map((cell) => ({ ...cell, had: null }));
  it("brings down the sum of all three differences, less where it likely ends", () => {
    const limit = 3500;
    const asked = { ...three, boat: { ...three.boat, thrust: [{ speed: 20, newtons: limit }] } };
    const belief = beliefOf(asked)!;
    const contrasts = [
      [0, 1, -1, 0, 0, 0],
      [0, 1, 0, -1, 0, 0],
      [0, 0, 1, -1, 0, 0],
    ].map((c) => Float64Array.from(c));
    const before = contrasts.reduce((sum, c) => sum + dot(c, solve(belief.factor, c)), 0);
    expect(before).toBeCloseTo(3 * 2 * 0.7 ** 2, 12);
    for (const one of nextPulls(asked, table)) {
      const x = rowOf(asked, one.anchor, one.angle, false);
      const own = dot(x, solve(belief.factor, x));
      const eta = dot(x, belief.mean);
      // Ended where the load it would give way at, known to √(own + σ²), lies above the limit; nine looks: to a hundredth.
      const chance = 1 - normalBelow((Math.log(limit) - eta) / Math.sqrt(own + belief.sigma ** 2));
      expect(Math.abs(one.ended - chance)).toBeLessThan(0.01);
      const free = (w: number): number => {
        const taken = contrasts.reduce((sum, c) => sum + (w * dot(c, solve(belief.factor, x)) ** 2) / (1 + w * own), 0);
        return 1 - Math.sqrt((before - taken) / before);
      };
      // More than if the ended told nothing at all of those that give way alone, less than if none were ended.
      expect(one.gain).toBeGreaterThan(free((0.9 * (1 - chance)) / belief.sigma ** 2));
      expect(one.gain).toBeLessThan(free(1 / belief.sigma ** 2));
    }
    expect(nextPulls(asked, table)).toHaveLength(3 * 2);
  });

  it("is said to be likely ended where three in five are, not where it is little more than half", () => {
    const belief = beliefOf(three)!;
    const x = rowOf(three, "A", three.angles[0]!, false);
    const spread = Math.sqrt(dot(x, solve(belief.factor, x)) + belief.sigma ** 2);
    // Of the normal law (recalled) 55 % lie above −0.1257 and 65 % above −0.3853.
    for (const [z, chance, kind] of [
      [-0.1257, 0.55, "evenly"],
      [-0.3853, 0.65, "likelyEnded"],
    ] as const) {
      const newtons = Math.exp(dot(x, belief.mean) + z * spread);
      const asked = {
        ...three,
        boat: { ...three.boat, thrust: [{ speed: 20, newtons }] },
      };
      const one = nextPulls(asked, table).find(({ anchor, angle }) => anchor === "A" && angle === three.angles[0])!;
      expect(Math.abs(one.ended - chance)).toBeLessThan(0.01);
      expect(one.reason.kind).toBe(kind);
    }
  });
});

describe("how many pulls", () => {
  const table = tableOf(series);
  /** A truth whose scatter is so small, or so large, that so many pulls tell, or do not. */
  const told = (sigma: number, repeats = 3) =>
    powerOf({ ...series, repeats, angles: [0.1] }, [], 60, [
      { terms: beliefOf(series)!.mean.map((x, i) => (i === 0 ? 0 : x)), sigma },
    ]);
  const rows = (answer: ReturnType<typeof powerOf>): readonly Power[] => {
    if (answer.kind !== "told") throw new Error(answer.kind);
    return answer.rows;
  };

  it("tries more until four in five tell, and the plan's own number always", () => {
    const clear = told(0.05);
    expect(clear).toMatchObject({ enough: 2, from: "posterior" });
    expect(rows(clear).map(({ repeats, share }) => [repeats, share])).toEqual([
      [2, 1],
      [3, 1],
    ]);
    expect(rows(told(0.05, 2)).map(({ repeats }) => repeats)).toEqual([2]);
    const hopeless = told(5, 7);
    expect(hopeless).toMatchObject({ enough: null });
    expect(rows(hopeless).map(({ repeats }) => repeats)).toEqual([2, 3, 4, 6, 7, 8, 12, 16, 24, 32, 48]);
    const between = told(0.45, 3);
    if (between.kind !== "told") throw new Error(between.kind);
    expect(between.rows.at(-1)!.repeats).toBe(between.enough);
    expect(between.rows.at(-1)!.share).toBeGreaterThanOrEqual(0.8);
    for (const { share } of between.rows.slice(0, -1)) expect(share).toBeLessThan(0.8);
  });

  it("says what it is believed from", () => {
    const from = (pulls: readonly Pull[]) => powerOf({ ...series, pulls, angles: [0.1] }, table, 2);
    expect(from([])).toMatchObject({ from: "prior" });
    expect(from([pull("Plough A", { kind: "gaveWay", newtons: 900 })])).toMatchObject({ from: "pulls" });
  });

  it.each(["letsGo", "afterVeer"] as const)(
    "of %s is told where the change asked about is far beyond the scatter",
    (question) => {
      const asked = { ...series, question, tell: question === "letsGo" ? 0.05 : 1.5 };
      const truth = { terms: Float64Array.from([7, 0.3, -0.2, 0, 0]), sigma: 0.02 };
      const { share, wrong, pulls } = powerWith(asked, [truth], [1e9, 1e9], 4, 40);
      expect([share, wrong]).toEqual([1, 0]);
      // Both anchors at both angles, and after a veer each once more.
      expect(pulls).toBe(4 * 2 * 2 * (question === "afterVeer" ? 2 : 1));
      // The truth itself is left as it was drawn.
      expect([...truth.terms]).toEqual([7, 0.3, -0.2, 0, 0]);
    },
  );

  it("tells the contrary where nothing can be told as often as chance lets it: one in twenty", () => {
    const asked = { ...series, tell: 1 + 1e-9, angles: [0.1] };
    const truth = { terms: Float64Array.from([7, 0, 0, 0, 0]), sigma: 0.3 };
    const { share, wrong } = powerWith(asked, [truth], [1e9], 20, 1500);
    // 5 % each way, and some more with a scatter that is fitted; four errors of 1500.
    for (const one of [share, wrong]) {
      expect(one).toBeGreaterThan(0.05 - 0.023);
      expect(one).toBeLessThan(0.06 + 0.023);
    }
  });

  it("counts the share that is ended: those above the limit of their own angle", () => {
    const truth = { terms: Float64Array.from([Math.log(1000), 0, 0, 0, 0]), sigma: 0.3 };
    const asked = { ...series, tell: 1 + 1e-9 };
    // At the one angle nothing is ended, at the other half.
    const { ended } = powerWith(asked, [truth], [1e9, 1000], 10, 100);
    expect(Math.abs(ended - 0.25)).toBeLessThan(4 * Math.sqrt(0.25 / 4000));
  });

  it("takes truths each in turn, evenly", () => {
    const of = (level: number) => ({ terms: Float64Array.from([level, 0, 0, 0, 0]), sigma: 0.01 });
    const asked = { ...series, angles: [0.1] };
    const { ended } = powerWith(asked, [of(5), of(5), of(5), of(9)], [1000], 2, 8);
    expect(ended).toBe(0.25);
  });
});
