import { type Remote, wrap } from "comlink";
import { useEffect, useRef, useState } from "react";
import type { BenchWork } from "./bench-worker.ts";

let remote: Remote<BenchWork> | undefined;

/** The worker for what takes longer than a frame; started when first asked. */
export function inWorker(): Remote<BenchWork> {
  remote ??= wrap<BenchWork>(new Worker(new URL("./bench-worker.ts", import.meta.url), { type: "module" }));
  return remote;
}

/**
 * The newest answer of something asked again and again: one question at a time, questions overtaken by a newer one are
 * never asked, and the last answer stands until the next is there.
 * @param ask null when there is nothing to ask; keep its identity while the question is the same
 */
export function useNewest<T>(ask: (() => Promise<T>) | null): T | null {
  const [answer, setAnswer] = useState<T | null>(null);
  const line = useRef<{ busy: boolean; next: (() => Promise<T>) | null }>({ busy: false, next: null });
  const wanted = useRef(ask);
  wanted.current = ask;
  useEffect(() => {
    const at = line.current;
    if (ask === null) {
      at.next = null;
      setAnswer(null);
      return;
    }
    at.next = ask;
    if (at.busy) return;
    at.busy = true;
    void (async () => {
      while (at.next !== null) {
        const question = at.next;
        at.next = null;
        const said = await question().catch(() => null);
        if (wanted.current !== null) setAnswer(said);
      }
      at.busy = false;
    })();
  }, [ask]);
  return answer;
}
