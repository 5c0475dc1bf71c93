import { Hono } from "hono";
import { z } from "zod";
import { quoted, readJson } from "../quantity/index.ts";
import { fieldOf, isKind } from "../record/index.ts";
import { jsonIn, limits, queryIn } from "./bodies.ts";
import { type RecordChoice, type Records, shown } from "./records.ts";
import { Refusal } from "./refusals.ts";
import type { BenchEnv } from "./request-context.ts";
import { knownKind, storedRecord, writeSeen } from "./write-records.ts";

/** What a record says is checked by the book's own schemas; here only the envelope. */
const fields = z.record(z.string(), z.unknown());
const expected = z.union([z.string().max(64), z.null()]);
const label = z.string().min(1).max(200);
const writing = z.strictObject({ expected, set: fields, label: label.optional() });
const several = z.strictObject({
  label,
  drafts: z
    .array(z.strictObject({ kind: z.string(), id: z.string(), expected, set: fields }))
    .min(1)
    .max(1_000),
});
/** Which of them: read below, field by field. */
const anyQuery = z.record(z.string(), z.string());
const hide = z.strictObject({ hidden: z.boolean() });

/** Records of every kind: listed, got, written if still as seen, put aside. */
export function recordsTopic(records: Records) {
  return new Hono<BenchEnv>()
    .get("/records/:kind", queryIn(anyQuery), (c) => {
      const kind = knownKind(records, c.req.param("kind"));
      return c.json({ records: records.list(kind, choiceOf(c.req.valid("query"), kind)).map(shown) });
    })
    .get("/records/:kind/:id", (c) =>
      c.json({ record: shown(storedRecord(records, c.req.param("kind"), c.req.param("id"))) }),
    )
    .put("/records/:kind/:id", jsonIn(writing), (c) => {
      const { kind, id } = c.req.param();
      const body = c.req.valid("json");
      const wrote = writeSeen(records, [{ kind, id, ...body }], body.label ?? `write ${kind}`, c.get("by"));
      return c.json({ transaction: wrote.transaction, record: wrote.records[0] });
    })
    .post("/records", jsonIn(several, limits.batch), (c) => {
      const body = c.req.valid("json");
      return c.json(writeSeen(records, body.drafts, body.label, c.get("by")));
    })
    .put("/records/:kind/:id/hidden", jsonIn(hide), (c) => {
      const { kind, id } = c.req.param();
      storedRecord(records, kind, id);
      const transaction = records.hide(id, c.req.valid("json").hidden, c.get("by"));
      return c.json({ transaction, record: shown(storedRecord(records, kind, id)) });
    });
}

/** `?hidden=with|only` and, for any field, `?where.day=…`. */
function choiceOf(query: Readonly<Record<string, string>>, kind: string): RecordChoice {
  const where: Record<string, unknown> = {};
  let hidden: RecordChoice["hidden"];
  for (const [name, value] of Object.entries(query)) {
    if (name.startsWith("where.")) where[name.slice("where.".length)] = asked(kind, name, value);
    else if (name === "hidden" && (value === "with" || value === "only")) hidden = value;
    else throw new Refusal(400, `?${name}`, quoted(value), "hidden=with, hidden=only or where.FIELD=VALUE");
  }
  return { where, ...(hidden ? { hidden } : {}) };
}

/** The value asked for, as the field keeps it; nothing given: records of which nothing is known there. */
function asked(kind: string, name: string, text: string): unknown {
  const field = isKind(kind) ? fieldOf(kind, name.slice("where.".length)) : undefined;
  if (!field) throw new Refusal(400, `?${name}`, "no such field", "a field of these records");
  if (text === "") return null;
  const value = field.column === "TEXT" ? text : readJson(text, `?${name}`, field.expects);
  if (field.column !== "JSON" && typeof value !== TYPES[field.column])
    throw new Refusal(400, `?${name}`, quoted(text), field.expects);
  return value;
}

const TYPES = { TEXT: "string", REAL: "number", INTEGER: "number", FLAG: "boolean" } as const;
