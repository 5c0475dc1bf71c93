import type { Hono } from "hono";
import type { BenchEnv } from "./arrival.ts";
import { type Records, shown } from "./records.ts";

/** What the book is and how much it holds; and who is asking. */
export function bookTopic(records: Records): (api: Hono<BenchEnv>) => void {
  return (api) => {
    api.get("/book", (c) =>
      c.json({
        about: shown(records.about()),
        counts: records.counts(),
        kinds: records.kinds,
        notices: c.env.via === "computer" ? records.notices : [],
        readOnly: records.readOnly,
        you: { ...c.get("by"), via: c.env.via },
      }),
    );
  };
}
