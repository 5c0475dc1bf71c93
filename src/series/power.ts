/**
 * How many pulls: what share of series with so many pulls of each would tell the difference asked about, by simulation. A
 * truth is drawn from what is believed, the difference is laid on it, every pull is made and ended where the engine (or
 * what else limits it) ends it, and the pulls are fitted as `compare` fits them. Told: the fit is that way ahead with 95 %
 * chance. Where nothing is ended and σ is known this is Φ(δ √(n/2) / σ − z), which the tests hold it to.
 */
import { exactShare, fitAft, type Hold, observations, REFERENCE_ANGLE } from "../holding/index.ts";
import { DEGREES } from "../quantity/index.ts";
import { normalQuantile, type Rng, rng } from "../statistics/index.ts";
import { type Belief, beliefOf, dot, PRIOR_SIGMA, rowOf } from "./belief.ts";
import type { Truth } from "./posterior-truths.ts";
import type { Series } from "./series.ts";
import type { Cell } from "./table.ts";
import { mostThrust } from "./thrust.ts";

/** What so many pulls of each would come to. */
export interface Power {
  /** Of each anchor at each angle. */
  readonly repeats: number;
  readonly pulls: number;
  /** Share of simulated series that told the difference, with 95 % limits of the simulation. */
  readonly share: number;
  readonly low: number;
  readonly high: number;
  /** Share that told the contrary. */
  readonly wrong: number;
  /** Share of pulls that are ended while the anchor holds. */
  readonly ended: number;
  /** Hours of pulling, with changes of anchor. */
  readonly hours: number;
}

/** Where what is believed comes from. */
export type PowerAnswer =
  | {
      readonly kind: "told";
      readonly rows: readonly Power[];
      readonly enough: number | null;
      readonly from: "prior" | "pulls" | "posterior";
    }
  /** No mass of an anchor and no pull of one: nobody knows about which load the pulls would end. */
  | { readonly kind: "massUnknown" };

const TRIED = [2, 3, 4, 6, 8, 12, 16, 24, 32, 48] as const;
const WANTED = 0.8;
const AHEAD = 0.95;

/**
 * Series with every number of repeats tried until four in five tell, and always that of the plan.
 * @param truths drawn from the posterior of the pulls so far; left out: from the belief as a normal law
 */
export function powerOf(
  series: Series,
  table: readonly Cell[],
  simulations = 200,
  truths: readonly Truth[] | null = null,
): PowerAnswer {
  const belief = truths ?? beliefOf(series);
  if (belief === null) return { kind: "massUnknown" };
  const rows: Power[] = [];
  let enough: number | null = null;
  for (const repeats of [...new Set([...TRIED, series.repeats])].sort((a, b) => a - b)) {
    if (enough !== null && repeats > series.repeats) break;
    if (enough !== null && repeats !== series.repeats) continue;
    const row = powerWith(series, belief, limitsOf(series, table), repeats, simulations);
    rows.push(row);
    if (enough === null && row.share >= WANTED) enough = repeats;
  }
  return { kind: "told", rows, enough, from: "pulls" in belief ? (belief.pulls > 0 ? "pulls" : "prior") : "posterior" };
}

/** The most load at the anchor that can be had at each angle, N. */
export function limitsOf(series: Series, table: readonly Cell[]): number[] {
  return series.angles.map((angle) => {
    const had = table.filter((cell) => cell.angle === angle && cell.had !== null).map(({ load }) => load);
    return had.length > 0 ? Math.max(...had) : mostThrust(series.boat);
  });
}

/**
 * @param belief a normal law, or truths drawn, of which each is taken in turn
 * @param limits load at which a pull at each angle is ended, N; infinite where none is
 */
