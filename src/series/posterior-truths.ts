/**
 * What may be true of a series, drawn from the model of `holding` sampled on the pulls held already: its terms and its
 * scatter together, not as a normal law. What those pulls say nothing of (an anchor not pulled, the angle where none was
 * told, a veer) is drawn from the priors.
 */
import {
  chooseTerms,
  type DrawChains,
  gather,
  type Pull,
  patient,
  predictiveDraws,
  type RandomTerm,
  type SamplingPlan,
  TERMS,
  USUAL_PLAN,
  USUAL_PRIORS,
} from "../holding/index.ts";
import { type Rng, rng } from "../statistics/index.ts";
import type { Series } from "./series.ts";

/** One truth: the terms of a belief, and the deviation of ln load between pulls alike. */
export interface Truth {
  readonly terms: Float64Array;
  readonly sigma: number;
}

/** Truths, or why there are none. */
export type TruthsDrawn =
  | { readonly kind: "drawn"; readonly truths: readonly Truth[] }
  /** No pull of these anchors is held already. */
  | { readonly kind: "noPulls" }
  /** The draws do not bear a conclusion. */
  | { readonly kind: "unsound" };

/** Truths kept of all draws. */
const KEPT = 400;
const AFTER_VEER = 0.3;

/** Draws truths; chains are drawn by whoever is asked, each a pure function of its input and number. */
export async function drawTruths(
  series: Series,
  drawChains: DrawChains,
  plan: SamplingPlan = { ...USUAL_PLAN, seed: series.seed },
): Promise<TruthsDrawn> {
  const own = series.pulls.filter((pull) => series.anchors.some(({ name }) => name === pull.anchor));
  if (own.length === 0) return { kind: "noPulls" };
  const { terms, takesPart } = chooseTerms(own, TERMS);
  const pulls = own.filter((_, i) => takesPart[i]);
  const input = { pulls, law: "lognormal" as const, terms, random: groupsOf(pulls), priors: USUAL_PRIORS };
  const draw = async (by: SamplingPlan) => {
    const chains = await drawChains(input, by, "what the pulls so far say");
    return chains.length === 0 ? null : gather(input, chains);
  };
  // As compare does: small steps and a long warm-up where the first try is unsound.
  let posterior = await draw(plan);
  if (posterior?.soundness.kind === "unsound") posterior = await draw(patient(plan));
  if (posterior === null || posterior.soundness.kind === "unsound") return { kind: "unsound" };
  const draws = predictiveDraws(posterior, KEPT);
  const random = rng(series.seed + 2);
  const k = series.anchors.length;
  const truths = Array.from({ length: draws.length }, (_, s): Truth => {
    const own = new Float64Array(k + 3);
    own[0] = draws.centre[s]!;
    for (const [a, { name, mass }] of series.anchors.entries()) {
      const at = draws.anchors.indexOf(name);
      const effect = at < 0 ? USUAL_PRIORS.anchors * random.normal() : (draws.ofAnchor[at]?.[s] ?? 0);
      own[1 + a] = effect + (mass === undefined ? 0 : draws.mass[s]! * (Math.log(mass) - draws.lnMassMiddle));
    }
    own[k + 1] = terms.includes("angle") ? draws.angle[s]! : normalOf(USUAL_PRIORS.angle, random);
    own[k + 2] = AFTER_VEER * random.normal();
    return { terms: own, sigma: draws.scatter[s]! };
  });
  return { kind: "drawn", truths };
}

/** Sites and days, where every pull states its own and there are several. */
function groupsOf(pulls: readonly Pull[]): RandomTerm[] {
  return (["site", "day"] as const).filter((group) => {
    const stated = pulls.flatMap((pull) => pull[group] ?? []);
    return stated.length === pulls.length && new Set(stated).size > 1;
  });
}

const normalOf = ({ mean, sd }: { readonly mean: number; readonly sd: number }, random: Rng): number =>
  mean + sd * random.normal();
