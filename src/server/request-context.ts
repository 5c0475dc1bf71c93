import type { IncomingMessage } from "node:http";
import type { Writer } from "./records.ts";

/**
 * How a request came in, said by the listener that took it and never by the request itself:
 * the computer's own loopback, or the boat's network (where every request needs a device's key).
 */
export interface RequestContext {
  readonly via: "computer" | "boat";
  readonly scheme: "http" | "https";
  /** The only values of Host this listener answers to, lower case, with port. */
  readonly hosts: ReadonlySet<string>;
  /** Address of the other end, for limiting tries. */
  readonly from: string;
  /** To be called once a device's key was seen on the request; until then its connection is held for a short while only. */
  readonly recognised?: () => void;
  /** The request as the socket gave it; absent in process. */
  readonly incoming?: IncomingMessage;
}

/** What hono hands around: the context, and who is at work. */
export interface BenchEnv {
  Bindings: RequestContext;
  Variables: {
    /** Who makes a change, for the history: the device let in, or this computer. */
    by: Writer;
  };
}
