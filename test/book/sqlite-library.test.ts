import { writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import Database from "better-sqlite3";
import { expect, test } from "vitest";
import { libraryTrouble } from "../../src/book/trouble.ts";
import { folder } from "./folder.ts";

function raisedBy(work: () => unknown): unknown {
  try {
    work();
  } catch (error) {
    return error;
  }
  throw new Error("nothing was raised");
}

// The errors are those better-sqlite3 and its loader raise, not errors made up here.
test("a missing SQLite library is told in one line with what to do", () => {
  const load = createRequire(createRequire(import.meta.url).resolve("better-sqlite3"))("bindings");
  for (const error of [
    raisedBy(() => load({ bindings: "nothing.node", module_root: folder() })),
    raisedBy(() => new Database(":memory:", { nativeBinding: join(folder(), "nothing.node") })),
  ]) {
    expect(libraryTrouble(error)?.message).toBe(
      `SQLite's built library: missing for Node.js ${process.version} on ${process.platform} ${process.arch}; run \`npm rebuild better-sqlite3\` where rodebench is installed; it fetches the library, or compiles it where a C++ compiler and Python are`,
    );
  }
});

test("one that cannot be loaded, built for another Node.js or half written, likewise", () => {
  const path = join(folder(), "broken.node");
  writeFileSync(path, "no library");
  const error = raisedBy(() => new Database(":memory:", { nativeBinding: path }));
  expect(libraryTrouble(error)?.message).toMatch(/^SQLite's built library: not loadable for Node.js v/);
});

test("other errors stay what they are", () => {
  const error = raisedBy(() => new Database(join(folder(), "no", "book.rodebook")));
  expect(libraryTrouble(error)).toBeUndefined();
});
