/**
 * Reading a large table into typed arrays, nothing kept: our loop against papaparse and DuckDB on the same file.
 *   node --import tsx bench/log-read.ts [ROWS]
 * Each runs in a process of its own; time is from its start of reading, memory the peak of the process.
 */
import { execFileSync } from "node:child_process";
import { createReadStream, openSync, readSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { LONGEST_LOG, logFile, report } from "./log-file.ts";

const [job, path] = process.argv.slice(2);

async function ours(file: string): Promise<number> {
  const { guessLog, HEAD_BYTES, TableReader } = await import("../src/pull/index.ts");
  const start = performance.now();
  const handle = openSync(file, "r");
  const head = new Uint8Array(HEAD_BYTES);
  readSync(handle, head, 0, HEAD_BYTES, 0);
  const guess = guessLog(head, false);
  if (guess.kind !== "table" || guess.plan === null) throw new Error("not guessed");
  const reader = new TableReader(guess.plan);
  const buffer = new Uint8Array(1 << 20);
  let position = guess.plan.dataOffset;
  let have = 0;
  let sum = 0;
  let rows = 0;
  for (let final = false; !final || have > 0; ) {
    const n = readSync(handle, buffer, have, buffer.length - have, position);
    position += n;
    have += n;
    final = n === 0;
    const taken = reader.consume(buffer, 0, have, final);
    buffer.copyWithin(0, taken, have);
    have -= taken;
    const batch = reader.take();
    rows += batch.rows;
    for (const value of batch.values[0]!) sum += value;
  }
  return report("own loop", rows, sum / 4.4482216152605, performance.now() - start);
}

async function papa(file: string): Promise<number> {
  const { default: Papa } = await import("papaparse");
  const start = performance.now();
  let rows = 0;
  let sum = 0;
  await new Promise<void>((done, fail) => {
    Papa.parse<string[]>(createReadStream(file, { highWaterMark: 1 << 20 }), {
      step: ({ data }) => {
        if (data.length < 3 || rows++ === 0) return;
        sum += Number(data[1]);
      },
      complete: () => done(),
      error: fail,
    });
  });
  return report("papaparse, streamed", rows - 1, sum, performance.now() - start);
}

async function duckdb(file: string): Promise<number> {
  const { DuckDBInstance } = await import("@duckdb/node-api");
  const start = performance.now();
  const connection = await (await DuckDBInstance.create()).connect();
  // A plain read of all columns of all rows.
  const result = await connection.runAndReadAll(
    `SELECT count(*), sum("Load (lbf)"), sum("Time"), sum("Angle (deg)") FROM read_csv('${file}')`,
  );
  const row = result.getRows()[0]!;
  return report("DuckDB", Number(row[0]), Number(row[1]), performance.now() - start);
}

if (job === "own") await ours(path!);
else if (job === "papaparse") await papa(path!);
else if (job === "duckdb") await duckdb(path!);
else {
  const rows = Number(job ?? LONGEST_LOG);
  const { file, remove } = await logFile(rows);
  try {
    const self = fileURLToPath(import.meta.url);
    const results = ["own", "papaparse", "duckdb"].map((name) => {
      const line = execFileSync(process.execPath, ["--import", "tsx", self, name, file], { encoding: "utf8" }).trim();
      return JSON.parse(line) as { name: string; rows: number; sum: number; ms: number; peak_MB: number };
    });
    const base = results[2]!;
    for (const { name, rows: read, sum, ms, peak_MB } of results) {
      process.stdout.write(
        `${name.padEnd(20)} ${read} rows, sum ${sum.toFixed(0)}, ${(ms / 1000).toFixed(2)} s (${(ms / base.ms).toFixed(2)} of DuckDB), peak ${peak_MB.toFixed(0)} MB (${(peak_MB / base.peak_MB).toFixed(2)})\n`,
      );
    }
  } finally {
    await remove();
  }
}
