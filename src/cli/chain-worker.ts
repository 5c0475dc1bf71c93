/** One chain in a thread of its own: its input comes as the thread's data, its draws go back as one message. */
import { parentPort, workerData } from "node:worker_threads";
import { type ModelInput, type SamplingPlan, sampleOneChain } from "../holding/index.ts";

const { input, plan, chain } = workerData as { input: ModelInput; plan: SamplingPlan; chain: number };
const every = Math.max(1, Math.round((plan.warmUp + plan.draws) / 50));
const drawn = sampleOneChain(input, plan, chain, (done) => {
  if (done % every === 0) parentPort!.postMessage({ done });
  return true;
});
parentPort!.postMessage({ drawn }, [drawn.draws.buffer as ArrayBuffer]);
