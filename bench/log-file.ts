import { execFileSync } from "node:child_process";
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

/** What one child measured. Time of the processor is that of all its threads, start-up left out. */
export interface Measured {
  readonly name: string;
  readonly rows: number;
  readonly sum: number;
  readonly ms: number;
  readonly cpu_ms: number;
  readonly peak_MB: number;
}

/** Starts measuring; what is returned writes the result as one line of JSON. */
export function measure(name: string): (rows: number, sum: number) => void {
  const start = performance.now();
  const cpu = process.cpuUsage();
  return (rows, sum) => {
    const { user, system } = process.cpuUsage(cpu);
    const peak_MB = process.resourceUsage().maxRSS / 1024;
    const measured: Measured = {
      name,
      rows,
      sum,
      ms: performance.now() - start,
      cpu_ms: (user + system) / 1000,
      peak_MB,
    };
    process.stdout.write(`${JSON.stringify(measured)}\n`);
  };
}

/** Runs one job of a bench in a process of its own. */
export function inChild(script: string, job: string, path: string): Measured {
  const line = execFileSync(process.execPath, ["--import", "tsx", script, job, path], { encoding: "utf8" });
  return JSON.parse(line) as Measured;
}

/** One line of a result beside the one it is compared with. */
export function besides({ name, rows, ms, cpu_ms, peak_MB }: Measured, base: Measured): string {
  const ratio = (a: number, b: number) => (a / b).toFixed(2);
  return `${name.padEnd(20)} ${rows} rows, ${(ms / 1000).toFixed(2)} s (${ratio(ms, base.ms)}), processor ${(cpu_ms / 1000).toFixed(2)} s (${ratio(cpu_ms, base.cpu_ms)}), peak ${peak_MB.toFixed(0)} MB (${ratio(peak_MB, base.peak_MB)})\n`;
}
