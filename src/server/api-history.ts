import type { Hono } from "hono";
import { z } from "zod";
import type { BenchEnv } from "./arrival.ts";
import { checked, jsonBody } from "./bodies.ts";
import type { Records, TakenBack } from "./records.ts";
import { Refusal } from "./refusals.ts";

const choice = z.strictObject({
  record: z.string().max(64).optional(),
  before: z.string().max(64).optional(),
  limit: z.coerce.number().int().min(1).max(1_000).default(100),
});
const undo = z.strictObject({ act: z.string().max(64).optional() });
const redo = z.strictObject({});

/** Who wrote what and when; and taking it back. */
export function historyTopic(records: Records): (api: Hono<BenchEnv>) => void {
  return (api) => {
    api.get("/history", (c) => {
      const { record, before, limit } = checked(c.req.query(), choice, "?");
      const entries = records.history({ limit, ...(record ? { record } : {}), ...(before ? { before } : {}) });
      return c.json({ acts: entries });
    });
    api.post("/undo", async (c) => {
      const { act } = await jsonBody(c, undo);
      return c.json(tellOvertaken(records.undo(act, c.get("by"))));
    });
    api.post("/redo", async (c) => {
      await jsonBody(c, redo);
      return c.json(tellOvertaken(records.redo(c.get("by"))));
    });
  };
}

function tellOvertaken(answer: TakenBack): TakenBack {
  if (answer.kind !== "overtaken") return answer;
  throw new Refusal(409, answer.label, "changed by somebody since", "nothing to take back without losing that change", {
    act: answer.act,
  });
}
