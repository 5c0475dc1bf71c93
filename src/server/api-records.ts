import type { Context, Hono } from "hono";
import { z } from "zod";
import { quoted } from "../quantity/index.ts";
import type { BenchEnv } from "./arrival.ts";
import { jsonBody, limits } from "./bodies.ts";
import { type RecordChoice, type Records, type Stored, shown } from "./records.ts";
import { Refusal } from "./refusals.ts";
import { knownKind, storedRecord, writeSeen } from "./write-records.ts";

/** What a record says is checked by the book's own schemas; here only the envelope. */
const fields = z.record(z.string(), z.unknown());
const expected = z.union([z.string().max(64), z.null()]);
const label = z.string().min(1).max(200);
const put = z.strictObject({ expected, set: fields, label: label.optional() });
const several = z.strictObject({
  label,
  drafts: z
    .array(z.strictObject({ kind: z.string(), id: z.string(), expected, set: fields }))
    .min(1)
    .max(1_000),
});
const hide = z.strictObject({ hidden: z.boolean() });

/** Records of every kind: listed, got, written if still as seen, put aside. */
export function recordsTopic(records: Records): (api: Hono<BenchEnv>) => void {
  return (api) => {
    api.get("/records/:kind", (c) => {
      const kind = knownKind(records, c.req.param("kind"));
      const choice = choiceOf(c);
      const found = records.list(kind, choice);
      refuseUnknownFields(choice, found[0]);
      return c.json({ records: found.map(shown) });
    });
    api.get("/records/:kind/:id", (c) =>
      c.json({ record: shown(storedRecord(records, c.req.param("kind"), c.req.param("id"))) }),
    );
    api.put("/records/:kind/:id", async (c) => {
      const { kind, id } = c.req.param();
      const body = await jsonBody(c, put);
      const wrote = writeSeen(records, [{ kind, id, ...body }], body.label ?? `write ${kind}`, c.get("by"));
      return c.json({ act: wrote.act, record: wrote.records[0] });
    });
    api.post("/records", async (c) => {
      const body = await jsonBody(c, several, limits.batch);
      return c.json(writeSeen(records, body.drafts, body.label, c.get("by")));
    });
    api.put("/records/:kind/:id/hidden", async (c) => {
      const { kind, id } = c.req.param();
      const { hidden } = await jsonBody(c, hide);
      storedRecord(records, kind, id);
      const act = records.hide(id, hidden, c.get("by"));
      return c.json({ act, record: shown(storedRecord(records, kind, id)) });
    });
  };
}

/** `?hidden=with|only` and, for any field, `?where.day=…`; the book checks the fields. */
function choiceOf(c: Context<BenchEnv>): RecordChoice {
  const where: Record<string, unknown> = {};
  let hidden: RecordChoice["hidden"];
  for (const [name, value] of Object.entries(c.req.query())) {
    if (name.startsWith("where.")) where[name.slice("where.".length)] = value;
    else if (name === "hidden" && (value === "with" || value === "only")) hidden = value;
    else throw new Refusal(400, `?${name}`, quoted(value), "hidden=with, hidden=only or where.FIELD=VALUE");
  }
  return { where, ...(hidden ? { hidden } : {}) };
}

/** The book ignores a field it does not know and would list everything. */
function refuseUnknownFields(choice: RecordChoice, record: Stored | undefined): void {
  if (record === undefined) return;
  const strange = Object.keys(choice.where ?? {}).find((field) => !Object.hasOwn(record, field));
  if (strange !== undefined) throw new Refusal(400, `?where.${strange}`, "no such field", "a field of these records");
}
