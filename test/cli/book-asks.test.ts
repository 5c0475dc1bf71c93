import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { folder } from "../book/folder.ts";
import { rodebench } from "../support/command-line.ts";
import { rigText } from "../support/rig-text.ts";

/** A folder with a book of one site, and a way to type in it. */
async function trials() {
  const cwd = folder();
  const type = (...argv: string[]) => rodebench(["book", ...argv], {}, { cwd });
  await type("new", "a.book", "--title", "Ours");
  await type("add", "a.book", "site", "--set", "name=Ebb Cove");
  return { cwd, type };
}

describe("what takes something away asks first", () => {
  it("restore over a sound book tells how much goes, and wants --yes", async () => {
    const { type } = await trials();
    await type("backup", "a.book");
    await type("edit", "a.book", "Ebb Cove", "--set", "description=open to the west");
    await type("add", "a.book", "site", "--set", "name=Flood Cove");
    const asked = await type("restore", "a.book");
    expect([asked.status, asked.out]).toEqual([2, ""]);
    expect(asked.err).toMatch(
      /^a\.book: sound, with 2 transactions and 0 rows of logs that the backup of [^ ]+ does not hold; --yes restores the backup all the same, and keeps the book that is there beside it\n$/,
    );
    expect((await type("list", "a.book", "site")).out).toContain("Flood Cove");
    expect((await type("restore", "a.book", "--yes")).status).toBe(0);
    expect((await type("list", "a.book", "site")).out).not.toContain("Flood Cove");
  });

  it("restore asks nothing where nothing goes", async () => {
    const { type } = await trials();
    await type("backup", "a.book");
    expect((await type("restore", "a.book")).status).toBe(0);
  });

  it("merge of a book that is called otherwise tells both names, and what it is called after", async () => {
    const { type } = await trials();
    await type("new", "b.book", "--title", "Theirs");
    const asked = await type("merge", "a.book", "b.book");
    expect([asked.status, asked.err]).toEqual([
      2,
      'b.book: its title "Theirs", that of this book "Ours"; what was written later will stand for both; --yes merges them\n',
    ]);
    const merged = await type("merge", "a.book", "b.book", "--yes");
    expect(merged.out).toContain("this book is now called Theirs, as there; it was Ours\n");
  });

  it("a wrong token of purge is not told the right one", async () => {
    const { type } = await trials();
    await type("hide", "a.book", "Ebb Cove");
    const token = /--confirm ([0-9a-f]{8})/.exec((await type("purge", "a.book", "Ebb Cove")).out)![1]!;
    const wrong = await type("purge", "a.book", "Ebb Cove", "--confirm", "00000000");
    expect(wrong.status).toBe(2);
    expect(wrong.err).not.toContain(token);
    expect((await type("purge", "a.book", "Ebb Cove", "--confirm", token)).status).toBe(0);
  });
});

describe("records by what they are called", () => {
  it("are found by the end of the id that lists show, and by a name that one has", async () => {
    const { type } = await trials();
    const short = /^([0-9a-f]{8}) {2}Ebb Cove/.exec((await type("list", "a.book", "site")).out)![1]!;
    for (const name of [short, "Ebb Cove", "ebb cove"])
      expect((await type("get", "a.book", name, "kind", "name")).out).toBe("site\nEbb Cove\n");
    await type("add", "a.book", "site", "--set", "name=Ebb Cove");
    const two = await type("get", "a.book", "Ebb Cove", "name");
    expect(two.err).toMatch(
      /^Ebb Cove: 2 records are called so; one of their ids is expected: [0-9a-f]{8}, [0-9a-f]{8}\n$/,
    );
    expect((await type("get", "a.book", short, "nam")).err).toMatch(/^site\.nam: no such field; is name meant\?/);
    expect((await type("get", "a.book", short, "latitude_deg")).out).toBe("\n");
  });
});

describe("what is set", () => {
  it("is read with its unit, and a rig or a boat before it is kept", async () => {
    const { cwd, type } = await trials();
    writeFileSync(join(cwd, "rig.yaml"), rigText("Quay rig"));
    writeFileSync(join(cwd, "bad.yaml"), rigText("Quay rig").replace("30 m", "30 kn"));
    await type("add", "a.book", "anchor", "--set", "name=Fifteen", "--set", "shape=scoop", "--set", "mass_kg=33 lb");
    // 1 lb = 0.45359237 kg, exact.
    expect((await type("get", "a.book", "Fifteen", "mass_kg")).out).toBe("14.96854821\n");
    expect((await type("edit", "a.book", "Fifteen", "--set", "mass_kg=2 m")).err).toContain(
      "is a length; a mass is expected",
    );
    await type("add", "a.book", "rig", "--set", "name=Quay");
    const version = (file: string) => type("add", "a.book", "rigVersion", "--set", "rig=Quay", "--set", `file=${file}`);
    expect((await version("boat6.yaml")).err).toBe(
      'rigVersion.file: "boat6.yaml"; the text of a file is expected: file=@boat6.yaml reads it\n',
    );
    expect((await version("boat6")).err).toContain('rigVersion.file: "boat6"; a rig file is expected');
    expect((await version("@bad.yaml")).err).toMatch(/^rigVersion\.file: rode #1\.chain\.length: "30 kn" is a speed/);
    expect((await version("@gone.yaml")).err).toContain("gone.yaml: no such file");
    expect((await version("@rig.yaml")).status).toBe(0);
    expect((await type("add", "a.book", "boat", "--set", "name=x", "--set", "file=@rig.yaml")).err).toContain(
      "rodebench/boat@1 is expected",
    );
    expect((await type("add", "a.book", "note", "--set", "about=Fifteen", "--set", "text=@@home")).status).toBe(2);
  });
});
