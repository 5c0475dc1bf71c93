import type { Context, MiddlewareHandler } from "hono";
import type { z } from "zod";
import { quoted, readJson } from "../quantity/index.ts";
import { Refusal } from "./refusals.ts";
import type { BenchEnv } from "./request-context.ts";

/** Largest bodies, bytes. */
export const limits = {
  /** One record, one mark. */
  record: 1_000_000,
  /** A batch of records written offline. */
  batch: 16_000_000,
  /** A picture or a short clip; longer ones are kept by reference. */
  picture: 50_000_000,
  /** A form: the one-time code. */
  form: 4_096,
  /** A log file: 10^7 rows are some 300 MB as text. */
  log: 4_000_000_000,
} as const;

/**
 * Reads a JSON body and checks it by a schema.
 * @throws Refusal 415 for another type, 413 for too much, 400 for JSON that is none or not as the schema says.
 */
export async function jsonBody<T>(
  c: Context<BenchEnv>,
  schema: z.ZodType<T>,
  most: number = limits.record,
): Promise<T> {
  const type = (c.req.header("content-type") ?? "").split(";")[0]!.trim().toLowerCase();
  if (type !== "application/json") throw new Refusal(415, "Content-Type", quoted(type), "application/json");
  const text = await textBody(c, most);
  // The schemas would drop it without a word; whoever sends it is told.
  if (/"(?:_|\\u005f){2}proto(?:_|\\u005f){2}"\s*:/i.test(text))
    throw new Refusal(400, "body", '"__proto__"', "fields of the record only");
  return checked(readJson(text, "body", "one JSON document"), schema, "body");
}

/**
 * Middleware that hands on a JSON body checked by a schema, as `c.req.valid("json")`: so the client of the bench knows what
 * an address takes.
 */
export function jsonIn<Schema extends z.ZodType<object>>(
  schema: Schema,
  most: number = limits.record,
): MiddlewareHandler<BenchEnv, string, { in: { json: z.input<Schema> }; out: { json: z.output<Schema> } }> {
  return async (c, next) => {
    c.req.addValidatedData("json", await jsonBody(c, schema, most));
    await next();
  };
}

/** The same of what stands after the question mark, as `c.req.valid("query")`. */
export function queryIn<Schema extends z.ZodType<object>>(
  schema: Schema,
): MiddlewareHandler<BenchEnv, string, { in: { query: z.input<Schema> }; out: { query: z.output<Schema> } }> {
  return async (c, next) => {
    c.req.addValidatedData("query", checked(c.req.query(), schema, "?"));
    await next();
  };
}

/** Reads a body as UTF-8 text of at most `most` bytes. */
export async function textBody(c: Context<BenchEnv>, most: number): Promise<string> {
  const parts: Uint8Array[] = [];
  for await (const part of bodyParts(c, most)) parts.push(part);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(Buffer.concat(parts));
  } catch {
    throw new Refusal(400, "body", "not UTF-8", "text in UTF-8");
  }
}

/** The body piece by piece, counted: stops at the first byte too many, whatever Content-Length claimed. */
export async function* bodyParts(c: Context<BenchEnv>, most: number): AsyncGenerator<Uint8Array> {
  const claimed = Number(c.req.header("content-length") ?? "0");
  if (claimed > most) throw tooMuch(claimed, most);
  const stream = c.req.raw.body;
  if (stream === null) return;
  let bytes = 0;
  for await (const part of whole(stream as unknown as AsyncIterable<Uint8Array>)) {
    bytes += part.byteLength;
    if (bytes > most) throw tooMuch(bytes, most);
    yield part;
  }
}

/** A sender that goes away in the middle is no fault of the program. */
async function* whole(stream: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  try {
    yield* stream;
  } catch {
    throw new Refusal(400, "body", "broken off", "all of it");
  }
}

/** Checks any value by a schema; the first thing wrong is the refusal. */
export function checked<T>(value: unknown, schema: z.ZodType<T>, place: string): T {
  const read = schema.safeParse(value);
  if (read.success) return read.data;
  const issue = read.error.issues[0]!;
  const where = [place, ...issue.path.map(String)].join(".");
  throw new Refusal(400, where, quoted(at(value, issue.path)), issue.message);
}

function at(value: unknown, path: readonly PropertyKey[]): unknown {
  let here: unknown = value;
  for (const step of path) here = (here as Record<PropertyKey, unknown> | null | undefined)?.[step];
  return here;
}

function tooMuch(bytes: number, most: number): Refusal {
  return new Refusal(413, "body", `${bytes} bytes or more`, `at most ${most} bytes`);
}
