/**
 * Chains of draws side by side, each by the next worker that is free. A chain is a pure function of its input, plan and
 * number, so that how many workers there are changes no draw.
 */
import type { ModelInput, SamplingPlan } from "../../holding/index.ts";
import type { Chain } from "../../statistics/index.ts";

/** Draws one chain; `tell` is given how many of its draws are done. */
export type DrawChain = (
  input: ModelInput,
  plan: SamplingPlan,
  chain: number,
  tell: (done: number) => void,
) => Promise<Chain>;

/** @param workers each draws one chain at a time */
export function chainPool(workers: readonly DrawChain[]): DrawChain {
  const free = [...workers];
  const waiting: ((worker: DrawChain) => void)[] = [];
  return async (input, plan, chain, tell) => {
    const worker = free.pop() ?? (await new Promise<DrawChain>((go) => waiting.push(go)));
    try {
      return await worker(input, plan, chain, tell);
    } finally {
      const next = waiting.shift();
      if (next === undefined) free.push(worker);
      else next(worker);
    }
  };
}

/**
 * Tells the share that is done of all chains of some models; a second, more patient try of a model makes it wait near the
 * end.
 */
export function withShare(draw: DrawChain, models: number, told: (share: number) => void): DrawChain {
  let done = 0;
  const underWay = new Map<object, number>();
  return async (input, plan, chain, tell) => {
    const own = {};
    const look = (): void => {
      let sum = done;
      for (const share of underWay.values()) sum += share;
      told(Math.min(0.99, sum / (models * plan.chains)));
    };
    const drawn = await draw(input, plan, chain, (count) => {
      underWay.set(own, count / (plan.warmUp + plan.draws));
      look();
      tell(count);
    });
    underWay.delete(own);
    done++;
    look();
    return drawn;
  };
}
