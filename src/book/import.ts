import { createHash } from "node:crypto";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { z } from "zod";
import { InputError, quoted, readJson } from "../quantity/index.ts";
import { type FieldsOf, isId, type Kept, type Kind, kindNames } from "../record/index.ts";
import { type Context, writing } from "./context.ts";
import { readCsv } from "./csv.ts";
import { fileIn } from "./folder.ts";
import { importLogs } from "./import-logs.ts";
import { jsonLines } from "./json-lines.ts";
import { bookFile, historyLine, isExported, purgedLine } from "./open-files.ts";
import type { Place } from "./places.ts";
import type { Purged } from "./purge.ts";
import { type Draft, editOf, listRecords, writeRecords } from "./records.ts";
import { type Edit, isPurged, kindOf, writeTransaction } from "./transaction.ts";
import { type Heritage, type United, unite } from "./unite.ts";

/** What an import took in. */
export interface ImportedBook extends United {
  /** Records this book holds that were deleted for good there: an import deletes nothing, they are kept. */
  readonly deletedThere: number;
  /** Records made or changed because they stand otherwise in `records/` or `tables/` than the history says. */
  readonly edited: number;
  readonly logs: number;
}

/**
 * Takes in a book exported as open files: its history first, then whatever the records say beyond it (a file edited by
 * hand, or made by another program without any history), then the readings. Taking in the same folder again changes
 * nothing. After a kill, the import is simply run again.
 * @throws InputError naming the file and the line
 */
export async function importBook(context: Context, folder: string): Promise<ImportedBook> {
  const { sums } = readHead(folder);
  const heritage = readHeritage(folder, sums);
  const united = writing(context, () => {
    const { purged, deletedThere } = harmless(context, heritage.purged);
    const joined = unite(context, { ...heritage, purged });
    return { ...joined, deletedThere, edited: importRecords(context, folder, sums) };
  });
  return { ...united, logs: await importLogs(context, folder, sums) };
}

/**
 * What was deleted for good elsewhere is deleted here by a merge of books, never by a folder of files that anybody may
 * have written. Only a book that begins with this folder takes them over too, and is then the book that was exported.
 */
function harmless(
  { driver }: Context,
  deletions: Iterable<Purged>,
): { readonly purged: readonly Purged[]; readonly deletedThere: number } {
  const all = [...deletions];
  if (driver.get("SELECT 1 AS found FROM act LIMIT 1") === undefined) return { purged: all, deletedThere: 0 };
  return { purged: [], deletedThere: all.filter(({ record }) => kindOf(driver, record) !== undefined).length };
}

/** Takes in places as sites, each once: a site of the same name and position is there already. */
export function importPlaces(context: Context, places: readonly Place[], source: string): { added: number } {
  return writing(context, () => {
    const key = (p: { name: unknown; latitude_deg: unknown; longitude_deg: unknown }) =>
      JSON.stringify([p.name, p.latitude_deg, p.longitude_deg]);
    const known = new Set(listRecords(context, "site", { hidden: "with" }).map(key));
    const drafts: Draft[] = [];
    for (const { name, latitude_deg, longitude_deg, description } of places) {
      if (known.has(key({ name, latitude_deg, longitude_deg }))) continue;
      known.add(key({ name, latitude_deg, longitude_deg }));
      drafts.push({ kind: "site", set: { name, latitude_deg, longitude_deg, description: description ?? null } });
    }
    if (drafts.length > 0) writeRecords(context, drafts, `places of ${source}`, source);
    return { added: drafts.length };
  });
}

/** The checksums of a folder's files: told by `book.json` where there is one. */
function readHead(folder: string): { sums: ReadonlyMap<string, string> } {
  if (!existsSync(folder)) throw new InputError(folder, "no such folder", "a book as open files is expected");
  const path = fileIn(folder, "book.json");
  if (path === undefined) {
    const any = kindNames.some((k) => fileIn(folder, `records/${k}.jsonl`) || fileIn(folder, `tables/${k}.csv`));
    if (!any) throw new InputError(folder, "no book.json and no records", "a book as open files is expected");
    return { sums: new Map() };
  }
  const head = bookFile.safeParse(readJson(readFileSync(path, "utf8"), path));
  if (!head.success) throw new InputError(path, "not a rodebench/book@1", "a book as open files is expected");
  const sums = new Map(Object.entries(head.data.files));
  for (const [name, sum] of sums)
    if (!isExported(name, sum)) throw new InputError(path, quoted(name), "no file of an exported book has such a name");
  return { sums };
}

