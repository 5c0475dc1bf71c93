/** A question that draws chains, put beside the page: workers of its own, ended at will. */
import { proxy, type Remote } from "comlink";
import type { BenchWork } from "../work/bench-worker.ts";
import { benchLine } from "../work/worker.ts";
import { chainPool, type DrawChain, withShare } from "./chain-pool.ts";
import type { OneChain } from "./chains-by.ts";

/** An hour: a hundred thousand pulls on a phone are not sampled in minutes. */
const MOST = 3_600_000;

/** Chains of a model: more workers would be idle. */
const CHAINS = 4;

/** What was asked, under way. */
export interface Drawing<T> {
  readonly answer: Promise<T>;
  /** Ends its workers; the answer never comes then. */
  end(): void;
}

/**
 * One worker puts the question and concludes; chains are drawn by as many others as the machine has cores, while that one
 * waits.
 * @param models how many models are sampled, for the share that is told
 */
export function askWithDraws<T>(
  question: (work: Remote<BenchWork>, oneChain: OneChain) => Promise<T>,
  models: number,
  told: (share: number) => void,
): Drawing<T> {
  let over = false;
  const lead = benchLine(MOST);
  const drawers = Array.from({ length: Math.min(CHAINS, navigator.hardwareConcurrency || 1) }, () => benchLine(MOST));
  const pool = chainPool(
    drawers.map(
      (drawer): DrawChain =>
        (input, plan, chain, tell) =>
          // What the lead still asked as it was stopped would start a worker anew that nobody ends.
          over
            ? Promise.reject(new Error("stopped"))
            : drawer.ask((work) => work.drawnChain(input, plan, chain, proxy(tell))),
    ),
  );
  const draw = withShare(pool, models, (share) => {
    if (!over) told(share);
  });
  const oneChain = proxy<OneChain>((input, plan, chain) => draw(input, plan, chain, () => {}));
  const end = () => {
    over = true;
    for (const one of [lead, ...drawers]) one.end();
  };
  return { answer: lead.ask((work) => question(work, oneChain)).finally(end), end };
}
