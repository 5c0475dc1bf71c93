import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { makeFolders } from "../../src/book/index.ts";
import { besideFile } from "../../src/cli/beside.ts";
import { textOfBytes } from "../../src/cli/text-of-bytes.ts";
import { folder } from "../book/folder.ts";
import { rodebench } from "../support/command-line.ts";

const TEXT = "format: rodebench/rig@1\nname: Vågø\n";
const utf16 = (text: string, big: boolean): Uint8Array => {
  const bytes = Buffer.from(text, "utf16le");
  return big ? bytes.swap16() : bytes;
};

describe("files", () => {
  it.each([
    ["UTF-8", Buffer.from(TEXT)],
    ["UTF-8 with its mark", Buffer.from(`\ufeff${TEXT}`)],
    ["UTF-16, little end first", utf16(`\ufeff${TEXT}`, false)],
    ["UTF-16, big end first", utf16(`\ufeff${TEXT}`, true)],
    ["UTF-16 without a mark", utf16(TEXT, false)],
    ["Windows' Latin", Buffer.from(TEXT, "latin1")],
  ])("in %s are read", async (_, bytes) => {
    expect(await textOfBytes(bytes)).toBe(TEXT);
  });

  it("that a file names lie beside it, unless they are named from the root of a disk", () => {
    expect(besideFile("runs/a.yaml", "rig.yaml")).toBe("runs/rig.yaml");
    expect(besideFile("runs/a.yaml", "../rigs/rig.yaml")).toBe("rigs/rig.yaml");
    expect(besideFile("runs/a.yaml", "/rigs/rig.yaml")).toBe("/rigs/rig.yaml");
    expect(besideFile("runs/a.yaml", "C:\\rigs\\rig.yaml")).toBe("C:\\rigs\\rig.yaml");
    expect(besideFile("runs/a.yaml", "\\\\boat\\rigs\\rig.yaml")).toBe("\\\\boat\\rigs\\rig.yaml");
    expect(besideFile("runs/a.yaml", "..\\rigs\\rig.yaml")).toBe("rigs/rig.yaml");
    expect(besideFile("-", "rig.yaml")).toBe("rig.yaml");
  });

  it("that are no log are no preview, and the others are shown", async () => {
    const cwd = folder();
    writeFileSync(join(cwd, "empty.csv"), "");
    writeFileSync(
      join(cwd, "noise.csv"),
      Uint8Array.from({ length: 4000 }, (_, i) => (i * 7919) % 256),
    );
    writeFileSync(join(cwd, "log.csv"), "Time (s),Load (N)\n0,1\n1,2\n2,3\n");
    for (const name of ["empty.csv", "noise.csv"]) {
      const said = await rodebench(["log", name, "--preview"], {}, { cwd });
      expect([said.status, said.out]).toEqual([2, ""]);
      expect(said.err).toMatch(new RegExp(`^${name}: [^\\n]+ is expected\\n$`));
    }
    const both = await rodebench(["log", "log.csv", "empty.csv", "--preview"], {}, { cwd });
    expect(both.status).toBe(2);
    expect(both.out).toContain("log.csv");
  });

  it("have their folders made one by one, and what cannot be made ends at once", () => {
    const at = folder();
    expect(makeFolders(join(at, "a/b/c"))).toBe(join(at, "a"));
    expect(makeFolders(join(at, "a/b/c"))).toBeUndefined();
    mkdirSync(join(at, "d"));
    writeFileSync(join(at, "d/file"), "");
    expect(() => makeFolders(join(at, "d/file/e"))).toThrow(/ENOTDIR|EEXIST/);
  });
});
