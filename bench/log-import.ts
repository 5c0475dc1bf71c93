/**
 * A large log into a book, each batch on disk and the place in the file with it, against DuckDB's plain read of the
 * same file into a table in memory.
 *   node --import tsx bench/log-import.ts [ROWS]
 */
import { statSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { besides, inChild, LONGEST_LOG, logFile, measure } from "./log-file.ts";

const [job, folder] = process.argv.slice(2);
/** Memory an import may take, MB. */
const LIMIT = 300;

if (job === "import") {
  const { importLog, newBook } = await import("../src/book/index.ts");
  const book = newBook(join(folder!, "bench.book"), { title: "Bench" }, { backups: false });
  const done = measure("import into a book");
  const answer = await importLog(book, join(folder!, "log.csv"));
  if (answer.kind !== "imported") throw new Error(answer.kind);
  done(answer.rows, 0);
  book.close();
} else if (job === "duckdb") {
  const { DuckDBInstance } = await import("@duckdb/node-api");
  const done = measure("DuckDB into memory");
  const connection = await (await DuckDBInstance.create()).connect();
  await connection.run(`CREATE TABLE log AS SELECT * FROM read_csv('${join(folder!, "log.csv")}')`);
  const rows = Number((await connection.runAndReadAll("SELECT count(*) FROM log")).getRows()[0]![0]);
  done(rows, 0);
} else {
  const made = await logFile(Number(job ?? LONGEST_LOG));
  try {
    const self = fileURLToPath(import.meta.url);
    const ours = inChild(self, "import", made.folder);
    const base = inChild(self, "duckdb", made.folder);
    process.stdout.write(besides(ours, base) + besides(base, base));
    const book = statSync(join(made.folder, "bench.book")).size;
    process.stdout.write(`log ${(made.bytes / 1e6).toFixed(0)} MB, book ${(book / 1e6).toFixed(0)} MB\n`);
    if (ours.peak_MB > LIMIT) {
      process.stderr.write(`peak memory ${ours.peak_MB.toFixed(0)} MB; at most ${LIMIT} MB is expected\n`);
      process.exitCode = 1;
    }
  } finally {
    await made.remove();
  }
}
