/** How many pulls would tell, by draws of the model on the book's pulls: one question at a time, with progress, ended at will. */
import type { Pull } from "../../holding/index.ts";
import { announce } from "../controls/announce.ts";
import { askWithDraws, type Drawing } from "../holding/draw-lines.ts";
import { createStore } from "../state/store.ts";
import { faultOf } from "../work/fault.ts";
import type { SeriesPosterior } from "./series-work.ts";

export type PosteriorState =
  | { readonly kind: "idle" }
  | { readonly kind: "working"; readonly share: number }
  | { readonly kind: "answered"; readonly answer: SeriesPosterior; readonly of: string }
  | { readonly kind: "failed"; readonly line: string };

export const posteriorStore = createStore<PosteriorState>({ kind: "idle" });

let drawing: Drawing<SeriesPosterior> | null = null;
let turn = 0;

/** @param of what the answer is of, to tell whether the series or the pulls have changed since */
export async function startPosterior(text: string, pulls: readonly Pull[], of: string): Promise<void> {
  stopPosterior();
  const mine = ++turn;
  posteriorStore.put({ kind: "working", share: 0 });
  drawing = askWithDraws<SeriesPosterior>(
    (work, oneChain) => work.seriesPosterior(text, pulls, oneChain),
    1,
    (share) => {
      if (mine === turn) posteriorStore.put({ kind: "working", share });
    },
  );
  try {
    const answer = await drawing.answer;
    if (mine !== turn) return;
    posteriorStore.put({ kind: "answered", answer, of });
    announce("how many pulls would tell is worked out");
  } catch (error) {
    if (mine === turn) posteriorStore.put({ kind: "failed", line: faultOf(error).line });
  }
}

export function stopPosterior(): void {
  turn++;
  drawing?.end();
  drawing = null;
  if (posteriorStore.get().kind === "working") posteriorStore.put({ kind: "idle" });
}
