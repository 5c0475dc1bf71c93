import { Hono } from "hono";
import { type Records, shown } from "./records.ts";
import type { BenchEnv } from "./request-context.ts";

/** What the book is and how much it holds; and who is asking. */
export function bookTopic(records: Records) {
  return new Hono<BenchEnv>().get("/book", (c) =>
    c.json({
      id: records.id,
      about: shown(records.about()),
      counts: records.counts(),
      kinds: records.kinds,
      notices: c.env.via === "computer" ? records.notices : [],
      readOnly: records.readOnly,
      you: { ...c.get("by"), via: c.env.via },
    }),
  );
}
