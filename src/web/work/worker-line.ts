/**
 * A line to a worker that cannot go dead: a worker that ends, or that does not answer in time, is a fault of every
 * question that waits for it, and the next question starts a new one.
 */
import { Late } from "./fault.ts";

/** Of a worker, what is needed here; the rest is comlink's. */
export interface WorkerEnd {
  addEventListener(type: "error" | "messageerror", listener: (event: { readonly message?: string }) => void): void;
  terminate(): void;
}

export interface Started<W> {
  readonly worker: WorkerEnd;
  readonly work: W;
}

export interface WorkerLine<W> {
  ask<T>(question: (work: W) => Promise<T>): Promise<T>;
  /** Ends what is under way; questions that wait for it never answer, for nobody asks any more. */
  end(): void;
}

/**
 * @param start starts a worker
 * @param most how long a question may take, ms
 */
export function workerLine<W>(start: () => Started<W>, most: number): WorkerLine<W> {
  let running: (Started<W> & { readonly waiting: Set<Waiting> }) | undefined;

  const stop = (ended: NonNullable<typeof running>, error: Error | null): void => {
    if (running === ended) running = undefined;
    ended.worker.terminate();
    for (const { refuse, timer } of ended.waiting) {
      clearTimeout(timer);
      if (error !== null) refuse(error);
    }
    ended.waiting.clear();
  };

  const started = (): NonNullable<typeof running> => {
    if (running !== undefined) return running;
    const now = { ...start(), waiting: new Set<Waiting>() };
    now.worker.addEventListener("error", ({ message }) =>
      stop(now, new Error(`the worker ended: ${message ?? "it could not be started"}`)),
    );
    now.worker.addEventListener("messageerror", () => stop(now, new Error("the worker's answer could not be read")));
    running = now;
    return now;
  };

  return {
    ask: (question) =>
      new Promise((done, refuse) => {
        const at = started();
        const late = () => stop(at, new Late(`no answer after ${Math.round(most / 1000)} s, so the work was ended`));
        const mine: Waiting = { refuse, timer: setTimeout(late, most) };
        at.waiting.add(mine);
        const over = (): void => {
          clearTimeout(mine.timer);
          at.waiting.delete(mine);
        };
        question(at.work).then(
          (answer) => {
            over();
            done(answer);
          },
          (error: unknown) => {
            over();
            refuse(error);
          },
        );
      }),
    end() {
      if (running !== undefined) stop(running, null);
    },
  };
}

interface Waiting {
  readonly refuse: (error: Error) => void;
  readonly timer: ReturnType<typeof setTimeout>;
}
