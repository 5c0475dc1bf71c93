import type { Context, MiddlewareHandler } from "hono";
import { quoted } from "../quantity/index.ts";
import { Refusal } from "./refusals.ts";
import type { BenchEnv, RequestContext } from "./request-context.ts";

const SAFE = new Set(["GET", "HEAD"]);
const KNOWN = new Set(["GET", "HEAD", "POST", "PUT", "DELETE"]);

/**
 * Refuses a foreign Host (a name made to point here: DNS rebinding) and a foreign Origin (another site's page asking
 * on the user's behalf). A link from elsewhere may still open a page: that is a navigation, it changes nothing and the
 * other site cannot read it.
 */
export function hostAndOrigin(): MiddlewareHandler<BenchEnv> {
  return async (c, next) => {
    const context = c.env as RequestContext | undefined;
    // Without a listener's word there is no knowing whose request it is: fail closed.
    if (!context?.hosts) throw new Refusal(403, "listener", "", "a request that came in by a listener of the bench");
    refuseForeignHost(c, context);
    if (!KNOWN.has(c.req.method))
      throw new Refusal(405, "method", quoted(c.req.method), "GET, HEAD, POST, PUT or DELETE");
    refuseForeignOrigin(c, context);
    await next();
  };
}

function refuseForeignHost(c: Context<BenchEnv>, context: RequestContext): void {
  const given = hostHeaders(c, context);
  const host = given[0]?.toLowerCase();
  // The address in the request line may differ from the header ("GET http://elsewhere/ HTTP/1.1"): both must be ours.
  const inLine = new URL(c.req.url).host;
  if (given.length !== 1 || host === undefined || !context.hosts.has(host) || !context.hosts.has(inLine)) {
    const shown = given.length === 1 && host !== undefined && context.hosts.has(host) ? inLine : given.join(", ");
    throw new Refusal(403, "Host", quoted(shown), `the bench answers only to ${[...context.hosts].join(", ")}`);
  }
}

function hostHeaders(c: Context<BenchEnv>, context: RequestContext): string[] {
  const raw = context.incoming?.rawHeaders;
  if (raw === undefined) return [c.req.header("host") ?? new URL(c.req.url).host];
  const hosts: string[] = [];
  for (let i = 0; i + 1 < raw.length; i += 2) if (raw[i]!.toLowerCase() === "host") hosts.push(raw[i + 1]!);
  return hosts;
}

function refuseForeignOrigin(c: Context<BenchEnv>, context: RequestContext): void {
  const own = `${context.scheme}://${new URL(c.req.url).host}`;
  const origin = c.req.header("origin");
  if (origin !== undefined && origin !== own) {
    throw new Refusal(403, "Origin", quoted(origin), `a page of the bench itself, ${own}`);
  }
  const site = c.req.header("sec-fetch-site");
  if (site === undefined || site === "same-origin" || site === "none") return;
  const opensPage =
    SAFE.has(c.req.method) &&
    c.req.header("sec-fetch-mode") === "navigate" &&
    c.req.header("sec-fetch-dest") === "document" &&
    !new URL(c.req.url).pathname.startsWith("/api/");
  if (!opensPage) throw new Refusal(403, "Sec-Fetch-Site", quoted(site), `a page of the bench itself, ${own}`);
}
