import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Hono } from "hono";
import { newBook, systemPorts } from "../../src/book/index.ts";
import { idMaker } from "../../src/record/index.ts";
import { boatNetworkTopic } from "../../src/server/api-boat-network.ts";
import { benchApp } from "../../src/server/bench-app.ts";
import { BoatNetwork } from "../../src/server/boat-network.ts";
import { bookTopics } from "../../src/server/book-topics.ts";
import type { BuiltApp } from "../../src/server/built-app.ts";
import { Devices } from "../../src/server/devices.ts";
import type { BenchEnv, RequestContext } from "../../src/server/request-context.ts";

/** RequestContext by the loopback, as the bench's own listener says it. */
export const atComputer: RequestContext = {
  via: "computer",
  scheme: "http",
  hosts: new Set(["127.0.0.1:4711", "localhost:4711"]),
  from: "127.0.0.1",
};

/** RequestContext by the boat's network. */
export const overBoat: RequestContext = {
  via: "boat",
  scheme: "http",
  hosts: new Set(["192.168.7.20:4711"]),
  from: "192.168.7.33",
};

export const own = "http://127.0.0.1:4711";
export const boat = "http://192.168.7.20:4711";

/** A bench in process, with a clock the test moves. */
export function benchInProcess(
  topics: readonly ((api: Hono<BenchEnv>) => void)[] = [],
  more: { builtApp?: BuiltApp; devicesFile?: string; faults?: unknown[] } = {},
) {
  const clock = { ms: Date.UTC(2031, 4, 3, 9) };
  const network = new BoatNetwork(new Devices(more.devicesFile ?? "", () => clock.ms), () => clock.ms);
  const faults = more.faults ?? [];
  const app = benchApp({
    builtApp: more.builtApp,
    gate: network,
    topics: [(api) => void api.route("/", boatNetworkTopic(network)), ...topics],
    fault: (error) => faults.push(error),
  });
  return {
    app,
    network,
    clock,
    faults,
    ask: (path: string, init: RequestInit = {}) => Promise.resolve(app.request(`${own}${path}`, init, atComputer)),
    askOverBoat: (path: string, init: RequestInit = {}, arrival: RequestContext = overBoat) =>
      Promise.resolve(app.request(`${boat}${path}`, init, arrival)),
  };
}

/** A bench in process over a new book on disk. */
export function benchWithBook() {
  const path = join(mkdtempSync(join(tmpdir(), "bench-")), "test.book");
  const book = newBook(path, { title: "A book of tests", simulated: true }, { who: "setup", backups: false });
  const newId = idMaker(systemPorts);
  const faults: unknown[] = [];
  const sentFolder = join(path, "..", "sent");
  const { topics, stop } = bookTopics(book, { sentFolder, now: Date.now, fault: (error) => faults.push(error) });
  const bench = benchInProcess(topics, { faults });
  const send = (method: string, path: string, body: unknown) =>
    bench.ask(path, {
      method,
      headers: { "content-type": "application/json", origin: own },
      body: JSON.stringify(body),
    });
  return { ...bench, book, path, newId, send, stop, sentFolder };
}

/** The refusal of an answer, as one line. */
export async function refused(answer: Response): Promise<string> {
  const text = await answer.text();
  const { error } = JSON.parse(text) as { error: { place: string; given: string; expected: string } };
  if (text.includes("\n")) throw new Error(`not one line: ${text}`);
  return `${answer.status} ${error.place}: ${error.given}; ${error.expected}`;
}
