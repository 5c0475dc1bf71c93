import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { DuckDBInstance } from "@duckdb/node-api";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readCsv, writeCsv } from "../../src/book/csv.ts";
import { newBook, openBook, readGeoJson, readGpx, writeGeoJson, writeGpx } from "../../src/book/index.ts";
import { kindNames } from "../../src/record/index.ts";
import { rigText } from "../support/rig-text.ts";
import { folder, steadyPorts } from "./folder.ts";
import { deeds, elsewhere, newRandomBook } from "./random-book.ts";

describe("tables of records as CSV", () => {
  it("come back as they were, whatever is in them", () => {
    fc.assert(
      fc.property(deeds(20), (transactions) => {
        const book = newRandomBook(join(folder(), "a.book"), transactions);
        for (const kind of kindNames) {
          const records = book.list(kind, { hidden: "with" });
          if (records.length > 0) expect(readCsv(kind, writeCsv(kind, records), "table")).toEqual(records);
        }
        book.close();
      }),
      { seed: 5, numRuns: 20 },
    );
  });

  it.each([
    ["name,depth\nx,1\n", 'table: column "depth": no such field'],
    [
      "name,latitude_deg\nx,north\n",
      'table: row 2, column latitude_deg: "north"; a latitude from -90 to 90 is expected',
    ],
    ["name,latitude_deg\nx\n", "table: row 2: 1 cells; 2, as many as column names, are expected"],
    ["", "table: an empty file"],
  ])("refuse %j in one line", (text, line) => {
    expect(() => readCsv("site", text, "table")).toThrow(line);
  });
});

describe("open files edited by hand", () => {
  it("change the records so edited, as one transaction, and nothing when taken in again", async () => {
    const at = folder();
    const book = newBook(join(at, "a.book"), { title: "Quay" }, { ports: steadyPorts() });
    const site = book.add("site", { name: "Ebb Cove", description: "old" });
    await book.export(join(at, "open"));
    const file = join(at, "open/records/site.jsonl");
    writeFileSync(
      file,
      readFileSync(file, "utf8").replace('"old"', '"new"') +
        '{"name":"Far Cove","latitude_deg":1.5}\n'.replace("{", `{"id":"01970001-0000-7000-8000-000000000000",`),
    );
    expect(await book.import(join(at, "open"))).toMatchObject({ transactions: 0, edited: 2 });
    expect(book.get("site", site)?.description).toBe("new");
    expect(
      book
        .list("site")
        .map((s) => s.name)
        .sort(),
    ).toEqual(["Ebb Cove", "Far Cove"]);
    const digest = book.digest();
    expect(await book.import(join(at, "open"))).toMatchObject({ transactions: 0, edited: 0 });
    expect(book.digest()).toBe(digest);
    book.close();
  });

  it("of another program, without any history, are taken in as records", async () => {
    const at = folder();
    const book = newBook(join(at, "a.book"), { title: "Quay" }, { ports: steadyPorts() });
    const other = newBook(join(at, "b.book"), { title: "Other" }, { ports: steadyPorts(2) });
    await book.export(join(at, "open"));
    writeFileSync(join(at, "open/tables/anchor.csv"), "name,shape,mass_kg\r\nTen,claw,10\r\n");
    for (const gone of ["book.json", "history.jsonl", "records/about.jsonl", "tables/about.csv"])
      rmSync(join(at, "open", gone));
    expect(await other.import(join(at, "open"))).toMatchObject({ edited: 1 });
    expect(other.list("anchor")).toMatchObject([{ name: "Ten", shape: "claw", mass_kg: 10 }]);
    book.close();
    other.close();
  });

  it("whose history or readings were altered are refused in one line", async () => {
    const at = folder();
    const book = newBook(join(at, "a.book"), { title: "Quay" }, { ports: steadyPorts() });
    book.add("site", { name: "Ebb Cove" });
    await book.export(join(at, "open"));
    const file = join(at, "open/history.jsonl");
    writeFileSync(file, readFileSync(file, "utf8").replace("Ebb", "Flow"));
    const before = book.digest();
    await expect(book.import(join(at, "open"))).rejects.toThrow(
      "history.jsonl: changed since it was written; history as it was exported is expected",
    );
    expect(book.digest()).toBe(before);
    await expect(book.export(join(at, "open"))).rejects.toThrow("there is something already");
    book.close();
  });
});

