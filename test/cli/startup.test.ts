/**
 * What a command reads before it can begin: most of a short command's time. Held as a list of rooms and packages, and a
 * count of files, since a time says more of the machine than of the program.
 */
import { readFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { expect, it } from "vitest";
import { root } from "../support/command-line.ts";

/** Imports that are there when it runs; those of types alone are not, and those within functions wait. */
const IMPORT = /^(?:import|export) (?!type )(?:[^"';]*? from )?"([^"]+)";/gm;

/** The files and packages that a file reads, itself first. */
function read(files: readonly string[]): { files: Set<string>; packages: Set<string> } {
  const found = { files: new Set<string>(), packages: new Set<string>() };
  const open = files.map((file) => join(root, file));
  for (let file = open.pop(); file !== undefined; file = open.pop()) {
    if (found.files.has(file)) continue;
    found.files.add(file);
    if (!file.endsWith(".ts")) continue;
    for (const [, name] of readFileSync(file, "utf8").matchAll(IMPORT))
      if (name!.startsWith(".")) open.push(join(dirname(file), name!));
      else if (!name!.startsWith("node:")) found.packages.add(name!.split("/")[0]!);
  }
  return found;
}

const roomsOf = (files: Set<string>): string[] =>
  [...new Set([...files].map((file) => relative(join(root, "src"), file).split("/")[0]!))].sort();

it.each([
  [
    "settle",
    ["cli", "gear", "numeric", "quantity", "rode", "statistics", "words"],
    ["commander", "pure-rand", "yaml", "zod"],
    190,
  ],
  [
    "gear",
    ["cli", "gear", "numeric", "quantity", "rode", "statistics"],
    ["commander", "pure-rand", "yaml", "zod"],
    170,
  ],
  [
    "compare",
    ["cli", "gear", "holding", "numeric", "quantity", "rode", "sea", "statistics", "words"],
    ["commander", "papaparse", "pure-rand", "yaml", "zod"],
    260,
  ],
] as const)(
  "%s reads the rooms it answers from, and no store, server, log or drawing",
  (command, rooms, packages, most) => {
    const found = read(["src/cli/main.ts", `src/cli/${command}.ts`]);
    expect(roomsOf(found.files)).toEqual(rooms);
    expect([...found.packages].sort()).toEqual(packages);
    expect(found.files.size).toBeLessThan(most);
  },
);

it("the version and a mistyped option are told without any command read", () => {
  expect(roomsOf(read(["src/cli/main.ts"]).files)).toEqual(["cli", "quantity"]);
});

it("finds a store where there is one", () => {
  expect(roomsOf(read(["src/cli/book.ts"]).files)).toContain("book");
});