/** A file's text, or undefined when there is none; what must be as it was written is held against its checksum. */
function whole(folder: string, name: string, sums: ReadonlyMap<string, string>): Buffer | undefined {
  const path = fileIn(folder, name);
  if (path === undefined) {
    if (sums.has(name))
      throw new InputError(join(folder, name), "missing", "every file that book.json lists is expected");
    return undefined;
  }
  const bytes = readFileSync(path);
  if (sums.has(name) && createHash("sha256").update(bytes).digest("hex") !== sums.get(name))
    throw new InputError(
      path,
      "changed since it was written",
      "history as it was exported is expected; edit records/ instead",
    );
  return bytes;
}

function readHeritage(folder: string, sums: ReadonlyMap<string, string>): Heritage {
  const rows = <T>(name: string, schema: z.ZodType<T>): T[] =>
    jsonLines(whole(folder, name, sums)?.toString("utf8") ?? "", join(folder, name), schema);
  const transactions = rows("history.jsonl", historyLine).map(({ changes, ...transaction }, i) => ({
    transaction,
    changes: changes.map((c) => ({ ...c, kind: c.kind as Kind, was: keptText(c.was), value: keptText(c.value) })),
    place: `${join(folder, "history.jsonl")}: line ${i + 1}`,
  }));
  const purged = rows("purged.jsonl", purgedLine);
  const files = [...sums.keys()]
    .filter((name) => name.startsWith("files/"))
    .map((name) => {
      const bytes = whole(folder, name, sums)!;
      return { sha256: sums.get(name)!, size: bytes.length, bytes: () => new Uint8Array(bytes) };
    });
  return { transactions, purged, files };
}

const keptText = (value: unknown): Kept => (value === null ? null : JSON.stringify(value));

/** Records that stand otherwise in the files than in the book become one transaction of changes. */
function importRecords(context: Context, folder: string, sums: ReadonlyMap<string, string>): number {
  const edits: Edit[] = [];
  for (const kind of kindNames) {
    const jsonl = fileIn(folder, `records/${kind}.jsonl`);
    const path = jsonl ?? fileIn(folder, `tables/${kind}.csv`);
    if (path === undefined) continue;
    const text = readFileSync(path, "utf8");
    // As it was written: the history says the same.
    const name = path === jsonl ? `records/${kind}.jsonl` : `tables/${kind}.csv`;
    if (sums.get(name) === createHash("sha256").update(text).digest("hex") && fileIn(folder, "history.jsonl")) continue;
    const rows =
      path === jsonl
        ? text.split("\n").flatMap((line, i) => (line.trim() === "" ? [] : [objectIn(line, `${path}: line ${i + 1}`)]))
        : readCsv(kind, text, path);
    rows.forEach((row, i) => {
      const edit = editOfRow(context, kind, row, `${path}: ${kind} ${i + 1}`);
      if (edit) edits.push(edit);
    });
  }
  if (edits.length === 0) return 0;
  const transaction = writeTransaction(context, { label: "import", manner: "edit" }, edits);
  return transaction === null
    ? 0
    : context.driver.get<{ n: number }>("SELECT count(DISTINCT record) AS n FROM change WHERE act = ?", [transaction])!
        .n;
}

function editOfRow(context: Context, kind: Kind, row: Record<string, unknown>, where: string): Edit | undefined {
  const { id, hidden, ...set } = row;
  if (id !== undefined && !isId(id))
    throw new InputError(`${where}.id`, JSON.stringify(id), "a UUID of version 7 is expected");
  if (hidden !== undefined && typeof hidden !== "boolean")
    throw new InputError(`${where}.hidden`, JSON.stringify(hidden), "true or false is expected");
  if (id !== undefined && isPurged(context.driver, id)) return undefined;
  const draft = { kind, set: set as FieldsOf<Kind>, ...(id === undefined ? {} : { id }) } as Draft;
  const edit = editOf(context, draft, where);
  return hidden === undefined ? edit : { ...edit, fields: new Map([...edit.fields, ["hidden", String(hidden)]]) };
}

function objectIn(line: string, where: string): Record<string, unknown> {
  const value = readJson(line, where);
  if (typeof value !== "object" || value === null || Array.isArray(value))
    throw new InputError(where, "not an object", "one record a line is expected");
  return value as Record<string, unknown>;
}
