/**
 * Rows of a sweep as Parquet, a group of rows at a time, so that memory does not grow with the rides. The file says of which
 * sweep it is, made by which version, and which part of it: what `join` refuses to mix stands there.
 */
import { statSync } from "node:fs";
import { rename, rm } from "node:fs/promises";
import { asyncBufferFromFile, type FileMetaData, parquetMetadataAsync, parquetReadObjects } from "hyparquet";
import { fileWriter, ParquetWriter } from "hyparquet-writer";
import { type ColumnType, SWEEP_COLUMNS, type SweepRow } from "../motion/index.ts";
import { InputError } from "../quantity/index.ts";

const ROWS_IN_GROUP = 1000;
const FORMAT = "rodebench/sweep-rides@1";

/** Of what a file of rides is a part. */
export interface RidesOf {
  readonly name: string;
  /** Of the sweep's file with all it names: parts of another have another. */
  readonly fingerprint: string;
  readonly version: string;
  /** Rides of the whole sweep. */
  readonly rides: number;
  /** Parts the file holds, "3/16"; one for a part that was ridden, several for parts joined. */
  readonly parts: readonly string[];
}

const TYPES: Record<ColumnType, object> = {
  whole: { type: "INT32" },
  number: { type: "DOUBLE" },
  text: { type: "BYTE_ARRAY", converted_type: "UTF8" },
};

/** Writes rows as they come, whole or not at all. @returns how many */
export async function writeRides(path: string, of: RidesOf, rows: AsyncIterable<SweepRow>): Promise<number> {
  const beside = `${path}.part`;
  try {
    const writer = new ParquetWriter({
      writer: fileWriter(beside),
      schema: [
        { name: "rides", num_children: SWEEP_COLUMNS.length },
        ...SWEEP_COLUMNS.map(([name, type]) => ({ name, repetition_type: "OPTIONAL" as const, ...TYPES[type] })),
      ],
      kvMetadata: [
        { key: "format", value: FORMAT },
        { key: "of", value: JSON.stringify(of) },
      ],
      createdBy: "rodebench",
    });
    let held: SweepRow[] = [];
    let count = 0;
    const flush = async (): Promise<void> => {
      if (held.length === 0) return;
      const group = held;
      held = [];
      await writer.write({
        columnData: SWEEP_COLUMNS.map(([name]) => ({ name, data: group.map((row) => row[name] ?? null) })),
        rowGroupSize: ROWS_IN_GROUP,
      });
    };
    for await (const row of rows) {
      held.push(row);
      count++;
      if (held.length === ROWS_IN_GROUP) await flush();
    }
    await flush();
    await writer.finish();
    await rename(beside, path);
    return count;
  } catch (error) {
    await rm(beside, { force: true });
    throw error;
  }
}

export interface RidesFile {
  readonly path: string;
  readonly of: RidesOf;
  readonly count: number;
  readonly rows: () => AsyncGenerator<SweepRow>;
}

/** Opens a file of rides. @throws InputError when it is not one */
export async function openRides(path: string, place: string): Promise<RidesFile> {
  const wrong = (given: string): InputError =>
    new InputError(place, given, "the Parquet file of a part of a sweep is expected");
  let file: Awaited<ReturnType<typeof asyncBufferFromFile>>;
  let metadata: FileMetaData;
  try {
    file = await asyncBufferFromFile(path);
  } catch {
    throw wrong("no such file");
  }
  if (statSync(path).isDirectory()) throw wrong("a folder");
  try {
    metadata = await parquetMetadataAsync(file);
  } catch {
    throw wrong("not Parquet");
  }
  const said = new Map(metadata.key_value_metadata?.map(({ key, value }) => [key, value ?? ""]));
  if (said.get("format") !== FORMAT) throw wrong("another sort of Parquet");
  const of = ridesOf(said.get("of") ?? "");
  if (of === null) throw wrong("no word of the sweep it is of");
  return {
    path,
    of,
    count: Number(metadata.num_rows),
    async *rows() {
      let start = 0;
      for (const group of metadata.row_groups) {
        const end = start + Number(group.num_rows);
        let rows: Record<string, unknown>[];
        try {
          rows = await parquetReadObjects({ file, metadata, rowStart: start, rowEnd: end });
        } catch {
          throw wrong("damaged Parquet");
        }
        for (const row of rows) yield rowOf(row);
        start = end;
      }
    },
  };
}

function ridesOf(text: string): RidesOf | null {
  try {
    const of = JSON.parse(text) as RidesOf;
    const right =
      typeof of.name === "string" &&
      typeof of.fingerprint === "string" &&
      typeof of.version === "string" &&
      Number.isInteger(of.rides) &&
      Array.isArray(of.parts) &&
      of.parts.every((part) => typeof part === "string" && /^\d+\/\d+$/.test(part));
    return right ? of : null;
  } catch {
    return null;
  }
}

function rowOf(read: Record<string, unknown>): SweepRow {
  return Object.fromEntries(
    SWEEP_COLUMNS.map(([name, type]) => {
      const value = read[name];
      if (value === null || value === undefined) return [name, null];
      return [name, type === "text" ? String(value) : Number(value)];
    }),
  );
}
