import { readFileSync } from "node:fs";
import { brotliCompressSync, gzipSync } from "node:zlib";
import { expect, test } from "vitest";
import { packedAs } from "../../src/log/packed.ts";

const ascii = (text: string) => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

// Files another program wrote where there is one; else the first bytes as the format's specification states them.
test.each<[string, Uint8Array, RegExp, string]>([
  ["gzip, by the runtime's zlib", gzipSync("a,b\n1,2\n"), /gzip/, "gzip"],
  ["a book", readFileSync("data/books/v6.book"), /SQLite/, "other"],
  ["a PNG of the docs", readFileSync("docs/screenshots/deck-phone.png"), /picture/, "other"],
  ["a local file header of zip (APPNOTE 4.3.7)", ascii("PK\x03\x04\x14\x00"), /zip archive/, "zip"],
  ["an empty archive (APPNOTE 4.3.16)", ascii("PK\x05\x06\x00\x00"), /empty zip/, "zip"],
  ["xz (specification 2.1.1.1)", ascii("\xfd7zXZ\x00"), /xz/, "other"],
  ["zstd (RFC 8878, 3.1.1)", ascii("\x28\xb5\x2f\xfd\x04"), /zstd/, "other"],
  ["bzip2 (recalled)", ascii("BZh91AY&SY"), /bzip2/, "other"],
  ["7z (recalled)", ascii("7z\xbc\xaf\x27\x1c"), /7z/, "other"],
  ["PDF (ISO 32000, 7.5.2)", ascii("%PDF-1.7"), /PDF/, "other"],
  ["JPEG (ISO 10918, recalled)", ascii("\xff\xd8\xff\xe0"), /picture/, "other"],
  ["HDF5 (recalled)", ascii("\x89HDF\r\n\x1a\n"), /HDF5/, "other"],
  ["Parquet (format specification)", ascii("PAR1"), /Parquet/, "other"],
  ["a compound file (recalled)", ascii("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"), /old office/, "other"],
  ["TDMS (recalled)", ascii("TDSm"), /TDMS/, "other"],
])("%s is known by its first bytes", (_, head, what, how) => {
  const packed = packedAs(head);
  expect(packed?.what).toMatch(what);
  expect(packed?.how).toBe(how);
  expect(packed?.expected).toMatch(/expected|CSV/);
  // A single bit off is another file.
  for (let bit = 0; bit < 8; bit++) {
    const other = Uint8Array.from(head);
    other[1]! ^= 1 << bit;
    expect(packedAs(other)?.what).not.toBe(packed?.what);
  }
});

test.each<[string, Uint8Array]>([
  ["text", ascii("Time,Load\n")],
  ["nothing", new Uint8Array(0)],
  ["half a sign", ascii("SQLi")],
  ["what has no sign", brotliCompressSync("a,b\n")],
])("%s is not taken for one", (_, head) => expect(packedAs(head)).toBeNull());
