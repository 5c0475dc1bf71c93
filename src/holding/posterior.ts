/**
 * Draws of the model, chain by chain, with their own judgement: where R-hat, the effective draws or runaways are bad
 * nothing is concluded.
 */
import { type Chain, diagnoseChains, type LeaveOneOut, leaveOneOut, rng, sampleChain } from "../statistics/index.ts";
import { Model, type ModelInput } from "./model.ts";

/** How many chains, warm-up steps and draws, from which seed. */
export interface SamplingPlan {
  readonly chains: number;
  readonly warmUp: number;
  /** Draws a chain after warm-up. */
  readonly draws: number;
  readonly seed: number;
  /** Mean acceptance the step is tuned to: paths through a hierarchy's neck need small steps. */
  readonly acceptance: number;
}

/** The plan where nobody chose another. */
export const USUAL_PLAN: SamplingPlan = { chains: 4, warmUp: 1000, draws: 1000, seed: 1, acceptance: 0.9 };

/** The second try where the first is unsound: small steps, a long warm-up. */
export function patient(plan: SamplingPlan): SamplingPlan {
  return { ...plan, warmUp: 2 * plan.warmUp, acceptance: 0.99 };
}

/**
 * One chain of a model: the unit of work of a worker. A pure function of its input: the same seed and number give the same
 * draws in any worker.
 */
export function sampleOneChain(
  input: ModelInput,
  plan: SamplingPlan,
  chain: number,
  onDraw?: (done: number) => boolean,
): Chain {
  const model = new Model(input);
  const stream = rng(plan.seed);
  let own = stream.branch();
  for (let k = 0; k < chain; k++) own = stream.branch();
  return sampleChain(model.logDensity, model.start(own), own, {
    warmUp: plan.warmUp,
    draws: plan.draws,
    acceptance: plan.acceptance,
    ...(onDraw === undefined ? {} : { onDraw }),
  });
}

/** A parameter's draws in short: mean, deviation, interval. */
export interface ParameterSummary {
  readonly name: string;
  readonly mean: number;
  readonly sd: number;
  readonly low: number;
  readonly high: number;
  readonly rHat: number;
  readonly effective: number;
}

/** Whether draws may be used, or what is wrong with them. */
export type Soundness =
  | { readonly kind: "sound" }
  | { readonly kind: "unsound"; readonly rHat: number; readonly effective: number; readonly divergent: number };

/** All draws with their summaries and diagnosis. */
export interface Posterior {
  readonly model: Model;
  /** draws · parameters, all chains one after another. */
  readonly draws: Float64Array;
  readonly length: number;
  readonly rHatWorst: number;
  readonly effectiveLeast: number;
  readonly divergent: number;
  readonly energyMixingLeast: number;
  readonly soundness: Soundness;
  readonly summaries: readonly ParameterSummary[];
}

/** R-hat above this, fewer effective draws a chain than this, more runaways than one in two hundred: not to be believed. */
const R_HAT = 1.01;
const EFFECTIVE_A_CHAIN = 100;
const RUNAWAYS = 0.005;

/** Draws of several chains gathered, with whether they are sound. */
export function gather(input: ModelInput, chains: readonly Chain[]): Posterior {
  const model = new Model(input);
  const p = model.parameters;
  const length = chains.reduce((sum, chain) => sum + chain.length, 0);
  const draws = new Float64Array(length * p);
  let at = 0;
  for (const chain of chains) {
    draws.set(chain.draws.subarray(0, chain.length * p), at);
    at += chain.length * p;
  }
  const shortest = chains.reduce((least, chain) => Math.min(least, chain.length), Number.POSITIVE_INFINITY);
  let rHatWorst = 1;
  let effectiveLeast = length;
  const summaries: ParameterSummary[] = model.names.map((name, k) => {
    const parts = chains.map((chain) => Float64Array.from({ length: shortest }, (_, s) => chain.draws[s * p + k]!));
    const all = Float64Array.from({ length }, (_, s) => draws[s * p + k]!);
    const { rHat, bulk, tail } =
      shortest < 8 ? { rHat: Number.POSITIVE_INFINITY, bulk: 0, tail: 0 } : diagnoseChains(parts);
    rHatWorst = Math.max(rHatWorst, rHat);
    effectiveLeast = Math.min(effectiveLeast, bulk, tail);
    return { name, ...spreadOf(all), rHat, effective: Math.min(bulk, tail) };
  });
  const divergent = chains.reduce((sum, chain) => sum + chain.divergent, 0);
  const sound =
    rHatWorst < R_HAT && effectiveLeast >= EFFECTIVE_A_CHAIN * chains.length && divergent <= RUNAWAYS * length;
  return {
    model,
    draws,
    length,
    rHatWorst,
    effectiveLeast,
    divergent,
    energyMixingLeast: chains.reduce((least, chain) => Math.min(least, chain.energyMixing), Number.POSITIVE_INFINITY),
    soundness: sound ? { kind: "sound" } : { kind: "unsound", rHat: rHatWorst, effective: effectiveLeast, divergent },
    summaries,
  };
}

/** A number of draws in short: median and interval. */
export interface Spread {
  readonly mean: number;
  readonly sd: number;
  /** 95 % limits, as much left outside above as below. */
  readonly low: number;
  readonly high: number;
}

/**
 * Mean, standard deviation, median and 95 % interval of draws, in their unit.
 * @param draws in any order; left as they are
 */
export function spreadOf(draws: Float64Array): Spread {
  const sorted = draws.slice().sort();
  let sum = 0;
  for (const x of draws) sum += x;
  const mean = sum / draws.length;
  let squares = 0;
  for (const x of draws) squares += (x - mean) ** 2;
  return {
    mean,
    sd: Math.sqrt(squares / Math.max(1, draws.length - 1)),
    low: sortedQuantile(sorted, 0.025),
    high: sortedQuantile(sorted, 0.975),
  };
}

export function sortedQuantile(sorted: Float64Array, p: number): number {
  const at = p * (sorted.length - 1);
  const low = Math.floor(at);
  return sorted[low]! + (at - low) * (sorted[Math.min(low + 1, sorted.length - 1)]! - sorted[low]!);
}

/** Every draw's ln likelihood of every pull; thinned so that no more than some ten million numbers are held. */
export function pullsLeftOut(
  { model, draws, length }: Posterior,
  onWeights?: (pull: number, weights: Float64Array, thin: number) => void,
): LeaveOneOut {
  const thin = Math.max(1, Math.ceil((length * model.length) / 1e7));
  const kept = Math.floor(length / thin);
  const p = model.parameters;
  const table = new Float64Array(kept * model.length);
  for (let s = 0; s < kept; s++) {
    model.logLikelihoods(draws.subarray(s * thin * p, (s * thin + 1) * p), table, s * model.length);
  }
  return leaveOneOut(
    table,
    kept,
    model.length,
    onWeights === undefined ? undefined : (i, weights) => onWeights(i, weights, thin),
  );
}
