/** One question by draws at a time, beside the page: workers of its own, with progress, ended at will. */
import type { Remote } from "comlink";
import { announce } from "../controls/announce.ts";
import { createStore, type Store } from "../state/store.ts";
import type { BenchWork } from "../work/bench-worker.ts";
import { faultOf } from "../work/fault.ts";
import type { OneChain } from "./chains-by.ts";
import { askWithDraws, type Drawing } from "./draw-lines.ts";

/** How far a question is. */
export type Drawn<T> =
  | { readonly kind: "idle" }
  | { readonly kind: "working"; readonly share: number }
  | { readonly kind: "answered"; readonly answer: T; readonly of: string }
  | { readonly kind: "failed"; readonly line: string };

/** The questions of one place. */
export interface OneDrawing<T> {
  readonly store: Store<Drawn<T>>;
  /**
   * Puts a question, in place of one that is under way.
   * @param of what the answer is of, to tell whether that has changed since
   * @returns null when it was stopped, or failed
   */
  start(question: (work: Remote<BenchWork>, oneChain: OneChain) => Promise<T>, of: string): Promise<T | null>;
  /** Ends what is under way. */
  stop(): void;
}

/**
 * @param models how many models a question samples, for the share that is told
 * @param said what is said aloud once it is answered
 */
export function oneDrawing<T>(models: number, said: (answer: T) => string): OneDrawing<T> {
  const store = createStore<Drawn<T>>({ kind: "idle" });
  let drawing: Drawing<T> | null = null;
  let turn = 0;
  const stop = (): void => {
    turn++;
    drawing?.end();
    drawing = null;
    if (store.get().kind === "working") store.put({ kind: "idle" });
  };
  return {
    store,
    stop,
    async start(question, of) {
      stop();
      const mine = ++turn;
      store.put({ kind: "working", share: 0 });
      drawing = askWithDraws(question, models, (share) => {
        if (mine === turn) store.put({ kind: "working", share });
      });
      try {
        const answer = await drawing.answer;
        if (mine !== turn) return null;
        store.put({ kind: "answered", answer, of });
        announce(said(answer));
        return answer;
      } catch (error) {
        if (mine === turn) store.put({ kind: "failed", line: faultOf(error).line });
        return null;
      }
    },
  };
}
