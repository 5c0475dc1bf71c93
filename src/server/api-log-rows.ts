import { Hono } from "hono";
import { quoted } from "../quantity/index.ts";
import { jsonIn, limits } from "./bodies.ts";
import type { Records } from "./records.ts";
import { Refusal } from "./refusals.ts";
import type { BenchEnv } from "./request-context.ts";
import { rows } from "./sent-rows.ts";
import { storedRecord } from "./write-records.ts";

/**
 * Readings a device took, brought row by row into a log it wrote down before. Each row is in the book once, however often
 * it is sent; when the answer comes, all told by it are on the disk.
 */
export function logRowsTopic(records: Records) {
  return new Hono<BenchEnv>().post("/logs/:id/rows", jsonIn(rows, limits.batch), (c) => {
    const log = storedRecord(records, "log", c.req.param("id"));
    const sent = c.req.valid("json");
    const uneven = Object.entries(sent.columns).find(([, values]) => values.length !== sent.times_s.length);
    if (uneven !== undefined)
      throw new Refusal(
        400,
        `columns.${uneven[0]}`,
        `${uneven[1].length} readings`,
        `as many as there are times, ${sent.times_s.length},`,
      );
    const before = records.logContent(log.id).rows;
    if (sent.from > before)
      throw new Refusal(409, "from", quoted(sent.from), `a row the log has, or its next, ${before},`);
    return c.json({ rows: records.appendRows(log.id, sent) });
  });
}
