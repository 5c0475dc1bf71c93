/** One inquiry at a time, beside the page: workers of its own, with progress, ended at will. */
import { announce } from "../controls/announce.ts";
import { createStore } from "../state/store.ts";
import { faultOf } from "../work/fault.ts";
import { askWithDraws, type Drawing } from "./draw-lines.ts";
import type { InquiryAnswer, InquiryAsked } from "./work.ts";

export type Sampling =
  | { readonly kind: "idle" }
  | { readonly kind: "working"; readonly share: number }
  | { readonly kind: "answered"; readonly answer: InquiryAnswer; readonly of: string }
  | { readonly kind: "failed"; readonly line: string };

export const sampling = createStore<Sampling>({ kind: "idle" });

/** Both laws, and the better one with priors half and twice as wide. */
const MODELS = 4;

let drawing: Drawing<InquiryAnswer> | null = null;
let turn = 0;

/** @param of what the answer is of, to tell whether the pulls have changed since */
export async function startSampling(asked: InquiryAsked, of: string): Promise<InquiryAnswer | null> {
  stopSampling();
  const mine = ++turn;
  sampling.put({ kind: "working", share: 0 });
  drawing = askWithDraws(
    (work, oneChain) => work.holdingInquiry(asked, oneChain),
    MODELS,
    (share) => {
      if (mine === turn) sampling.put({ kind: "working", share });
    },
  );
  try {
    const answer = await drawing.answer;
    if (mine !== turn) return null;
    sampling.put({ kind: "answered", answer, of });
    announce(answer.sentences[0] ?? "worked out");
    return answer;
  } catch (error) {
    if (mine === turn) sampling.put({ kind: "failed", line: faultOf(error).line });
    return null;
  }
}

export function stopSampling(): void {
  turn++;
  drawing?.end();
  drawing = null;
  if (sampling.get().kind === "working") sampling.put({ kind: "idle" });
}
