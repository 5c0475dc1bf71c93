/**
 * An instrument by the bench's server, which has each reading on its disk before it answers it. What is asked for is the
 * next row this device does not have: a server killed and started again, or a tab closed and opened, loses and doubles none.
 */
import { ApiTrouble, book, OutOfReach } from "../../api/client.ts";
import { keep } from "../keep.ts";
import { keepReadings, keptReadings } from "./kept-readings.ts";
import { showLive } from "./live-store.ts";
import { type LiveReading, type LiveSource, thinned } from "./reading.ts";

/** Between two questions, and between two tries, ms. */
const PAUSE = 100;
const AGAIN = 1_000;
/** How long the server waits for a reading, ms. */
const WAIT = 800;

/** Follows it until the signal. */
export async function followByServer(pull: string, name: string, signal: AbortSignal): Promise<void> {
  let { rows, next } = await keptReadings(pull, name);
  showLive(pull, name, { rows, state: "waiting" });
  let known: { readonly log: string | null; readonly clock: number } | null = null;
  while (!signal.aborted) {
    try {
      const answer = await ask(pull, name, next);
      if (known === null || known.log !== answer.log)
        known = { log: answer.log, clock: await clockOf(pull, name, answer.log, Date.now() - answer.now_s * 1000) };
      const { clock } = known;
      const came = thinned(answer.rows.map((row) => readingOf(row, clock)));
      if (answer.rows.length > 0) {
        await keepReadings(pull, name, next, { next: answer.next, rows: came });
        rows = [...rows, ...came];
        next = answer.next;
      }
      const { state } = answer;
      showLive(pull, name, { rows, state: state.kind, why: state.kind === "lost" ? state.why : "" });
      await pause(PAUSE, signal);
    } catch (error) {
      // A pull that is not in the book yet is on its way there.
      const soon = error instanceof ApiTrouble && error.status === 404;
      showLive(pull, name, soon ? { rows, state: "waiting" } : { rows, state: "lost", why: whyOf(error) });
      await pause(AGAIN, signal);
    }
  }
}

async function ask(pull: string, name: string, from: number) {
  const question = { param: { id: pull }, query: { instrument: name, from: String(from), wait: String(WAIT) } };
  const asked = book.pulls[":id"].instruments;
  try {
    return await (await asked.$get(question)).json();
  } catch (error) {
    if (!(error instanceof ApiTrouble) || error.status !== 404) throw error;
    // Not followed yet, or no more since the server began anew.
    await asked.$post({ param: { id: pull }, json: { instrument: name } });
    return (await asked.$get(question)).json();
  }
}

function readingOf(
  row: { time: number; rows: number; values: Readonly<Record<string, number>> },
  clock: number,
): LiveReading {
  return { n: row.rows - 1, at: row.time * 1000 + clock, time_s: row.time, values: row.values };
}

/** The difference of the clocks, kept with the pull from the first answer on, so that touches and readings stay in order. */
async function clockOf(pull: string, name: string, log: string | null, seen: number): Promise<number> {
  let clock = seen;
  await keep((before) => {
    const own = before.pull?.ids.pull === pull ? before.pull : null;
    const source = own?.live?.find((one) => one.name === name);
    if (own === null || source === undefined) return before;
    clock = source.log === null ? seen : source.clock;
    if (source.log === log) return before;
    const live = own.live!.map((one): LiveSource => (one === source ? { ...one, log, clock } : one));
    return { ...before, pull: { ...own, live } };
  });
  return clock;
}

function whyOf(error: unknown): string {
  if (error instanceof OutOfReach) return error.message;
  if (error instanceof ApiTrouble) return error.message;
  return error instanceof Error ? error.message : String(error);
}

/** Waits, or until the signal. */
export function pause(ms: number, signal: AbortSignal): Promise<void> {
  return new Promise((done) => {
    const over = () => {
      clearTimeout(timer);
      signal.removeEventListener("abort", over);
      done();
    };
    const timer = setTimeout(over, ms);
    signal.addEventListener("abort", over);
  });
}

/** Ends its log in the book. @returns the log's id, null where nothing ever came */
export async function endByServer(pull: string, name: string): Promise<string | null> {
  const answer = await book.pulls[":id"].instruments.end.$post({ param: { id: pull }, json: { instrument: name } });
  return (await answer.json()).ended?.log ?? null;
}

/** Names of the instruments the server may follow; none where it is out of reach. */
export async function serverInstruments(): Promise<readonly string[]> {
  try {
    return (await (await book.instruments.$get()).json()).instruments;
  } catch (error) {
    if (error instanceof OutOfReach || error instanceof ApiTrouble) return [];
    throw error;
  }
}
