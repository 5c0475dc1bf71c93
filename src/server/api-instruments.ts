import { Hono } from "hono";
import { z } from "zod";
import { jsonIn, queryIn } from "./bodies.ts";
import type { Instruments } from "./instruments.ts";
import type { Records } from "./records.ts";
import { Refusal } from "./refusals.ts";
import type { BenchEnv } from "./request-context.ts";
import { storedRecord } from "./write-records.ts";

const which = z.strictObject({ instrument: z.string().min(1).max(300) });
const asked = z.strictObject({
  instrument: z.string().min(1).max(300),
  from: z.coerce.number().int().min(0).default(0),
  /** How long to wait where nothing is new, ms. */
  wait: z.coerce.number().int().min(0).max(1_000).default(0),
});

/**
 * Instruments named when the bench was opened, followed in a pull: a device asks for what they read and cannot name
 * another, so that none makes this computer reach where its owner did not point it.
 */
export function instrumentsTopic(instruments: Instruments, records: Records) {
  return new Hono<BenchEnv>()
    .get("/instruments", (c) => c.json({ instruments: instruments.names }))
    .post("/pulls/:id/instruments", jsonIn(which), (c) => {
      const pull = storedRecord(records, "pull", c.req.param("id"));
      instruments.begin(pull.id, c.req.valid("json").instrument);
      return c.json({ begun: true }, 202);
    })
    .get("/pulls/:id/instruments", queryIn(asked), async (c) => {
      const { instrument, from, wait } = c.req.valid("query");
      const followed = await instruments.readings(c.req.param("id"), instrument, from, wait);
      if (followed === null)
        throw new Refusal(404, "instrument", JSON.stringify(instrument), "an instrument followed in this pull");
      return c.json(followed);
    })
    .post("/pulls/:id/instruments/end", jsonIn(which), async (c) => {
      const pull = storedRecord(records, "pull", c.req.param("id"));
      return c.json({ ended: await instruments.end(pull.id, c.req.valid("json").instrument) });
    });
}
