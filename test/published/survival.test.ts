/**
 * Published data on survival, whose methods are those of a load at which an anchor gives way.
 *
 * - Remission under 6-MP and placebo: Freireich et al. (1963), Blood 21, 699; data and log-rank seen at
 *   https://rstudio-pubs-static.s3.amazonaws.com/79128_036da04b5d9e4a20b30803e3f08363fe.html
 * - `ovarian` and `lung` of R's survival package 3.5.3 (data/published/survival, written out by it). Where a value is
 *   marked "R survival, computed" it was computed with that package; Weibull ~1 of ovarian also seen at
 *   https://cnblogs.com/wwxbi/p/6182851.html (7.111 (0.293), log scale −0.103 (0.254), log-likelihood −98).
 * - Breast cosmesis: Finkelstein & Wolfe (1985), Biometrics 41, 933; data and the masses of Turnbull's estimate recalled
 *   (Klein & Moeschberger, Survival Analysis, table 1.18 and section 5.2).
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import {
  fitAft,
  type Hold,
  kaplanMeier,
  type Law,
  loadAtChance,
  logRank,
  observations,
  turnbull,
} from "../../src/holding/index.ts";

const times = (text: string) => text.split(" ").map(Number);
const held = (time: readonly number[], event: readonly number[]): Hold[] =>
  time.map((newtons, i) => ({ kind: event[i] === 1 ? "gaveWay" : "heldTo", newtons }));

const sixMp = held(
  times("6 6 6 6 7 9 10 10 11 13 16 17 19 20 22 23 25 32 32 34 35"),
  times("1 1 1 0 1 0 1 0 0 1 1 0 0 0 1 1 0 0 0 0 0"),
);
const placebo = times("1 1 2 2 3 4 4 5 5 8 8 8 8 11 11 12 12 15 17 22 23").map(
  (newtons): Hold => ({ kind: "gaveWay", newtons }),
);

function table(name: string): Record<string, number>[] {
  const text = readFileSync(join(import.meta.dirname, `../../data/published/survival/${name}.csv`), "utf8");
  const [head, ...rows] = text.trim().split("\n");
  const names = head!.split(",");
  return rows.map((row) => Object.fromEntries(row.split(",").map((cell, k) => [names[k]!, Number(cell)])));
}
const ovarian = table("ovarian");
const ovarianHeld = held(
  ovarian.map((row) => row.futime!),
  ovarian.map((row) => row.fustat!),
);
const lung = table("lung");
const lungHeld = held(
  lung.map((row) => row.time!),
  lung.map((row) => row.status! - 1),
);

/** Printed to ten digits; a standard error to ten or eight. */
const DIGITS = 2e-9;
const toDigits = (found: number, printed: number, relative: number) =>
  expect(Math.abs(found - printed), `${found} against ${printed}`).toBeLessThanOrEqual(relative * Math.abs(printed));

