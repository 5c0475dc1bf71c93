/** The rows of a log for a command, streamed from its file: only the columns asked for are held in memory. */
import { createReadStream, createWriteStream } from "node:fs";
import { mkdtemp, rm, stat } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pipeline } from "node:stream/promises";
import { type ChannelKind, type LogChoices, LogGatherer, type LogRows, packedAs } from "../log/index.ts";
import { logQuestionWords } from "../words/index.ts";
import type { Io } from "./io.ts";
import { placeOf } from "./options.ts";

/** @throws InputError when it is no log, or leaves a question open (with the option that answers it) */
export async function logRows(path: string, io: Io, told: LogChoices, kinds: readonly ChannelKind[]): Promise<LogRows> {
  const place = placeOf(path);
  const { size, bytes } = await io.pieces(path);
  const pieces = bytes[Symbol.asyncIterator]();
  const first = await pieces.next();
  const all = (async function* () {
    for (let one = first; !one.done; one = await pieces.next()) yield one.value;
  })();
  if (!first.done && packedAs(first.value) !== null) return packedRows(place, all, told, kinds);
  return gathered(place, all, told, { kinds, ...(size === undefined ? {} : { size }) });
}

/** A packed file is laid on the disk first: what it holds is then read as a stream. */
async function packedRows(
  place: string,
  bytes: AsyncIterable<Uint8Array>,
  told: LogChoices,
  kinds: readonly ChannelKind[],
): Promise<LogRows> {
  const folder = await mkdtemp(join(tmpdir(), "rodebench-log-"));
  try {
    const packed = join(folder, "packed");
    await pipeline(bytes, createWriteStream(packed));
    const { unpackLog } = await import("../book/index.ts");
    const { path, remarks } = await unpackLog(packed, folder, place);
    const { size } = await stat(path);
    const rows = await gathered(place, createReadStream(path, { highWaterMark: 1 << 20 }), told, { kinds, size });
    return { ...rows, remarks: [...remarks, ...rows.remarks] };
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

async function gathered(
  place: string,
  bytes: AsyncIterable<Uint8Array>,
  told: LogChoices,
  options: { readonly kinds: readonly ChannelKind[]; readonly size?: number },
): Promise<LogRows> {
  const gatherer = new LogGatherer(place, logQuestionWords, told, options);
  for await (const piece of bytes) gatherer.write(piece);
  return gatherer.end();
}
