// The bench's server under load: 200 requests a second on the loopback, reads and writes mixed as a phone, a tablet and
// a laptop on one book would mix them. `node --import tsx bench/server-load.ts [SECONDS]`, a minute by default.
import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { newBook, openBook, systemPorts } from "../src/book/index.ts";
import { idMaker } from "../src/record/index.ts";
import { bookTopics, openBench } from "../src/server/index.ts";

/** What a load came to. Latencies in ms. */
export interface LoadResult {
  readonly seconds: number;
  readonly requests: number;
  readonly perSecond: number;
  readonly errors: number;
  readonly timeouts: number;
  readonly refused: number;
  readonly latency: { readonly p50: number; readonly p99: number; readonly max: number };
  /** Writes acknowledged, and found in the book afterwards. */
  readonly written: number;
  readonly found: number;
}

interface Cannon {
  duration: number;
  requests: { sent: number; average: number };
  latency: { p50: number; p99: number; max: number };
  errors: number;
  timeouts: number;
  non2xx: number;
  "2xx": number;
}
type Request = {
  method?: string;
  path?: string;
  headers?: Record<string, string>;
  body?: string;
  setupRequest?: (request: Request) => Request;
  onResponse?: (status: number) => void;
};
type Autocannon = (options: {
  url: string;
  connections: number;
  overallRate: number;
  duration?: number;
  amount?: number;
  timeout?: number;
  requests: Request[];
}) => Promise<Cannon>;

const RATE = 200;
const LOG_ROWS = 200_000;

/** How long the load lasts: so many seconds, or until so many requests were answered, however long that takes. */
export type LoadLength = { readonly seconds: number } | { readonly requests: number };

/** Runs the load against a bench in a process of its own. */
export async function loadFor(length: LoadLength): Promise<LoadResult> {
  const autocannon = ((await import("autocannon" as string)) as { default: Autocannon }).default;
  const folder = mkdtempSync(join(tmpdir(), "load-"));
  const path = join(folder, "load.book");
  const { log, site } = fill(path);
  const server = await serve(path);
  try {
    const newId = idMaker(systemPorts);
    let written = 0;
    const requests: Request[] = [
      { path: "/api/1/book" },
      { path: "/api/1/records/pull" },
      { path: `/api/1/records/site/${site}` },
      { path: "/api/1/history?limit=20" },
      { path: `/api/1/logs/${log}/view?points=1000` },
      {
        method: "PUT",
        headers: { "content-type": "application/json" },
        body: JSON.stringify({ expected: null, set: { text: "written under load" } }),
        setupRequest: (request) => ({ ...request, path: `/api/1/records/note/${newId()}` }),
        onResponse: (status) => {
          if (status === 200) written++;
        },
      },
    ];
    const shot = await autocannon({
      url: server.address,
      connections: 10,
      overallRate: RATE,
      ...("seconds" in length ? { duration: length.seconds } : { amount: length.requests, timeout: 600 }),
      requests,
    });
    await server.stop();
    const book = openBook(path, { backups: false });
    const found = book.list("note").length;
    const soundness = book.check();
    book.close();
    if (soundness.kind !== "sound") throw new Error(`the book is damaged: ${soundness.why}`);
    return {
      seconds: shot.duration,
      requests: shot["2xx"] + shot.non2xx,
      perSecond: shot.requests.average,
      errors: shot.errors,
      timeouts: shot.timeouts,
      refused: shot.non2xx,
      latency: { p50: shot.latency.p50, p99: shot.latency.p99, max: shot.latency.max },
      written,
      found,
    };
  } finally {
    await server.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A book of a season: a site, 200 pulls, and a log of 200,000 readings. */
function fill(path: string): { log: string; site: string } {
  const book = newBook(path, { title: "A book under load", simulated: true }, { backups: false });
  const site = book.add("site", { name: "Load bay" });
  const day = book.add("day", { date: "2031-05-03", site });
  book.write(
    Array.from({ length: 200 }, (_, i) => ({ kind: "pull" as const, set: { day, number: i, depth_m: 6 + (i % 5) } })),
    "a season",
  );
  const channels = [{ name: "load", quantity: "force", unit: "N", precision: "single" as const }];
  const { log } = book.logs.open({ name: "Load under load", channels });
  const times = Float64Array.from({ length: LOG_ROWS }, (_, i) => 1_935_565_200 + i / 100);
  const load = Float64Array.from({ length: LOG_ROWS }, (_, i) => 1500 + 800 * Math.sin(i / 900));
  book.logs.append(log, { times, columns: { load } }, { from: 0, to: LOG_ROWS });
  book.logs.finish(log);
  book.close();
  return { log, site };
}

async function serve(path: string): Promise<{ address: string; stop(): Promise<void> }> {
  const child = spawn(process.execPath, ["--import", "tsx", import.meta.filename, "--serve", path], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  const gone = new Promise<void>((done) => child.once("exit", () => done()));
  const address = await new Promise<string>((done, fail) => {
    child.stdout.once("data", (text: Buffer) => done(text.toString().trim()));
    child.once("exit", (code) => fail(new Error(`the bench ended before it began (${code})`)));
  });
  const stop = async () => {
    child.kill("SIGTERM");
    await gone;
  };
  return { address, stop };
}

if (process.argv[1] === import.meta.filename) {
  if (process.argv[2] === "--serve") {
    const book = openBook(process.argv[3]!, { backups: false });
    const fault = (error: unknown) => console.error(error);
    const { topics } = bookTopics(book, { sentFolder: `${book.path}.sent`, now: Date.now, fault });
    const bench = await openBench({
      topics,
      builtFolder: "",
      devicesFile: "",
      port: 0,
      now: Date.now,
      fault,
    });
    process.once("SIGTERM", () => void bench.close().then(() => book.close()));
    console.log(bench.address);
  } else {
    const seconds = Number(process.argv[2] ?? 60);
    const result = await loadFor({ seconds: seconds });
    console.log(JSON.stringify(result, undefined, 2));
    const erred = result.errors + result.timeouts + result.refused > 0;
    const lost = result.found < result.written;
    // The rate is held over the whole run; a hundredth is left for its start and end.
    const slow = result.requests < 0.99 * RATE * seconds;
    console.log(erred || lost || slow ? "not as asked" : `${RATE} requests a second without an error`);
    process.exitCode = erred || lost || slow ? 1 : 0;
  }
}
