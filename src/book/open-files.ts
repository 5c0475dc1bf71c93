import { z } from "zod";
import { InputError, quoted } from "../quantity/index.ts";
import { isId, isKind, type Kind, kindNames, recordShape } from "../record/index.ts";

// A book as open files, in one folder:
//   book.json            what it is, and the SHA-256 of every other file
//   schema.json          JSON Schema of one line of each file in records/
//   records/KIND.jsonl   the records as they stand, one a line
//   tables/KIND.csv      the same as tables (RFC 4180): an empty cell is "nothing known", lists and groups are JSON
//   history.jsonl        every transaction with its changes: what records/ follows from
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
  log: z.string().refine(isId, "a UUID of version 7 is expected"),
  rows: z.int().min(0),
  position: z.int().min(0),
  state: z.json(),
  finished: z.boolean(),
});

export const bookFile = z.looseObject({
  format: z.literal(FORMAT),
  title: z.string().nullable().optional(),
  simulated: z.boolean().nullable().optional(),
  files: z.record(z.string(), z.string()).describe("the SHA-256 of every other file, by its path"),
});

/** JSON Schema of `book.json`, which begins a book as open files. */
export function bookFileSchema(): Record<string, unknown> {
  return z.toJSONSchema(bookFile, { io: "input" }) as Record<string, unknown>;
}

/** Where the readings of a log lie in the folder. @throws InputError for a log whose id is none */
export function readingsFile(log: string): string {
  if (!isId(log)) throw new InputError("log", quoted(log), "a UUID of version 7 is expected");
  return `logs/${log}.parquet`;
}

const SHA256 = /^[0-9a-f]{64}$/;
const isSha256 = (text: string): boolean => SHA256.test(text);

/** Where a copied file lies in the folder. @throws InputError for a hash that is none */
export function copiedFile(sha256: string): string {
  if (!isSha256(sha256)) throw new InputError("file", quoted(sha256), "a SHA-256 is expected");
  return `files/${sha256}`;
}

/** True for the name and sum of a file that an export writes: nothing else that a `book.json` lists is looked for. */
export function isExported(name: string, sum: string): boolean {
  const [place, last, ...more] = name.split("/");
  if (!isSha256(sum) || more.length > 0) return false;
  if (last === undefined) return /^[a-z]+\.(json|jsonl|geojson|gpx)$/.test(name);
  if (place === "files") return last === sum;
  if (place === "logs") return last.endsWith(".parquet") && isId(last.slice(0, -".parquet".length));
  const ending = place === "records" ? ".jsonl" : place === "tables" ? ".csv" : undefined;
  return ending !== undefined && last.endsWith(ending) && isKind(last.slice(0, -ending.length));
}

/** JSON Schema of a record of each kind, as a line of `records/KIND.jsonl`. */
export function recordSchemas(): Record<Kind, unknown> {
  return Object.fromEntries(
    kindNames.map((kind) => [kind, z.toJSONSchema(recordShape(kind), { io: "input" })]),
  ) as Record<Kind, unknown>;
}
