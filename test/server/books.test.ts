import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Sqlite from "better-sqlite3";
import { afterEach, describe, expect, it } from "vitest";
import { newBook, openBook } from "../../src/book/index.ts";
import { bookFileName } from "../../src/server/book-files.ts";
import { BooksHere, lastChosenIn, openBench } from "../../src/server/index.ts";
import { waitFor } from "../support/wait-for.ts";

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0)) await close();
});

interface Listed {
  readonly id: string;
  readonly title: string;
  readonly open: boolean;
  readonly simulated: boolean;
  readonly demo: boolean;
  readonly file: string | null;
  readonly pulls: number;
  readonly trouble: string | null;
}

/** A bench on a book of its own folder, and the data folder beside it. */
async function bench(first = "season.book") {
  const root = mkdtempSync(join(tmpdir(), "books-"));
  const [folder, dataFolder] = [join(root, "trials"), join(root, "data")];
  for (const made of [folder, dataFolder]) mkdirSync(made);
  newBook(join(folder, first), { title: "Season" }).close();
  const faults: unknown[] = [];
  const told: string[] = [];
  const fault = (error: unknown): void => void faults.push(error);
  const books = new BooksHere(openBook(join(folder, first)), {
    dataFolder,
    instruments: [],
    now: Date.now,
    fault,
    told: (line) => told.push(line),
  });
  const open = await openBench({
    ...books.served,
    builtFolder: join(root, "none"),
    port: 0,
    now: Date.now,
    ownAddresses: () => ["127.0.0.2"],
    fault,
  });
  books.onTurn((served) => open.turnTo(served));
  let closed = false;
  const close = async (): Promise<void> => {
    if (closed) return;
    closed = true;
    await open.close();
    await books.close();
    rmSync(root, { recursive: true, force: true });
  };
  closing.push(close);
  const ask = async (method: string, path: string, body?: unknown, at = open.address) => {
    const answer = await fetch(`${at}/api/1${path}`, {
      method,
      headers: { "content-type": "application/json" },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    return { status: answer.status, body: (await answer.json()) as Record<string, unknown> };
  };
  const list = async () => (await ask("GET", "/books")).body.books as Listed[];
  const title = async () => ((await ask("GET", "/book")).body.about as { title: string }).title;
  return { root, folder, dataFolder, open, books, faults, told, ask, list, title, close };
}

const lineOf = ({ status, body }: { status: number; body: Record<string, unknown> }): string => {
  const { place, given, expected } = body.error as Record<string, string>;
  return `${status} ${place}: ${given}; ${expected}`;
};

describe("the books of this computer", () => {
  it("are those of the folder, and the demonstration, which is said to be one before it is made and after", async () => {
    const { list, ask, title, dataFolder, faults } = await bench();
    expect(await list()).toEqual([
      {
        id: "season.book",
        file: "season.book",
        demo: false,
        open: true,
        title: "Season",
        simulated: false,
        pulls: 0,
        trouble: null,
      },
      {
        id: "demo",
        file: null,
        demo: true,
        open: false,
        title: "Skerrow Sound trials (invented)",
        simulated: true,
        pulls: 0,
        trouble: null,
      },
    ]);
    expect(existsSync(join(dataFolder, "demo.book"))).toBe(false);
    expect((await ask("POST", "/books/open", { id: "demo" })).status).toBe(200);
    expect(await title()).toBe("Skerrow Sound trials (invented)");
    const [season, demo] = await list();
    expect(season).toMatchObject({ id: "season.book", open: false });
    expect(demo).toMatchObject({ id: "demo", open: true, simulated: true, demo: true });
    expect(demo!.pulls).toBeGreaterThan(10);
    expect(faults).toEqual([]);
  });
  it("a new one is empty, made in the folder, and the bench then reads and writes it and no other", async () => {
    const { list, ask, title, folder, told, close, root } = await bench();
    await ask("POST", "/records", record("Before"));
    const made = await ask("POST", "/books", { title: "  Our trials 2031 " });
    expect(made).toMatchObject({
      status: 201,
      body: { book: { title: "Our trials 2031", file: "our-trials-2031.book", pulls: 0, open: false } },
    });
    const { id } = made.body.book as Listed;
    expect((await ask("POST", "/books/open", { id })).body.book).toMatchObject({ id, open: true });
    expect(await title()).toBe("Our trials 2031");
    expect((await ask("GET", "/records/site")).body.records).toEqual([]);
    await ask("POST", "/records", record("After"));
    expect(told).toContain(`the bench is now open on ${join(folder, "our-trials-2031.book")}`);
    expect((await list()).map((book) => [book.id, book.open])).toEqual([
      ["our-trials-2031.book", true],
      ["season.book", false],
      ["demo", false],
    ]);
    expect(existsSync(root)).toBe(true);
    // The book before is closed in good order once its requests are answered.
    await waitFor(() => !existsSync(join(folder, "season.book-wal")));
    const sites = (file: string): unknown[] => {
      const book = openBook(join(folder, file), { backups: false });
      const names = book.list("site").map(({ name }) => name);
      book.close();
      return names;
    };
    expect([sites("season.book"), sites("our-trials-2031.book")]).toEqual([["Before"], ["After"]]);
    await close();
  });
  it("one title stands for one book: the second is refused, in whatever letters, and nothing is made", async () => {
    const { ask, folder } = await bench();
    await ask("POST", "/books", { title: "Our trials" });
    const before = readdirSync(folder).sort();
    for (const title of ["Our trials", " OUR TRIALS ", "Season", "Skerrow Sound trials (invented)"])
      expect(lineOf(await ask("POST", "/books", { title }))).toBe(
        `409 title: ${JSON.stringify(title.trim())}; a title that no book here has yet`,
      );
    expect(readdirSync(folder).sort()).toEqual(before);
    // Another title whose letters make the same file's name gets a number behind it.
    expect((await ask("POST", "/books", { title: "Our, trials!" })).body.book).toMatchObject({
      file: "our-trials-2.book",
    });
  });
  it.each([
    ["../../escape", "escape.book"],
    ["/etc/passwd", "etc-passwd.book"],
    ["..", "book.book"],
    ["C:\\Windows\\con", "c-windows-con.book"],
    ["con", "book-con.book"],
    ["demo", "book-demo.book"],
    ["船の本", "book.book"],
    [".hidden", "hidden.book"],
    ["Ærlig prøve", "rlig-pr-ve.book"],
    ["é".repeat(120), `${"e".repeat(60)}.book`],
    ["a; rm -rf $HOME", "a-rm-rf-home.book"],
    ["%2e%2e%2fup", "2e-2e-2fup.book"],
  ])("a book called %j lies in the folder as %s, its title whole", async (title, file) => {
    const { ask, folder, root } = await bench();
    const outside = readdirSync(root).sort();
    const made = await ask("POST", "/books", { title });
    expect(made).toMatchObject({ status: 201, body: { book: { title, file } } });
    expect(
      readdirSync(folder)
        .filter((name) => name.endsWith(".book"))
        .sort(),
    ).toEqual([file, "season.book"].sort());
    expect(readdirSync(root).sort()).toEqual(outside);
  });
  it.each([
    [{ title: "" }, /^400 body\.title: ""; a title is expected$/],
    [{ title: "   " }, /a title is expected/],
    [{ title: "x".repeat(121) }, /a title of at most 120 letters/],
    [{ title: "two\nlines" }, /a title of one line/],
    [{ title: "nul\u0000" }, /a title of one line/],
    [{ title: "turned \u202e round" }, /a title of one line, without hidden characters/],
    [{ title: 3 }, /^400 body\.title: 3; /],
    [{ title: "a", path: "/tmp/a.book" }, /^400 body/],
    [{}, /^400 body\.title/],
  ])("%j makes none, and says what was expected", async (body, line) => {
    const { ask, folder } = await bench();
    expect(lineOf(await ask("POST", "/books", body))).toMatch(line);
    expect(readdirSync(folder).filter((name) => name.endsWith(".book"))).toEqual(["season.book"]);
  });
  it.each([
    "../data/demo.book",
    "/etc/passwd",
    "demo.book",
    "season.book/../season.book",
    "./season.book",
    "linked.book",
    ".hidden.book",
    "notes.txt",
    "__proto__",
    "SEASON.BOOK",
  ])("the id %j, which is not in the list, opens nothing", async (id) => {
    const { ask, title, folder, root } = await bench();
    newBook(join(root, "outside.book"), { title: "Outside" }).close();
    symlinkSync(join(root, "outside.book"), join(folder, "linked.book"));
    newBook(join(folder, ".hidden.book"), { title: "Hidden" }).close();
    writeFileSync(join(folder, "notes.txt"), "notes");
    expect(lineOf(await ask("POST", "/books/open", { id }))).toBe(
      `404 book: ${JSON.stringify(id)}; the id of a book in the list`,
    );
    expect(await title()).toBe("Season");
  });
  it("one that is no book, or that another program holds, is told in one line, and the book before is served on", async () => {
    const { ask, list, title, folder, faults } = await bench();
    writeFileSync(join(folder, "broken.book"), "no book at all".repeat(40));
    newBook(join(folder, "held.book"), { title: "Held" }, { backups: false }).close();
    const other = new Sqlite(join(folder, "held.book"));
    other.exec("PRAGMA locking_mode = EXCLUSIVE; BEGIN EXCLUSIVE; CREATE TABLE other (x);");
    try {
      const troubles = (await list()).map((book) => [book.id, book.trouble]);
      expect(troubles).toEqual([
        ["broken.book", "not a book; a file that rodebench book new made is expected"],
        ["held.book", "another program is writing to it; close that program or try again"],
        ["season.book", null],
        ["demo", null],
      ]);
      expect(lineOf(await ask("POST", "/books/open", { id: "broken.book" }))).toMatch(
        /^503 .*broken\.book: not a book; /,
      );
      expect(lineOf(await ask("POST", "/books/open", { id: "held.book" }))).toMatch(
        /^503 .*held\.book: another program is writing to it; close that program or try again$/,
      );
      expect(await title()).toBe("Season");
    } finally {
      other.exec("ROLLBACK");
      other.close();
    }
    expect((await ask("POST", "/books/open", { id: "held.book" })).status).toBe(200);
    expect(await title()).toBe("Held");
    expect(faults).toEqual([]);
  });
  it("one that another program reads and writes in turn opens, as books do", async () => {
    const { ask, title, folder } = await bench();
    const other = newBook(join(folder, "shared.book"), { title: "Shared" });
    expect((await ask("POST", "/books/open", { id: "shared.book" })).status).toBe(200);
    other.add("site", { name: "By the other" });
    expect(await title()).toBe("Shared");
    expect((await ask("GET", "/records/site")).body.records).toMatchObject([{ name: "By the other" }]);
    other.close();
  });
  it("a device on the boat's network neither sees nor changes them; its key is good for the one book it was let in to", async () => {
    const { ask, open, folder } = await bench();
    newBook(join(folder, "other.book"), { title: "Other" }).close();
    const { addresses, code } = await open.openToBoatNetwork({ encryption: { kind: "none" } });
    const at = addresses[0]!;
    const entered = await fetch(`${at}/let-in`, {
      method: "POST",
      redirect: "manual",
      headers: { "content-type": "application/x-www-form-urlencoded", origin: at },
      body: new URLSearchParams({ code, name: "Foredeck phone" }).toString(),
    });
    const cookie = entered.headers.getSetCookie()[0]!.split(";")[0]!;
    const byDevice = async (method: string, path: string, body?: unknown) => {
      const answer = await fetch(`${at}/api/1${path}`, {
        method,
        headers: { "content-type": "application/json", cookie, origin: at },
        ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      });
      return { status: answer.status, body: (await answer.json()) as Record<string, unknown> };
    };
    expect((await byDevice("GET", "/book")).status).toBe(200);
    for (const [method, path, body] of [
      ["GET", "/books", undefined],
      ["POST", "/books", { title: "Mine" }],
      ["POST", "/books/open", { id: "other.book" }],
    ] as const)
      expect(lineOf(await byDevice(method, path, body))).toBe(
        "403 books: asked from another device; at the computer that holds the book",
      );
    const waits = open.newCode().code;
    await ask("POST", "/books/open", { id: "other.book" });
    expect((await byDevice("GET", "/book")).status).toBe(401);
    // A code given for the book before lets nobody in to the next.
    const late = await fetch(`${at}/let-in`, {
      method: "POST",
      redirect: "manual",
      headers: { "content-type": "application/x-www-form-urlencoded", origin: at },
      body: new URLSearchParams({ code: waits, name: "Late" }).toString(),
    });
    expect(late.status).toBe(401);
    await ask("POST", "/books/open", { id: "season.book" });
    expect((await byDevice("GET", "/book")).status).toBe(200);
  });
  it("another site's page can neither list, make nor open one", async () => {
    const { open, folder, title } = await bench();
    for (const [method, path] of [
      ["GET", "/books"],
      ["POST", "/books"],
      ["POST", "/books/open"],
    ] as const) {
      const answer = await fetch(`${open.address}/api/1${path}`, {
        method,
        headers: { "content-type": "application/json", origin: "http://elsewhere.example" },
        ...(method === "GET" ? {} : { body: JSON.stringify({ title: "Theirs", id: "demo" }) }),
      });
      expect(answer.status).toBe(403);
    }
    expect(readdirSync(folder).filter((name) => name.endsWith(".book"))).toEqual(["season.book"]);
    expect(await title()).toBe("Season");
  });
  it("while a log is read into the book no other is opened in its place", async () => {
    const { ask, open, title } = await bench();
    const rows = Array.from({ length: 400_000 }, (_, i) => `${i / 10},${1000 + (i % 50)}`).join("\n");
    const sent = await fetch(`${open.address}/api/1/sent-logs?name=a.csv`, {
      method: "POST",
      headers: { "content-type": "application/octet-stream" },
      body: `time s,load N\n${rows}\n`,
    });
    const { id } = ((await sent.json()) as { sent: { id: string } }).sent;
    const begun = await ask("POST", `/sent-logs/${id}/read`, { told: { start: "2031-05-03T09:00:00Z" } });
    expect(begun.status).toBe(202);
    expect(lineOf(await ask("POST", "/books/open", { id: "demo" }))).toBe(
      "409 book: a log is being read into it; end it first; then another book can be opened",
    );
    expect(await title()).toBe("Season");
    await ask("POST", `/sent-logs/${id}/stop`, {});
    expect((await ask("POST", "/books/open", { id: "demo" })).status).toBe(200);
  });
});

describe("the book that is opened without a name", () => {
  it("is the one last chosen in the data folder; the demonstration when that is gone", async () => {
    const root = mkdtempSync(join(tmpdir(), "books-"));
    const first = lastChosenIn(root);
    expect(first.about().simulated).toBe(true);
    const books = new BooksHere(first, {
      dataFolder: root,
      instruments: [],
      now: Date.now,
      fault: (e) => {
        throw e;
      },
      told: () => undefined,
    });
    books.choose(books.make("Our trials").id);
    await books.close();
    const again = lastChosenIn(root);
    expect([again.about().title, again.path]).toEqual(["Our trials", join(root, "our-trials.book")]);
    again.close();
    expect(readFileSync(join(root, "chosen-book"), "utf8")).toBe("our-trials.book");
    for (const kept of ["../elsewhere.book", "/etc/passwd", "", "our-trials.book\nmore"]) {
      writeFileSync(join(root, "chosen-book"), kept);
      const demo = lastChosenIn(root);
      expect(demo.path).toBe(join(root, "demo.book"));
      demo.close();
    }
    rmSync(root, { recursive: true, force: true });
  });
});

describe("a book's file", () => {
  it("is called by small letters, digits and hyphens, whatever the title", () => {
    const taken = new Set(["a.book", "a-2.book"]);
    expect(bookFileName("A", (name) => taken.has(name))).toBe("a-3.book");
    for (const title of ["../..", "a/b", "a\\b", "~", "$HOME", "-", "--help", "\u202e", "a.book", "a".repeat(500)])
      expect(bookFileName(title, () => false)).toMatch(/^[a-z0-9]([a-z0-9-]{0,58}[a-z0-9])?\.book$/);
  });
});

function record(name: string) {
  const id = `01a21216-c549-7000-af10-${String(name.length).padStart(12, "0")}`;
  return { label: "add site", drafts: [{ kind: "site", id, expected: null, set: { name } }] };
}
