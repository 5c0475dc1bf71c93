import { z } from "zod";
import type { Field } from "./field.ts";
import { fieldsOf, type Kind, kindNames } from "./kinds.ts";

// A book as open files, in one folder:
//   book.json            what it is, and the SHA-256 of every other file
//   schema.json          JSON Schema of one line of each file in records/
//   records/KIND.jsonl   the records as they stand, one a line
//   tables/KIND.csv      the same as tables (RFC 4180): an empty cell is "nothing known", lists and groups are JSON
//   history.jsonl        every act with its changes: what records/ follows from
//   purged.jsonl         what was deleted for good
//   logs.jsonl           how far each log has come
//   logs/ID.parquet      the readings of a log: time in s since 1970, UTC, and a column a channel
//   files/SHA256         pictures copied in, byte for byte
//   places.geojson, places.gpx   the sites that have a position

export const FORMAT = "rodebench/book@1";

export const historyLine = z.strictObject({
  id: z.string(),
  stamp: z.string(),
  device: z.string(),
  who: z.string(),
  at: z.string(),
  manner: z.string(),
  label: z.string(),
  reverts: z.string().nullable(),
  changes: z.array(
    z.strictObject({
      kind: z.string(),
      record: z.string(),
      field: z.string(),
      was: z.json(),
      value: z.json(),
    }),
  ),
});

export const purgedLine = z.strictObject({
  record: z.string(),
  kind: z.string(),
  stamp: z.string(),
  device: z.string(),
  who: z.string(),
  at: z.string(),
});

export const logLine = z.strictObject({
  log: z.string(),
  rows: z.int().min(0),
  position: z.int().min(0),
  state: z.json(),
  finished: z.boolean(),
});

export const bookFile = z.looseObject({
  format: z.literal(FORMAT),
  files: z.record(z.string(), z.string()),
});

/** JSON Schema of a record of each kind, as a line of `records/KIND.jsonl`. */
export function recordSchemas(): Record<Kind, unknown> {
  const schemas = {} as Record<Kind, unknown>;
  for (const kind of kindNames) {
    const shape: Record<string, z.ZodType> = { id: z.string(), hidden: z.boolean() };
    for (const [name, field] of fieldsOf(kind)) shape[name] = z.nullable(field.schema).describe(describe(field));
    schemas[kind] = z.toJSONSchema(z.strictObject(shape), { io: "input" });
  }
  return schemas;
}

function describe(field: Field): string {
  return field.expects.replace(/,? is expected$/, "");
}
