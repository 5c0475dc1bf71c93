import { readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { beforeAll, describe, expect, it } from "vitest";
import { builtApp } from "./harness.ts";

interface Chunk {
  readonly file: string;
  readonly imports?: readonly string[];
  readonly css?: readonly string[];
  readonly isEntry?: boolean;
}

/** What must have come before a place answers: scripts of the entry, the place, and all they import outright, with their styles. */
function filesOf(manifest: Readonly<Record<string, Chunk>>, place: string): ReadonlySet<string> {
  const files = new Set<string>();
  const follow = (name: string) => {
    const chunk = manifest[name]!;
    if (files.has(chunk.file)) return;
    files.add(chunk.file);
    for (const style of chunk.css ?? []) files.add(style);
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
  });

  it("brings the first answer in under 150 kB, compressed: page, scripts and styles", () => {
    const files = new Set([...filesOf(manifest, "rig/place.tsx"), "index.html"]);
    const kB = weight(folder, files);
    console.log(`first answer: ${kB.toFixed(1)} kB compressed in ${files.size} files`);
    expect(files.size).toBeGreaterThan(1);
    expect(kB).toBeGreaterThan(50);
    expect(kB).toBeLessThan(150);
  });

  it("leaves file reading and the sources of the catalogue out of the first answer", () => {
    const text = [...filesOf(manifest, "rig/place.tsx")]
      .map((file) => readFileSync(`${folder}/${file}`, "utf8"))
      .join("");
    // Words that stand in the texts of zod, of yaml, of the schema of rig files and of the catalogue's sources.
    const words = ["ZodError", "tag:yaml.org", "rodebench/rig@1", "CFR 393.108"];
    expect(words.filter((word) => text.includes(word))).toEqual([]);
  });
});
