/** Small rules of the command line, one by one: what an option means, where its ends are, how a record is told. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { newBook } from "../../src/book/index.ts";
import { besideFile } from "../../src/cli/beside.ts";
import { fieldsFrom } from "../../src/cli/book-fields.ts";
import { historyText, lineText, recordText } from "../../src/cli/book-text.ts";
import { loadsFrom } from "../../src/cli/ladder.ts";
import { checkMeant, endFrom, placeOf, positive, pullFrom, pullUFrom, seedFrom } from "../../src/cli/options.ts";
import { onOneLine, plainJson } from "../../src/cli/plain-text.ts";
import { recordId, shortId } from "../../src/cli/record-name.ts";

describe("what a rode is pulled with", () => {
  it("is a load at an end, or a span, not both", () => {
    expect(pullFrom({ pull: "2 kN", at: "bow" })).toEqual({ at: "bow", newtons: 2000 });
    expect(pullFrom({ span: "30 m" })).toEqual({ at: "span", metres: 30 });
    expect(() => pullFrom({ span: "30 m", pull: "2 kN" })).toThrow("--span");
    expect(() => pullFrom({ span: "30 m", at: "bow" })).toThrow("--span");
    expect(() => pullFrom({})).toThrow("--pull");
    expect(() => pullFrom({ pull: "2 kN" })).toThrow("--at");
    expect(() => pullFrom({ span: "0 m" })).toThrow("a distance above zero is expected");
    expect(() => pullFrom({ span: "1001 km" })).toThrow("1000 km");
    expect(() => pullFrom({ pull: "0 N", at: "bow" })).toThrow("a load above zero is expected");
    for (const end of ["anchor", "bow", "horizontal"] as const) expect(endFrom(end)).toBe(end);
    expect(() => endFrom("stern")).toThrow('--at: "stern"');
  });
  it("has a ± as an amount or as a share, from none to half", () => {
    const load = { at: "bow", newtons: 2000 } as const;
    expect(pullUFrom({}, load)).toBe(0);
    expect(pullUFrom({ pullU: "50 N" }, load)).toBe(50);
    expect(pullUFrom({ pullU: "2 %" }, load)).toBeCloseTo(40, 12);
    expect(pullUFrom({ pullU: "1 %" }, { at: "span", metres: 30 })).toBeCloseTo(0.3, 12);
    expect(pullUFrom({ pullU: "0.2 m" }, { at: "span", metres: 30 })).toBe(0.2);
    expect([pullUFrom({ pullU: "0 N" }, load), pullUFrom({ pullU: "1 kN" }, load)]).toEqual([0, 1000]);
    expect(() => pullUFrom({ pullU: "1001 N" }, load)).toThrow("--pull-u");
    expect(() => pullUFrom({ pullU: "-1 N" }, load)).toThrow("--pull-u");
  });
  it("is refused where a unit was mistaken", () => {
    expect(() => checkMeant(1e-6, "force", "x", "y")).not.toThrow();
    expect(() => checkMeant(1e12, "force", "x", "y")).not.toThrow();
    expect(() => checkMeant(0.9e-6, "force", "x", "y")).toThrow("x: y; a load from 1e-6 N to 1e12 N is expected");
    expect(() => checkMeant(1.1e12, "force", "x", "y")).toThrow("x: y");
    expect(() => checkMeant(1.1e6, "length", "x", "y")).toThrow("a distance from");
    expect(() => checkMeant(1e6, "length", "x", "y")).not.toThrow();
    expect(() => positive("2e12 N", "force", "--load", "a load")).toThrow("1e12 N");
    expect(positive("5 kn", "speed", "--wind", "a wind")).toBeCloseTo((5 * 1852) / 3600, 12);
    expect(() => positive("-1 m", "length", "--depth", "a depth")).toThrow('--depth: "-1 m"; a depth is expected');
  });
  it("comes of whole seeds from nought, and is called standard input where it is", () => {
    expect([seedFrom("0"), seedFrom("42")]).toEqual([0, 42]);
    for (const wrong of ["-1", "1.5", "", " ", "x", "1e20"]) expect(() => seedFrom(wrong), wrong).toThrow("--seed");
    expect([placeOf("-"), placeOf("rig.yaml")]).toEqual(["standard input", "rig.yaml"]);
  });
});

describe("rungs of loads", () => {
  // A pound-force is 4.4482216152605 N, exactly.
  const LBF = 4.4482216152605;
  it("rise by steps to the last that is not beyond the end, in the unit of the step or their own", () => {
    expect(loadsFrom("100..500/200N", "--pull")).toEqual([100, 300, 500]);
    expect(loadsFrom("100..599/200N", "--pull")).toEqual([100, 300, 500]);
    expect(loadsFrom("0.1kN..500N/200N", "--pull")).toEqual([100, 300, 500]);
    expect(loadsFrom("100..300/100lbf", "--pull").map((load) => load / LBF)).toEqual([
      ...[100, 200, 300].map((value) => expect.closeTo(value, 9)),
    ]);
    expect(loadsFrom("100..300/100", "--pull")).toEqual([100, 200, 300]);
    expect(loadsFrom("0.1..0.3/0.1 kN", "--pull")).toHaveLength(3);
    expect(loadsFrom("500..500/100N", "--pull")).toEqual([500]);
    expect(loadsFrom("1..100000/1N", "--pull")).toHaveLength(100_000);
  });
  it("are refused where they do not rise, are too many, or are none", () => {
    for (const wrong of ["0..5/1N", "5..4/1N", "1..5/0N", "1..5/-1N"])
      expect(() => loadsFrom(wrong, "--pull"), wrong).toThrow("loads that rise from above zero");
    expect(() => loadsFrom("1..100001/1N", "--pull")).toThrow("at most 100000 loads");
    expect(() => loadsFrom("1..2e12/1e12N", "--pull")).toThrow("1e12 N");
    for (const wrong of [undefined, "", "1..5", "100"])
      expect(() => loadsFrom(wrong, "--pull")).toThrow("FROM..TO/STEP");
  });
});

describe("texts for a terminal", () => {
  it("have steering signs escaped in JSON, and stand on one line", () => {
    const text = JSON.stringify({ a: "x\u202ey" });
    expect(plainJson(text)).toBe('{"a":"x\\u202ey"}');
    expect(JSON.parse(plainJson(text))).toEqual({ a: "x\u202ey" });
    expect(onOneLine("a \n b\tc\u2028d")).toBe("a b c d");
    expect(onOneLine("x".repeat(1000))).toBe("x".repeat(1000));
    const long = onOneLine(`${"a".repeat(700)}${"b".repeat(400)}${"c".repeat(295)}`);
    expect(long).toBe(`${"a".repeat(700)} ... ${"c".repeat(295)}`);
  });
});

describe("a file that a file names", () => {
  it("lies beside it, or where it says from the root of a disk", () => {
    expect(besideFile("plans/a.yaml", "rig.yaml")).toBe(join("plans", "rig.yaml"));
    expect(besideFile("-", "rigs/rig.yaml")).toBe("rigs/rig.yaml");
    expect(besideFile("plans/a.yaml", "..\\rigs\\rig.yaml")).toBe(join("rigs", "rig.yaml"));
    expect(besideFile("plans/a.yaml", "/rigs/rig.yaml")).toBe("/rigs/rig.yaml");
    expect(besideFile("plans/a.yaml", "C:\\rigs\\rig.yaml")).toBe("C:\\rigs\\rig.yaml");
    expect(besideFile("plans/a.yaml", "\\\\boat\\rig.yaml")).toBe("\\\\boat\\rig.yaml");
  });
});

describe("records by what people say of them", () => {
  const kept = mkdtempSync(join(tmpdir(), "small-rules-"));
  const book = newBook(join(kept, "a.book"), { title: "A" }, { who: "test", backups: false });
  afterAll(() => {
    book.close();
    rmSync(kept, { recursive: true, force: true });
  });
  const write = (kind: string, set: object) => book.write([{ kind, set } as never], `add ${kind}`).ids[0]!;
  const site = write("site", { name: "Ebb Cove", latitude_deg: -10.5 });
  const day = write("day", { date: "2031-05-17", site, wind_m_per_s: 6 });
  const anchor = write("anchor", { name: "Scoop", shape: "scoop", mass_kg: 15 });
  const pull = write("pull", {
    ...{ day, anchor, number: 3, depth_m: 6, scope: 5, heading_deg: 270, heldFor_s: 8 },
    result: { kind: "gaveWay", load_N: 2500, u_N: 30 },
  });
  const twins = [write("boat", { name: "Tern" }), write("boat", { name: "Tern" })];
  const io = { read: async (path: string) => `text of ${path}` } as never;
  const fields = (kind: string, ...settings: string[]) => fieldsFrom(book, kind as never, settings, io);

  it("are found by id, by either end of it, by name, date or number", () => {
    expect(shortId(site)).toBe(site.slice(-8));
    for (const [given, id] of [
      [site, site],
      [shortId(site), site],
      [site.slice(-6), site],
      ["ebb cove", site],
      ["2031-05-17", day],
      ["Pull 3", pull],
    ] as const)
      expect(recordId(book, given)).toBe(id);
    expect(() => recordId(book, site.slice(-5))).toThrow("no such record");
    expect(() => recordId(book, "Tern")).toThrow(
      `2 records are called so; one of their ids is expected: ${twins.map(shortId).join(", ")}`,
    );
    expect(() => recordId(book, "Scoop", "--set day", "day")).toThrow(
      '--set day: "Scoop", no such record; the id of a day',
    );
    expect(recordId(book, "scoop", "x", "anchor")).toBe(anchor);
  });
  it("take numbers in the unit of their field or in their own, others by name, files by @, nothing for nothing", async () => {
    expect(
      await fields("pull", "depth_m=6", "remarks=2 m of swell", "scope=5:1", "heading_deg=", "day=2031-05-17"),
    ).toEqual({
      ...{ depth_m: 6, remarks: "2 m of swell", scope: 5, heading_deg: null, day },
    });
    const told = await fields(
      "pull",
      "depth_m=10 ft",
      "heading_deg=90 deg",
      "heldFor_s=1 min",
      "tare_N=1 kN",
      "scope=5 : 1",
    );
    // A foot is 0.3048 m, exactly.
    expect(told).toEqual({ depth_m: 3.048, heading_deg: 90, heldFor_s: 60, tare_N: 1000, scope: 5 });
    expect(await fields("day", "wind_m_per_s=10 kn")).toEqual({ wind_m_per_s: expect.closeTo(18520 / 3600, 12) });
    expect(await fields("anchor", "mass_kg=500 g", "flukeArea_m2=100 cm2", "name=@@x")).toEqual({
      mass_kg: 0.5,
      flukeArea_m2: 0.01,
      name: "@x",
    });
    expect(await fields("rig", "name=true", "description=@notes.txt")).toEqual({
      name: "true",
      description: "text of notes.txt",
    });
    expect(await fields("pull", 'steps=[{"load_N":5}]')).toEqual({ steps: [{ load_N: 5 }] });
    expect(await fieldsFrom(book, "pull", undefined, io)).toEqual({});
  });
  it("are refused by their field", async () => {
    await expect(fields("pull", "depth_m")).rejects.toThrow("--set");
    await expect(fields("pull", "=5")).rejects.toThrow("--set");
    await expect(fields("anchor", "mass=5")).rejects.toThrow("is mass_kg meant?");
    await expect(fields("pull", "depth_m=6", "depth_m=7")).rejects.toThrow("--set depth_m: given twice");
    await expect(fields("rigVersion", "file=rig.yaml")).rejects.toThrow("file=@rig.yaml reads it");
    await expect(fields("pull", "anchor=2031-05-17")).rejects.toThrow("no such record");
  });
  it("are told in a line, and whole", () => {
    const options = { units: "metric" } as never;
    const line = (kind: string, id: string) =>
      lineText(book, kind as never, book.get(kind as never, id) as never, options);
    expect(line("pull", pull)).toBe(`${shortId(pull)}  no. 3, 2031-05-17, Scoop, 6 m, 5:1, gave way at 2500 ± 30 N`);
    expect(line("day", day)).toBe(`${shortId(day)}  2031-05-17, Ebb Cove, 6 m/s`);
    const whole = recordText("pull", book.get("pull", pull) as never, options).split("\n");
    expect(whole[0]).toBe(`pull ${pull}`);
    expect(whole).toContain("depth: 6 m");
    expect(whole).toContain("heading: 270°");
    expect(whole).toContain("held for: 8 s");
    expect(whole).toContain('result: {"kind":"gaveWay","load_N":2500,"u_N":30}');
    expect(recordText("site", { id: "x", hidden: true, description: "a\nb" } as never, options)).toBe(
      "site x (hidden)\ndescription: \n  a\n  b\n",
    );
    expect(lineText(book, "site", { id: "12345678", hidden: true } as never, options)).toBe("12345678  site  (hidden)");
  });
  it("have a history of what changed, the long of it cut", () => {
    const change = (field: string, was: unknown, value: unknown) => ({ kind: "pull", record: "x", field, was, value });
    const told = (changes: object[]) =>
      historyText({ at: "2031", who: "", label: "edit", transaction: "t", changes } as never).split("\n");
    expect(told([change("depth_m", null, 6), change("hidden", false, true)])).toEqual([
      ...["2031  unnamed: edit  [t]", "    pull.depth_m: nothing → 6", ""],
    ]);
    const six = Array.from({ length: 6 }, (_, i) => change(`f${i}`, i, i + 1));
    expect(told(six)).toHaveLength(8);
    const seven = told([...six, change("f6", 6, 7)]);
    expect(seven[6]).toBe("    and 2 more");
    expect(seven).toHaveLength(8);
    expect(told([change("remarks", "y".repeat(58), "z".repeat(59))])[1]).toBe(
      `    pull.remarks: "${"y".repeat(58)}" → "${"z".repeat(56)}...`,
    );
  });
});
