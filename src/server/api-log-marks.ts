import type { Hono } from "hono";
import { z } from "zod";
import type { Book } from "../book/index.ts";
import type { BenchEnv } from "./arrival.ts";
import { findMarks } from "./automatic-marks.ts";
import { jsonBody } from "./bodies.ts";
import { type Records, shown } from "./records.ts";
import { storedRecord } from "./write-records.ts";

const seconds = z.number().min(-1e12).max(1e12).exactOptional();
const find = z.strictObject({
  readAt: z.enum(["anchor", "bow"]),
  from_s: seconds,
  to_s: seconds,
  channel: z.string().max(100).exactOptional(),
});

/** Marks found on a log by the reduction, written as one act; a mark by hand is a record like any other. */
export function logMarksTopic(book: Book, records: Records): (api: Hono<BenchEnv>) => void {
  return (api) => {
    api.post("/logs/:id/automatic-marks", async (c) => {
      const log = storedRecord(records, "log", c.req.param("id"));
      const asked = await jsonBody(c, find);
      const drafts = findMarks(book, records, { log: log.id, ...asked }, () => book.context.newId());
      const act =
        drafts.length === 0 ? null : records.write(drafts, `automatic marks of ${String(log.name)}`, c.get("by"));
      return c.json({ act, marks: drafts.map(({ id }) => shown(records.get("mark", id)!)) });
    });
  };
}
