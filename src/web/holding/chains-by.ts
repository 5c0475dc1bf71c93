import type { DrawChains, ModelInput, SamplingPlan } from "../../holding/index.ts";
import type { Chain } from "../../statistics/index.ts";

/** Draws one chain of a model, wherever there is room for it. */
export type OneChain = (input: ModelInput, plan: SamplingPlan, chain: number) => Promise<Chain>;

/** All chains of a model by whoever draws one. */
export const chainsBy =
  (draw: OneChain): DrawChains =>
  (input, plan) =>
    Promise.all(Array.from({ length: plan.chains }, (_, chain) => draw(input, plan, chain)));
