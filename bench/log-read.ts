/**
 * Reading a large table into columns of numbers, nothing kept: our loop against papaparse and DuckDB on the same file.
 *   node --import tsx bench/log-read.ts [ROWS]
 * Each runs in a process of its own and adds all readings up, so that the sums show they read the same. In brackets:
 * the ratio to DuckDB, which reads with as many threads as there are.
 */
import { createReadStream, openSync, readSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { besides, inChild, LONGEST_LOG, logFile, measure } from "./log-file.ts";

const [job, path] = process.argv.slice(2);
const LBF = 4.4482216152605;

async function ours(file: string): Promise<void> {
  const { guessLog, HEAD_BYTES, TableReader } = await import("../src/log/index.ts");
  const done = measure("own loop");
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
  done(rows, sum / LBF);
}

async function papa(file: string): Promise<void> {
  const { default: Papa } = await import("papaparse");
  const done = measure("papaparse, streamed");
  const columns = [0, 1, 2].map(() => new Float64Array(65536));
  let rows = -1;
  let sum = 0;
  await new Promise<void>((resolve, reject) => {
    Papa.parse<string[]>(createReadStream(file, { highWaterMark: 1 << 20 }), {
      step: ({ data }) => {
        if (data.length < 3 || ++rows === 0) return;
        for (let c = 0; c < 3; c++) columns[c]![rows & 65535] = Number(data[c]);
        sum += columns[1]![rows & 65535]!;
      },
      complete: () => resolve(),
      error: reject,
    });
  });
  done(rows, sum);
}

async function duckdb(file: string): Promise<void> {
  const { DuckDBInstance } = await import("@duckdb/node-api");
  const done = measure("DuckDB");
  const connection = await (await DuckDBInstance.create()).connect();
  const result = await connection.runAndReadAll(
    `SELECT count(*), sum("Load (lbf)"), sum("Time"), sum("Angle (deg)") FROM read_csv('${file}')`,
  );
  const row = result.getRows()[0]!;
  done(Number(row[0]), Number(row[1]));
}

if (job === "own") await ours(path!);
else if (job === "papaparse") await papa(path!);
else if (job === "duckdb") await duckdb(path!);
else {
  const { file, remove } = await logFile(Number(job ?? LONGEST_LOG));
  try {
    const self = fileURLToPath(import.meta.url);
    const results = ["own", "papaparse", "duckdb"].map((name) => inChild(self, name, file));
    const base = results[2]!;
    for (const result of results) {
      // Sums of 10 million readings in another order: 1e-9 of them is a thousand times the rounding.
      if (Math.abs(result.sum - base.sum) > 1e-9 * base.sum || result.rows !== base.rows)
        throw new Error(`${result.name} read something else`);
      process.stdout.write(besides(result, base));
    }
  } finally {
    await remove();
  }
}
