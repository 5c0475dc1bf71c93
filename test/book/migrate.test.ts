import { copyFileSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { openBetterSqlite } from "../../src/book/better-sqlite-driver.ts";
import { columnNames } from "../../src/book/check.ts";
import { BookTrouble, openBook } from "../../src/book/index.ts";
import { migrate, migrations, VERSION, versionOf } from "../../src/book/migrate.ts";
import { kindNames } from "../../src/record/index.ts";
import { folder, steadyPorts } from "./folder.ts";

const PULL = "01970007-0000-7000-8000-000000000000";
const LOG = "01970011-0000-7000-8000-000000000000";
const LATER = Date.parse("2031-06-01T08:00:00Z");

describe("migrations", () => {
  it("have a fixture of every earlier version", () => {
    const fixtures = readdirSync("data/books").filter((name) => /^v\d+\.book$/.test(name));
    expect(fixtures.sort()).toEqual(migrations.slice(1).map((_, i) => `v${i + 1}.book`));
  });

  it.each([1, 2, 3, 4, 5, 6, 7])("take a book of version %i forward with all it held", (version) => {
    const at = folder();
    const path = join(at, "old.book");
    copyFileSync(`data/books/v${version}.book`, path);
    const book = openBook(path, { ports: steadyPorts(version, LATER), who: "Bo" });
    expect(book.notices).toEqual([expect.stringContaining(`taken forward from version ${version} to ${VERSION}`)]);
    expect(book.check()).toMatchObject({ kind: "sound", version: VERSION });
    expect(book.about()).toMatchObject({ title: "Ebb Cove trials (invented)", simulated: true });
    expect(book.get("pull", PULL)).toMatchObject({ depth_m: 6.5, steps: [{ load_N: 1000 }], endedBy: "engine limit" });
    expect(book.history({ record: PULL })[0]).toMatchObject({
      who: "Ada",
      changes: [{ field: "depth_m", was: 6, value: 6.5 }],
    });
    if (version >= 2) {
      const picture = book.list("picture")[0]!;
      expect(new TextDecoder().decode(book.file(picture.copy!))).toBe("a picture");
    }
    if (version >= 3) {
      expect(book.logs.progress(LOG)).toEqual({
        log: LOG,
        kind: "begun",
        rows: 1001,
        position: 4096,
        state: { line: 1000 },
      });
      const view = book.logs.view(LOG, { from_s: 1.9e9 + 99.9 });
      expect(view).toMatchObject({ kind: "readings", times: Float64Array.of(1.9e9 + 99.9, 1.9e9 + 100) });
    }
    expect(book.get("pull", PULL)).toMatchObject({ paidOut_m: null });
    expect(book.edit("pull", PULL, { depth_m: 7, paidOut_m: 32.5 })).not.toBeNull();
    expect(book.get("pull", PULL)).toMatchObject({ paidOut_m: 32.5 });
    expect(book.undo()).toMatchObject({ kind: "reverted" });
    book.close();
    expect(openBook(path, { ports: steadyPorts(9, LATER + 3.6e6) }).notices).toEqual([]);
  });

  it("keep the book as it was beside the migrated one", () => {
    const at = folder();
    const path = join(at, "old.book");
    copyFileSync("data/books/v2.book", path);
    openBook(path, { ports: steadyPorts() }).close();
    const copy = readdirSync(at).find((name) => name.startsWith("old.book.before-"))!;
    const driver = openBetterSqlite(join(at, copy), { readOnly: true, patience_ms: 0 });
    expect(versionOf(driver)).toBe(2);
    driver.close();
  });

  it("stand by themselves: none asks the program of today for anything but the driver's type", () => {
    const steps = readdirSync("src/book/migrations");
    expect(steps).toHaveLength(migrations.length);
    for (const step of steps) {
      const imports = readFileSync(join("src/book/migrations", step), "utf8").matchAll(/^import (.*) from "(.*)";$/gm);
      for (const [line, names, from] of imports)
        expect(from!.startsWith("node:") || (from === "../driver.ts" && names!.startsWith("type ")), line).toBe(true);
    }
  });

  it("make the same tables by every way", () => {
    const tables = (path: string) => {
      const driver = openBetterSqlite(path, { readOnly: false, patience_ms: 0 });
      migrate(driver);
      const schema = driver.all("SELECT name, sql FROM sqlite_schema ORDER BY name");
      driver.close();
      return schema;
    };
    const at = folder();
    for (const version of [1, 2, 3, 4, 5, 6, 7]) copyFileSync(`data/books/v${version}.book`, join(at, `${version}`));
    const fresh = tables(join(at, "fresh"));
    for (const version of [1, 2, 3, 4, 5, 6, 7]) expect(tables(join(at, `${version}`))).toEqual(fresh);
  });

  it("leave a table with exactly the columns each kind of record has fields for", () => {
    const driver = openBetterSqlite(":memory:", { readOnly: false, patience_ms: 0 });
    migrate(driver);
    for (const kind of kindNames) {
      const columns = driver.all<{ name: string }>(`SELECT name FROM pragma_table_info('${kind}')`).map((c) => c.name);
      expect(columns.sort(), kind).toEqual(columnNames(kind).sort());
    }
    driver.close();
  });

  it("refuse a book of a later version in one line and leave it as it is", () => {
    const path = join(folder(), "later.book");
    copyFileSync("data/books/v3.book", path);
    const driver = openBetterSqlite(path, { readOnly: false, patience_ms: 0 });
    driver.exec(`PRAGMA user_version = ${VERSION + 1}`);
    driver.close();
    const before = readFileSync(path);
    expect(() => openBook(path)).toThrow(BookTrouble);
    expect(() => openBook(path)).toThrow(`a book of version ${VERSION + 1}; version ${VERSION} or earlier is expected`);
    expect(readFileSync(path).equals(before)).toBe(true);
  });
});
