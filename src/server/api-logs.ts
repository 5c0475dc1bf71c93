import { Hono } from "hono";
import { z } from "zod";
import { type Book, veersBeside } from "../book/index.ts";
import { quoted } from "../quantity/index.ts";
import { queryIn } from "./bodies.ts";
import { viewBody } from "./log-view-body.ts";
import { type Records, shown } from "./records.ts";
import { Refusal } from "./refusals.ts";
import type { BenchEnv } from "./request-context.ts";
import { storedRecord } from "./write-records.ts";

const seconds = z.coerce.number().min(-1e12).max(1e12).optional();
const stretch = z.strictObject({
  from_s: seconds,
  to_s: seconds,
  points: z.coerce.number().int().min(2).max(20_000).default(2_000),
  channels: z.string().max(4_000).optional(),
});

/** Logs: what they hold, any stretch of them as fine as a screen shows, and the marks on them. */
export function logsTopic(book: Book, records: Records) {
  return new Hono<BenchEnv>()
    .get("/logs", (c) =>
      c.json({ logs: records.list("log", {}).map((log) => ({ ...shown(log), content: records.logContent(log.id) })) }),
    )
    .get("/logs/:id", (c) => {
      const log = storedRecord(records, "log", c.req.param("id"));
      const marks = records.list("mark", { where: { log: log.id } }).map(shown);
      return c.json({
        log: shown(log),
        content: records.logContent(log.id),
        marks,
        veersBeside: veersBeside(book, log.id),
      });
    })
    .get("/logs/:id/view", queryIn(stretch), (c) => {
      const log = storedRecord(records, "log", c.req.param("id"));
      const asked = c.req.valid("query");
      const channels = asked.channels?.split(",").filter((name) => name !== "");
      refuseUnknown(
        channels,
        records.logContent(log.id).channels.map((channel) => channel.name),
      );
      const view = records.viewLog(log.id, {
        points: asked.points,
        ...(asked.from_s === undefined ? {} : { from_s: asked.from_s }),
        ...(asked.to_s === undefined ? {} : { to_s: asked.to_s }),
        ...(channels === undefined ? {} : { channels }),
      });
      const { head, bytes } = viewBody(view);
      return c.body(bytes, 200, {
        "Content-Type": "application/octet-stream",
        "Rodebench-View": JSON.stringify(head),
      });
    });
}

function refuseUnknown(asked: readonly string[] | undefined, known: readonly string[]): void {
  const strange = asked?.find((name) => !known.includes(name));
  if (strange !== undefined)
    throw new Refusal(400, "?channels", quoted(strange), `channels of this log: ${known.join(", ")}`);
}
