/** The book's server, asked from the page it served. Trouble is one line; being out of reach is its own kind. */

import { hc } from "hono/client";
import type { BoatNetworkApi, BookApi, BooksApi, ReportApi } from "../../server/index.ts";
import { createStore } from "../state/store.ts";

/** The server answered, and said what is wrong. */
export class ApiTrouble extends Error {
  readonly status: number;
  /** Whatever stood beside the error: the record as it is now, after a 409. */
  readonly body: Readonly<Record<string, unknown>>;

  constructor(status: number, line: string, body: Readonly<Record<string, unknown>>) {
    super(line);
    this.name = "ApiTrouble";
    this.status = status;
    this.body = body;
  }
}

/**
 * The book is not to be had now: no network, the computer that holds it is off, or it does not let this device in (see
 * `isPaired`). What is written waits on the device.
 */
export class OutOfReach extends Error {
  constructor(line = "the book is out of reach") {
    super(line);
    this.name = "OutOfReach";
  }
}

/** Where a device types the code that lets it in: a page of the server's own. */
export const PAIRING_PAGE = "/let-in";

/** False once the book's computer answered that this device has no key, or one that was withdrawn. */
export const isPaired = createStore(true);

/** Asks the server; what it refuses is thrown, so an answer is always what its address promises. */
const asking: typeof fetch = async (input, init) => {
  let response: Response;
  try {
    response = await fetch(input, init);
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") throw error;
    throw new OutOfReach();
  }
  isPaired.put(response.status !== 401);
  if (response.ok) return response;
  if (response.status === 401) throw new OutOfReach("this device is not let in");
  const body = (await response.json().catch(() => ({}))) as Record<string, unknown>;
  throw new ApiTrouble(response.status, lineOf(body, response.status), body);
};

/** One line as everywhere: place: given; expected. */
export function lineOf(body: Readonly<Record<string, unknown>>, status: number): string {
  const error = body.error as { place?: string; given?: string; expected?: string } | undefined;
  if (error?.place === undefined) return `the server answered ${status}`;
  const said = [error.given, error.expected].filter((text) => text !== undefined && text !== "").join("; ");
  return `${error.place}: ${said}`;
}

/** What the book answers, typed by the server's own routes: `(await book.history.$get({ query })).json()`. */
export const book = hc<BookApi>("/api/1", { fetch: asking });
/** The same of the books of the computer. */
export const books = hc<BooksApi>("/api/1", { fetch: asking }).books;
/** Writes a report as a PDF. */
export const reportPdf = hc<ReportApi>("/api/1", { fetch: asking })["report.pdf"];
/** The same of the boat's network. */
export const boatNetwork = hc<BoatNetworkApi>("/api/1", { fetch: asking })["boat-network"];

/** Goes along with a question that may be given up. */
export const until = (signal: AbortSignal) => ({ init: { signal } });
/** A file sent as it is. */
export const asBytes = (body: Blob) => ({ init: { body, headers: { "Content-Type": "application/octet-stream" } } });
