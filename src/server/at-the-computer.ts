import { Refusal } from "./refusals.ts";
import type { BenchEnv } from "./request-context.ts";

/** Middleware for what is done at the computer only, whatever key a device holds; `place` is what was asked for. */
export function atTheComputerOnly(place: string) {
  return async (c: { env: BenchEnv["Bindings"] }, next: () => Promise<void>): Promise<void> => {
    if (c.env.via !== "computer") {
      throw new Refusal(403, place, "asked from another device", "at the computer that holds the book");
    }
    await next();
  };
}
