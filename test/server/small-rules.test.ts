/** The small rules of the bench's doors, each value written here as the docs or the standard state it. */
import { describe, expect, it } from "vitest";
import { BookTrouble, type TroubleKind } from "../../src/book/index.ts";
import { Attempts } from "../../src/server/attempts.ts";
import { limits } from "../../src/server/bodies.ts";
import {
  bits,
  explicit,
  implicit,
  integer,
  octets,
  sequence,
  set,
  utf8,
  yes,
} from "../../src/server/certificate/der.ts";
import { Devices } from "../../src/server/devices.ts";
import { viewBody } from "../../src/server/log-view-body.ts";
import { OneTimeCode } from "../../src/server/one-time-code.ts";
import { pictureType } from "../../src/server/picture-type.ts";
import { refusalOf } from "../../src/server/refusals.ts";

const latin = (text: string) => Uint8Array.from(text, (sign) => sign.charCodeAt(0));

describe("what a picture is by its first bytes", () => {
  // JPEG: JFIF 1.02; PNG: W3C, 5.2; GIF: the 87a and 89a specifications; WebP: RFC 9649; HEIC and MP4: ISO/IEC 14496-12,
  // the brand of 23008-12; WebM: RFC 8794, the EBML header. All recalled.
  const kinds = [
    ["image/jpeg", "\xff\xd8\xff\xe0\0\x10JFIF", 3],
    ["image/png", "\x89PNG\r\n\x1a\n\0\0\0\rIHDR", 8],
    ["image/gif", "GIF89a\x01\0", 4],
    ["image/gif", "GIF87a\x01\0", 4],
    ["image/webp", "RIFF\x24\0\0\0WEBPVP8 ", 12],
    ["image/heic", "\0\0\0\x18ftypheic\0\0\0\0", 12],
    ["video/webm", "\x1a\x45\xdf\xa3\x9fB\x86", 4],
    ["video/mp4", "\0\0\0\x18ftypisom\0\0\x02\0", 8],
  ] as const;

  it.each(kinds)("%s is known, and no longer with any byte of its sign another", (type, text, to) => {
    const bytes = latin(text);
    expect(pictureType(bytes)).toBe(type);
    const sign = type === "image/webp" ? 8 : type === "image/heic" || type === "video/mp4" ? 4 : 0;
    for (let i = sign; i < to; i++) {
      expect(pictureType(bytes.with(i, bytes[i]! ^ 0x20)), `byte ${i}`).not.toBe(type);
      expect(pictureType(bytes.subarray(0, i)), `${i} bytes`).not.toBe(type);
    }
  });
});

describe("forms of DER", () => {
  // Tags of ITU-T X.680, 8.4 (recalled): BOOLEAN 1, INTEGER 2, BIT STRING 3, OCTET STRING 4, UTF8String 12, SEQUENCE 16 and
  // SET 17, both constructed (0x20); context tags from 0x80, constructed ones from 0xa0. TRUE is 0xff (X.690, 11.1).
  it.each([
    [yes, "0101ff"],
    [integer(Uint8Array.of(0x7f)), "02017f"],
    [integer(Uint8Array.of(0, 0x80, 1)), "0203008001"],
    [bits(Uint8Array.of(0xab, 0xcd)), "030300abcd"],
    [bits(Uint8Array.of(0xa0), 5), "030205a0"],
    [octets(Uint8Array.of(1, 2)), "04020102"],
    [utf8("é"), "0c02c3a9"],
    [sequence(yes, yes), "30060101ff0101ff"],
    [set(yes), "31030101ff"],
    [explicit(3, yes), "a3030101ff"],
    [implicit(2, Uint8Array.of(7)), "820107"],
  ])("%o", (made, hex) => expect(made.toString("hex")).toBe(hex));
});

describe("an address that tries codes", () => {
  const minute = 60_000;
  it("has ten tries in any ten minutes, and is told how long to wait for the oldest to count no more", () => {
    let now = 1_000_000;
    const tries = new Attempts(() => now);
    const answers = [];
    for (let i = 0; i < 11; i++, now += minute / 2) answers.push(tries.note("a"));
    // Ten tries half a minute apart; the eleventh comes five minutes after the first.
    expect(answers).toEqual([...new Array(10).fill(0), 300]);
    now = 1_000_000 + 10 * minute - 400;
    expect(tries.note("a")).toBe(1);
    now = 1_000_000 + 10 * minute;
    expect(tries.note("a")).toBe(0);
    // The second try is half a minute younger.
    expect(tries.note("a")).toBe(30);
  });

  it("of a thousand addresses makes room once the oldest have been quiet for ten minutes", () => {
    let now = 0;
    const tries = new Attempts(() => now);
    tries.note("early");
    now = minute;
    for (let i = 1; i < 1000; i++) expect(tries.note(`a${i}`)).toBe(0);
    expect(tries.note("one more")).toBe(600);
    // One that is known already still has its tries.
    expect(tries.note("a7")).toBe(0);
    now = 10 * minute - 1;
    expect(tries.note("one more")).toBe(600);
    now = 10 * minute;
    expect(tries.note("one more")).toBe(0);
    expect(tries.note("yet another")).toBe(600);
  });

  it("has five tries at a code, which lives ten minutes", () => {
    let now = 5;
    const code = new OneTimeCode(() => now);
    expect(code.until).toBeUndefined();
    expect(code.issue().until).toBe(5 + 10 * minute);
    expect(Array.from({ length: 6 }, () => code.enter("none"))).toEqual([
      ...[4, 3, 2, 1].map((left) => ({ kind: "wrong", left })),
      { kind: "noCode" },
      { kind: "noCode" },
    ]);
    expect(code.until).toBeUndefined();
    code.issue();
    now += 10 * minute - 1;
    expect(code.until).toBe(5 + 10 * minute);
    now += 1;
    expect(code.until).toBeUndefined();
    const { code: digits } = code.issue();
    code.end();
    expect(code.enter(digits)).toEqual({ kind: "noCode" });
    expect(code.enter(code.issue().code.replace(/(....)/, " $1-"))).toEqual({ kind: "letIn" });
  });
});

