import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { zipOf } from "../../src/publish/index.ts";

const files = new Map([
  ["a/ä.txt", new TextEncoder().encode("one")],
  ["empty", new Uint8Array()],
  ["b.bin", Uint8Array.from({ length: 70_000 }, (_, i) => (i * 7919) % 256)],
]);
const python = spawnSync("python3", ["--version"]).status === 0;
if (!python) console.log("no python3 here: archives are not read by another program");

describe("an archive", () => {
  it("has the check sum of its bytes (CRC-32 of 'one', computed by Python's zlib: 0x7A6C86F1)", () => {
    expect(Buffer.from(zipOf(files)).readUInt32LE(14).toString(16)).toBe("7a6c86f1");
  });

  it.skipIf(!python)("is sound and holds its files for another reader (Python's zipfile)", () => {
    const folder = mkdtempSync(join(tmpdir(), "zip-"));
    writeFileSync(join(folder, "x.zip"), zipOf(files));
    const script =
      "import sys,zipfile; z=zipfile.ZipFile(sys.argv[1]); print(z.testzip()); z.extractall(sys.argv[2]); print(','.join(z.namelist()))";
    const said = execFileSync("python3", ["-c", script, join(folder, "x.zip"), folder], { encoding: "utf8" });
    expect(said).toBe("None\na/ä.txt,empty,b.bin\n");
    for (const [path, bytes] of files) expect(new Uint8Array(readFileSync(join(folder, path)))).toEqual(bytes);
    rmSync(folder, { recursive: true, force: true });
  });

  it("is the same to the byte from the same files", () => {
    expect(zipOf(files)).toEqual(zipOf(new Map(files)));
  });
});
