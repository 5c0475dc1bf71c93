import { type Remote, wrap } from "comlink";
import { useEffect, useRef, useState } from "react";
import type { BenchWork } from "./bench-worker.ts";

export interface Patient<T> {
  /** The answer to the question as it stands; null until it is there. */
  readonly answer: T | null;
  readonly waiting: boolean;
}

/** What is asked stands this long before it is worked at, ms. */
const STILL = 300;

/**
 * Asks what may take seconds: of a rode in a current, say. The question is worked at by a worker of its own, once it
 * stands still; a newer one ends the older by ending its worker, for nothing else stops a computation under way.
 * @param ask null when there is nothing to ask; keep its identity while the question is the same
 */
export function usePatient<T>(ask: ((work: Remote<BenchWork>) => Promise<T>) | null): Patient<T> {
  const [answered, setAnswered] = useState<{ ask: unknown; answer: T } | null>(null);
  const idle = useRef<Worker | null>(null);
  useEffect(() => {
    if (ask === null) return;
    let overtaken = false;
    let working: Worker | null = null;
    const timer = setTimeout(() => {
      working = idle.current ?? new Worker(new URL("./bench-worker.ts", import.meta.url), { type: "module" });
      idle.current = null;
      const worker = working;
      ask(wrap<BenchWork>(worker)).then(
        (answer) => {
          if (overtaken) return;
          working = null;
          idle.current = worker;
          setAnswered({ ask, answer });
        },
        () => undefined,
      );
    }, STILL);
    return () => {
      overtaken = true;
      clearTimeout(timer);
      working?.terminate();
    };
  }, [ask]);
  useEffect(() => () => idle.current?.terminate(), []);
  const answer = ask !== null && answered?.ask === ask ? answered.answer : null;
  return { answer, waiting: ask !== null && answer === null };
}
