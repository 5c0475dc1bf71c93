/**
 * A large log into a book, each batch on disk and the place in the file with it, against DuckDB's plain read of the
 * same file into a table in memory.
 *   node --import tsx bench/log-import.ts [ROWS]
 */
import { execFileSync } from "node:child_process";
import { statSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { LONGEST_LOG, logFile, report } from "./log-file.ts";

const [job, folder] = process.argv.slice(2);

if (job === "import") {
  const { importLog, newBook } = await import("../src/book/index.ts");
  const book = newBook(join(folder!, "bench.book"), { title: "Bench" }, { backups: false });
  const start = performance.now();
  const answer = await importLog(book, join(folder!, "log.csv"));
  const ms = performance.now() - start;
  if (answer.kind !== "imported") throw new Error(answer.kind);
  book.close();
  report("import into a book", answer.rows, statSync(join(folder!, "bench.book")).size, ms);
} else if (job === "duckdb") {
  const { DuckDBInstance } = await import("@duckdb/node-api");
  const start = performance.now();
  const connection = await (await DuckDBInstance.create()).connect();
  await connection.run(`CREATE TABLE log AS SELECT * FROM read_csv('${join(folder!, "log.csv")}')`);
  const rows = Number((await connection.runAndReadAll("SELECT count(*) FROM log")).getRows()[0]![0]);
  report("DuckDB into memory", rows, 0, performance.now() - start);
} else {
  const rows = Number(job ?? LONGEST_LOG);
  const made = await logFile(rows);
  try {
    const self = fileURLToPath(import.meta.url);
    const [ours, base] = ["import", "duckdb"].map((name) => {
      const line = execFileSync(process.execPath, ["--import", "tsx", self, name, made.folder], {
        encoding: "utf8",
      }).trim();
      return JSON.parse(line) as { name: string; rows: number; sum: number; ms: number; peak_MB: number };
    }) as unknown as [Measured, Measured];
    process.stdout.write(
      `${rows} rows, ${(made.bytes / 1e6).toFixed(0)} MB\n` +
        `import into a book   ${(ours.ms / 1000).toFixed(2)} s, peak ${ours.peak_MB.toFixed(0)} MB (limit 300), book ${(ours.sum / 1e6).toFixed(0)} MB\n` +
        `DuckDB into memory   ${(base.ms / 1000).toFixed(2)} s, peak ${base.peak_MB.toFixed(0)} MB\n` +
        `ratios               time ${(ours.ms / base.ms).toFixed(2)}, memory ${(ours.peak_MB / base.peak_MB).toFixed(2)}\n`,
    );
  } finally {
    await made.remove();
  }
}

interface Measured {
  readonly rows: number;
  readonly sum: number;
  readonly ms: number;
  readonly peak_MB: number;
}
