import { copyFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { newBook, openBook } from "../../src/book/index.ts";
import { checkFields } from "../../src/record/index.ts";
import { folder, steadyPorts } from "../book/folder.ts";

describe("what a pull found", () => {
  it.each([
    { kind: "gaveWay", load_N: 3100 },
    { kind: "heldTo", load_N: 0, u_N: 12 },
    { kind: "neverSet" },
    { kind: "neverSet", load_N: 400 },
    { kind: "none" },
  ])("may be %j", (result) => {
    expect(checkFields("pull", { result }).get("result")).toBe(JSON.stringify(result));
  });

  it.each([
    [{ kind: "gaveWay" }],
    [{ kind: "heldTo" }],
    [{ kind: "heldTo", u_N: 12 }],
    [{ kind: "heldTo", load_N: -1 }],
    [{ kind: "heldTo", load_N: null }],
    [{ kind: "none", load_N: 3 }],
    [{ kind: "held", load_N: 3 }],
    [{ load_N: 3 }],
    ["heldTo"],
  ])("cannot be %j", (result) => {
    expect(() => checkFields("pull", { result })).toThrow(
      'a result such as {"kind":"heldTo","load_N":4000} is expected',
    );
  });

  it("may lack its load where an earlier program wrote it so: the book opens, is edited, exported, merged", async () => {
    const at = folder();
    const path = join(at, "old.book");
    copyFileSync("data/books/v4.book", path);
    const PULL = "01970007-0000-7000-8000-000000000000";
    const book = openBook(path, { ports: steadyPorts(1, Date.parse("2031-06-01T08:00:00Z")), backups: false });
    // As the program before this one could: written round the check of today.
    book.edit("pull", PULL, { result: { kind: "gaveWay", load_N: 1 } });
    const { driver } = book.context;
    const { act: transaction } = driver.get<{ act: string }>(
      "SELECT act FROM change WHERE field = 'result' ORDER BY stamp DESC",
    )!;
    driver.run("UPDATE change SET value = ? WHERE act = ? AND field = 'result'", ['{"kind":"gaveWay"}', transaction]);
    driver.run("UPDATE pull SET result = ? WHERE id = ?", ['{"kind":"gaveWay"}', PULL]);
    const { transactionChecksum } = await import("../../src/book/checksum.ts");
    driver.run("UPDATE act SET crc = ? WHERE id = ?", [transactionChecksum(driver, transaction), transaction]);
    book.close();

    const again = openBook(path, { ports: steadyPorts(2, Date.parse("2031-06-02T08:00:00Z")), backups: false });
    expect(again.get("pull", PULL)?.result).toEqual({ kind: "gaveWay" });
    expect(again.edit("pull", PULL, { result: { kind: "gaveWay" } as never, remarks: "seen again" })).not.toBeNull();
    expect(() => again.edit("pull", PULL, { result: { kind: "heldTo" } as never })).toThrow("pull.result");
    expect(again.edit("pull", PULL, { result: { kind: "gaveWay", load_N: 2000 } })).not.toBeNull();
    again.undo();
    expect(again.get("pull", PULL)?.result).toEqual({ kind: "gaveWay" });
    await again.export(join(at, "open"));
    const back = newBook(join(at, "b.book"), null, { ports: steadyPorts(3), backups: false });
    await back.import(join(at, "open"));
    expect(back.digest()).toBe(again.digest());
    const third = newBook(join(at, "c.book"), { title: "C" }, { ports: steadyPorts(4), backups: false });
    third.merge(again);
    expect(third.get("pull", PULL)?.result).toEqual({ kind: "gaveWay" });
    for (const one of [again, back, third]) {
      expect(one.check()).toMatchObject({ kind: "sound" });
      one.close();
    }
  });
});
