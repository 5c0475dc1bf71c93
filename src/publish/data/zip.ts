/**
 * Files as one ZIP archive, stored as they are: a folder for a browser to save. Every entry has the same date, so that the
 * same files give the same bytes.
 * @source APPNOTE.TXT 6.3, sections 4.3.7, 4.3.12 and 4.3.16 (recalled)
 */

/** 1980-01-01, the earliest date the format has. */
const DATE = (1 << 5) | 1;
/** Names are UTF-8. */
const UTF8 = 1 << 11;

const CRC = Uint32Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let k = 0; k < 8; k++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c >>> 0;
});

function crc32(bytes: Uint8Array): number {
  let c = 0xffffffff;
  for (const byte of bytes) c = CRC[(c ^ byte) & 0xff]! ^ (c >>> 8);
  return (c ^ 0xffffffff) >>> 0;
}

/** @param files by their paths within the archive; of a series they are far below the 4 GB the format has here */
export const zipOf = (files: ReadonlyMap<string, Uint8Array>): Uint8Array<ArrayBuffer> => joined(zipParts(files));

/** The same piece by piece, for an archive that is not to stand in memory twice. */
export function zipParts(files: ReadonlyMap<string, Uint8Array>): Uint8Array<ArrayBuffer>[] {
  const parts: Uint8Array<ArrayBuffer>[] = [];
  const directory: Uint8Array<ArrayBuffer>[] = [];
  let at = 0;
  for (const [path, bytes] of files) {
    const name = new TextEncoder().encode(path);
    // Version needed, flags, stored, time, date, sum, both sizes, length of the name, no extra field.
    const common = fields(
      [20, 2],
      [UTF8, 2],
      [0, 2],
      [0, 2],
      [DATE, 2],
      [crc32(bytes), 4],
      [bytes.length, 4],
      [bytes.length, 4],
      [name.length, 2],
      [0, 2],
    );
    parts.push(fields([0x04034b50, 4]), common, name, bytes as Uint8Array<ArrayBuffer>);
    directory.push(fields([0x02014b50, 4], [20, 2]), common, fields([0, 2], [0, 2], [0, 2], [0, 4], [at, 4]), name);
    at += 4 + common.length + name.length + bytes.length;
  }
  const size = directory.reduce((sum, part) => sum + part.length, 0);
  const end = fields([0x06054b50, 4], [0, 2], [0, 2], [files.size, 2], [files.size, 2], [size, 4], [at, 4], [0, 2]);
  return [...parts, ...directory, end];
}

function fields(...values: readonly (readonly [value: number, bytes: number])[]): Uint8Array<ArrayBuffer> {
  const view = new DataView(new ArrayBuffer(values.reduce((sum, [, bytes]) => sum + bytes, 0)));
  let at = 0;
  for (const [value, bytes] of values) {
    if (bytes === 2) view.setUint16(at, value, true);
    else view.setUint32(at, value, true);
    at += bytes;
  }
  return new Uint8Array(view.buffer);
}

function joined(parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
