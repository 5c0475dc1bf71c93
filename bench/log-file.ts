import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { writeLargeLog } from "../scripts/make-log.ts";

/** Rows of the log the benches of logs read. */
export const LONGEST_LOG = 10_000_000;

/** A made log in a folder of its own. */
export async function logFile(
  rows: number,
): Promise<{ folder: string; file: string; bytes: number; remove: () => Promise<void> }> {
  const folder = await mkdtemp(join(tmpdir(), "rodebench-bench-"));
  const file = join(folder, "log.csv");
  const bytes = await writeLargeLog(file, rows, 1);
  return { folder, file, bytes, remove: () => rm(folder, { recursive: true, force: true }) };
}

/** Writes what a child measured as one line of JSON. */
export function report(name: string, rows: number, sum: number, ms: number): number {
  const peak_MB = process.resourceUsage().maxRSS / 1024;
  process.stdout.write(`${JSON.stringify({ name, rows, sum, ms, peak_MB })}\n`);
  return ms;
}
