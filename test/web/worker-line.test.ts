import { afterEach, describe, expect, it, vi } from "vitest";
import { InputError } from "../../src/quantity/index.ts";
import { faultOf } from "../../src/web/work/fault.ts";
import { type Started, type WorkerEnd, workerLine } from "../../src/web/work/worker-line.ts";

/** A worker whose answers and ends are given by hand. */
class FakeWorker implements WorkerEnd {
  readonly listeners = new Map<string, (event: { readonly message?: string }) => void>();
  ended = false;
  addEventListener(type: string, listener: (event: { readonly message?: string }) => void): void {
    this.listeners.set(type, listener);
  }
  terminate(): void {
    this.ended = true;
  }
}

const begun = (most = 1000) => {
  const workers: FakeWorker[] = [];
  const line = workerLine((): Started<number> => {
    workers.push(new FakeWorker());
    return { worker: workers.at(-1)!, work: workers.length };
  }, most);
  return { workers, line };
};
const never = () => new Promise<never>(() => undefined);
const faultsOf = async (asked: Promise<unknown>) =>
  faultOf(
    await asked.then(
      () => null,
      (error: unknown) => error,
    ),
  );

afterEach(() => vi.useRealTimers());

describe("a line to a worker", () => {
  it("answers by one worker, started when first asked", async () => {
    const { workers, line } = begun();
    expect(workers).toHaveLength(0);
    expect(await line.ask(async (work) => work)).toBe(1);
    expect(await line.ask(async (work) => work)).toBe(1);
  });

  it("tells every question that waits when its worker ends, and asks the next of a new one", async () => {
    const { workers, line } = begun();
    const waiting = [line.ask(never), line.ask(never)].map(faultsOf);
    workers[0]!.listeners.get("error")!({ message: "out of memory" });
    for (const fault of await Promise.all(waiting))
      expect(fault).toEqual({ kind: "program", line: "Error: the worker ended: out of memory" });
    expect(workers[0]!.ended).toBe(true);
    expect(await line.ask(async (work) => work)).toBe(2);
  });

  it("waits for no answer without end: the worker is ended, and the next question has a new one", async () => {
    vi.useFakeTimers();
    const { workers, line } = begun(60_000);
    const fault = faultsOf(line.ask(never));
    await vi.advanceTimersByTimeAsync(59_999);
    expect(workers[0]!.ended).toBe(false);
    await vi.advanceTimersByTimeAsync(1);
    expect(await fault).toEqual({ kind: "late", line: "no answer after 60 s, so the work was ended" });
    expect(workers[0]!.ended).toBe(true);
    expect(await line.ask(async (work) => work)).toBe(2);
    expect(vi.getTimerCount()).toBe(0);
  });

  it("leaves no timer behind when it is ended by hand", () => {
    vi.useFakeTimers();
    const { workers, line } = begun();
    void line.ask(never);
    line.end();
    expect(workers[0]!.ended).toBe(true);
    expect(vi.getTimerCount()).toBe(0);
    line.end();
  });
});

describe("what comes instead of an answer", () => {
  it("is told apart: wrong input in its own line, a fault of the program by its name and message", () => {
    // Only name and message of an error come out of a worker.
    const sent = (error: Error) => Object.assign(new Error(error.message), { name: error.name });
    const input = new InputError("rode #3.length", '"12 kn"', "a length is expected");
    expect(faultOf(sent(input))).toEqual({ kind: "input", line: input.message });
    expect(faultOf(sent(new TypeError("x is not a function")))).toEqual({
      kind: "program",
      line: "TypeError: x is not a function",
    });
    expect(faultOf("gone")).toEqual({ kind: "program", line: "gone" });
  });
});
