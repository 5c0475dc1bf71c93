/**
 * The files of a zip archive by its central directory, which stands at its end.
 * @source PKWARE APPNOTE 6.3, sections 4.3.7, 4.3.12 and 4.3.16; recalled
 */
import { type FileHandle, open } from "node:fs/promises";

export interface Entry {
  readonly name: string;
  /** 0: stored; 8: deflated. */
  readonly method: number;
  readonly encrypted: boolean;
  /** Byte at which its packed bytes begin, and how many there are. */
  readonly at: number;
  readonly packedSize: number;
}

const END = 0x06054b50;
const CENTRAL = 0x02014b50;
const LOCAL = 0x04034b50;
/** Longest comment behind the end, and the end itself. */
const TAIL = 65_535 + 22;

/** Null for what is no whole archive. Archives beyond 4 GB (zip64) are none here. */
export async function entriesOf(path: string): Promise<Entry[] | null> {
  const file = await open(path, "r");
  try {
    const { size } = await file.stat();
    const tail = await bytesAt(file, Math.max(0, size - TAIL), Math.min(size, TAIL));
    let end = tail.length - 22;
    while (end >= 0 && tail.readUInt32LE(end) !== END) end--;
    if (end < 0) return null;
    const count = tail.readUInt16LE(end + 10);
    const directory = await bytesAt(file, tail.readUInt32LE(end + 16), tail.readUInt32LE(end + 12));
    const entries: Entry[] = [];
    for (let p = 0, n = 0; n < count; n++) {
      if (p + 46 > directory.length || directory.readUInt32LE(p) !== CENTRAL) return null;
      const [nameLength, extra, comment] = [28, 30, 32].map((at) => directory.readUInt16LE(p + at)) as [
        number,
        number,
        number,
      ];
      const local = await bytesAt(file, directory.readUInt32LE(p + 42), 30);
      if (local.length < 30 || local.readUInt32LE(0) !== LOCAL) return null;
      entries.push({
        name: directory.toString("utf8", p + 46, p + 46 + nameLength),
        method: directory.readUInt16LE(p + 10),
        encrypted: (directory.readUInt16LE(p + 8) & 1) === 1,
        at: directory.readUInt32LE(p + 42) + 30 + local.readUInt16LE(26) + local.readUInt16LE(28),
        packedSize: directory.readUInt32LE(p + 20),
      });
      p += 46 + nameLength + extra + comment;
    }
    return entries;
  } finally {
    await file.close();
  }
}

async function bytesAt(file: FileHandle, at: number, length: number): Promise<Buffer> {
  const bytes = Buffer.alloc(Math.max(0, Math.min(length, 1 << 24)));
  const { bytesRead } = await file.read(bytes, 0, bytes.length, at);
  return bytes.subarray(0, bytesRead);
}
