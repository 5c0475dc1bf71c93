/**
 * Reads mutated logs by the hundred thousand: node --import tsx scripts/fuzz-logs.ts [COUNT] [SEED]
 * Prints what became of them, or the log that broke a promise.
 */
import { fuzzLogs } from "../test/fuzz/log-mutations.ts";

const count = Number(process.argv[2] ?? 100_000);
const seed = Number(process.argv[3] ?? 1_000_000);
const start = performance.now();
const totals = fuzzLogs(seed, count);
process.stdout.write(
  `${count} logs from seed ${seed}: ${JSON.stringify(totals)}, ${((performance.now() - start) / 1000).toFixed(1)} s\n`,
);
