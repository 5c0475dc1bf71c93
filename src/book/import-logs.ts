import { createHash } from "node:crypto";
import { createReadStream, readFileSync } from "node:fs";
import { join } from "node:path";
import { InputError } from "../quantity/index.ts";
import { type Context, writing } from "./context.ts";
import { fileIn } from "./folder.ts";
import { jsonLines } from "./json-lines.ts";
import { appendChunks, type ContentRow, channelsOf, checkRows, keepContent } from "./log-content.ts";
import { readLogParquet } from "./log-parquet.ts";
import { logLine, readingsFile } from "./open-files.ts";
import { dropReadings } from "./purge.ts";
import { isAhead, startOf } from "./unite.ts";

/**
 * Takes in the readings of exported logs where the folder's have come further than the book's. They gather beside the
 * log, piece by piece, and take its place in one step when the last is there: after a kill the log is as it was, and
 * the import is run again.
 */
export async function importLogs(context: Context, folder: string, sums: ReadonlyMap<string, string>): Promise<number> {
  const list = fileIn(folder, "logs.jsonl");
  if (list === undefined) return 0;
  let taken = 0;
  for (const line of jsonLines(readFileSync(list, "utf8"), list, logLine)) {
    const { log, rows, position, finished } = line;
    const theirs: ContentRow = {
      rows,
      position,
      state: line.state === null ? null : JSON.stringify(line.state),
      finished: Number(finished),
    };
    const mine = startOf(context.driver, log);
    // Equal in all that tells how far it has come: the readings of a log do not change behind that.
    if (!mine || isAhead(mine, theirs, () => true)) continue;
    await takeIn(context, folder, sums, log, theirs);
    taken++;
  }
  return taken;
}

async function takeIn(
  context: Context,
  folder: string,
  sums: ReadonlyMap<string, string>,
  log: string,
  theirs: ContentRow,
): Promise<void> {
  const name = readingsFile(log);
  const path = fileIn(folder, name);
  if (path === undefined) throw new InputError(join(folder, name), "missing", "the readings of the log are expected");
  if (sums.has(name) && (await sumOf(path)) !== sums.get(name))
    throw new InputError(path, "changed since it was written", "readings as they were exported are expected");
  const channels = channelsOf(context, log);
  const gathering = `${log}.gathering`;
  let total = 0;
  writing(context, () => dropReadings(context.driver, gathering));
  try {
    for await (const rows of readLogParquet(path, channels, theirs.rows)) {
      checkRows(rows, channels);
      writing(context, () => {
        total = appendChunks(context, gathering, channels, rows, total);
      });
    }
    if (total !== theirs.rows)
      throw new InputError(path, `${total} rows`, `${theirs.rows}, as logs.jsonl says, are expected`);
  } catch (error) {
    writing(context, () => dropReadings(context.driver, gathering));
    throw error;
  }
  writing(context, () => {
    dropReadings(context.driver, log);
    for (const table of ["log_chunk", "log_column", "log_overview"])
      context.driver.run(`UPDATE ${table} SET log = ? WHERE log = ?`, [log, gathering]);
    keepContent(context.driver, log, theirs);
  });
}

async function sumOf(path: string): Promise<string> {
  const hash = createHash("sha256");
  for await (const bytes of createReadStream(path)) hash.update(bytes as Buffer);
  return hash.digest("hex");
}
