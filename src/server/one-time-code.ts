import { createHash, randomInt, timingSafeEqual } from "node:crypto";

/** How long a code lasts, ms, and how many wrong tries end it. */
export const codeRules = { lifetime: 10 * 60_000, attempts: 5 } as const;

/** What came of a try. */
export type Entry =
  | { readonly kind: "letIn" }
  /** Not the code; this many tries are left before it ends. */
  | { readonly kind: "wrong"; readonly left: number }
  /** No code lives: none was asked for, or it was used, ran out, or was tried too often. A new one is asked for at the computer. */
  | { readonly kind: "noCode" };

/**
 * The one-time code that lets one device in. Eight digits, shown only at the computer; it ends with its first use,
 * with its fifth wrong try (so a guesser has 5 chances in 10^8), or after ten minutes.
 */
export class OneTimeCode {
  readonly #now: () => number;
  #live: { digest: Buffer; until: number; left: number } | undefined;

  /** @param now milliseconds since 1970 */
  constructor(now: () => number) {
    this.#now = now;
  }

  /** Makes a new code; one made before ends. */
  issue(): { readonly code: string; readonly until: number } {
    const code = String(randomInt(0, 100_000_000)).padStart(8, "0");
    const until = this.#now() + codeRules.lifetime;
    this.#live = { digest: digest(code), until, left: codeRules.attempts };
    return { code, until };
  }

  /** Ends the live code, if any. */
  end(): void {
    this.#live = undefined;
  }

  /** When the live code runs out, ms since 1970. */
  get until(): number | undefined {
    return this.#live !== undefined && this.#now() < this.#live.until ? this.#live.until : undefined;
  }

  /** Attempts what somebody typed; spaces and dashes between the digits do not count. */
  enter(typed: string): Entry {
    const live = this.#live;
    // Compared before anything is decided, so that the time taken tells nothing.
    const same = timingSafeEqual(digest(typed.replace(/[\s-]/g, "")), live?.digest ?? NOTHING);
    if (live === undefined || this.#now() >= live.until) {
      this.#live = undefined;
      return { kind: "noCode" };
    }
    if (same) {
      this.#live = undefined;
      return { kind: "letIn" };
    }
    live.left -= 1;
    if (live.left > 0) return { kind: "wrong", left: live.left };
    this.#live = undefined;
    return { kind: "noCode" };
  }
}

/** No text has this digest (finding one would break SHA-256). */
const NOTHING = Buffer.alloc(32);

function digest(text: string): Buffer {
  return createHash("sha256").update(text, "utf8").digest();
}
