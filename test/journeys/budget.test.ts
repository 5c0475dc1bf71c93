import { readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { beforeAll, describe, expect, it } from "vitest";
import { builtApp } from "./harness.ts";

interface Chunk {
  readonly file: string;
  readonly imports?: readonly string[];
  readonly isEntry?: boolean;
}

/** Scripts that must have come before a place answers: the entry, the place, and all they import outright. */
function scriptsOf(manifest: Readonly<Record<string, Chunk>>, place: string): ReadonlySet<string> {
  const files = new Set<string>();
  const follow = (name: string) => {
    const chunk = manifest[name]!;
    if (files.has(chunk.file)) return;
    files.add(chunk.file);
    for (const other of chunk.imports ?? []) follow(other);
  };
  for (const [name, { isEntry }] of Object.entries(manifest)) if (isEntry) follow(name);
  follow(place);
  return files;
}

/** kB of 1000 bytes, compressed as the server compresses. */
const weight = (folder: string, files: ReadonlySet<string>): number =>
  [...files].reduce((sum, file) => sum + gzipSync(readFileSync(`${folder}/${file}`)).byteLength, 0) / 1000;

describe("the weight of the built app", () => {
  let folder: string;
  let manifest: Readonly<Record<string, Chunk>>;
  beforeAll(() => {
    folder = builtApp();
    manifest = JSON.parse(readFileSync(`${folder}/manifest.json`, "utf8")) as typeof manifest;
  }, 180_000);

  it("brings the first answer in under 200 kB of compressed script", () => {
    const files = scriptsOf(manifest, "rig/place.tsx");
    const kB = weight(folder, files);
    console.log(`first answer: ${kB.toFixed(1)} kB of compressed script in ${files.size} files`);
    expect(files.size).toBeGreaterThan(1);
    expect(kB).toBeGreaterThan(50);
    expect(kB).toBeLessThan(200);
  });

  it("leaves file reading and the uncertainty of budgets out of the first answer", () => {
    const text = [...scriptsOf(manifest, "rig/place.tsx")]
      .map((file) => readFileSync(`${folder}/${file}`, "utf8"))
      .join("");
    // Words that stand in the texts of zod, of yaml and of the schema of rig files.
    const words = ["ZodError", "tag:yaml.org", "rodebench/rig@1"];
    expect(words.filter((word) => text.includes(word))).toEqual([]);
  });
});
