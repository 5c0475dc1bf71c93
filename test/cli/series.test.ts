import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { newBook } from "../../src/book/index.ts";
import type { RecordOf } from "../../src/record/index.ts";
import { pullCode } from "../../src/series/index.ts";
import { howPulled } from "../../src/study/index.ts";
import { rodebench } from "../support/command-line.ts";

const TEXT = readFileSync("data/series/creek-trial.yaml", "utf8");
const folder = mkdtempSync(join(tmpdir(), "series-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Document {
  readonly held: number;
  readonly pulls: readonly { readonly code: string; readonly loads?: readonly { readonly load_N: number }[] }[];
  readonly power: { readonly from: string } | null;
  readonly next: readonly { readonly anchor: string; readonly reason: string }[];
}
const json = (text: string) => JSON.parse(text) as Document;

const emptyPull = { id: "pull", hidden: false } as RecordOf<"pull">;

describe("rodebench series", () => {
  it("writes a field sheet with every pull's code, its loads and blanks, and the caution once", async () => {
    const written: Record<string, string> = {};
    const write = async (path: string, content: string | Uint8Array) => {
      written[path] = String(content);
    };
    const { out, err, status } = await rodebench(
      ["series", "data/series/creek-trial.yaml", "--no-power", "--sheet", "sheet.html"],
      {},
      { write },
    );
    expect([err, status]).toEqual(["", 0]);
    const page = written["sheet.html"]!;
    const { pulls } = json((await rodebench(["series", "data/series/creek-trial.yaml", "--no-power", "--json"])).out);
    expect(pulls).toHaveLength(11);
    for (const { code } of pulls) {
      expect(page).toContain(`<span class="code">${code}</span>`);
      expect(out).toContain(code);
    }
    expect(page.match(/Loaded gear hurts people/g)).toHaveLength(1);
    expect(page).toContain("Working load limit");
    expect(page).not.toMatch(/https?:\/\//);
  });

  it("reads the code of a pull back, and refuses one with a wrong sign in one line", async () => {
    const { pulls } = json((await rodebench(["series", "data/series/creek-trial.yaml", "--no-power", "--json"])).out);
    const code = pulls[4]!.code;
    const { out } = await rodebench(["series", "data/series/creek-trial.yaml", "--code", code.toLowerCase(), "--json"]);
    expect(JSON.parse(out)).toMatchObject({ format: "rodebench/planned-pull@1", number: 5, code });
    const wrong = await rodebench([
      "series",
      "data/series/creek-trial.yaml",
      "--code",
      `${code.slice(0, 4)}${code[4] === "A" ? "C" : "A"}`,
    ]);
    expect(wrong.status).toBe(2);
    expect(wrong.err).toMatch(
      /^[^\n]*--code: "[^\n]*, a sign is wrong, or two are swapped;[^\n]* is expected[^\n]*\n$/,
    );
    const read = (typed: string) => rodebench(["series", "data/series/creek-trial.yaml", "--code", typed]);
    expect((await read(` ${code.slice(0, 3)} - ${code.slice(3).toLowerCase()}`)).status).toBe(0);
    expect((await read(`${code.slice(0, 2)}O${code.slice(3)}`)).err).toContain(
      `O stands in no code; ${code} does, if the other signs are right`,
    );
    expect((await read(code.slice(1))).err).toContain("4 signs, and a code has five");
    // A code of this series made with its name and seed, beyond its last pull.
    expect((await read(pullCode("Two anchors in the creek 7", 40))).err).toContain("pull 40, and this series has 11");
    expect((await read(pullCode("Two anchors in the creek 8", 2))).err).toContain("a code of another series");
  });

  it("counts what is held already, from a table beside the file or the one that is named", async () => {
    const table =
      "anchor,heldTo_N,gaveWayBy_N,anchorAngle_deg\nPlough A,1500,1500,5\nPlough A,1700,1700,5\nPlough A,1400,1400,5\n";
    const files = { "s.yaml": `${TEXT}\nbook: held.csv\n`, "held.csv": table, "plain.yaml": TEXT };
    const beside = json((await rodebench(["series", "s.yaml", "--json"], files)).out);
    expect([beside.held, beside.power?.from, beside.next[0]!.anchor, beside.next[0]!.reason]).toEqual([
      3,
      "pulls",
      "Scoop B",
      "leastPulled",
    ]);
    const named = json((await rodebench(["series", "plain.yaml", "--book", "held.csv", "--json"], files)).out);
    expect(named).toEqual(beside);
  });

  it("plans a series that a book keeps, by the text that is its protocol", async () => {
    const path = join(folder, "kept.book");
    const book = newBook(path, { title: "Kept" }, { who: "test" });
    book.write([{ kind: "series", set: { name: "Creek", protocol: TEXT } }], "add series");
    book.close();
    const { out, status } = await rodebench(["series", path, "--series", "Creek", "--no-power", "--json"]);
    expect(status).toBe(0);
    expect(json(out).pulls).toHaveLength(11);
    const none = await rodebench(["series", path, "--series", "River"]);
    expect([none.status, none.err]).toEqual([2, `--series: "River"; one of "Creek" is expected with --series\n`]);
  });

  it("says the hold rule in the plan, on the sheet and by a pull's code, and where no load would be held so long", async () => {
    const said = "A load counts as held when kept for 30 s or longer, the anchor moving by less than 0.5 m meanwhile";
    const written: Record<string, string> = {};
    const write = async (path: string, content: string | Uint8Array) => {
      written[path] = String(content);
    };
    const asks = (text: string, ...options: string[]) =>
      rodebench(["series", "s.yaml", "--no-power", ...options], { "s.yaml": text }, { write });
    expect((await asks(TEXT, "--sheet", "sheet.html")).out).toContain(`${said}.`);
    // Once above all, and over the table of each of the 11 pulls: each is had.
    expect(written["sheet.html"]!.split(said)).toHaveLength(1 + 1 + 11);
    expect((await asks(TEXT, "--code", "X922E")).out).toContain(`${said}.`);
    const rule = { hold_s: 60, holdRule: { heldFor_s: 30, heldWithin_m: 0.5 } };
    expect(JSON.parse((await asks(TEXT, "--json")).out)).toMatchObject(rule);
    expect(JSON.parse((await asks(TEXT, "--code", "X922E", "--json")).out)).toMatchObject(rule);
    expect((await asks(TEXT, "--units", "us")).out).toContain("moving by less than 1.6 ft meanwhile");

    const short = TEXT.replace("heldFor: 30 s", "heldFor: 90 s");
    const none = "Each load is to be held for 1 min, and the hold rule asks for 1 min 30 s: none would count as held";
    expect((await asks(short, "--sheet", "sheet.html")).out).toContain(`${none}.`);
    expect(written["sheet.html"]).toContain(none);
    expect((await asks(TEXT)).out).not.toContain("none would count");
  });

  it("has of a book's series the rule its pulls are judged by: its record's, then its plan's, then the usual one", async () => {
    let books = 0;
    const rules = async (set: object) => {
      const path = join(folder, `rule-${++books}.book`);
      const book = newBook(path, { title: "Kept" }, { who: "test" });
      const { ids } = book.write([{ kind: "series", set: { name: "Creek", protocol: TEXT, ...set } }], "add series");
      const series = book.get("series", ids[0]!)!;
      book.close();
      const { out } = await rodebench(["series", path, "--no-power", "--json"]);
      const how = howPulled({ pull: emptyPull, series });
      return [JSON.parse(out).holdRule, { heldFor_s: how.heldFor ?? 8, heldWithin_m: how.heldWithin ?? 1 }];
    };
    const each = async (set: object, heldFor_s: number, heldWithin_m: number) =>
      expect(await rules(set)).toEqual(Array(2).fill({ heldFor_s, heldWithin_m }));
    await each({}, 30, 0.5);
    await each({ heldFor_s: 45 }, 45, 0.5);
    await each({ heldFor_s: 12, heldWithin_m: 0.25 }, 12, 0.25);
    await each({ protocol: TEXT.replace("heldFor: 30 s, heldWithin: 0.5 m, ", "") }, 8, 1);
  });

  it("judges by no rule of a protocol that is words, or whose rule cannot be read", () => {
    const of = (protocol: string | null) => {
      const { heldFor, heldWithin } = howPulled({ pull: emptyPull, series: { protocol } as RecordOf<"series"> });
      return [heldFor, heldWithin];
    };
    expect(of(TEXT)).toEqual([30, 0.5]);
    expect(of("pulls: { heldFor: 30 s }")).toEqual([undefined, undefined]);
    expect(of(TEXT.replace("heldFor: 30 s", "heldFor: soon"))).toEqual([undefined, undefined]);
    expect(of("rodebench/series@1: [")).toEqual([undefined, undefined]);
    expect(of(null)).toEqual([undefined, undefined]);
  });

  it.each([
    ["heldFor: 30 s", "heldFor: 2 days", "pulls.heldFor"],
    ["heldWithin: 0.5 m", "heldWithin: 0 m", 'pulls.heldWithin: "0 m"'],
    ["heldWithin: 0.5 m", "heldWithin: [1 m]", "pulls.heldWithin"],
    ["kind: compare", "kind: winner", 'question.kind: "winner"'],
    ["loads: [1 kN, 2 kN, 3 kN]", "loads: [2 kN, 1 kN]", "question.loads"],
    ["loads: [1 kN, 2 kN, 3 kN]", "loads: [2 kn]", 'question.loads #1: "2 kn" is a speed'],
    ["angles: [2 deg, 12 deg]", "angles: [2 deg, 95 deg]", "question.angles #2"],
    ["tell: 1.5", "tell: 0.9", "question.tell"],
    ["site: Outer bank", "site: Nowhere", 'days #2.site: "Nowhere"'],
    ['to: "10:00"', 'to: "07:00"', "days #2.to"],
    ["M2: [1.5 m", "M22: [1.5 m", "tide.constituents.M22"],
    ["2026-06-02T10:25Z", "2026-06-02 10:25", "turns #2.at"],
    ["- { speed: 1800 rpm, load: 1.6 kN }", "- { speed: 1800 rpm, load: 0.6 kN }", "boat.thrust"],
    ["name: Scoop B", "name: Plough A", 'anchors: "Plough A"'],
    ["repeats: 3", "repeats: 0", "pulls.repeats"],
    ["repeats: 3", "repeats: 200", "800 pulls"],
  ])("refuses %s changed to %s in one line that names the field", async (was, now, said) => {
    expect(TEXT).toContain(was);
    const { err, out, status } = await rodebench(["series", "s.yaml"], { "s.yaml": TEXT.replace(was, now) });
    expect([status, out]).toEqual([2, ""]);
    expect(err.trimEnd().split("\n")).toHaveLength(1);
    expect(err).toContain(said);
    expect(err).toMatch(/(is|are) expected/);
  });
});
