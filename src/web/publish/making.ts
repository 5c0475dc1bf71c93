/** One making at a time, beside the page: a worker of its own, with progress, ended at will. */
import { proxy } from "comlink";
import { announce } from "../controls/announce.ts";
import type { LogHere } from "../days/book-copy.ts";
import { createStore } from "../state/store.ts";
import { faultOf } from "../work/fault.ts";
import { benchLine } from "../work/worker.ts";
import { rawLogsOf } from "./raw-logs.ts";
import type { Outgoing, OutgoingAsked } from "./work.ts";

export type Making =
  | { readonly kind: "idle" }
  | { readonly kind: "working"; readonly share: number }
  | { readonly kind: "made"; readonly made: Outgoing; readonly of: OutgoingAsked }
  | { readonly kind: "failed"; readonly line: string };

export const making = createStore<Making>({ kind: "idle" });

/** An hour, as for every inquiry by draws. */
const MOST = 3_600_000;

let line: ReturnType<typeof benchLine> | undefined;
let turn = 0;
let reading: AbortController | undefined;

/** @param withLogs whether the logs of its pulls go in, reading by reading */
export async function make(of: OutgoingAsked, logs: readonly LogHere[], withLogs: boolean): Promise<void> {
  stopMaking();
  const mine = ++turn;
  const stop = new AbortController();
  reading = stop;
  making.put({ kind: "working", share: 0 });
  line = benchLine(MOST);
  const own = line;
  try {
    const tell = proxy((share: number) => {
      if (mine === turn) making.put({ kind: "working", share });
    });
    const rawLogs = withLogs ? await rawLogsOf(of, logs, stop.signal) : [];
    if (mine !== turn) return;
    const made = await own.ask((work) => work.outgoing({ ...of, rawLogs }, tell));
    if (mine !== turn) return;
    making.put({ kind: "made", made, of });
    announce(`made of ${made.pulls} pulls: a page, a report and a data package`);
  } catch (error) {
    if (mine === turn) making.put({ kind: "failed", line: faultOf(error).line });
  } finally {
    own.end();
  }
}

export function stopMaking(): void {
  turn++;
  reading?.abort();
  line?.end();
  line = undefined;
  if (making.get().kind === "working") making.put({ kind: "idle" });
}
