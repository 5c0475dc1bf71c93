/** Chains drawn side by side in threads, as many at once as the machine has cores; progress on standard error; ctrl-c stops. */
import { availableParallelism } from "node:os";
import { Worker } from "node:worker_threads";
import { type DrawChains, type ModelInput, type SamplingPlan, sampleOneChain } from "../holding/index.ts";
import type { Chain } from "../statistics/index.ts";
import { built } from "./built.ts";
import type { Io } from "./io.ts";

export function chainsOf(io: Io): DrawChains {
  return async (input, plan, label) => {
    const done = new Int32Array(plan.chains);
    const whole = plan.chains * (plan.warmUp + plan.draws);
    let last = Date.now();
    const tell = (chain: number, count: number): void => {
      done[chain] = count;
      if (!io.isTerminal || Date.now() - last < 200) return;
      last = Date.now();
      const share = Math.floor((100 * done.reduce((sum, one) => sum + one, 0)) / whole);
      io.err(`\r\u001b[K${label}: ${share} % of the draws; ctrl-c stops`);
    };
    const chains: Chain[] = [];
    const numbers = Array.from({ length: plan.chains }, (_, k) => k);
    const one = async (): Promise<void> => {
      for (let chain = numbers.shift(); chain !== undefined && !io.stop.aborted; chain = numbers.shift()) {
        const own = chain;
        const drawn = built
          ? await inThread(input, plan, own, io.stop, (count) => tell(own, count))
          : await here(input, plan, own, io.stop, (count) => tell(own, count));
        if (drawn !== undefined) chains[own] = drawn;
      }
    };
    await Promise.all(Array.from({ length: built ? Math.min(plan.chains, availableParallelism()) : 1 }, one));
    if (io.isTerminal) io.err("\r\u001b[K");
    return io.stop.aborted ? [] : chains;
  };
}

async function here(
  input: ModelInput,
  plan: SamplingPlan,
  chain: number,
  stop: AbortSignal,
  tell: (count: number) => void,
): Promise<Chain> {
  // Lets a ctrl-c be heard between chains.
  await new Promise((go) => setImmediate(go));
  return sampleOneChain(input, plan, chain, (count) => {
    tell(count);
    return !stop.aborted;
  });
}

function inThread(
  input: ModelInput,
  plan: SamplingPlan,
  chain: number,
  stop: AbortSignal,
  tell: (count: number) => void,
): Promise<Chain | undefined> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL("./chain-worker.js", import.meta.url), { workerData: { input, plan, chain } });
    const end = () => {
      void worker.terminate();
      resolve(undefined);
    };
    stop.addEventListener("abort", end, { once: true });
    worker.on("message", (message: { done?: number; drawn?: Chain }) => {
      if (message.done !== undefined) tell(message.done);
      if (message.drawn !== undefined) {
        stop.removeEventListener("abort", end);
        resolve(message.drawn);
      }
    });
    worker.on("error", reject);
    worker.on("exit", () => resolve(undefined));
  });
}
