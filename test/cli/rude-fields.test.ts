/** Fields of a book that nobody polite would write, each with the one line it is told in; nothing of them is kept. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { rodebench } from "../support/command-line.ts";

const cwd = mkdtempSync(join(tmpdir(), "rude-"));
let before = "";
const lists = async () => (await rodebench(["book", "history", "a.book", "--json"], {}, { cwd })).out;

beforeAll(async () => {
  await rodebench(["book", "new", "a.book", "--title", "A"], {}, { cwd });
  await rodebench(
    ["book", "add", "a.book", "anchor", "--set", "name=Heron", "shape=stocked", "mass_kg=15"],
    {},
    { cwd },
  );
  before = await lists();
});
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

it.each([
  ["a kind there is none of", ["add", "a.book", "ancor"], 'kind: "ancor"; is anchor meant? one of '],
  ["a field without a value", ["add", "a.book", "anchor", "--set", "name"], '--set: "name"; a field and its value '],
  ["a field twice", ["add", "a.book", "anchor", "--set", "name=A", "name=B"], "--set name: given twice; "],
  [
    "a field mistyped",
    ["edit", "a.book", "Heron", "--set", "mas_kg=3"],
    "anchor.mas_kg: no such field; is mass_kg meant? ",
  ],
  [
    "a field without its unit",
    ["edit", "a.book", "Heron", "--set", "mass=3"],
    "anchor.mass: no such field; is mass_kg meant? ",
  ],
  [
    "a mass in metres",
    ["edit", "a.book", "Heron", "--set", "mass_kg=3 m"],
    'anchor.mass_kg: "3 m" is a length; a mass is expected',
  ],
  [
    "a mass in words",
    ["edit", "a.book", "Heron", "--set", "mass_kg=heavy"],
    'anchor.mass_kg: "heavy"; it does not begin with a number',
  ],
  ["a mass below zero", ["edit", "a.book", "Heron", "--set", "mass_kg=-3"], "anchor.mass_kg: -3; "],
  [
    "a file that is not there",
    ["add", "a.book", "rigVersion", "--set", "file=@gone.yaml"],
    "gone.yaml: no such file; ",
  ],
  [
    "a boat that is none",
    ["add", "a.book", "boat", "--set", "name=A", "file=boat6.yaml"],
    'boat.file: "boat6.yaml"; the text of a file is expected: file=@boat6.yaml reads it',
  ],
  ["a record of no name", ["show", "a.book", "Albatross"], "Albatross: no such record; "],
  ["a record of no sign", ["show", "a.book", ""], '"": no such record; '],
  ["an anchor for a day", ["add", "a.book", "pull", "--set", "day=Heron"], 'pull.day: "Heron", no such record; '],
  ["a transaction that never was", ["undo", "a.book", "--transaction", "last"], "last: "],
  [
    "half a transaction",
    ["history", "a.book", "--limit", "2.5"],
    '--limit: "2.5"; a whole number above zero is expected',
  ],
  ["a field asked for that is none", ["get", "a.book", "Heron", "colour"], "anchor.colour: no such field; one of "],
  [
    "a record purged that is not hidden",
    ["purge", "a.book", "Heron"],
    ": not hidden; only a hidden record is deleted for good: ",
  ],
  ["a book merged into itself", ["merge", "a.book", "a.book"], "a.book: the book itself; another book is expected"],
  ["an export onto a file", ["export", "a.book", "a.book"], "a.book: "],
  ["a backup over a file", ["backup", "a.book", "--to", "a.book"], "--to: a.book; a name not yet taken is expected"],
])("%s is told in one line, and nothing is written", async (_what, argv, line) => {
  const said = await rodebench(["book", ...argv], {}, { cwd });
  expect(said.err).toContain(line);
  expect(said.err).toMatch(/^[^\n]+\n$/);
  expect([said.status, said.out]).toEqual([2, ""]);
  expect(await lists()).toBe(before);
});
