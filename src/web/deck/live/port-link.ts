/** An instrument straight to this device: each reading is kept here before it is shown, and goes to the book from here. */
import type { LivePlan } from "../../../log/index.ts";
import { keep } from "../keep.ts";
import { keepReadings, keptReadings } from "./kept-readings.ts";
import { type LineReading, LineStream } from "./line-stream.ts";
import { showLive } from "./live-store.ts";
import type { Port } from "./port.ts";
import type { LiveChannel, LiveReading } from "./reading.ts";
import { pause } from "./server-link.ts";

const AGAIN = 1_000;
/** Nothing for so long is a gap, ms. */
const SILENT = 3_000;

/** What came at once, and the channels of its log. */
export interface Came {
  readonly readings: readonly LineReading[];
  readonly channels: readonly LiveChannel[];
}

/** Something this device reads itself: what comes, until the signal or until it is lost. */
export interface OwnSource {
  readonly name: string;
  came(signal: AbortSignal): AsyncIterable<Came>;
  /** Nothing for so long is told as silence, ms. */
  readonly silent?: number;
}

/** Lines of a port, read alike after each break. */
export function lineSource(port: Port): OwnSource {
  let plan: LivePlan | null = null;
  return {
    name: port.name,
    async *came(signal) {
      const stream = new LineStream(port.name, plan);
      for await (const bytes of port.bytes(signal)) {
        const readings = stream.take(bytes, Date.now());
        plan = stream.plan;
        if (readings.length > 0) yield { readings, channels: stream.channels };
      }
    },
  };
}

/** Follows it until the signal: lost, it is opened again. */
export async function followOwn(pull: string, source: OwnSource, signal: AbortSignal): Promise<void> {
  const { name, silent = SILENT } = source;
  let { rows, next } = await keptReadings(pull, name);
  showLive(pull, name, { rows, state: "waiting" });
  let known = false;
  let broken = rows.length > 0;
  let newest = rows.at(-1)?.at ?? null;
  while (!signal.aborted) {
    const quiet = setInterval(() => {
      if (newest !== null && Date.now() - newest > silent) showLive(pull, name, { state: "silent", why: "" });
    }, 1_000);
    try {
      for await (const { readings, channels } of source.came(signal)) {
        if (!known) known = await keepChannels(pull, name, channels);
        const fresh = readings.map(({ at, values }, i): LiveReading => {
          const gap = broken || (newest !== null && at - newest > silent);
          broken = false;
          newest = at;
          return { n: next + i, at, time_s: at / 1000, values, ...(gap ? { afterGap: true } : {}) };
        });
        await keepReadings(pull, name, next, { next: next + fresh.length, rows: fresh });
        next += fresh.length;
        rows = [...rows, ...fresh];
        showLive(pull, name, { rows, state: "reading", why: "" });
      }
      if (!signal.aborted) showLive(pull, name, { state: "lost", why: "it was closed" });
    } catch (error) {
      showLive(pull, name, { state: "lost", why: error instanceof Error ? error.message : String(error) });
    } finally {
      clearInterval(quiet);
    }
    broken ||= rows.length > 0;
    await pause(AGAIN, signal);
  }
}

/** What its log will hold, kept with the pull once it is known. */
const keepChannels = (pull: string, name: string, channels: readonly LiveChannel[]): Promise<boolean> =>
  keep((before) => {
    const own = before.pull?.ids.pull === pull ? before.pull : null;
    const source = own?.live?.find((one) => one.name === name);
    if (own === null || source === undefined || source.channels.length > 0) return before;
    return { ...before, pull: { ...own, live: own.live!.map((one) => (one === source ? { ...one, channels } : one)) } };
  });
