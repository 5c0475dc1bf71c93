/**
 * Readings that came while the book could not be written, on disk beside it: `BOOK.live-ID.jsonl`. The first line says
 * which log they belong to, each further line is one reading: its time and the values of the log's channels, null for
 * none. After a kill the file is found again; a last line that was cut off is no reading, and was never shown.
 */
import { closeSync, fsyncSync, openSync, readdirSync, readFileSync, rmSync, writeSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { z } from "zod";
import { checkShape, InputError, readJson } from "../../quantity/index.ts";
import type { FieldsOf } from "../../record/index.ts";
import { sync } from "../backup.ts";
import type { Book } from "../book.ts";
import type { Rows } from "../log-chunk.ts";

const FORMAT = "rodebench/live-buffer@1";
const head = z.strictObject({
  format: z.literal(FORMAT),
  /** The process that writes it; while it runs, the file is its own. */
  process: z.int().positive(),
  /** Which start of the machine that was, where the system says: after a power cut the number is soon another's. */
  boot: z.string().optional(),
  /** Rows its log had when the buffer began: what of it is in the log already is known by them. */
  from: z.int().min(0),
  /** Its log is gone on with by the next capture, so it is not ended. */
  stays: z.literal(true).optional(),
  /** Its log, known in the book by the fingerprint. */
  log: z.looseObject({ fingerprint: z.string(), channels: z.array(z.looseObject({ name: z.string() })) }),
});
const row = z.array(z.number().nullable()).min(1);

/** Rows written into the book at a time. */
const BATCH = 1024;

/** A buffer being written. */
export class LiveBuffer {
  readonly path: string;
  readonly from: number;
  count = 0;
  private readonly names: readonly string[];
  private readonly file: number;

  /** @throws the system's error when there is no room for it, or no permission */
  constructor(book: Book, log: FieldsOf<"log">, from: number, stays = false) {
    this.path = `${book.path}.live-${book.context.newId()}.jsonl`;
    this.from = from;
    this.names = (log.channels as readonly { name: string }[]).map((channel) => channel.name);
    this.file = openSync(this.path, "wx", 0o600);
    this.put(
      JSON.stringify({ format: FORMAT, process: process.pid, boot: bootId(), from, log, ...(stays ? { stays } : {}) }),
    );
    // Readings last no longer than the name of their file.
    sync(dirname(this.path));
  }

  /** On disk when it returns. */
  append(rows: Rows): void {
    const lines = Array.from(rows.times, (time, i) =>
      JSON.stringify([time, ...this.names.map((name) => finite(rows.columns[name]?.[i]))]),
    );
    this.put(lines.join("\n"));
    this.count += lines.length;
  }

  close(): void {
    closeSync(this.file);
  }

  private put(text: string): void {
    const bytes = Buffer.from(`${text}\n`);
    for (let at = 0; at < bytes.length; ) at += writeSync(this.file, bytes, at);
    fsyncSync(this.file);
  }
}

/**
 * Takes what a buffer holds into the book, each reading once however often this is broken off, and removes it.
 * @returns the log and its rows now
 * @throws BookTrouble when the book cannot be written
 */
export function takeIn(
  book: Book,
  path: string,
): { readonly log: string; readonly rows: number; readonly taken: number; readonly stays?: true } {
  const [first = "", ...lines] = readFileSync(path, "utf8").split("\n");
  const { from, log, stays } = checkShape(readJson(first, path), head, path);
  const readings = wholeLines(lines).map((line) => checkShape(readJson(line, path), row, path));
  const { log: id, rows: before } = book.logs.open(log as FieldsOf<"log">);
  let rows = before;
  for (let at = Math.max(0, before - from); at < readings.length; at += BATCH) {
    const part = readings.slice(at, at + BATCH);
    const columns = Object.fromEntries(
      log.channels.map(({ name }, k) => [name, Float64Array.from(part, (reading) => reading[k + 1] ?? Number.NaN)]),
    );
    rows = book.logs.record(id, { times: Float64Array.from(part, (reading) => reading[0] ?? 0), columns });
  }
  rmSync(path, { force: true });
  return { log: id, rows, taken: rows - before, ...(stays === undefined ? {} : { stays }) };
}

/**
 * The lines that were on disk when they were told. Whatever stands behind the last end of line was cut off, and so was
 * all from the first null sign on: a power cut leaves it where a later piece of a write came to the disk without an
 * earlier one. A line told was synced, and every line before it.
 */
function wholeLines(lines: readonly string[]): readonly string[] {
  const torn = lines.findIndex((line) => line.includes("\0"));
  return lines.slice(0, torn < 0 ? -1 : torn);
}

/** Takes in what captures that were killed have left beside the book. @returns what the user should be told, a line each */
export function takeInLeft(book: Book): string[] {
  const told: string[] = [];
  for (const path of buffersBeside(book)) {
    try {
      if (isRunning(path)) continue;
      const { log, taken, stays } = takeIn(book, path);
      if (stays === undefined) book.logs.finish(log);
      told.push(`${basename(path)}: ${taken} live readings that were kept beside the book are in it now`);
    } catch (error) {
      // The book in use, or a buffer that cannot be read, keeps nobody from the book.
      if (!(error instanceof InputError)) throw error;
      told.push(error.message);
    }
  }
  return told;
}

function buffersBeside(book: Book): string[] {
  const name = basename(book.path);
  return readdirSync(dirname(book.path))
    .filter((file) => file.startsWith(`${name}.live-`) && /\.live-[0-9a-f-]{36}\.jsonl$/.test(file))
    .sort()
    .map((file) => join(dirname(book.path), file));
}

/** Whether the process that wrote it still does; a file without a whole first line is of no use to anybody. */
function isRunning(path: string): boolean {
  const first = /^(.*)\n/.exec(readFileSync(path, "utf8"))?.[1];
  if (first === undefined || first.includes("\0")) {
    rmSync(path, { force: true });
    return true;
  }
  const { process: id, boot } = checkShape(readJson(first, path), head, path);
  if (boot !== undefined && boot !== bootId()) return false;
  if (id === process.pid) return true;
  try {
    process.kill(id, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}

/** The name Linux gives to each start of the machine. */
function bootId(): string | undefined {
  try {
    return readFileSync("/proc/sys/kernel/random/boot_id", "latin1").trim();
  } catch {
    return undefined;
  }
}

const finite = (value: number | undefined): number | null =>
  value !== undefined && Number.isFinite(value) ? value : null;