describe("devices let in", () => {
  const [hour, day] = [3_600_000, 24 * 3_600_000];
  it("are a hundred at most, until one is withdrawn", () => {
    const devices = new Devices("", () => 0);
    for (let i = 0; i < 100; i++) devices.add(`d${i}`);
    expect(() => devices.add("one more")).toThrow("100 are let in already");
    expect(devices.withdraw("none such")).toBe(false);
    expect(devices.withdraw(devices.list()[40]!.id)).toBe(true);
    expect(devices.list().map(({ name }) => name)).toEqual(
      Array.from({ length: 100 }, (_, i) => `d${i}`).filter((name) => name !== "d40"),
    );
    devices.add("one more");
  });

  it("are noted as seen once an hour, and known for 180 days after", () => {
    let now = 1000;
    const devices = new Devices("", () => now);
    const { device, token } = devices.add("Phone");
    expect(device).toEqual({ id: device.id, name: "Phone", addedAt: 1000, seenAt: 1000 });
    const other = devices.add("Tablet");
    now += hour;
    devices.recognise(token);
    expect(devices.list()).toEqual([device, other.device]);
    now += 1;
    expect(devices.recognise(token)).toEqual(device);
    const seen = { ...device, seenAt: 1001 + hour };
    expect(devices.list()).toEqual([seen, other.device]);
    now = 1000 + 180 * day;
    expect(devices.recognise(other.token)).toMatchObject({ name: "Tablet" });
    now = seen.seenAt + 180 * day + 1;
    expect(devices.recognise(token)).toBeUndefined();
  });
});

describe("a status for what went wrong", () => {
  it.each([
    ["missing", 503],
    ["exists", 409],
    ["notABook", 503],
    ["newer", 503],
    ["damaged", 503],
    ["busy", 503],
    ["readOnly", 409],
    ["full", 507],
    ["noLibrary", 500],
    ["unreadable", 503],
  ] satisfies [TroubleKind, number][])("with the book's file, %s: %i", (kind, status) => {
    expect(refusalOf(new BookTrouble(kind, "a.book", "trouble", "remedy")).status).toBe(status);
  });
  it.each([
    ["SQLITE_BUSY", 503, /another program/],
    ["SQLITE_BUSY_TIMEOUT", 503, /another program/],
    ["SQLITE_FULL", 507, /disk is full/],
    ["ENOSPC", 507, /disk is full/],
    ["SQLITE_READONLY", 409, /only be read/],
    ["SQLITE_READONLY_DBMOVED", 409, /only be read/],
    ["SQLITE_CORRUPT", 500, /fault of the program/],
  ])("with the machine, %s: %i", (code, status, given) => {
    const told = refusalOf(Object.assign(new Error("no"), { code }));
    expect(told.status).toBe(status);
    expect(told.body.error.given).toMatch(given);
  });
});

it("a body is at most 1 MB for a record, 16 for a batch, 50 for a picture, 4 KiB for a form and 4 GB for a log", () => {
  expect(limits).toEqual({ record: 1e6, batch: 16e6, picture: 50e6, form: 4096, log: 4e9 });
});

it("a view of a log is one column of doubles after another, lowest byte first", () => {
  const read = (bytes: Uint8Array) => {
    const view = new DataView(bytes.buffer);
    return Array.from({ length: bytes.length / 8 }, (_, i) => view.getFloat64(8 * i, true));
  };
  const readings = viewBody({
    kind: "readings",
    times: Float64Array.of(1, 2, 3),
    columns: { load: Float64Array.of(4, 5, 6), depth: Float64Array.of(7, Number.NaN, 9) },
  } as Parameters<typeof viewBody>[0]);
  expect(read(readings.bytes)).toEqual([1, 2, 3, 4, 5, 6, 7, Number.NaN, 9]);
  expect(readings.head).toEqual({
    kind: "readings",
    rows: 3,
    columns: [
      { name: "", part: "t" },
      { name: "load", part: "value" },
      { name: "depth", part: "value" },
    ],
  });
  const bands = viewBody({
    kind: "bands",
    from: Float64Array.of(1),
    to: Float64Array.of(2),
    columns: { load: { min: Float64Array.of(3), max: Float64Array.of(4) } },
  } as unknown as Parameters<typeof viewBody>[0]);
  expect(read(bands.bytes)).toEqual([1, 2, 3, 4]);
  expect(bands.head.columns.map(({ name, part }) => name + part)).toEqual(["from", "to", "loadmin", "loadmax"]);
});
