import type { MiddlewareHandler } from "hono";
import { hashOf, knownStyles } from "./known-styles.ts";

/**
 * What a page of the bench may load: its own files and nothing else. No inline script, no third party, no frame.
 * Images may also be data and blob addresses (drawings and pictures made in the page).
 */
export function contentSecurityPolicy(inlineStyles: readonly string[]): string {
  return [
    "default-src 'none'",
    "script-src 'self'",
    `style-src ${["'self'", ...inlineStyles.map(hashOf)].join(" ")}`,
    "img-src 'self' data: blob:",
    "font-src 'self'",
    "connect-src 'self'",
    "worker-src 'self'",
    "manifest-src 'self'",
    "media-src 'self' blob:",
    "form-action 'self'",
    "base-uri 'none'",
    "frame-ancestors 'none'",
    "object-src 'none'",
  ].join("; ");
}

/** Headers of every answer, whatever it is. */
const EVERY_ANSWER: Readonly<Record<string, string>> = {
  "Content-Security-Policy": contentSecurityPolicy(knownStyles),
  "X-Content-Type-Options": "nosniff",
  "X-Frame-Options": "DENY",
  // Not "no-referrer": under it a browser sends the page's own forms with the Origin "null", which is refused.
  "Referrer-Policy": "same-origin",
  "Cross-Origin-Opener-Policy": "same-origin",
  "Cross-Origin-Resource-Policy": "same-origin",
  "Origin-Agent-Cluster": "?1",
  "X-DNS-Prefetch-Control": "off",
  // A site's position may be taken from the phone that stands there; nothing else of the device is asked for.
  "Permissions-Policy":
    "geolocation=(self), camera=(), microphone=(), usb=(), serial=(self), bluetooth=(self), payment=(), browsing-topics=()",
};

/** Puts the security headers on every answer; one a handler has set itself stands. */
export function securityHeaders(): MiddlewareHandler {
  return async (c, next) => {
    await next();
    dress(c.res.headers);
  };
}

/** The same, for an answer made outside the app (a request too broken to reach it). */
export function dress(headers: Headers): void {
  for (const [name, value] of Object.entries(EVERY_ANSWER)) if (!headers.has(name)) headers.set(name, value);
}
