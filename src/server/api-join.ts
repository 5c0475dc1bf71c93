import type { Hono } from "hono";
import { z } from "zod";
import { BookTrouble } from "../book/index.ts";
import { InputError } from "../quantity/index.ts";
import type { BenchEnv } from "./arrival.ts";
import { jsonBody, limits } from "./bodies.ts";
import { checkFilesIn } from "./file-check.ts";
import type { Records } from "./records.ts";
import { type RefusalBody, refusalOf } from "./refusals.ts";

const fields = z.record(z.string(), z.unknown());
const act = z.strictObject({
  /** Made once on the device, a UUID of version 7: by it an act sent twice is known. */
  id: z.string().max(64),
  /** The device's own id as it was when the act was written; it stays with the act for good. */
  device: z.string().max(64),
  at: z.string().max(64),
  label: z.string().min(1).max(200),
  records: z
    .array(
      z.strictObject({
        kind: z.string().max(64),
        id: z.string().max(64),
        makes: z.boolean(),
        set: fields,
        was: fields.optional(),
      }),
    )
    .min(1)
    .max(1_000),
});
const batch = z.strictObject({ acts: z.array(act).min(1).max(1_000) });

/** An act of a batch, as the device wrote it. */
export type SentAct = z.infer<typeof act>;

/** What became of one act. Joined and known are both good: the book has it, and the device may let it go. */
type Became =
  | { readonly act: string; readonly kind: "joined" | "known" }
  | ({ readonly act: string; readonly kind: "refused" } & RefusalBody);

/**
 * Where a device brings what it wrote while the book was out of reach. Each act is joined exactly once however often it
 * is sent; one that is refused holds up no other, and tells why.
 */
export function joinTopic(records: Records): (api: Hono<BenchEnv>) => void {
  return (api) => {
    api.post("/join", async (c) => {
      const { acts } = await jsonBody(c, batch, limits.batch);
      const who = c.get("by").who;
      return c.json({ acts: acts.map((sent) => joined(records, sent, who)) });
    });
  };
}

function joined(records: Records, sent: SentAct, who: string): Became {
  try {
    for (const { kind, set } of sent.records) checkFilesIn(kind, set);
    return { act: sent.id, kind: records.join(sent, who) };
  } catch (error) {
    // Trouble with the book's file is nothing the device can mend: the whole batch is to be sent again later.
    if (!(error instanceof InputError) || error instanceof BookTrouble) throw error;
    return { act: sent.id, kind: "refused", ...refusalOf(error).body };
  }
}
