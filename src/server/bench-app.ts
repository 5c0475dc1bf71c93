import { Hono } from "hono";
import { quoted } from "../quantity/index.ts";
import type { BuiltApp } from "./built-app.ts";
import { securityHeaders } from "./headers.ts";
import { hostAndOrigin } from "./host-and-origin.ts";
import { deviceKeyNeeded, type Gate, pairingRoutes } from "./pairing.ts";
import { noPathWalks } from "./paths.ts";
import { Refusal, refusalOf } from "./refusals.ts";
import type { BenchEnv } from "./request-context.ts";

/** Adds its own addresses to those of `/api/1/`. */
export type Topic = (api: Hono<BenchEnv>) => void;

/** What the bench is put together from. */
export interface BenchParts {
  /** The built web app; absent when it was never built: the records are served all the same. */
  readonly builtApp: BuiltApp | undefined;
  readonly gate: Gate;
  /** The topics of `/api/1/`, each adding its own addresses. */
  readonly topics: readonly Topic[];
  /** Told of faults of the program, never of wrong input. */
  readonly fault: (error: unknown) => void;
}

/**
 * The bench as one function from request to answer. Order matters: nothing is read of a request before its Host,
 * Origin, path and key have been checked.
 */
export function benchApp(parts: BenchParts): Hono<BenchEnv> {
  const app = new Hono<BenchEnv>();
  app.use(securityHeaders());
  app.use(hostAndOrigin());
  app.use(noPathWalks());
  app.use(deviceKeyNeeded(parts.gate));
  pairingRoutes(app, parts.gate);
  app.route("/api/1", api(parts));
  app.get("*", (c) => builtFile(parts, c.req));
  app.notFound((c) => {
    throw new Refusal(
      404,
      "address",
      quoted(`${c.req.method} ${new URL(c.req.url).pathname}`),
      "an address of the bench",
    );
  });
  app.onError((error) => {
    const { status, body } = refusalOf(error);
    if (status === 500) parts.fault(error);
    return Response.json(body, { status, headers: { "Cache-Control": "no-store" } });
  });
  return app;
}

function api(parts: BenchParts): Hono<BenchEnv> {
  const api = new Hono<BenchEnv>();
  api.use(async (c, next) => {
    await next();
    // Records are never kept by the browser: what it shows is what the book holds.
    if (!c.res.headers.has("Cache-Control")) c.res.headers.set("Cache-Control", "no-store");
  });
  for (const topic of parts.topics) topic(api);
  return api;
}

function builtFile(parts: BenchParts, request: { url: string; header(name: string): string | undefined }): Response {
  const path = new URL(request.url).pathname;
  if (path === "/api" || path.startsWith("/api/"))
    throw new Refusal(404, "address", quoted(path), "an address under /api/1/");
  if (parts.builtApp === undefined) {
    throw new Refusal(404, "dist/web", "", "the built web app; `npm run build` makes it");
  }
  const answer = parts.builtApp.serve(path, {
    accept: request.header("accept") ?? "",
    encoding: request.header("accept-encoding") ?? "",
    etag: request.header("if-none-match") ?? "",
  });
  if (answer === undefined) throw new Refusal(404, "address", quoted(path), "a file or a page of the bench");
  return answer;
}
