import { asyncBufferFromFile, parquetMetadataAsync, parquetRead, parquetSchema } from "hyparquet";
import { fileWriter, ParquetWriter } from "hyparquet-writer";
import { InputError } from "../quantity/index.ts";
import { sync } from "./backup.ts";
import type { Context } from "./context.ts";
import type { Channel } from "./kinds.ts";
import { CHUNK_ROWS, type Rows } from "./log-chunk.ts";
import { channelsOf } from "./log-content.ts";
import { everyRow } from "./log-store.ts";

/** The time column's name; no channel can have it, as a channel's name begins with a letter. */
export const TIME = "_time_s";

// Not a dictionary of values: that would take -0 for 0.
const ENCODING = "BYTE_STREAM_SPLIT" as const;

/** Writes a log's readings as Parquet, chunk by chunk: one row group a chunk, so that reading back takes little memory. */
export async function writeLogParquet(context: Context, log: string, path: string): Promise<void> {
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

/** Reads such a file back, a row group at a time. */
export async function* readLogParquet(path: string, channels: readonly Channel[], place: string): AsyncGenerator<Rows> {
  const file = await asyncBufferFromFile(path);
  const metadata = await parquetMetadataAsync(file).catch(() => {
    throw new InputError(place, "not Parquet", "the readings of a log are expected");
  });
  const names = parquetSchema(metadata).children.map((c) => c.element.name);
  if (!names.includes(TIME)) throw new InputError(place, `no column ${TIME}`, "a column of times is expected");
  const known = channels.filter((c) => names.includes(c.name)).map((c) => c.name);
  let start = 0;
  for (const group of metadata.row_groups) {
    const count = Number(group.num_rows);
    const columns: Record<string, Float64Array> = Object.create(null);
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
          if (begin + i >= 0 && begin + i < count) into[begin + i] = Number(columnData[i]);
      },
    });
    const times = columns[TIME]!;
    delete columns[TIME];
    yield { times, columns };
    start += count;
  }
}