describe("remission under 6-MP (R survival, computed; textbook 0.857, 0.807, 0.753, 0.690, 0.627, 0.538, 0.448)", () => {
  it.each([
    [6, 21, 3, 0.8571428571, 0.0763603548, 0.619718, 0.951552],
    [7, 17, 1, 0.8067226891, 0.0869352852, 0.563147, 0.922809],
    [10, 15, 1, 0.7529411765, 0.096349653, 0.5032, 0.889362],
    [13, 12, 1, 0.6901960784, 0.1068147078, 0.43161, 0.849066],
    [16, 11, 1, 0.6274509804, 0.1140538653, 0.367511, 0.804912],
    [22, 7, 1, 0.5378151261, 0.1282337517, 0.267779, 0.746791],
    [23, 6, 1, 0.4481792717, 0.1345914568, 0.188052, 0.680143],
  ])("Kaplan–Meier at %i: %i at risk, %i gone", (load, atRisk, gaveWay, chance, se, low, high) => {
    const step = kaplanMeier(sixMp).find((found) => found.load === load)!;
    expect(step).toMatchObject({ atRisk, gaveWay });
    // Printed to ten and to six places.
    expect(step.chance).toBeCloseTo(chance, 9);
    expect(step.se).toBeCloseTo(se, 9);
    expect(Math.abs(step.low! - low)).toBeLessThan(6e-7);
    expect(Math.abs(step.high! - high)).toBeLessThan(6e-7);
  });

  it("medians are 23 and 8", () => {
    expect(loadAtChance(kaplanMeier(sixMp), 0.5)).toBe(23);
    expect(loadAtChance(kaplanMeier(placebo), 0.5)).toBe(8);
  });

  it("log-rank is 16.79294099 (published: 16.8, 21 and 9 observed, 19.3 and 10.7 expected, p 4.17e-5)", () => {
    const holds = [...sixMp, ...placebo];
    const test = logRank({ holds, group: holds.map((_, i) => (i < 21 ? 0 : 1)) })!;
    toDigits(test.chi2, 16.79294099, DIGITS);
    expect(test.observed).toEqual([9, 21]);
    toDigits(test.expected[0]!, 19.25050095, DIGITS);
    toDigits(test.expected[1]!, 10.74949905, DIGITS);
    toDigits(test.p, 4.168809e-5, 1e-6);
  });
});

it("log-rank of lung by sex is 10.32674195, of ovarian by rx 1.062739861 (R survival, computed)", () => {
  const group = (rows: Record<string, number>[], name: string) => rows.map((row) => row[name]! - 1);
  toDigits(logRank({ holds: lungHeld, group: group(lung, "sex") })!.chi2, 10.32674195, DIGITS);
  toDigits(logRank({ holds: ovarianHeld, group: group(ovarian, "rx") })!.chi2, 1.062739861, DIGITS);
});

it("medians of lung and ovarian are 310 and 638 (R survival, computed)", () => {
  expect(loadAtChance(kaplanMeier(lungHeld), 0.5)).toBe(310);
  expect(loadAtChance(kaplanMeier(ovarianHeld), 0.5)).toBe(638);
});

