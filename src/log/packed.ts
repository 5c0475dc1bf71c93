/** Files that are no text: packed ones and the programs' own, known by their first bytes. */

export interface Packed {
  readonly kind: "packed";
  /** `gzip` and `zip` can be unpacked; `other` is refused as it is. */
  readonly how: "gzip" | "zip" | "other";
  readonly what: string;
  /** What helps. */
  readonly expected: string;
}

const TEXT = "the log as text is expected: export it as CSV";

// First bytes as the formats' own specifications state them (RFC 1952, PKWARE APPNOTE, and others; recalled).
const SIGNS: readonly (readonly [readonly number[], Packed["how"], string, string])[] = [
  [[0x1f, 0x8b], "gzip", "a gzip file", "the file it holds is expected: unpack it first"],
  [[0x50, 0x4b, 0x03, 0x04], "zip", "a zip archive", "the one file it holds is expected: unpack it first"],
  [[0x50, 0x4b, 0x05, 0x06], "zip", "an empty zip archive", TEXT],
  [
    [0xd0, 0xcf, 0x11, 0xe0],
    "other",
    "a spreadsheet or another document of an old office format",
    "save the sheet as CSV",
  ],
  [[0x42, 0x5a, 0x68], "other", "a bzip2 file", "the file it holds is expected: unpack it first"],
  [[0xfd, 0x37, 0x7a, 0x58, 0x5a], "other", "an xz file", "the file it holds is expected: unpack it first"],
  [[0x28, 0xb5, 0x2f, 0xfd], "other", "a zstd file", "the file it holds is expected: unpack it first"],
  [[0x37, 0x7a, 0xbc, 0xaf], "other", "a 7z archive", "the file it holds is expected: unpack it first"],
  [[0x25, 0x50, 0x44, 0x46], "other", "a PDF document", TEXT],
  [[0x54, 0x44, 0x53, 0x6d], "other", "a binary measurement file (TDMS)", TEXT],
  [
    [0x53, 0x51, 0x4c, 0x69, 0x74, 0x65],
    "other",
    "an SQLite database",
    "a log file is expected; a book is opened, not read in",
  ],
  [[0x89, 0x50, 0x4e, 0x47], "other", "a picture", "a log of readings is expected"],
  [[0xff, 0xd8, 0xff], "other", "a picture", "a log of readings is expected"],
  [[0x89, 0x48, 0x44, 0x46], "other", "an HDF5 file", TEXT],
  [[0x50, 0x41, 0x52, 0x31], "other", "a Parquet file", TEXT],
];

/** What a file that is no text is; null for one that may be. */
export function packedAs(head: Uint8Array): Packed | null {
  for (const [bytes, how, what, expected] of SIGNS)
    if (bytes.every((byte, i) => head[i] === byte)) return { kind: "packed", how, what, expected };
  return null;
}
