import { Hono } from "hono";
import { z } from "zod";
import { jsonIn, queryIn } from "./bodies.ts";
import type { Records, TakenBack } from "./records.ts";
import { Refusal } from "./refusals.ts";
import type { BenchEnv } from "./request-context.ts";

const choice = z.strictObject({
  record: z.string().max(64).optional(),
  before: z.string().max(64).optional(),
  limit: z.coerce.number().int().min(1).max(1_000).default(100),
});
const undo = z.strictObject({ transaction: z.string().max(64).optional() });
const redo = z.strictObject({});

/** Who wrote what and when; and taking it back. */
export function historyTopic(records: Records) {
  return new Hono<BenchEnv>()
    .get("/history", queryIn(choice), (c) => {
      const { record, before, limit } = c.req.valid("query");
      const entries = records.history({ limit, ...(record ? { record } : {}), ...(before ? { before } : {}) });
      return c.json({ transactions: entries });
    })
    .post("/undo", jsonIn(undo), (c) =>
      c.json(tellOvertaken(records.undo(c.req.valid("json").transaction, c.get("by")))),
    )
    .post("/redo", jsonIn(redo), (c) => c.json(tellOvertaken(records.redo(c.get("by")))));
}

function tellOvertaken(answer: TakenBack): Exclude<TakenBack, { kind: "overtaken" }> {
  if (answer.kind !== "overtaken") return answer;
  throw new Refusal(409, answer.label, "changed by somebody since", "nothing to take back without losing that change", {
    transaction: answer.transaction,
  });
}