describe("readings as Parquet", () => {
  it("are read by DuckDB 1.5 to the same numbers", async () => {
    const at = folder();
    const book = newBook(join(at, "a.book"), { title: "Quay" }, { ports: steadyPorts() });
    const channels = [
      { name: "load", quantity: "force", unit: "N", precision: "double" as const },
      { name: "wind. speed/a", quantity: "speed", unit: "m/s", precision: "single" as const },
    ];
    const { log } = book.logs.open({ name: "cell", channels });
    const rows = 20_000;
    const times = Float64Array.from({ length: rows }, (_, i) => 1.9e9 + i / 10);
    const load = times.map((_, i) => (i % 50 === 0 ? Number.NaN : Math.sin(i) * 1e4));
    const wind = times.map((_, i) => Math.fround(i / 7));
    book.logs.append(log, { times, columns: { load, "wind. speed/a": wind } }, { from: 0, to: 1 });
    await book.export(join(at, "open"));
    const duck = await (await DuckDBInstance.create(":memory:")).connect();
    const answer = await duck.runAndReadAll(
      `SELECT _time_s, load, "wind. speed/a" FROM read_parquet('${at}/open/logs/${log}.parquet')`,
    );
    const columns = answer.getColumns() as number[][];
    expect(Float64Array.from(columns[0]!)).toEqual(times);
    expect(Float64Array.from(columns[1]!)).toEqual(load);
    expect(Float64Array.from(columns[2]!)).toEqual(wind);
    duck.closeSync();
    book.close();
  });
});

describe("places", () => {
  const places = [
    { name: 'Ebb & "Flow" <cove>', latitude_deg: 10.123456789012, longitude_deg: -20.5, description: "two\nlines" },
    { name: "é λ 湾", latitude_deg: -89.9, longitude_deg: 179.999, description: null },
  ];
  it("go out as GeoJSON and GPX and come back, and are added once", () => {
    const book = newBook(join(folder(), "a.book"), { title: "Quay" }, { ports: steadyPorts() });
    expect(readGeoJson(writeGeoJson(places), "f")).toEqual(places);
    expect(readGpx(writeGpx(places), "f")).toEqual(places);
    expect(book.importPlaces(places, "f")).toEqual({ added: 2 });
    expect(book.importPlaces(readGpx(writeGpx(places), "f"), "f")).toEqual({ added: 0 });
    book.close();
  });
  it("are longitude first in GeoJSON and lat, lon in GPX (RFC 7946 section 3.1.1 and the GPX 1.1 schema, recalled)", () => {
    expect(JSON.parse(writeGeoJson(places)).features[0].geometry).toEqual({
      type: "Point",
      coordinates: [-20.5, 10.123456789012],
    });
    expect(writeGpx(places)).toContain('lat="10.123456789012" lon="-20.5"');
  });
  it.each([
    [readGeoJson, "{", "not JSON"],
    [readGeoJson, "{}", "not a FeatureCollection"],
    [
      readGeoJson,
      '{"type":"FeatureCollection","features":[{"geometry":{"type":"Point","coordinates":[0,91]},"properties":null}]}',
      "features #1",
    ],
    [readGpx, "<gpx>", "f: line 1: unclosed tag: gpx; a whole XML document is expected"],
    [readGpx, "<kml></kml>", "no gpx element"],
    [readGpx, '<gpx><wpt lat="" lon="1"/></gpx>', 'wpt 1: lat "", lon "1"'],
    [readGpx, '<gpx><wpt lat="1"/></gpx>', "wpt 1: lat "],
    [readGpx, `<gpx>${"<a>".repeat(100_000)}`, "f: line 1: nested too deeply"],
    [readGpx, '<!DOCTYPE gpx [<!ENTITY a "b">]><gpx><wpt lat="&a;" lon="1"/></gpx>', 'wpt 1: lat "&a;"'],
    [readGpx, '<gpx><wpt lat="1" lon="1"><name>&#x110000;</name></wpt></gpx>', "f: line 1: malformed character entity"],
    [readGpx, '<gpx><wpt lat="north" lon="1"/></gpx>', 'wpt 1: lat "north", lon "1"'],
  ])("refuse %# what is none in one line", (read, text, line) => {
    expect(() => read(text, "f")).toThrow(line);
  });
});

describe("deleting for good", () => {
  it("wants the record hidden first and is asked twice; then nothing of it is left in the file", () => {
    const path = join(folder(), "a.book");
    const book = newBook(path, { title: "Quay" }, { ports: steadyPorts(), backups: false });
    const site = book.add("site", { name: "Zanzibarquay secret" });
    const day = book.add("day", { date: "2031-05-17", site });
    expect(book.askPurge(site)).toMatchObject({ kind: "notHidden" });
    expect(() => book.purge(site, "00000000")).toThrow("not hidden; hide it first");
    book.hide(site);
    const question = book.askPurge(site);
    if (question.kind !== "ask") throw new Error("asking is expected");
    expect(question).toMatchObject({ records: 1, changes: 3, pointing: 1 });
    expect(() => book.purge(site, "nonsense")).toThrow("--confirm: nonsense");
    book.edit("site", site, { description: "changed in between" });
    expect(() => book.purge(site, question.token)).toThrow("--confirm");
    const again = book.askPurge(site);
    if (again.kind === "ask") book.purge(site, again.token);
    expect(book.get("site", site)).toBeUndefined();
    expect(book.get("day", day)?.site).toBeNull();
    expect(book.check()).toMatchObject({ kind: "sound" });
    book.close();
    expect(readFileSync(path).includes("Zanzibarquay")).toBe(false);
  });

  it("goes with the marks of a log and the versions of a rig", () => {
    const book = newBook(join(folder(), "a.book"), { title: "Quay" }, { ports: steadyPorts() });
    const rig = book.add("rig", { name: "rig" });
    book.add("rigVersion", { rig, file: rigText("one") });
    book.hide(rig);
    const question = book.askPurge(rig);
    expect(question).toMatchObject({ records: 2 });
    if (question.kind === "ask") book.purge(rig, question.token);
    expect(book.list("rigVersion", { hidden: "with" })).toEqual([]);
    book.close();
  });
});