describe("accelerated-failure fits (R survival, computed)", () => {
  const one = (holds: readonly Hold[]) => holds.map(() => [1]);
  const ovarianTerms = ovarian.map((row) => [1, row["ecog.ps"]!, row.rx!]);
  const lungTerms = lung.map((row) => [1, row.age!, row.sex!]);
  const both = [...sixMp, ...placebo];
  const arms = both.map((_, i) => [1, i < 21 ? 1 : 0]);
  const cases: [string, Law, readonly Hold[], number[][], number[], number[], number, number][] = [
    ["ovarian", "weibull", ovarianHeld, one(ovarianHeld), [7.111038072], [0.2927279559], 0.9024784173, -97.95390105],
    [
      "ovarian ~ ecog.ps + rx",
      "weibull",
      ovarianHeld,
      ovarianTerms,
      [6.8966931286, -0.3850425493, 0.5286454963],
      [1.1775472, 0.5270018, 0.5292019],
      0.8838730717,
      -97.08449317,
    ],
    [
      "ovarian ~ ecog.ps + rx",
      "lognormal",
      ovarianHeld,
      ovarianTerms,
      [5.87844035, -0.2292749962, 0.8133591484],
      [1.0939704, 0.5373646, 0.5372015],
      1.181352644,
      -95.94736336,
    ],
    [
      "ovarian ~ ecog.ps + rx",
      "loglogistic",
      ovarianHeld,
      ovarianTerms,
      [6.1609976759, -0.3360520092, 0.7045160946],
      [1.1336575, 0.5371507, 0.5385496],
      0.6952768501,
      -96.32181964,
    ],
    ["lung", "weibull", lungHeld, one(lungHeld), [6.03490391], [0.0591359105], 0.7593936011, -1153.851188],
    ["lung", "lognormal", lungHeld, one(lungHeld), [5.663304962], [0.0779959393], 1.09763927, -1169.269055],
    [
      "lung ~ age + sex",
      "weibull",
      lungHeld,
      lungTerms,
      [6.27485305842, -0.01225702559, 0.38208513966],
      [0.48136695, 0.00695747, 0.12747684],
      0.7540509476,
      -1147.054431,
    ],
    [
      "lung ~ age + sex",
      "lognormal",
      lungHeld,
      lungTerms,
      [6.40798854853, -0.02335645755, 0.51925367464],
      [0.5929274, 0.00838824, 0.15515224],
      1.05267589,
      -1158.750143,
    ],
    ["6-MP", "weibull", sixMp, one(sixMp), [3.519429234], [0.2733689221], 0.7386972722, -41.65867848],
    ["6-MP", "lognormal", sixMp, one(sixMp), [3.203067652], [0.2861320418], 0.9787247929, -40.68015587],
    [
      "6-MP and placebo",
      "weibull",
      both,
      arms,
      [2.248352361, 1.267334585],
      [0.1659718, 0.3106399],
      0.732194403,
      -106.5794916,
    ],
    [
      "6-MP and placebo",
      "lognormal",
      both,
      arms,
      [1.82512102, 1.346846682],
      [0.2016047, 0.3164979],
      0.9238687798,
      -106.7046224,
    ],
  ];
  it.each(cases)("%s, %s", (_, law, holds, rows, values, deviations, scale, logLikelihood) => {
    const names = values.map((_value, k) => String(k));
    const fit = fitAft({
      law,
      observations: observations(holds),
      terms: { names, rows: Float64Array.from(rows.flat()) },
    });
    if (fit.kind !== "fitted") throw new Error(fit.kind);
    // R's own default stops at a relative change of 1e-9 of the log-likelihood: coefficients to 1e-6 or so.
    for (const [k, value] of values.entries()) {
      toDigits(fit.terms[k]!.value, value, 1e-6);
      toDigits(fit.terms[k]!.u, deviations[k]!, 2e-6);
    }
    toDigits(Math.exp(fit.logScale.value), scale, 1e-6);
    toDigits(fit.logLikelihood, logLikelihood, DIGITS);
  });
});

describe("breast cosmesis, radiotherapy alone (recalled)", () => {
  const left = times("7 8 5").map((newtons): Hold => ({ kind: "neverHeld", newtons }));
  const between =
    "4-11 5-12 5-11 6-10 7-16 7-14 11-15 11-18 17-25 17-25 19-35 18-26 25-37 26-40 27-34 36-44 36-48 37-44"
      .split(" ")
      .map((text): Hold => {
        const [heldTo, gaveWayBy] = text.split("-").map(Number);
        return { kind: "between", heldTo: heldTo!, gaveWayBy: gaveWayBy! };
      });
  const right = times("15 17 18 22 24 24 32 33 34 36 36 37 37 37 38 40 45 46 46 46 46 46 46 46 46").map(
    (newtons): Hold => ({ kind: "heldTo", newtons }),
  );
  const holds = [...left, ...between, ...right];

  it("has 46 patients", () => expect(holds).toHaveLength(46));

  it("puts the published masses on the published intervals", () => {
    const found = turnbull(holds).intervals.filter(({ mass }) => mass > 1e-6);
    const published = [
      [4, 5, 0.0463],
      [6, 7, 0.0334],
      [7, 8, 0.0887],
      [11, 12, 0.0708],
      [24, 25, 0.0926],
      [33, 34, 0.0818],
      [38, 40, 0.1209],
      [46, 48, 0.4656],
    ];
    expect(found.map(({ from, to }) => [from, to])).toEqual(published.map(([from, to]) => [from, to]));
    // Printed to four places.
    for (const [k, { mass }] of found.entries()) expect(Math.abs(mass - published[k]![2]!)).toBeLessThan(6e-5);
  });
});
