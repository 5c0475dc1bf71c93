import { createServer, type Server } from "node:http";
import { createServer as createSecureServer } from "node:https";
import type { AddressInfo } from "node:net";
import { getRequestListener } from "@hono/node-server";
import { InputError } from "../quantity/index.ts";
import { dress } from "./headers.ts";
import { LONGEST_OF_PLACE } from "./paths.ts";
import type { RequestContext } from "./request-context.ts";
import { keyOf, type StrangerLimits, Strangers } from "./strangers.ts";

/** What answers the requests of a listener. */
export interface Fetching {
  fetch(request: Request, context: RequestContext): Response | Promise<Response>;
}

/** A key and a certificate in PEM, for https by the boat's network. */
export interface Certificate {
  readonly key: string;
  readonly cert: string;
}

/** Where a listener stands. */
export interface Place {
  readonly via: RequestContext["via"];
  /** The address bound, a numeral. */
  readonly address: string;
  /** 0: any free one. */
  readonly port: number;
  /** Further names of the same listener, without port: "localhost". */
  readonly alsoCalled: readonly string[];
  readonly certificate?: Certificate;
  /** What connections without a key may claim; absent: all of them are the computer's own. */
  readonly strangers?: StrangerLimits;
}

/** A socket taking requests. */
export interface Listener {
  /** `http://127.0.0.1:4711` */
  readonly address: string;
  readonly port: number;
  /** Takes no new request, lets those under way finish for at most `grace` ms, then cuts them. */
  close(grace: number): Promise<void>;
}

/** A boat has a handful of devices; each browser holds some six connections. */
const MOST_CONNECTIONS = 512;

/** Bytes of an address with its headers. */
const MOST_HEADER = LONGEST_OF_PLACE + 64 * 1024;

/**
 * Binds the app to one address.
 * @throws InputError when the port is taken or not permitted
 */
export async function listen(app: Fetching, place: Place): Promise<Listener> {
  const hosts = new Set<string>();
  const scheme = place.certificate === undefined ? "http" : "https";
  const handler = getRequestListener(
    (request, env) => {
      const incoming = env.incoming as import("node:http").IncomingMessage;
      const { socket } = incoming;
      const recognised = () => strangers?.recognised(keyOf(socket));
      const from = socket.remoteAddress ?? "";
      return app.fetch(request, { via: place.via, scheme, hosts, from, recognised, incoming } satisfies RequestContext);
    },
    { overrideGlobalObjects: false, errorHandler: brokenRequest },
  );
  const server =
    place.certificate === undefined
      ? createServer({ requireHostHeader: true, maxHeaderSize: MOST_HEADER }, handler)
      : createSecureServer(
          {
            ...place.certificate,
            minVersion: "TLSv1.2",
            handshakeTimeout: 10_000,
            maxHeaderSize: MOST_HEADER,
          },
          handler,
        );
  const strangers = place.strangers === undefined ? undefined : new Strangers(server, place.strangers);
  // A slow sender may not hold a connection for ever; a big log over a boat's wireless may take half an hour.
  server.headersTimeout = 10_000;
  server.requestTimeout = 30 * 60_000;
  server.keepAliveTimeout = 5_000;
  server.maxConnections = MOST_CONNECTIONS;
  server.maxRequestsPerSocket = 0;
  const port = await bind(server, place);
  for (const name of [place.address, ...place.alsoCalled]) hosts.add(`${name}:${port}`);
  // A browser leaves a scheme's own port out of Host.
  if (port === (scheme === "http" ? 80 : 443)) for (const name of [place.address, ...place.alsoCalled]) hosts.add(name);
  return { address: `${scheme}://${place.address}:${port}`, port, close: (grace) => close(server, grace) };
}

/** A request too broken to be made into one: a bad Host, a bad address. */
function brokenRequest(): Response {
  const answer = Response.json(
    { error: { place: "request", given: "not readable", expected: "a plain HTTP request to an address of the bench" } },
    { status: 400 },
  );
  dress(answer.headers);
  return answer;
}

function bind(server: Server, place: Place): Promise<number> {
  return new Promise((done, fail) => {
    server.once("error", (error: NodeJS.ErrnoException) => {
      const why =
        error.code === "EADDRINUSE" ? "in use already" : `cannot be opened (${error.code ?? "unknown cause"})`;
      fail(new InputError(`port ${place.port} of ${place.address}`, why, "a free port, such as --port 0 finds"));
    });
    server.listen({ port: place.port, host: place.address, exclusive: true }, () =>
      done((server.address() as AddressInfo).port),
    );
  });
}

function close(server: Server, grace: number): Promise<void> {
  return new Promise((done) => {
    const cut = setTimeout(() => server.closeAllConnections(), grace);
    server.close(() => {
      clearTimeout(cut);
      done();
    });
    server.closeIdleConnections();
  });
}
