import type { AsyncBuffer, FileMetaData } from "hyparquet";
import { InputError } from "../quantity/index.ts";
import type { Channel } from "../record/index.ts";
import { sync } from "./backup.ts";
import type { Context } from "./context.ts";
import { CHUNK_ROWS, type Rows } from "./log-chunk.ts";
import { channelsOf } from "./log-content.ts";
import { everyRow } from "./log-store.ts";

/** The time column's name; no channel can have it, as a channel's name begins with a letter. */
export const TIME = "_time_s";

/** Rows of a group that are made room for: an export writes `CHUNK_ROWS`, other programs up to a million or so. */
const MOST_IN_GROUP = 2 ** 24;

// Not a dictionary of values: that would take -0 for 0.
const ENCODING = "BYTE_STREAM_SPLIT" as const;

/** Writes a log's readings as Parquet, chunk by chunk: one row group a chunk, so that reading back takes little memory. */
export async function writeLogParquet(context: Context, log: string, path: string): Promise<void> {
  // Read when it is asked for: a book is opened a thousand times for each export.
  const { fileWriter, ParquetWriter } = await import("hyparquet-writer");
  const channels = channelsOf(context, log);
  const writer = fileWriter(path);
  const parquet = new ParquetWriter({
    writer,
    schema: [
      { name: "log", num_children: channels.length + 1 },
      { name: TIME, type: "DOUBLE", repetition_type: "REQUIRED" },
      ...channels.map((c) => ({ name: c.name, type: typeOf(c), repetition_type: "REQUIRED" as const })),
    ],
    kvMetadata: [
      { key: "time", value: "s since 1970-01-01T00:00:00Z" },
      { key: "channels", value: JSON.stringify(channels) },
    ],
    createdBy: "rodebench",
  });
  for (const rows of everyRow(context, log))
    await parquet.write({
      columnData: [
        { name: TIME, data: rows.times, type: "DOUBLE", encoding: ENCODING },
        ...channels.map((c) => ({
          name: c.name,
          data: c.precision === "single" ? Float32Array.from(rows.columns[c.name]!) : rows.columns[c.name]!,
          type: typeOf(c),
          encoding: ENCODING,
        })),
      ],
      rowGroupSize: CHUNK_ROWS,
    });
  await parquet.finish();
  sync(path);
}

const typeOf = (c: Channel): "FLOAT" | "DOUBLE" => (c.precision === "single" ? "FLOAT" : "DOUBLE");

/**
 * Reads such a file back, a row group at a time.
 * @param rows how many there must be: nothing is made room for before the file says the same
 * @throws InputError when it is not such a file
 */
export async function* readLogParquet(path: string, channels: readonly Channel[], rows: number): AsyncGenerator<Rows> {
  const wrong = (given: string, expected = "the readings of a log are expected"): InputError =>
    new InputError(path, given, expected);
  const { asyncBufferFromFile, parquetMetadataAsync } = await import("hyparquet");
  const file = await asyncBufferFromFile(path);
  const metadata = await parquetMetadataAsync(file).catch(() => {
    throw wrong("not Parquet");
  });
  const counts = metadata.row_groups.map((group) => Number(group.num_rows));
  const total = counts.reduce((sum, count) => sum + count, 0);
  if (!counts.every((count) => Number.isInteger(count) && count >= 0 && count <= MOST_IN_GROUP))
    throw wrong("groups of rows that cannot be");
  if (total !== rows) throw wrong(`${total} rows`, `${rows}, as logs.jsonl says, are expected`);
  let start = 0;
  for (const count of counts) {
    let group: Rows;
    try {
      group = await readGroup(file, metadata, channels, start, count);
    } catch (error) {
      // Whatever the reader met in the bytes of a file from elsewhere.
      throw error instanceof InputError ? error : wrong("damaged Parquet");
    }
    yield group;
    start += count;
  }
}

async function readGroup(
  file: AsyncBuffer,
  metadata: FileMetaData,
  channels: readonly Channel[],
  start: number,
  count: number,
): Promise<Rows> {
  const { parquetRead, parquetSchema } = await import("hyparquet");
  const names = parquetSchema(metadata).children.map((c) => c.element.name);
  const known = channels.filter((c) => names.includes(c.name)).map((c) => c.name);
  const columns: Record<string, Float64Array> = Object.create(null);
  const filled = new Map<string, number>();
  for (const name of [TIME, ...known]) columns[name] = new Float64Array(count);
  await parquetRead({
    file,
    metadata,
    columns: [TIME, ...known],
    rowStart: start,
    rowEnd: start + count,
    onChunk: ({ columnName, columnData, rowStart }) => {
      const into = columns[columnName];
      const begin = rowStart - start;
      for (let i = 0; into && i < columnData.length; i++)
        if (begin + i >= 0 && begin + i < count) {
          into[begin + i] = Number(columnData[i]);
          filled.set(columnName, (filled.get(columnName) ?? 0) + 1);
        }
    },
  });
  for (const name of [TIME, ...known]) if ((filled.get(name) ?? 0) < count) throw new Error(`${name} is cut short`);
  const times = columns[TIME]!;
  delete columns[TIME];
  return { times, columns };
}
