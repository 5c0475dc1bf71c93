import { mkdirSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import { newBook } from "../../src/book/index.ts";
import { rodebench } from "../support/command-line.ts";

const deepText = "- ".repeat(100_000);
const deepJson = `${'{"a":['.repeat(30_000)}1${"]}".repeat(30_000)}`;

it.each([
  ["settle", ["settle", "-", "--span", "30 m"]],
  ["find", ["find", "-", "--unknown", "depth", "--liftoff", "--pull", "1 kN", "--at", "bow"]],
  ["reduce", ["reduce", "-"]],
  ["choose", ["choose", "-"]],
  ["weather", ["weather", "-", "--wind", "20 kn"]],
  ["gear", ["gear", "--with", "-"]],
])("%s refuses a file nested by the thousand in one line", async (_, argv) => {
  for (const text of [deepText, deepJson]) {
    const { out, err, status } = await rodebench(argv, { "-": text });
    expect([out, status]).toEqual(["", 2]);
    expect(err).toMatch(/nested too deeply; at most 64 levels are expected\n$/);
    expect(err.trimEnd()).not.toContain("\n");
  }
});

it("an exported book, GeoJSON and Signal K nested by the thousand are refused in one line", async () => {
  const cwd = mkdtempSync(join(tmpdir(), "deep-"));
  newBook(join(cwd, "a.book"), { title: "Deep" }).close();
  mkdirSync(join(cwd, "exported"));
  writeFileSync(join(cwd, "exported", "book.json"), deepJson);
  writeFileSync(join(cwd, "places.geojson"), deepJson);
  writeFileSync(join(cwd, "deltas.jsonl"), `${deepJson}\n`.repeat(3));
  for (const argv of [
    ["book", "import", "a.book", "exported"],
    ["book", "import", "a.book", "places.geojson"],
    ["log", "deltas.jsonl", "--into", "a.book"],
  ]) {
    const { err, status } = await rodebench(argv, {}, { cwd });
    expect([argv[1], status, err.trimEnd().split("\n").length, err.length < 400]).toEqual([argv[1], 2, 1, true]);
  }
});
