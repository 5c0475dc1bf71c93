/** A packed log file laid out on the disk: gzip, and zip archives of one file. Anything else that is no text is refused in words that help. */
import { createReadStream, createWriteStream, type WriteStream } from "node:fs";
import { open } from "node:fs/promises";
import { basename, join } from "node:path";
import { Transform } from "node:stream";
import { pipeline } from "node:stream/promises";
import { createGunzip, createInflateRaw } from "node:zlib";
import { type GrantedCause, packedAs } from "../../log/index.ts";
import { InputError, quoted } from "../../quantity/index.ts";
import { type Entry, entriesOf } from "./zip-entries.ts";

/** A log as it lay within a packed file. */
export interface Unpacked {
  /** The file itself where it is not packed. */
  readonly path: string;
  /** What the packed file was called within, or the file's own name without its ending. */
  readonly name: string;
  /** Said where not all could be unpacked. */
  readonly remarks: readonly GrantedCause[];
}

/** Largest file that is unpacked, bytes. */
const MOST = 8e9;

/**
 * Unpacks a log file into a folder, or leaves it where it is when it is not packed.
 * @param place what errors call it
 * @throws InputError for archives of several files, spreadsheets, damaged or other packed files
 */
export async function unpackLog(path: string, folder: string, place = path): Promise<Unpacked> {
  const packed = packedAs(await headOf(path, place));
  if (packed === null) return { path, name: basename(path), remarks: [] };
  if (packed.how === "other") throw new InputError(place, packed.what, packed.expected);
  const target = join(folder, "unpacked");
  if (packed.how === "gzip") {
    const whole = await pour(createReadStream(path), createGunzip(), createWriteStream(target), place);
    const name = basename(path).replace(/\.gz$/i, "");
    return { path: target, name, remarks: whole ? [] : [{ kind: "gzipCutOff" }] };
  }
  const entry = await theOneEntry(path, place);
  const from = createReadStream(path, { start: entry.at, end: Math.max(entry.at, entry.at + entry.packedSize - 1) });
  const unpack =
    entry.method === 0 ? new Transform({ transform: (bytes, _, done) => done(null, bytes) }) : createInflateRaw();
  if (!(await pour(from, unpack, createWriteStream(target), place)))
    throw new InputError(place, "a damaged zip archive", "a whole one is expected");
  return { path: target, name: basename(entry.name), remarks: [] };
}

async function headOf(path: string, place: string): Promise<Uint8Array> {
  try {
    const file = await open(path, "r");
    try {
      const head = new Uint8Array(16);
      const { bytesRead } = await file.read(head, 0, 16, 0);
      return head.subarray(0, bytesRead);
    } finally {
      await file.close();
    }
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    const why: Record<string, string> = { ENOENT: "no such file", EISDIR: "a folder", EACCES: "not permitted to read" };
    throw new InputError(place, why[code ?? ""] ?? `cannot be read (${code})`, "a readable file is expected");
  }
}

/** @returns false when what is packed ends too early. */
async function pour(from: NodeJS.ReadableStream, unpack: Transform, to: WriteStream, place: string): Promise<boolean> {
  let size = 0;
  const counted = new Transform({
    transform(bytes: Buffer, _, done) {
      size += bytes.length;
      done(size > MOST ? new InputError(place, "more than 8 GB unpacked", "a smaller log is expected") : null, bytes);
    },
  });
  try {
    await pipeline(from, unpack, counted, to);
    return true;
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === "Z_BUF_ERROR") return false;
    if (code?.startsWith("Z_")) throw new InputError(place, "a damaged packed file", "one that unpacks is expected");
    throw error;
  }
}

async function theOneEntry(path: string, place: string): Promise<Entry> {
  const entries = await entriesOf(path);
  if (entries === null) throw new InputError(place, "a damaged zip archive", "a whole one is expected");
  if (entries.some(({ name }) => /^(xl|word|ppt)\/|^\[Content_Types\]\.xml$|^content\.xml$/.test(name)))
    throw new InputError(place, "a spreadsheet's workbook", "save the sheet as CSV");
  const files = entries.filter(({ name }) => !name.endsWith("/") && !name.startsWith("__MACOSX/"));
  const one = files[0];
  if (one === undefined || files.length > 1) {
    const names = files.slice(0, 3).map(({ name }) => quoted(name));
    const holds = files.length === 0 ? "no files" : `${files.length} files, ${names.join(", ")}`;
    throw new InputError(place, `a zip archive of ${holds}`, "an archive of one log is expected: unpack it first");
  }
  if (one.encrypted) throw new InputError(place, "a zip archive with a password", "unpack it first");
  if (one.method !== 0 && one.method !== 8)
    throw new InputError(place, `a zip archive packed by method ${one.method}`, "unpack it first");
  return one;
}
