/** The book's server, asked from the page it served. Trouble is one line; being out of reach is its own kind. */

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
 * `letIn`). What is written waits on the device.
 */
export class OutOfReach extends Error {
  constructor(line = "the book is out of reach") {
    super(line);
    this.name = "OutOfReach";
  }
}

/** Where a device types the code that lets it in: a page of the server's own. */
export const LET_IN = "/let-in";

/** False once the book's computer answered that this device has no key, or one that was withdrawn. */
export const letIn = createStore(true);

type Query = Readonly<Record<string, string | number | undefined>>;

function addressOf(path: string, query: Query = {}): string {
  const fields = new URLSearchParams();
  for (const [name, value] of Object.entries(query)) if (value !== undefined) fields.set(name, String(value));
  const text = fields.toString();
  return `/api/1${path}${text === "" ? "" : `?${text}`}`;
}

async function ask(path: string, init: RequestInit, query?: Query): Promise<Response> {
  let response: Response;
  try {
    response = await fetch(addressOf(path, query), init);
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") throw error;
    throw new OutOfReach();
  }
  letIn.put(response.status !== 401);
  if (response.ok) return response;
  if (response.status === 401) throw new OutOfReach("this device is not let in");
  const body = (await response.json().catch(() => ({}))) as Record<string, unknown>;
  throw new ApiTrouble(response.status, lineOf(body, response.status), body);
}

/** One line as everywhere: place: given; expected. */
export function lineOf(body: Readonly<Record<string, unknown>>, status: number): string {
  const error = body.error as { place?: string; given?: string; expected?: string } | undefined;
  if (error?.place === undefined) return `the server answered ${status}`;
  const said = [error.given, error.expected].filter((text) => text !== undefined && text !== "").join("; ");
  return `${error.place}: ${said}`;
}

const json = (method: string, body: unknown, signal?: AbortSignal): RequestInit => ({
  method,
  headers: { "Content-Type": "application/json" },
  body: JSON.stringify(body),
  ...(signal ? { signal } : {}),
});

export const api = {
  async get<T>(path: string, query?: Query, signal?: AbortSignal): Promise<T> {
    return (await ask(path, signal ? { signal } : {}, query)).json() as Promise<T>;
  },
  async post<T>(path: string, body: unknown, signal?: AbortSignal): Promise<T> {
    return (await ask(path, json("POST", body, signal))).json() as Promise<T>;
  },
  async put<T>(path: string, body: unknown): Promise<T> {
    return (await ask(path, json("PUT", body))).json() as Promise<T>;
  },
  async delete<T>(path: string): Promise<T> {
    return (await ask(path, { method: "DELETE" })).json() as Promise<T>;
  },
  /** An answer that is not JSON: the view of a log. */
  raw: (path: string, query?: Query, signal?: AbortSignal): Promise<Response> =>
    ask(path, signal ? { signal } : {}, query),
  /** Sends a file as it is. */
  async send<T>(path: string, body: Blob, type: string, query?: Query): Promise<T> {
    const response = await ask(path, { method: "POST", headers: { "Content-Type": type }, body }, query);
    return response.json() as Promise<T>;
  },
};
