import { type Remote, wrap } from "comlink";
import { useCallback, useEffect, useRef, useState } from "react";
import type { BenchWork } from "./bench-worker.ts";
import { type Fault, faultOf } from "./fault.ts";
import { type WorkerLine, workerLine } from "./worker-line.ts";

export type Question<T> = (work: Remote<BenchWork>) => Promise<T>;

/** Longer than anything the bench asks should take on a slow phone, ms. */
const MOST = 120_000;
/** The same for what is known to be slow: a rode in a current, many times. */
const MOST_SLOW = 600_000;

/** A line to a worker of the bench, which is started when first asked. @param most ms an answer may take */
export const benchLine = (most: number): WorkerLine<Remote<BenchWork>> =>
  workerLine(() => {
    const worker = new Worker(new URL("./bench-worker.ts", import.meta.url), { type: "module" });
    return { worker, work: wrap<BenchWork>(worker) };
  }, most);

const shared = benchLine(MOST);

/** Asks the worker for what takes longer than a frame; it is started when first asked, and again when it ended. */
export const askWorker = <T>(question: Question<T>): Promise<T> => shared.ask(question);

export interface Outcome<T> {
  readonly answer: T | null;
  readonly waiting: boolean;
  /** Why there is no answer to the question as it stands. */
  readonly fault: Fault | null;
  /** Asks the same once more. */
  readonly again: () => void;
}

/**
 * The newest answer of something asked again and again: one question at a time, questions overtaken by a newer one are
 * never asked, and the last answer stands until the next is there.
 * @param question null when there is nothing to ask; keep its identity while the question is the same
 */
export function useNewest<T>(question: Question<T> | null): Outcome<T> {
  const [said, setSaid] = useState<{ answer: T | null; fault: Fault | null; of: unknown }>(nothing);
  const [times, setTimes] = useState(0);
  const line = useRef<{ busy: boolean; next: Question<T> | null }>({ busy: false, next: null });
  const wanted = useRef(question);
  wanted.current = question;
  // biome-ignore lint/correctness/useExhaustiveDependencies: the same question is asked once more when told to
  useEffect(() => {
    const at = line.current;
    if (question === null) {
      at.next = null;
      setSaid(nothing);
      return;
    }
    at.next = question;
    if (at.busy) return;
    at.busy = true;
    void (async () => {
      while (at.next !== null) {
        const asked = at.next;
        at.next = null;
        const came = await askWorker(asked).then(
          (answer) => ({ answer, fault: null, of: asked }),
          (error: unknown) => ({ answer: null, fault: faultOf(error), of: asked }),
        );
        if (wanted.current !== null) setSaid(came);
      }
      at.busy = false;
    })();
  }, [question, times]);
  const again = useCallback(() => {
    setSaid(nothing);
    setTimes((before) => before + 1);
  }, []);
  return {
    answer: said.answer,
    waiting: question !== null && said.of !== question,
    fault: said.of === question ? said.fault : null,
    again,
  };
}

const nothing = { answer: null, fault: null, of: null } as const;

/** How long a slow question rests before it is worked at, ms. */
const REST = 300;

/**
 * Asks what may take seconds: of a rode in a current, say. The question is worked at by a worker of its own, once it
 * rests; a newer one ends the older by ending its worker, for nothing else stops a computation under way.
 * @param question null when there is nothing to ask; keep its identity while the question is the same
 */
export function useInterruptible<T>(question: Question<T> | null): Outcome<T> {
  const [said, setSaid] = useState<{ answer: T | null; fault: Fault | null; of: unknown }>(nothing);
  const [times, setTimes] = useState(0);
  const own = useRef<WorkerLine<Remote<BenchWork>> | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the same question is asked once more when told to
  useEffect(() => {
    if (question === null) return;
    let overtaken = false;
    let working = false;
    own.current ??= benchLine(MOST_SLOW);
    const at = own.current;
    const timer = setTimeout(() => {
      working = true;
      at.ask(question).then(
        (answer) => {
          working = false;
          if (!overtaken) setSaid({ answer, fault: null, of: question });
        },
        (error: unknown) => {
          working = false;
          if (!overtaken) setSaid({ answer: null, fault: faultOf(error), of: question });
        },
      );
    }, REST);
    return () => {
      overtaken = true;
      clearTimeout(timer);
      if (working) at.end();
    };
  }, [question, times]);
  useEffect(() => () => own.current?.end(), []);
  const again = useCallback(() => {
    setSaid(nothing);
    setTimes((before) => before + 1);
  }, []);
  const mine = question !== null && said.of === question;
  return {
    answer: mine ? said.answer : null,
    waiting: question !== null && !mine,
    fault: mine ? said.fault : null,
    again,
  };
}
