/**
 * The whole inquiry beyond likelihood: both laws sampled and weighed against each other, the better one concluded from, the
 * answers again with every prior half and twice as wide, and for pairs that cannot be told apart how many more pulls would.
 * Chains are drawn by whoever is asked (workers, this thread): each is a pure function of its input and number.
 */
import { type Chain, rng } from "../statistics/index.ts";
import { type Conclusion, conclude, type Pair, type Wanted } from "./conclude.ts";
import type { Law } from "./law.ts";
import type { ModelInput } from "./model.ts";
import { type MorePulls, morePulls } from "./more-pulls.ts";
import { gather, type Posterior, patient, type SamplingPlan } from "./posterior.ts";
import { type Priors, widened } from "./priors.ts";
import type { Pull } from "./pull.ts";
import { chooseTerms, type RandomTerm, type Term } from "./terms.ts";

/** Draws all chains of one model; `label` says which, for progress. */
export type DrawChains = (input: ModelInput, plan: SamplingPlan, label: string) => Promise<readonly Chain[]>;

/** What is asked of the model: pulls, plan, priors. */
export interface Inquiry {
  readonly pulls: readonly Pull[];
  readonly terms: readonly Term[];
  readonly random: readonly RandomTerm[];
  /** Laws sampled; the best foretelling one is concluded from. */
  readonly laws: readonly Law[];
  readonly priors: Priors;
  readonly wanted: Wanted;
  readonly plan: SamplingPlan;
}

/** A law of scatter with its weight by leaving one out. */
export interface LawWeighed {
  readonly law: Law;
  readonly elpd: number;
  readonly se: number;
  /** Pulls whose weights cannot be believed (k above 0.7). */
  readonly badK: number;
}

/** Pairs with all priors so many times as wide. */
export interface Sensitivity {
  readonly times: number;
  readonly sound: boolean;
  readonly pairs: readonly Pair[];
  readonly holds: Conclusion["holds"];
}

/** Conclusions drawn, or why there are none. */
export type Inquired =
  | {
      readonly kind: "concluded";
      readonly pulls: readonly Pull[];
      readonly law: Law;
      readonly posterior: Posterior;
      readonly conclusion: Conclusion;
      readonly laws: readonly LawWeighed[];
      /** Of the law chosen over the next: difference of elpd and its standard error; none with one law. */
      readonly ahead?: { readonly of: Law; readonly difference: number; readonly se: number };
      readonly sensitivity: readonly Sensitivity[];
      readonly more: readonly { readonly first: string; readonly second: string; readonly answer: MorePulls }[];
    }
  /** The draws do not bear a conclusion. */
  | { readonly kind: "unsound"; readonly posterior: Posterior; readonly law: Law }
  | { readonly kind: "stopped" }
  /** Nothing that states what the terms need. */
  | { readonly kind: "noPulls" };

/** A pair whose leading chance lies between these cannot be told apart. */
export const TOLD_APART = 0.95;

/** Whether two anchors cannot be told apart by what was drawn. */
export function cannotTell({ moreInTheMean }: Pair): boolean {
  return moreInTheMean < TOLD_APART && moreInTheMean > 1 - TOLD_APART;
}

/** Draws from the model and concludes, with its sensitivity to law and priors. */
export async function inquire(inquiry: Inquiry, drawChains: DrawChains): Promise<Inquired> {
  const { wanted, plan } = inquiry;
  const chosen = chooseTerms(inquiry.pulls, inquiry.terms);
  const pulls = inquiry.pulls.filter((_, i) => chosen.takesPart[i]);
  if (pulls.length === 0) return { kind: "noPulls" };
  const inputOf = (law: Law, priors: Priors): ModelInput => ({
    pulls,
    law,
    terms: chosen.terms,
    random: inquiry.random,
    priors,
  });
  const sampled = async (law: Law, priors: Priors, label: string): Promise<Posterior | undefined> => {
    const input = inputOf(law, priors);
    const whole = async (how: SamplingPlan): Promise<Posterior | undefined> => {
      const chains = await drawChains(input, how, label);
      const short = chains.length < how.chains || chains.some((chain) => chain.length < how.draws);
      return short ? undefined : gather(input, chains);
    };
    const first = await whole(plan);
    return first?.soundness.kind === "unsound" ? whole(patient(plan)) : first;
  };
  const found: { posterior: Posterior; conclusion: Conclusion; law: Law }[] = [];
  let unsound: { posterior: Posterior; law: Law } | undefined;
  for (const law of inquiry.laws) {
    const posterior = await sampled(law, inquiry.priors, law);
    if (posterior === undefined) return { kind: "stopped" };
    if (posterior.soundness.kind === "unsound") unsound ??= { posterior, law };
    else found.push({ posterior, law, conclusion: conclude(posterior, pulls, wanted) });
  }
  found.sort((a, b) => b.conclusion.elpd.value - a.conclusion.elpd.value);
  const [best, next] = found;
  if (best === undefined) return unsound === undefined ? { kind: "noPulls" } : { kind: "unsound", ...unsound };
  const sensitivity: Sensitivity[] = [];
  for (const times of [0.5, 2]) {
    const posterior = await sampled(
      best.law,
      widened(inquiry.priors, times),
      times === 2 ? "priors doubled" : "priors halved",
    );
    if (posterior === undefined) return { kind: "stopped" };
    const { pairs, holds } = conclude(posterior, pulls, { ...wanted, conditions: best.conclusion.conditions });
    sensitivity.push({ times, sound: posterior.soundness.kind === "sound", pairs, holds });
  }
  const stream = rng(plan.seed + 1);
  const open = best.conclusion.pairs.filter(cannotTell);
  return {
    kind: "concluded",
    pulls,
    law: best.law,
    posterior: best.posterior,
    conclusion: best.conclusion,
    laws: found.map(({ law, conclusion: { elpd } }) => ({ law, elpd: elpd.value, se: elpd.se, badK: elpd.badK })),
    ...(next === undefined ? {} : { ahead: { of: next.law, ...difference(best.conclusion, next.conclusion) } }),
    sensitivity,
    // Of many open pairs the six nearest to being told.
    more: [...open]
      .sort((a, b) => Math.abs(b.moreInTheMean - 0.5) - Math.abs(a.moreInTheMean - 0.5))
      .slice(0, 6)
      .map(({ first, second }) => ({ first, second, answer: morePulls(best.posterior, pulls, first, second, stream) })),
  };
}

function difference(best: Conclusion, next: Conclusion): { difference: number; se: number } {
  const n = best.elpd.parts.length;
  let sum = 0;
  for (let i = 0; i < n; i++) sum += best.elpd.parts[i]! - next.elpd.parts[i]!;
  let squares = 0;
  for (let i = 0; i < n; i++) squares += (best.elpd.parts[i]! - next.elpd.parts[i]! - sum / n) ** 2;
  return { difference: sum, se: n < 2 ? 0 : Math.sqrt((n / (n - 1)) * squares) };
}
