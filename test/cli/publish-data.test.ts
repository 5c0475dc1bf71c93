/** A package written, checked and compared by the commands themselves, on the demonstration book. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createDemoBook, systemPorts } from "../../src/book/index.ts";
import { rodebench } from "../support/command-line.ts";
import { schemaTroubles } from "../support/schema-troubles.ts";

const folder = mkdtempSync(join(tmpdir(), "publish-data-"));
const machine = {
  cwd: folder,
  write: async (path: string, content: string | Uint8Array) => {
    mkdirSync(dirname(resolve(folder, path)), { recursive: true });
    writeFileSync(resolve(folder, path), content);
  },
};
const run = (...argv: string[]) => rodebench(argv, {}, machine);

beforeAll(() => createDemoBook(join(folder, "demo.book"), { who: "test", ports: systemPorts }).close());
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("publish data and publish check", () => {
  it("write a package of a book that works out again from itself alone, draws and all", {
    timeout: 600_000,
  }, async () => {
    const written = await run(
      "publish",
      "data",
      "demo.book",
      "--to",
      "package",
      "--by",
      "An invented tester",
      "--json",
    );
    expect(written.err).toBe("");
    const told = JSON.parse(written.out) as { pulls: number; files: { path: string; bytes: number }[] };
    expect(schemaTroubles("data-published@1", told)).toEqual([]);
    expect(told.pulls).toBe(36);
    for (const { path, bytes } of told.files) expect(readFileSync(join(folder, "package", path)).length).toBe(bytes);
    // Only the folder goes with it: the book is not there any more.
    rmSync(join(folder, "demo.book"));
    const checked = await run("publish", "check", "package", "--json");
    expect(checked.status).toBe(0);
    const answer = JSON.parse(checked.out) as { answers: number; differences: unknown[] };
    expect(schemaTroubles("package-checked@1", answer)).toEqual([]);
    expect(answer.differences).toEqual([]);
    expect(answer.answers).toBeGreaterThan(300);
  });

  it("are read by compare, alone and beside another tester's", async () => {
    const alone = await run("compare", "package", "--no-sampling", "--json");
    expect(alone.err).toBe("");
    expect((JSON.parse(alone.out) as { pulls: number }).pulls).toBe(36);
    const beside = await run("compare", "package", "--beside", "package", "--no-sampling", "--json");
    const { pulls, anchors } = JSON.parse(beside.out) as { pulls: number; anchors: { pulls: number }[] };
    expect(pulls).toBe(72);
    expect(anchors.map((about) => about.pulls)).toEqual([18, 18, 18, 18]);
  });

  it("refuse what they cannot write or read, in one line", async () => {
    const cases: [argv: string[], line: string][] = [
      [["publish", "check", "."], ".: no datapackage.json in it; the folder of a data package is expected\n"],
      [
        ["publish", "data", "x.csv", "--to", "y", "--with", "names"],
        '--with: "names"; one of people, remarks, positions is expected\n',
      ],
      [
        ["publish", "data", "x.csv", "--to", "y", "--date", "17 May"],
        '--date: "17 May"; a day such as 2031-05-17 is expected\n',
      ],
    ];
    for (const [argv, line] of cases) {
      const { err, status } = await run(...argv);
      expect(err).toBe(line);
      expect(status).toBe(2);
    }
  });
});