describe("what was written offline", () => {
  const transaction = (id: string, at: string, name: string, site: string, makes: boolean) => ({
    id: `0197aaaa-0000-7000-8000-0000000000${id}`,
    device: "0197bbbb-0000-7000-8000-000000000000",
    who: "Bo",
    at,
    label: "on the foredeck",
    records: [{ kind: "site" as const, id: site, makes, set: { name }, ...(makes ? {} : { was: { name: "made" } }) }],
  });
  const SITE = "0197cccc-0000-7000-8000-000000000000";

  it("joins once, however often and through whichever book it comes", () => {
    const at = folder();
    const book = newBook(join(at, "a.book"), { title: "Quay" }, { ports: steadyPorts(), backups: false });
    const other = elsewhere(book, join(at, "b.book"), 2);
    const made = transaction("01", "2031-05-17T09:00:00Z", "made", SITE, true);
    expect(book.joinOffline(made)).toMatchObject({ kind: "joined", transaction: made.id });
    const digest = book.digest();
    expect(book.joinOffline(made)).toMatchObject({ kind: "known", transaction: made.id });
    other.joinOffline(made);
    expect(book.merge(other)).toMatchObject({ transactions: 0 });
    expect(book.digest()).toBe(digest);
    expect(book.list("site").map((s) => s.name)).toEqual(["made"]);
    book.close();
    other.close();
  });

  it("gives way to a later change and wins over an earlier one, and is undone to what the device saw", () => {
    const book = newBook(
      join(folder(), "a.book"),
      { title: "Quay" },
      { ports: steadyPorts(1, Date.parse("2031-05-17T12:00:00Z")), backups: false },
    );
    book.joinOffline(transaction("01", "2031-05-17T09:00:00Z", "made", SITE, true));
    const renamed = transaction("02", "2031-05-17T09:30:00Z", "renamed", SITE, false);
    book.joinOffline(renamed);
    expect(book.get("site", SITE)?.name).toBe("renamed");
    book.undo(renamed.id);
    expect(book.get("site", SITE)?.name).toBe("made");
    book.edit("site", SITE, { name: "at noon" });
    book.joinOffline(transaction("03", "2031-05-17T10:00:00Z", "late to arrive", SITE, false));
    expect(book.get("site", SITE)?.name).toBe("at noon");
    expect(book.history({ record: SITE }).length).toBe(5);
    expect(book.check()).toMatchObject({ kind: "sound" });
    book.close();
  });

  it.each([
    [{ id: "1" }, 'offline.id: "1"'],
    [{ at: "noon" }, 'offline.at: "noon"'],
    [{ records: [{ kind: "boot", id: SITE, makes: true, set: {} }] }, 'offline.records #1.kind: "boot"'],
    [{ records: [{ kind: "site", id: SITE, makes: true, set: {} }] }, "offline.records #1.name: nothing given"],
    [{ records: [{ kind: "site", id: SITE, makes: false, set: { name: "x" } }] }, "offline.records #1.id"],
    [{ records: [{ kind: "pull", id: SITE, makes: true, set: { day: SITE } }] }, "pull.day"],
  ])("is refused %# in one line when it is wrong, and nothing is written", (wrong, line) => {
    const book = newBook(join(folder(), "a.book"), { title: "Quay" }, { ports: steadyPorts() });
    const before = book.digest();
    expect(() =>
      book.joinOffline({ ...transaction("01", "2031-05-17T09:00:00Z", "x", SITE, true), ...(wrong as object) }),
    ).toThrow(line);
    expect(book.digest()).toBe(before);
    book.close();
  });
});

describe("pictures", () => {
  it("are kept by reference, or copied in once whatever their number", () => {
    const book = newBook(join(folder(), "a.book"), { title: "Quay" }, { ports: steadyPorts() });
    const bytes = new TextEncoder().encode("a picture");
    const one = book.addPicture({ caption: "one", type: "image/png" }, bytes);
    book.addPicture({ caption: "two", type: "image/png" }, bytes);
    book.addPicture({ caption: "a clip", type: "video/mp4", reference: "clips/day-1.mp4" });
    expect(book.counts().files).toBe(1);
    expect(book.file(book.get("picture", one)!.copy!)).toEqual(
      bytes.constructor === Uint8Array ? Buffer.from(bytes) : bytes,
    );
    expect(() => book.addPicture({ caption: "nothing" })).toThrow("picture.reference: nothing given");
    expect(() => book.add("picture", { copy: "0".repeat(64) })).toThrow("picture.copy: not in this book");
    book.close();
    openBook(book.path).close();
  });
});
