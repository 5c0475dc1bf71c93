import { Hono } from "hono";
import { z } from "zod";
import type { Book } from "../book/index.ts";
import { findMarks } from "./automatic-marks.ts";
import { jsonIn } from "./bodies.ts";
import { type Records, shown } from "./records.ts";
import type { BenchEnv } from "./request-context.ts";
import { storedRecord } from "./write-records.ts";

const seconds = z.number().min(-1e12).max(1e12).exactOptional();
const find = z.strictObject({
  readAt: z.enum(["anchor", "bow"]),
  from_s: seconds,
  to_s: seconds,
  channel: z.string().max(100).exactOptional(),
});

/** Marks found on a log by the reduction, written as one transaction; a mark by hand is a record like any other. */
export function logMarksTopic(book: Book, records: Records) {
  return new Hono<BenchEnv>().post("/logs/:id/automatic-marks", jsonIn(find), (c) => {
    const log = storedRecord(records, "log", c.req.param("id"));
    const drafts = findMarks(book, records, { log: log.id, ...c.req.valid("json") }, () => book.context.newId());
    const transaction =
      drafts.length === 0 ? null : records.write(drafts, `automatic marks of ${String(log.name)}`, c.get("by"));
    return c.json({ transaction, marks: drafts.map(({ id }) => shown(records.get("mark", id)!)) });
  });
}
