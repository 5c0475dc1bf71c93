/** Small rules of a book's file, one by one, each value written out here or worked out by another way. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { crc32 } from "node:zlib";
import { afterAll, describe, expect, it } from "vitest";
import { z } from "zod";
import { crcOfValues } from "../../src/book/checksum.ts";
import { asColumn, fromColumn } from "../../src/book/column.ts";
import { newBook } from "../../src/book/index.ts";
import {
  choicesOf,
  MAPPING_FORMAT,
  mappingOf,
  rememberedChoices,
  withRemembered,
} from "../../src/book/intake/log-mapping.ts";
import { mayShare } from "../../src/book/intake/same-recording.ts";
import { jsonLines } from "../../src/book/json-lines.ts";
import { BIN_ROWS, extremes } from "../../src/book/log-bins.ts";
import { crcOf, doublesOf, packReadings, packTimes } from "../../src/book/log-codec.ts";
import { columnsOf } from "../../src/book/log-columns.ts";
import { OVERVIEW_ROWS, overviewOf } from "../../src/book/log-overview.ts";
import { readGeoJson, readGpx, writeGeoJson, writeGpx } from "../../src/book/places.ts";
import { asTrouble, BookTrouble, damaged, libraryTrouble } from "../../src/book/trouble.ts";
import { readColumnChoice } from "../../src/log/index.ts";
import { InputError } from "../../src/quantity/index.ts";

const none = Number.NaN;

describe("what lies beside a column", () => {
  it("is the smallest and largest of every 64 rows, of none no number", () => {
    expect([BIN_ROWS, OVERVIEW_ROWS]).toEqual([64, 1024]);
    const values = Float64Array.from({ length: 130 }, (_, i) => (i >= 64 && i < 128 ? none : 100 - i));
    expect([...extremes(values)]).toEqual([37, 100, none, none, -29, -28]);
    expect([...extremes(Float64Array.of(none, 5, none))]).toEqual([5, 5]);
    expect([...extremes(new Float64Array(0))]).toEqual([]);
    expect([...extremes(Float64Array.from({ length: 64 }, (_, i) => i))]).toEqual([0, 63]);
    expect([...extremes(Float64Array.from({ length: 65 }, (_, i) => i))]).toEqual([0, 63, 64, 64]);
  });
  it("is that of every 1024 from sixteen of those", () => {
    const bins = Float64Array.from({ length: 2 * 17 }, (_, i) => (i % 2 === 0 ? 50 - i : 50 + i));
    expect([...overviewOf(bins)]).toEqual([20, 81, 18, 83]);
    const gaps = Float64Array.of(none, none, 3, 4, none, none, 1, 9);
    expect([...overviewOf(gaps)]).toEqual([1, 9]);
    expect([...overviewOf(Float64Array.of(none, none))]).toEqual([none, none]);
    expect([...overviewOf(Float64Array.of(-5, -1, -9, -3))]).toEqual([-9, -1]);
  });
});

describe("packed columns", () => {
  it("say what they hold by their first byte: doubles, singles, microseconds where times are whole", () => {
    expect(packReadings(Float64Array.of(1.1), false)[0]).toBe(1);
    expect(packReadings(Float64Array.of(1.5), true)[0]).toBe(2);
    expect(packTimes(Float64Array.of(1, 1.5, 2))[0]).toBe(3);
    expect(packTimes(Float64Array.of(1 / 3))[0]).toBe(1);
    expect(packTimes(Float64Array.of(-0))[0]).toBe(1);
    // Whole microseconds up to 2^52; a step that changes by more than an Int32 holds is none.
    expect(packTimes(Float64Array.of(0, 2147.483647))[0]).toBe(3);
    expect(packTimes(Float64Array.of(0, 2147.483648))[0]).toBe(1);
    expect(packTimes(Float64Array.of(0, -2147.483648))[0]).toBe(3);
    expect(packTimes(Float64Array.of(0, -2147.483649))[0]).toBe(1);
  });
  it("are read from wherever they lie, and summed in turn", () => {
    const bytes = new Uint8Array(17);
    bytes.set(new Uint8Array(Float64Array.of(1.25, -7).buffer), 1);
    expect([...doublesOf(bytes.subarray(1))]).toEqual([1.25, -7]);
    const [a, b] = [Buffer.from("ebb"), Buffer.from("flow")];
    expect(crcOf(a, b)).toBe(crc32(Buffer.from("ebbflow")));
    expect(crcOf(b, a)).not.toBe(crcOf(a, b));
    expect(crcOfValues("a", 1, null)).toBe(crc32('["a",1,null]'));
  });
});

describe("a value in its column", () => {
  const field = (column: string) => ({ column }) as never;
  it("is plain, a flag a number, a list its text", () => {
    expect(asColumn(field("TEXT"), '"a"')).toBe("a");
    expect(asColumn(field("REAL"), "1.5")).toBe(1.5);
    expect([asColumn(field("FLAG"), "true"), asColumn(field("FLAG"), "false")]).toEqual([1, 0]);
    expect(asColumn(field("JSON"), '{"a":1}')).toBe('{"a":1}');
    expect(asColumn(field("TEXT"), null)).toBeNull();
    expect(fromColumn(field("TEXT"), null)).toBeNull();
    expect([fromColumn(field("FLAG"), 1), fromColumn(field("FLAG"), 0)]).toEqual([true, false]);
    expect(fromColumn(field("JSON"), '{"a":1}')).toEqual({ a: 1 });
    expect(fromColumn(field("REAL"), 1)).toBe(1);
  });
});

describe("lines of JSON", () => {
  const schema = z.object({ a: z.number() });
  it("are each checked, blank ones passed over, and told by their number", () => {
    expect(jsonLines('{"a":1}\n\n {"a":2}\n', "x.jsonl", schema)).toEqual([{ a: 1 }, { a: 2 }]);
    expect(() => jsonLines('{"a":1}\n\n{"a":"2"}', "x.jsonl", schema)).toThrow(/^x\.jsonl: line 3: a; /);
    expect(() => jsonLines('{"a":1}\n{', "x.jsonl", schema)).toThrow(/^x\.jsonl: line 2/);
    expect(() => jsonLines("7", "x.jsonl", schema)).toThrow(/^x\.jsonl: line 1: another shape; /);
  });
});

describe("places as other programs know them", () => {
  const places = [
    { name: "Ebb & Flow", latitude_deg: -10.5, longitude_deg: 20.25, description: "a <b>" },
    { name: "Far", latitude_deg: 90, longitude_deg: -180, description: null },
  ];
  it("go out longitude first in GeoJSON, and come back", () => {
    const text = writeGeoJson([{ ...places[0]!, id: "x" }, places[1]!]);
    const { type, features } = JSON.parse(text);
    expect(type).toBe("FeatureCollection");
    expect(features[0]).toEqual({
      ...{ type: "Feature", id: "x", geometry: { type: "Point", coordinates: [20.25, -10.5] } },
      properties: { name: "Ebb & Flow", description: "a <b>" },
    });
    expect(features[1]).not.toHaveProperty("id");
    expect(readGeoJson(text, "p")).toEqual(places);
  });
  it("are points with a name of their own or by their place, and refused beyond the earth", () => {
    const feature = (coordinates: unknown, properties: object | null = null, type = "Point") => ({
      geometry: type === "none" ? null : { type, coordinates },
      properties,
    });
    const read = (...features: object[]) => readGeoJson(JSON.stringify({ type: "FeatureCollection", features }), "p");
    expect(
      read(feature([1, 2], null, "none"), feature([1, 2, 3], { description: "" }), feature([[1]], null, "LineString")),
    ).toEqual([{ name: "place 2", latitude_deg: 2, longitude_deg: 1, description: null }]);
    expect(read(feature([180, 90]))).toHaveLength(1);
    for (const wrong of [[180.1, 0], [0, 90.1], [-180.1, 0], [0, -90.1], [1], "x"])
      expect(() => read(feature(wrong))).toThrow("longitude and latitude");
    expect(() => readGeoJson('{"type":"Feature"}', "p")).toThrow("a GeoJSON FeatureCollection is expected");
  });
  it("go out as waypoints of GPX, their signs escaped, and come back", () => {
    const text = writeGpx(places);
    expect(text).toContain(
      '<wpt lat="-10.5" lon="20.25">\n    <name>Ebb &#38; Flow</name>\n    <desc>a &#60;b&#62;</desc>\n  </wpt>',
    );
    expect(text.match(/<desc>/g)).toHaveLength(1);
    expect(readGpx(text, "p")).toEqual(places);
    expect(writeGpx([{ ...places[1]!, name: "a\u0007b" }])).toContain("<name>a b</name>");
    const bare = (points: string) => readGpx(`<gpx>${points}</gpx>`, "p");
    expect(bare('<wpt lat="1" lon="2"/><wpt lat="3" lon="4"><name> Two </name></wpt>')).toEqual([
      { name: "place 1", latitude_deg: 1, longitude_deg: 2, description: null },
      { name: "Two", latitude_deg: 3, longitude_deg: 4, description: null },
    ]);
    expect(bare('<rte><rtept lat="1" lon="2"/></rte>')).toEqual([]);
    expect(() => bare('<wpt lat="91" lon="2"/>')).toThrow("p: wpt 1");
    expect(() => bare('<wpt lat="1" lon="2"/><wpt lat="1" lon="181"/>')).toThrow("p: wpt 2");
    expect(() => readGpx("<kml></kml>", "p")).toThrow("no gpx element");
  });
});

describe("trouble with a file", () => {
  it.each([
    ["SQLITE_BUSY_SNAPSHOT", "busy"],
    ["SQLITE_LOCKED", "busy"],
    ["SQLITE_CORRUPT_INDEX", "damaged"],
    ["SQLITE_NOTADB", "damaged"],
    ["SQLITE_FULL", "full"],
    ["ENOSPC", "full"],
    ["EDQUOT", "full"],
    ["SQLITE_READONLY_DBMOVED", "readOnly"],
    ["EROFS", "readOnly"],
    ["EACCES", "readOnly"],
    ["EPERM", "readOnly"],
    ["SQLITE_IOERR_WRITE", "unreadable"],
    ["EIO", "unreadable"],
    ["ENAMETOOLONG", "unreadable"],
    ["SQLITE_CANTOPEN", "unreadable"],
    ["ENOENT", "unreadable"],
    ["EISDIR", "unreadable"],
    ["ENOTDIR", "unreadable"],
  ])("%s is %s", (code, kind) => {
    const trouble = asTrouble(new Error("why"), "a.book", code) as BookTrouble;
    expect(trouble).toBeInstanceOf(BookTrouble);
    expect([trouble.kind, trouble.message.startsWith("a.book: ")]).toEqual([kind, true]);
    expect((asTrouble(Object.assign(new Error("x"), { code }), "a.book", undefined) as BookTrouble).kind).toBe(kind);
  });
  it("of another sort stays what it is", () => {
    const [input, other] = [new InputError("a", "b", "c"), new Error("x")];
    expect(asTrouble(input, "a.book", "SQLITE_FULL")).toBe(input);
    expect(asTrouble(other, "a.book", undefined)).toBe(other);
    expect(asTrouble(other, "a.book", "SQLITE_CONSTRAINT")).toBe(other);
    expect(libraryTrouble(other)).toBeUndefined();
    expect(libraryTrouble(undefined)).toBeUndefined();
  });
  it("tells what to do", () => {
    expect(damaged("a.book", "", undefined).message).toBe(
      "a.book: damaged; nothing was overwritten; it has no good backup beside it",
    );
    expect(damaged("a.book", "torn", { name: "b" }).message).toBe(
      "a.book: damaged (torn); nothing was overwritten; its newest good backup is b: rodebench book restore a.book",
    );
    expect(libraryTrouble({ code: "MODULE_NOT_FOUND" })!.message).toContain("missing for Node.js");
    expect(libraryTrouble({ message: "Could not locate the bindings file." })!.message).toContain(
      "missing for Node.js",
    );
    expect(libraryTrouble({ code: "ERR_DLOPEN_FAILED" })!.message).toContain("not loadable for Node.js");
  });
});

describe("how a source was read before", () => {
  const kept = mkdtempSync(join(tmpdir(), "small-rules-"));
  const book = newBook(join(kept, "a.book"), { title: "A" }, { who: "test", backups: false });
  afterAll(() => {
    book.close();
    rmSync(kept, { recursive: true, force: true });
  });
  const channels = [{ name: "load", quantity: "force", unit: "N", precision: "double" }] as const;
  const mapping = (more: object = {}) => ({
    ...{ format: MAPPING_FORMAT, kind: "table", signature: "s", clock: "utc" },
    ...more,
  });
  const log = (more: object) =>
    book.write([{ kind: "log", set: { name: "l", channels: [...channels], mapping: mapping(more) } } as never], "log")
      .ids[0]!;
  const load = { role: "load", column: "Load", unit: "kN" } as never;
  const time = { role: "time", column: "Time" } as never;
  it("is what its latest log kept, of that source alone", () => {
    expect(rememberedChoices(book, "s")).toBeNull();
    log({ columns: [time] });
    log({ columns: [load], zone: 7200, rate: 10, loads: "sum", plan: { decimal: "," } });
    log({ signature: "other", columns: [time], rate: 99 });
    expect(rememberedChoices(book, "s")).toEqual({ columns: [load], zone: 7200, rate: 10, loads: "sum", decimal: "," });
    expect(rememberedChoices(book, "other")).toEqual({ columns: [time], rate: 99 });
    log({ signature: "bare" });
    expect(rememberedChoices(book, "bare")).toBeNull();
    expect(mappingOf({ format: "other" })).toBeNull();
    expect(mappingOf(null)).toBeNull();
    expect(mappingOf(mapping())).toEqual(mapping());
  });
  it("stands behind what is told now", () => {
    expect(withRemembered({ rate: 5 }, null)).toEqual({ rate: 5 });
    const remembered = { columns: [time, load, { role: "date", column: "Day" } as never], rate: 10, zone: 0 };
    const mark = (one: object) => ({ ...one, remembered: true });
    expect(withRemembered({ rate: 5 }, remembered)).toEqual({
      ...{ rate: 5, zone: 0, columns: [mark(time), mark(load), mark({ role: "date", column: "Day" })] },
    });
    const told = { role: "depth", column: "LOAD" } as never;
    expect(withRemembered({ columns: [told] }, remembered).columns).toEqual([
      told,
      mark(time),
      mark({ role: "date", column: "Day" }),
    ]);
    const clock = { role: "time", column: "Clock" } as never;
    expect(withRemembered({ columns: [clock] }, remembered).columns).toEqual([clock, mark(load)]);
  });
  it("names a column by its title where that is its own, else by its number", () => {
    const column = (number: number, title: string, as: string, unit = "") => ({ number, title, as, unit });
    const guess = {
      columns: [
        column(1, "Time", "time"),
        column(2, "Load", "load", "kN"),
        column(3, "load", "load-2", "N"),
        column(4, "", "depth", "m"),
        column(5, "x", "not taken"),
        column(6, "u", "unit"),
        column(7, "Wind", "windSpeed", "kn"),
      ],
      plan: { values: [{ column: 6, scale: null }] },
    } as never;
    expect(choicesOf(guess).map(({ role, column: name }) => [role, name])).toEqual([
      ["time", "Time"],
      ["load", "2"],
      ["load", "3"],
      ["depth", "4"],
      ["ignore", "x"],
      ["unit", "u"],
      ["windSpeed", "Wind"],
    ]);
    // A unit that stands in the cells is not told of the column.
    const told = ["load=2:kN", "load=3:N", "depth=4:m", "ignore=x", "unit=u", "windSpeed=Wind"];
    expect(choicesOf(guess).slice(1)).toEqual(
      told.map((text, i) =>
        i === 3
          ? { role: "ignore", column: "x" }
          : i === 4
            ? { role: "unit", column: "u" }
            : readColumnChoice(text, "--map"),
      ),
    );
  });
  it("may be of the same recording: same source, channels and calendar", () => {
    const twin = log({ signature: "t" });
    const asked = (more: object, but: string[] = []) =>
      mayShare(book, mapping({ signature: "t", ...more }) as never, [...channels], but);
    expect(asked({})).toEqual([twin]);
    expect(asked({}, [twin])).toEqual([]);
    for (const other of [
      { clock: "elapsed" },
      { kind: "live" },
      { clock: "local" },
      { kind: "nmea" },
      { signature: "u" },
    ])
      expect(asked(other)).toEqual([]);
    expect(mayShare(book, mapping({ signature: "t" }) as never, [{ ...channels[0], unit: "lbf" }], [])).toEqual([]);
  });
  it("has its columns in memory whole, or within a span, its ends among it", () => {
    const { log: id } = book.logs.open({ name: "c", channels: [...channels] });
    book.logs.append(
      id,
      { times: Float64Array.of(1, 2, 3, 4), columns: { load: Float64Array.of(10, 20, 30, 40) } },
      { from: 0, to: 4 },
    );
    const whole = columnsOf(book, id, ["load"]);
    expect([[...whole.time], [...whole.values[0]!]]).toEqual([
      [1, 2, 3, 4],
      [10, 20, 30, 40],
    ]);
    const part = columnsOf(book, id, ["load"], { from: 2, to: 3 });
    expect([[...part.time], [...part.values[0]!]]).toEqual([
      [2, 3],
      [20, 30],
    ]);
  });
});
