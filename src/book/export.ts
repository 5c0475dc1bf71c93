import { createHash } from "node:crypto";
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { dirname, join } from "node:path";
import { ABOUT, kindNames } from "../record/index.ts";
import { sync } from "./backup.ts";
import { countsOf } from "./check.ts";
import { asked, type Context } from "./context.ts";
import { writeCsv } from "./csv.ts";
import { bookDigest, logsWithContent } from "./digest.ts";
import { contentRow } from "./log-content.ts";
import { writeLogParquet } from "./log-parquet.ts";
import { makeFolders } from "./make-folders.ts";
import { heritageOf } from "./merge.ts";
import { openFile } from "./open-file.ts";
import { copiedFile, FORMAT, readingsFile, recordSchemas } from "./open-files.ts";
import { fileBytes } from "./pictures.ts";
import { type Place, writeGeoJson, writeGpx } from "./places.ts";
import { getRecord, listRecords } from "./records.ts";
import { asTrouble, BookTrouble } from "./trouble.ts";

/** What an export wrote, and the digest of its content. */
export interface Exported {
  readonly folder: string;
  readonly files: number;
  readonly bytes: number;
  readonly digest: string;
}

/**
 * Writes the whole book as open files into a new folder; the folder gets its name only when it is whole.
 * @throws BookTrouble when the folder is there and not empty: nothing is overwritten
 */
export async function exportBook(context: Context, folder: string): Promise<Exported> {
  if (existsSync(folder) && (!statSync(folder).isDirectory() || readdirSync(folder).length > 0))
    throw new BookTrouble("exists", folder, "there is something already", "a new or empty folder is expected");
  const part = join(dirname(folder), `.${context.newId()}.part`);
  const still = atOneMoment(context);
  try {
    makeFolders(join(part, "records"));
    for (const name of ["tables", "logs", "files"]) mkdirSync(join(part, name));
    const sums = await writeAll(still, part);
    const digest = bookDigest(still);
    const about = getRecord(still, "about", ABOUT);
    const head = {
      format: FORMAT,
      title: about?.title ?? null,
      simulated: about?.simulated ?? false,
      digest,
      counts: countsOf(still.driver),
      files: Object.fromEntries(sums),
    };
    writeFileSync(join(part, "book.json"), `${JSON.stringify(head, null, 1)}\n`);
    sync(join(part, "book.json"));
    // Only an empty folder goes: what came there meanwhile is kept, and the export fails.
    if (existsSync(folder)) rmdirSync(folder);
    renameSync(part, folder);
    sync(dirname(folder));
    const bytes = [...sums.keys()].reduce((sum, name) => sum + statSync(join(folder, name)).size, 0);
    return { folder, files: sums.size + 1, bytes, digest };
  } catch (error) {
    rmSync(part, { recursive: true, force: true });
    throw asTrouble(error, folder, context.driver.codeOf(error));
  } finally {
    still.driver.close();
  }
}

/** The book as it stands now, by a connection of its own: what is written while files are made is not seen. */
function atOneMoment(context: Context): Context {
  const { driver } = openFile(context.path, { readOnly: true });
  driver.exec("BEGIN");
  driver.get("SELECT count(*) AS n FROM meta");
  return { ...context, driver, readOnly: true };
}

async function writeAll(context: Context, part: string): Promise<Map<string, string>> {
  const { driver } = context;
  const sums = new Map<string, string>();
  const keep = (name: string, content: string | Uint8Array): void => {
    writeFileSync(join(part, name), content);
    sync(join(part, name));
    sums.set(name, createHash("sha256").update(content).digest("hex"));
  };
  keep("schema.json", `${JSON.stringify(recordSchemas(), null, 1)}\n`);
  for (const kind of kindNames) {
    const records = listRecords(context, kind, { hidden: "with" });
    if (records.length === 0) continue;
    keep(`records/${kind}.jsonl`, lines(records));
    keep(`tables/${kind}.csv`, writeCsv(kind, records));
  }
  asked(context, () => {
    const { transactions, purged, files } = heritageOf(driver);
    const parsed = (kept: string | null): unknown => (kept === null ? null : JSON.parse(kept));
    keep(
      "history.jsonl",
      lines(
        Array.from(transactions, ({ transaction, changes }) => ({
          ...transaction,
          changes: changes.map((c) => ({ ...c, was: parsed(c.was), value: parsed(c.value) })),
        })),
      ),
    );
    keep("purged.jsonl", lines([...purged]));
    for (const { sha256 } of files) keep(copiedFile(sha256), fileBytes(context, sha256)!);
  });
  const logs = logsWithContent(driver).map(({ log }) => {
    const { rows, position, state, finished } = contentRow(driver, log)!;
    return { log, rows, position, state: parsedState(state), finished: finished === 1 };
  });
  keep("logs.jsonl", lines(logs));
  for (const { log } of logs) {
    const name = readingsFile(log);
    await writeLogParquet(context, log, join(part, name));
    sums.set(
      name,
      createHash("sha256")
        .update(readFileSync(join(part, name)))
        .digest("hex"),
    );
  }
  const places = listRecords(context, "site").filter((s) => s.latitude_deg !== null && s.longitude_deg !== null);
  keep("places.geojson", writeGeoJson(places as (Place & { id: string })[]));
  keep("places.gpx", writeGpx(places as Place[]));
  return sums;
}

const parsedState = (state: string | null): unknown => (state === null ? null : JSON.parse(state));

const lines = (values: readonly unknown[]): string => values.map((v) => `${JSON.stringify(v)}\n`).join("");
