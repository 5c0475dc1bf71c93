import { createHash } from "node:crypto";
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { crc32, deflateRawSync, gzipSync } from "node:zlib";
import { describe, expect, test } from "vitest";
import { unpackLog } from "../../../src/book/index.ts";
import { rodebench } from "../../support/command-line.ts";

const folder = mkdtempSync(join(tmpdir(), "unpack-"));
const LOG = `Time (s),Load (kN)\n${Array.from({ length: 4000 }, (_, i) => `${i / 10},${(1 + Math.sin(i / 90)).toFixed(3)}`).join("\n")}\n`;

const put = (name: string, bytes: Uint8Array | string): string => {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
};

/** An archive as PKWARE's APPNOTE lays it out (recalled): local headers with their bytes, the directory, its end. */
function zip(files: Readonly<Record<string, string>>, method: 0 | 8 = 8): Buffer {
  const locals: Buffer[] = [];
  const directory: Buffer[] = [];
  let at = 0;
  for (const [name, text] of Object.entries(files)) {
    const packed = method === 8 ? deflateRawSync(text) : Buffer.from(text);
    const common = Buffer.alloc(26);
    common.writeUInt16LE(20, 0);
    common.writeUInt16LE(method, 4);
    common.writeUInt32LE(sum(text), 10);
    common.writeUInt32LE(packed.length, 14);
    common.writeUInt32LE(Buffer.byteLength(text), 18);
    common.writeUInt16LE(Buffer.byteLength(name), 22);
    const local = Buffer.concat([Buffer.from("PK\u0003\u0004", "latin1"), common, Buffer.from(name), packed]);
    const rest = Buffer.alloc(14);
    rest.writeUInt32LE(at, 10);
    directory.push(
      Buffer.concat([Buffer.from("PK\u0001\u0002\u0014\u0000", "latin1"), common, rest, Buffer.from(name)]),
    );
    locals.push(local);
    at += local.length;
  }
  const listed = Buffer.concat(directory);
  const end = Buffer.alloc(18);
  end.writeUInt16LE(directory.length, 4);
  end.writeUInt16LE(directory.length, 6);
  end.writeUInt32LE(listed.length, 8);
  end.writeUInt32LE(at, 12);
  return Buffer.concat([...locals, listed, Buffer.from("PK\u0005\u0006", "latin1"), end]);
}
const sum = (text: string): number => (typeof crc32 === "function" ? crc32(text) : 0);
const of = (path: string) => createHash("sha256").update(readFileSync(path)).digest("hex");

describe("a packed log", () => {
  test("is left where it is when it is not packed", async () => {
    const path = put("plain.csv", LOG);
    expect(await unpackLog(path, folder)).toEqual({ path, name: "plain.csv", remarks: [] });
  });
  test.each([
    ["gzip", "pull.csv.gz", gzipSync(LOG), "pull.csv"],
    ["zip", "pull.zip", zip({ "logs/": "", "logs/pull 7.csv": LOG, "__MACOSX/._pull 7.csv": "x" }), "pull 7.csv"],
    ["a zip that only stores", "stored.zip", zip({ "pull.csv": LOG }, 0), "pull.csv"],
  ])("%s comes out byte for byte", async (_, name, bytes, held) => {
    const unpacked = await unpackLog(put(name, bytes), folder);
    expect(unpacked.name).toBe(held);
    expect(of(unpacked.path)).toBe(createHash("sha256").update(LOG).digest("hex"));
  });
  test("cut off in the middle gives what it holds, and says so", async () => {
    const bytes = gzipSync(LOG);
    const unpacked = await unpackLog(put("cut.csv.gz", bytes.subarray(0, bytes.length / 2)), folder);
    expect(unpacked.remarks).toEqual([{ kind: "gzipCutOff" }]);
    expect(LOG.startsWith(readFileSync(unpacked.path, "utf8"))).toBe(true);
    expect(readFileSync(unpacked.path, "utf8").length).toBeGreaterThan(1000);
  });
  test.each([
    [
      "a workbook",
      "sheet.xlsx",
      zip({ "[Content_Types].xml": "<x/>", "xl/workbook.xml": "<x/>" }),
      /workbook; save the sheet as CSV/,
    ],
    ["two files", "two.zip", zip({ "a.csv": LOG, "b.csv": LOG }), /2 files, "a\.csv", "b\.csv"; an archive of one log/],
    ["no file", "none.zip", zip({}), /no files/],
    ["half an archive", "half.zip", zip({ "a.csv": LOG }).subarray(0, 400), /damaged zip archive/],
    ["bytes changed", "bad.gz", gzipSync(LOG).fill(7, 40, 90), /damaged packed file/],
    ["an old spreadsheet", "old.xls", Buffer.from("d0cf11e0a1b11ae1", "hex"), /save the sheet as CSV/],
  ])("%s is refused in words that help", async (_, name, bytes, words) => {
    await expect(unpackLog(put(name, bytes), folder, name)).rejects.toThrow(words);
  });

  test("is reduced as the log it holds", async () => {
    const [plain, packed, zipped] = await Promise.all(
      [put("same.csv", LOG), put("same.csv.gz", gzipSync(LOG)), put("same.zip", zip({ "same.csv": LOG }))].map((path) =>
        rodebench(["trace", path, "--json"]),
      ),
    );
    expect(plain!.status).toBe(0);
    expect(packed!.out).toBe(plain!.out);
    expect(zipped!.out).toBe(plain!.out);
  });
  test("is looked at by the command like any other", async () => {
    const { out, status } = await rodebench(["log", "--preview", put("look.csv.gz", gzipSync(LOG))]);
    expect(status).toBe(0);
    expect(out).toMatch(/a table of 2 columns/);
  });
});
