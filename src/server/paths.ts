import type { MiddlewareHandler } from "hono";
import { quoted } from "../quantity/index.ts";
import { Refusal } from "./refusals.ts";
import type { BenchEnv } from "./request-context.ts";

/** Of what is asked of the server. */
const LONGEST = 4096;
/** Of a place of the bench, which holds its whole state in its address: a rode of 1000 parts written out, say. */
export const LONGEST_OF_PLACE = 1 << 20;

/**
 * Refuses an address that walks: `..` in any spelling, a backslash, an encoded slash, a control character.
 * Files are served from a list made at the start (see built-app.ts), so that no such address could reach a file anyway;
 * it is refused all the same, because nobody asks one by mistake.
 */
export function noPathWalks(): MiddlewareHandler<BenchEnv> {
  return async (c, next) => {
    const line = c.env.incoming?.url ?? c.req.url.replace(/^[a-z]+:\/\/[^/?#]*/i, "");
    const path = line.replace(/^[a-z]+:\/\/[^/?#]*/i, "").split("?", 1)[0]!;
    const longest = path.startsWith("/api/") || path.length > LONGEST ? LONGEST : LONGEST_OF_PLACE;
    if (line.length > longest)
      throw new Refusal(400, "address", `${line.length} characters`, `at most ${longest} are expected`);
    if (walks(path))
      throw new Refusal(400, "address", quoted(path), "a path without steps up, backslashes or hidden slashes");
    await next();
  };
}

/** Whether a path walks, once or twice encoded. */
export function walks(path: string): boolean {
  let text = path;
  for (let round = 0; round < 3; round++) {
    if (/[\\\p{Cc}]/u.test(text)) return true;
    if (text.split("/").some((step) => step === ".." || step === ".")) return true;
    if (/%2f|%5c|%00/i.test(text)) return true;
    let decoded: string;
    try {
      decoded = decodeURIComponent(text);
    } catch {
      // A broken escape in what was sent; deeper, it is only a percent sign.
      return round === 0;
    }
    if (decoded === text) return false;
    text = decoded;
  }
  return true;
}
