import type { Context, Hono, MiddlewareHandler } from "hono";
import { getCookie, setCookie } from "hono/cookie";
import { quoted } from "../quantity/index.ts";
import type { Attempts } from "./attempts.ts";
import { limits, textBody } from "./bodies.ts";
import { codePage, codePageStyle } from "./code-page.ts";
import type { Devices } from "./devices.ts";
import { contentSecurityPolicy } from "./headers.ts";
import type { OneTimeCode } from "./one-time-code.ts";
import { Refusal } from "./refusals.ts";
import type { BenchEnv } from "./request-context.ts";

/** Where a device types the code. */
export const pairingPath = "/let-in";
/** Where a device fetches the certificate of the authority it is to trust: public, and good for nothing else. */
export const authorityPath = "/authority.crt";
const COOKIE = "rodebench-device";
const HALF_A_YEAR = 180 * 24 * 3600;

/** What letting devices in needs. */
export interface Gate {
  readonly devices: Devices;
  readonly code: OneTimeCode;
  readonly attempts: Attempts;
  /** The authority a device is to trust for https, as PEM; undefined when there is none. */
  readonly authority: string | undefined;
}

/**
 * Whoever comes by the boat's network needs a device's key, for every request and every file of the app; whoever sits
 * at the computer does not. Says who is at work, for the history.
 */
export function deviceKeyNeeded(gate: Gate): MiddlewareHandler<BenchEnv> {
  return async (c, next) => {
    if (c.env.via === "computer") {
      c.set("by", { who: "this computer" });
      return next();
    }
    const path = new URL(c.req.url).pathname;
    const device = gate.devices.recognise(getCookie(c, COOKIE) ?? "");
    if (device !== undefined) {
      c.env.recognised?.();
      c.set("by", { who: device.name, device: device.id });
      return next();
    }
    if (path === pairingPath || path === authorityPath) return next();
    if (c.req.method === "GET" && (c.req.header("accept") ?? "").includes("text/html"))
      return c.redirect(pairingPath, 303);
    throw new Refusal(
      401,
      "device",
      "no key, or one that was withdrawn",
      `a device let in at ${pairingPath} with a code shown at the computer`,
    );
  };
}

/** The page and the form by which a device is let in; only there by the boat's network. */
export function pairingRoutes(app: Hono<BenchEnv>, gate: Gate): void {
  app.use(pairingPath, async (c, next) => {
    if (c.env.via !== "boat")
      throw new Refusal(
        404,
        "address",
        quoted(pairingPath),
        "an address of the bench; no code is needed at the computer itself",
      );
    await next();
    c.res.headers.set("Content-Security-Policy", contentSecurityPolicy([codePageStyle]));
    c.res.headers.set("Cache-Control", "no-store");
  });
  app.get(authorityPath, (c) => {
    if (gate.authority === undefined)
      throw new Refusal(404, "address", quoted(authorityPath), "opened with https by this computer's own authority");
    return c.body(gate.authority, 200, { "Content-Type": "application/x-x509-ca-cert", "Cache-Control": "no-store" });
  });
  app.get(pairingPath, (c) => c.html(codePage("")));
  app.post(pairingPath, (c) => enter(c, gate));
}

async function enter(c: Context<BenchEnv>, gate: Gate): Promise<Response> {
  const form = await readForm(c);
  const wait = gate.attempts.note(c.env.from);
  if (wait > 0) {
    c.header("Retry-After", String(wait));
    return c.html(codePage(`Too many tries from here. Wait ${Math.ceil(wait / 60)} minutes.`), 429);
  }
  const name = (form.get("name") ?? "").replace(/\s+/g, " ").trim();
  if (name === "" || name.length > 60) return c.html(codePage("Give this device a name of at most 60 letters."), 400);
  const entry = gate.code.enter(form.get("code") ?? "");
  if (entry.kind === "wrong") {
    return c.html(codePage(`That is not the code. Tries left: ${entry.left}.`, name), 401);
  }
  if (entry.kind === "noCode") {
    return c.html(
      codePage("No code is waiting: it was used, ran out or was tried too often. Ask for a new one at the computer."),
      401,
    );
  }
  const { token } = gate.devices.add(name);
  setCookie(c, COOKIE, token, {
    httpOnly: true,
    sameSite: "Strict",
    secure: c.env.scheme === "https",
    path: "/",
    maxAge: HALF_A_YEAR,
  });
  return c.redirect("/", 303);
}

async function readForm(c: Context<BenchEnv>): Promise<URLSearchParams> {
  const type = (c.req.header("content-type") ?? "").split(";")[0]!.trim().toLowerCase();
  if (type !== "application/x-www-form-urlencoded") {
    throw new Refusal(415, "Content-Type", quoted(type), "application/x-www-form-urlencoded");
  }
  return new URLSearchParams(await textBody(c, limits.form));
}