export function powerWith(
  series: Series,
  belief: Belief | readonly Truth[],
  limits: readonly number[],
  repeats: number,
  simulations: number,
): Power {
  const random = rng(series.seed);
  // The same truths for every number of pulls: what differs between rows is the pulls.
  const truths = rng(series.seed + 1);
  const design = designOf(series, repeats);
  const sure = normalQuantile(AHEAD);
  let told = 0;
  let wrong = 0;
  let ended = 0;
  for (let k = 0; k < simulations; k++) {
    const { terms: truth, sigma } = truthOf(belief, k / simulations, truths);
    layOn(series, truth);
    const holds = design.rows.map((row, i): Hold => {
      const load = Math.exp(dot(row, truth) + sigma * random.normal());
      const limit = limits[design.angleOf[i]!]!;
      if (load <= limit) return { kind: "gaveWay", newtons: load };
      ended++;
      return { kind: "heldTo", newtons: limit };
    });
    const fit = fitAft({ law: "lognormal", observations: observations(holds), terms: design.terms });
    const found = fit.kind === "fitted" ? fit.terms.find(({ name }) => name === "asked") : undefined;
    if (found === undefined || !(found.u > 0)) continue;
    const ahead = found.value / found.u;
    if (ahead * design.sign > sure) told++;
    else if (-ahead * design.sign > sure) wrong++;
  }
  const { share, low, high } = exactShare(told, simulations);
  const pulls = design.rows.length;
  const perRound = series.anchors.length * series.angles.length;
  const changes = repeats * (series.changes === "few" ? series.anchors.length - 1 : perRound - 1);
  return {
    repeats,
    pulls,
    share,
    low,
    high,
    wrong: wrong / simulations,
    ended: ended / (simulations * pulls),
    hours: (repeats * perRound * series.pullTime + changes * series.changeTime) / 3600,
  };
}

/** @param at which of truths drawn, as a share of them; a normal law is drawn from */
function truthOf(belief: Belief | readonly Truth[], at: number, random: Rng): Truth {
  if (!("pulls" in belief)) {
    const { terms, sigma } = belief[Math.floor(at * belief.length)]!;
    return { terms: terms.slice(), sigma };
  }
  const terms = drawOf(belief, random);
  return { terms, sigma: belief.pulls > 0 ? belief.sigma : Math.max(0.05, Math.abs(random.normal()) * HALF_NORMAL) };
}

/** Deviation of the half-normal law of σ, whose middle is PRIOR_SIGMA. */
const HALF_NORMAL = PRIOR_SIGMA / 0.6745;

/** The difference asked about, laid on a drawn truth: it is to be told whatever else is true. */
function layOn({ question, anchors, tell }: Series, truth: Float64Array): void {
  const k = anchors.length;
  if (question === "letsGo") truth[k + 1] = -tell;
  else if (question === "afterVeer") truth[k + 2] = -Math.log(tell);
  else truth[2] = truth[1]! + Math.log(tell);
}

interface Design {
  /** Rows of the belief's terms, for the truth. */
  readonly rows: readonly Float64Array[];
  readonly angleOf: readonly number[];
  /** Columns of the fit: those that can be told, the one asked about by that name. */
  readonly terms: { readonly names: readonly string[]; readonly rows: Float64Array };
  readonly sign: 1 | -1;
}

function designOf(series: Series, repeats: number): Design {
  const { anchors, angles, question } = series;
  const rows: Float64Array[] = [];
  const angleOf: number[] = [];
  const fitted: number[][] = [];
  const slopes = new Set(angles).size > 1;
  const names = [
    "intercept",
    ...anchors.slice(1).map((_, i) => (question === "compare" && i === 0 ? "asked" : `anchor ${i + 2}`)),
  ];
  if (slopes) names.push(question === "letsGo" ? "asked" : "angle");
  if (question === "afterVeer") names.push("asked");
  for (let round = 0; round < repeats; round++)
    for (const [a, { name }] of anchors.entries())
      for (const [i, angle] of angles.entries())
        for (const after of question === "afterVeer" ? [false, true] : [false]) {
          rows.push(rowOf(series, name, angle, after));
          angleOf.push(i);
          fitted.push([
            1,
            ...anchors.slice(1).map((_, other) => (a === other + 1 ? 1 : 0)),
            ...(slopes ? [angle * DEGREES - REFERENCE_ANGLE] : []),
            ...(question === "afterVeer" ? [after ? 1 : 0] : []),
          ]);
        }
  return {
    rows,
    angleOf,
    terms: { names, rows: Float64Array.from(fitted.flat()) },
    sign: question === "compare" ? 1 : -1,
  };
}

/** One truth: mean + L⁻ᵀ z, with the factor L of the precision. */
function drawOf({ size, mean, factor }: Belief, random: Rng): Float64Array {
  const z = Float64Array.from({ length: size }, () => random.normal());
  for (let i = size - 1; i >= 0; i--) {
    let sum = z[i]!;
    for (let k = i + 1; k < size; k++) sum -= factor[k * size + i]! * z[k]!;
    z[i] = sum / factor[i * size + i]!;
  }
  return z.map((value, i) => value + mean[i]!);
}
