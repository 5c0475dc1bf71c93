import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { describe, expect, it } from "vitest";
import { BookTrouble, newBook, openBook, systemPorts, type TroubleKind } from "../../src/book/index.ts";
import { InputError } from "../../src/quantity/index.ts";
import { idMaker } from "../../src/record/index.ts";
import { bookTopics } from "../../src/server/book-topics.ts";
import { Refusal, refusalOf } from "../../src/server/refusals.ts";
import { benchInProcess, refused } from "./in-process.ts";

const newId = idMaker(systemPorts);
const folder = mkdtempSync(join(tmpdir(), "refusals-"));
const path = join(folder, "a.book");
newBook(path, { title: "A" }, { backups: false }).close();

function benchOver(options: Parameters<typeof openBook>[1]) {
  const book = openBook(path, { backups: false, ...options });
  const fault = (): void => undefined;
  const { topics } = bookTopics(book, { sentFolder: join(folder, "sent"), now: Date.now, fault });
  const bench = benchInProcess(topics);
  const write = () =>
    bench.ask(`/api/1/records/site/${newId()}`, {
      method: "PUT",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ expected: null, set: { name: "x" } }),
    });
  return { ...bench, book, write };
}

describe("what went wrong becomes a status in one place", () => {
  it.each([
    [new InputError("site.name", "7", "a name is expected"), 400],
    [new Refusal(404, "site", '"x"', "a record of this book"), 404],
    [new Refusal(413, "body", "9 bytes", "at most 8 bytes"), 413],
    ...(
      [
        ["busy", 503],
        ["full", 507],
        ["readOnly", 409],
        ["damaged", 503],
        ["unreadable", 503],
        ["newer", 503],
        ["exists", 409],
      ] as [TroubleKind, number][]
    ).map(([kind, status]) => [new BookTrouble(kind, "a.book", "trouble", "remedy"), status] as const),
    [Object.assign(new Error("database is locked"), { code: "SQLITE_BUSY_SNAPSHOT" }), 503],
    [Object.assign(new Error("no space left on device"), { code: "ENOSPC" }), 507],
  ] as const)("%s: %i", (error, status) => {
    const { status: given, body } = refusalOf(error);
    expect(given).toBe(status);
    expect(Object.keys(body.error)).toEqual(["place", "given", "expected"]);
  });
  it("a fault of the program tells nothing of its inside, and is told at the computer", async () => {
    const secret = new Error("/home/tess/secret.ts:12");
    expect(JSON.stringify(refusalOf(secret))).not.toContain("secret");
    const bench = benchInProcess([
      (api) =>
        api.get("/broken", () => {
          throw secret;
        }),
    ]);
    const answer = await bench.ask("/api/1/broken");
    expect(await refused(answer)).toBe("500 bench: a fault of the program; see the terminal it was opened in");
    expect(answer.headers.get("content-security-policy")).toContain("default-src 'none'");
    expect(bench.faults).toEqual([secret]);
  });
  it("nothing thrown, whatever it is, is no answer", () => {
    for (const thrown of [undefined, null, "text", 7, { code: 5 }, Symbol("x")])
      expect(refusalOf(thrown).status).toBe(500);
  });
});

describe("trouble with the file of the book", () => {
  it("a book that can only be read is read, and not written: 409", async () => {
    const { ask, write, book } = benchOver({ readOnly: true });
    expect((await ask("/api/1/records/site")).status).toBe(200);
    expect(await (await ask("/api/1/book")).json()).toMatchObject({ readOnly: true });
    expect(await refused(await write())).toMatch(/^409 .*it can (only be read|be read but not written)/);
    book.close();
  });
  it("another program writing for long is told: 503, and the next try works", async () => {
    const { write, book } = benchOver({ patience_ms: 50 });
    const other = new Database(path);
    other.exec("BEGIN IMMEDIATE");
    expect(await refused(await write())).toMatch(/^503 .*another program is writing to it/);
    other.exec("ROLLBACK");
    other.close();
    expect((await write()).status).toBe(200);
    book.close();
  });
});
