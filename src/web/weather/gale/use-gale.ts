import { useCallback, useEffect, useRef, useState } from "react";
import type { RideQuestion } from "../../../motion/index.ts";
import type { NoEquilibrium } from "../../../rode/index.ts";
import { type Fault, faultOf } from "../../work/fault.ts";
import { askWorker } from "../../work/worker.ts";
import { type GaleAnswer, type GaleRecord, noRecord, withPiece } from "./gale-record.ts";

/** Seconds of the ride asked of the worker at once: short enough that others get their turn. */
const AT_ONCE = 20;

export interface Gale {
  readonly state: "none" | "riding" | "stopped" | "over";
  readonly record: GaleRecord;
  /** The newest answer; null in the first minute. */
  readonly answer: GaleAnswer | null;
  /** The question it answers. */
  readonly question: RideQuestion | null;
  readonly none: NoEquilibrium | null;
  readonly fault: Fault | null;
  readonly begin: (question: RideQuestion) => void;
  readonly stop: () => void;
  /** Ends it and forgets what came. */
  readonly clear: () => void;
}

const nothing: Omit<Gale, "begin" | "stop" | "clear"> = {
  state: "none",
  record: noRecord,
  answer: null,
  question: null,
  none: null,
  fault: null,
};

let numbers = 0;

/** A ride in the worker: begun, gone on with piece by piece, stopped when asked; what has come is kept. */
export function useGale(): Gale {
  const [state, setState] = useState(nothing);
  const current = useRef(0);
  const begin = useCallback((question: RideQuestion) => {
    const number = ++numbers;
    current.current = number;
    setState({ state: "riding", record: noRecord, answer: null, question, none: null, fault: null });
    void (async () => {
      try {
        const none = await askWorker((work) => work.beginGale(question, number));
        if (none !== null) {
          setState((before) => (current.current === number ? { ...before, state: "none", none } : before));
          return;
        }
        while (current.current === number) {
          const piece = await askWorker((work) => work.goOnInGale(number, AT_ONCE));
          if (current.current !== number) return;
          if (piece === null) throw new Error("the worker has lost the ride");
          setState((before) => ({
            ...before,
            record: withPiece(before.record, piece),
            answer: piece.answer ?? before.answer,
            state: piece.over ? "over" : "riding",
          }));
          if (piece.over) return;
        }
      } catch (error) {
        if (current.current === number) setState((before) => ({ ...before, state: "stopped", fault: faultOf(error) }));
      }
    })();
  }, []);
  const stop = useCallback(() => {
    const number = current.current;
    current.current = 0;
    setState((before) => ({ ...before, state: "stopped" }));
    askWorker((work) => work.answerGale(number))
      .then((answer) => {
        if (answer !== null && current.current === 0) setState((before) => ({ ...before, answer }));
      })
      .catch((error: unknown) => setState((before) => ({ ...before, fault: faultOf(error) })));
  }, []);
  const clear = useCallback(() => {
    current.current = 0;
    setState(nothing);
  }, []);
  useEffect(() => {
    return () => {
      current.current = 0;
    };
  }, []);
  return { ...state, begin, stop, clear };
}
