import { readFileSync, truncateSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { folder } from "../book/folder.ts";
import { rodebench } from "../support/command-line.ts";
import { maskedSession, typed } from "../support/session.ts";

function terminal(cwd: string) {
  const type = (...argv: string[]) => rodebench(argv, {}, { cwd });
  const json = async (...argv: string[]) => {
    const { out, err, status } = await type(...argv, "--json");
    expect([status, err]).toEqual([0, ""]);
    return JSON.parse(out);
  };
  return { type, json };
}

describe("docs/book.md", () => {
  it("shows what the commands answer, in order", async () => {
    const { type } = terminal(folder());
    const blocks = [...readFileSync("docs/book.md", "utf8").matchAll(/^```session\n([\s\S]*?)^```/gm)].map(
      (m) => m[1]!,
    );
    expect(blocks.length).toBeGreaterThan(8);
    let site = "";
    for (const block of blocks) {
      for (const turn of block.split(/^\$ /m).slice(1)) {
        const [line, ...rest] = turn.split("\n");
        const argv = typed(line!, { site });
        const { out, err, status } = await type(...argv.slice(1));
        if (line!.includes("add trials.book site") && status === 0) site = out.trim();
        const shown = `${out}${err}${status === 0 ? "" : `[exit status ${status}]\n`}`;
        expect(maskedSession(shown), line).toBe(rest.join("\n"));
      }
    }
  });
});

describe("rodebench book", () => {
  let demo = Buffer.alloc(0);

  it("answers each command with one JSON document", async () => {
    const at = folder();
    const { json } = terminal(at);
    expect(await json("book", "demo", "demo.book")).toMatchObject({ format: "rodebench/book-made@1", simulated: true });
    expect(await json("book", "list", "demo.book")).toMatchObject({ counts: { records: { pull: 36 } } });
    const { records } = await json("book", "list", "demo.book", "pull");
    expect(records).toHaveLength(36);
    const id = records[0].id;
    expect(await json("book", "show", "demo.book", id)).toMatchObject({ kind: "pull", record: { id, loadAt: "bow" } });
    expect(
      await json(
        "book",
        "edit",
        "demo.book",
        id,
        "--set",
        "depth_m=5.5",
        "--set",
        "remarks=2 m of swell",
        "--set",
        "heading_deg=",
      ),
    ).toMatchObject({ id });
    expect(await json("book", "show", "demo.book", id)).toMatchObject({
      record: { depth_m: 5.5, remarks: "2 m of swell", heading_deg: null },
    });
    expect(await json("book", "history", "demo.book", "--record", id)).toMatchObject({
      transactions: [{ label: "edit pull" }, {}],
    });
    expect(await json("book", "undo", "demo.book")).toMatchObject({ kind: "reverted", fields: 3 });
    expect(await json("book", "redo", "demo.book")).toMatchObject({ kind: "reverted" });
    await json("book", "hide", "demo.book", id);
    const { token } = await json("book", "purge", "demo.book", id);
    expect(await json("book", "purge", "demo.book", id, "--confirm", token)).toMatchObject({ records: 1 });
    expect(await json("book", "check", "demo.book")).toMatchObject({ sound: true, counts: { records: { pull: 35 } } });
    const exported = await json("book", "export", "demo.book", "open");
    expect(await json("book", "import", "copy.book", "open")).toMatchObject({ digest: exported.digest });
    expect(await json("book", "merge", "copy.book", "demo.book")).toMatchObject({ digest: exported.digest });
    expect(await json("book", "backup", "copy.book", "--to", "elsewhere.book")).toMatchObject({
      name: "elsewhere.book",
    });
    expect(await json("book", "check", "elsewhere.book")).toMatchObject({ digest: exported.digest });
    const log = (await json("book", "list", "demo.book", "log")).records[0].id;
    expect(await json("book", "show", "demo.book", log)).toMatchObject({ content: { finished: true } });
  });

  it("offers the newest good backup of a damaged book, and restores it", async () => {
    const at = folder();
    const { type, json } = terminal(at);
    await type("book", "demo", "demo.book");
    const { digest } = await json("book", "check", "demo.book");
    const { name } = await json("book", "backup", "demo.book");
    truncateSync(join(at, "demo.book"), 50_000);
    const told = await type("book", "list", "demo.book");
    expect([told.status, told.out]).toEqual([2, ""]);
    expect(told.err).toMatch(
      /^demo\.book: damaged \([^\n]+\); nothing was overwritten; its newest good backup is [^\n]+\n$/,
    );
    expect(told.err).toContain(`${name}: rodebench book restore demo.book\n`);
    expect((await type("book", "restore", "demo.book")).status).toBe(0);
    expect(await json("book", "check", "demo.book")).toMatchObject({ digest });
  });

  it("leaves no book behind when an import into a new one fails", async () => {
    const { type } = terminal(folder());
    expect((await type("book", "import", "new.book", ".")).err).toBe(
      ".: no book.json and no records; a book as open files is expected\n",
    );
    expect((await type("book", "list", "new.book")).err).toContain("no such file");
  });

  it.each([
    [["list", "nope.book"], "nope.book: no such file; a book is expected; make one with rodebench book new\n"],
    [["new", "demo.book", "--title", "x"], "demo.book: there is a file already; a name not yet taken is expected\n"],
    [["new", "x.book"], "rodebench: option '--title <text>' missing; it is expected\n"],
    [
      ["new", "no/folder/x.book", "--title", "x"],
      "no/folder/x.book: cannot be opened; a book in a folder that exists is expected\n",
    ],
    [["new", "x.book", "--title", ""], "about.title: nothing given; a title is expected\n"],
    [["list", "demo.book", "pulls"], /^kind: "pulls"; is pull meant\? one of about, site, .* is expected\n$/],
    [
      ["show", "demo.book", "x"],
      "x: no such record; the id of a record in this book, or a name that one has, is expected\n",
    ],
    [
      ["add", "demo.book", "site", "--set", "name"],
      '--set: "name"; a field and its value such as "depth_m=6" are expected\n',
    ],
    [["add", "demo.book", "site", "--set", "nam=x"], /^site\.nam: no such field; is name meant\? One of name, /],
    [["history", "demo.book", "--limit", "0"], '--limit: "0"; a whole number above zero is expected\n'],
    [["history", "demo.book", "--record", "x"], /^x: no such record/],
    [
      ["undo", "demo.book", "--transaction", "x"],
      "x: no such transaction; the id of a transaction in this book is expected\n",
    ],
    [["restore", "demo.book", "--backup", "x"], /^--backup: x; one of the backups of demo\.book is expected/],
    [["export", "demo.book", "."], ".: there is something already; a new or empty folder is expected\n"],
    [["import", "demo.book", "nope"], /^nope: /],
    [["merge", "demo.book", "nope.book"], /^nope\.book: no such file/],
    [["merge", "demo.book", "demo.book"], "demo.book: the book itself; another book is expected\n"],
    [["purge", "demo.book", "x"], /^x: no such record/],
    [["backup", "demo.book", "--to", "demo.book"], "--to: demo.book; a name not yet taken is expected\n"],
    [
      ["toss", "demo.book"],
      /^rodebench: unknown command 'toss'; one of those `rodebench book --help` lists is expected\n$/,
    ],
  ] as [string[], string | RegExp][])("refuses %j in one line", async (argv, line) => {
    const at = folder();
    // Made once; each of these leaves its copy as it was.
    if (demo.length === 0) {
      await terminal(at).type("book", "demo", "demo.book");
      demo = readFileSync(join(at, "demo.book"));
    } else writeFileSync(join(at, "demo.book"), demo);
    const { out, err, status } = await terminal(at).type("book", ...argv);
    expect([out, status]).toEqual(["", 2]);
    expect(err).toMatch(/^[^\n]+\n$/);
    if (typeof line === "string") expect(err).toBe(line);
    else expect(err).toMatch(line);
  });
});
