/** One inquiry at a time, beside the page: workers of its own, with progress, ended at will. */
import { proxy } from "comlink";
import { announce } from "../controls/announce.ts";
import { createStore } from "../state/store.ts";
import { faultOf } from "../work/fault.ts";
import { benchLine } from "../work/worker.ts";
import { chainPool, type DrawChain, withShare } from "./chain-pool.ts";
import type { InquiryAnswer, InquiryAsked, OneChain } from "./work.ts";

export type Sampling =
  | { readonly kind: "idle" }
  | { readonly kind: "working"; readonly share: number }
  | { readonly kind: "answered"; readonly answer: InquiryAnswer; readonly of: string }
  | { readonly kind: "failed"; readonly line: string };

export const sampling = createStore<Sampling>({ kind: "idle" });

/** An hour: a hundred thousand pulls on a phone are not sampled in minutes. */
const MOST = 3_600_000;

/** Chains of a model: more workers would be idle. */
const CHAINS = 4;

let lines: readonly ReturnType<typeof benchLine>[] = [];
let turn = 0;

/** @param of what the answer is of, to tell whether the pulls have changed since */
export async function startSampling(asked: InquiryAsked, of: string): Promise<InquiryAnswer | null> {
  stopSampling();
  const mine = ++turn;
  sampling.put({ kind: "working", share: 0 });
  // One puts the question and concludes; chains are drawn by as many others as the machine has cores, while that one waits.
  const lead = benchLine(MOST);
  const drawers = Array.from({ length: Math.min(CHAINS, navigator.hardwareConcurrency || 1) }, () => benchLine(MOST));
  const own = [lead, ...drawers];
  lines = own;
  try {
    const pool = chainPool(
      drawers.map(
        (drawer): DrawChain =>
          (input, plan, chain, tell) =>
            // What the lead still asked as it was stopped would start a worker anew that nobody ends.
            mine === turn
              ? drawer.ask((work) => work.drawnChain(input, plan, chain, proxy(tell)))
              : Promise.reject(new Error("stopped")),
      ),
    );
    const draw = withShare(pool, (share) => {
      if (mine === turn) sampling.put({ kind: "working", share });
    });
    const oneChain = proxy<OneChain>((input, plan, chain) => draw(input, plan, chain, () => {}));
    const answer = await lead.ask((work) => work.holdingInquiry(asked, oneChain));
    if (mine !== turn) return null;
    sampling.put({ kind: "answered", answer, of });
    announce(answer.sentences[0] ?? "worked out");
    return answer;
  } catch (error) {
    if (mine === turn) sampling.put({ kind: "failed", line: faultOf(error).line });
    return null;
  } finally {
    for (const one of own) one.end();
  }
}

export function stopSampling(): void {
  turn++;
  for (const one of lines) one.end();
  lines = [];
  if (sampling.get().kind === "working") sampling.put({ kind: "idle" });
}
