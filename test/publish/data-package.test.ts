/** A series as a data package: what is in it, what is not, and that it can be worked out again from itself. */
import { createHash } from "node:crypto";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DuckDBInstance } from "@duckdb/node-api";
import Papa from "papaparse";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Book, createDemoBook, systemPorts } from "../../src/book/index.ts";
import { holdRulesOf, readPullsTable } from "../../src/holding/index.ts";
import {
  checkPackage,
  dataPackage,
  LICENCES,
  type PackageChoice,
  type PackageFiles,
  type Private,
  saysInvented,
} from "../../src/publish/index.ts";
import { DEGREES } from "../../src/quantity/index.ts";
import { readRig, settle } from "../../src/rode/index.ts";
import { pullCases, pullEvidence } from "../../src/study/index.ts";
import { holdRulesLine, INVENTED } from "../../src/words/index.ts";
import { draft04Troubles } from "../support/draft-04.ts";

const folder = mkdtempSync(join(tmpdir(), "data-package-"));
const sha256 = async (bytes: Uint8Array): Promise<string> => createHash("sha256").update(bytes).digest("hex");
/** Answers that a hand can follow: how many pulls, and the sum of what they held. */
async function answersOf(csv: string): Promise<object> {
  const { pulls } = readPullsTable(Papa.parse<string[]>(csv, { skipEmptyLines: true }).data, "pulls");
  return {
    pulls: pulls.length,
    sum_N: pulls.reduce((sum, { hold }) => sum + ("newtons" in hold ? hold.newtons : 0), 0),
  };
}
const check = (files: PackageFiles) => checkPackage(files, { sha256, answersOf });
const text = (files: PackageFiles, path: string): string => new TextDecoder().decode(files.get(path));

let book: Book;
let files: PackageFiles;

function choice(chosen: readonly Private[] = [], by = "An invented tester"): PackageChoice {
  const list = <K extends Parameters<Book["list"]>[0]>(kind: K) => book.list(kind);
  const records = {
    pull: list("pull"),
    day: list("day"),
    site: list("site"),
    seabed: list("seabed"),
    anchor: list("anchor"),
    rigVersion: list("rigVersion"),
    series: list("series"),
  };
  return {
    about: {
      title: "Four shapes",
      description: "Which holds most?",
      by,
      citation: "An invented tester, 2031",
      licence: LICENCES["CC-BY-4.0"]!,
      program: "0",
    },
    pulls: pullCases(records).map((about) => ({ about, evidence: pullEvidence(about) })),
    sites: records.site,
    chosen,
    seed: 1,
    answersOf,
    sha256,
  };
}

beforeAll(async () => {
  book = createDemoBook(join(folder, "demo.book"), { who: "test", ports: systemPorts });
  ({ files } = await dataPackage(choice()));
});
afterAll(() => {
  book.close();
  rmSync(folder, { recursive: true, force: true });
});

/** A package with one file changed, as somebody's editor would. */
function changed(path: string, change: (text: string) => string): PackageFiles {
  return new Map([...files, [path, new TextEncoder().encode(change(text(files, path)))]]);
}

describe("a data package", () => {
  it("is told by a descriptor that holds to the published profiles (Frictionless version 1, seen in npm's datapackage 1.1.10)", () => {
    const descriptor = JSON.parse(text(files, "datapackage.json")) as {
      name: string;
      resources: { profile: string; hash: string; path: string }[];
    };
    const troubles = (name: string, value: unknown): string[] =>
      draft04Troubles(
        JSON.parse(readFileSync(`test/published/frictionless/${name}.json`, "utf8")) as object as never,
        value,
      );
    expect(troubles("data-package", descriptor)).toEqual([]);
    const table = descriptor.resources.find(({ path }) => path === "pulls.csv")!;
    expect(troubles("tabular-data-resource", table)).toEqual([]);
    for (const one of descriptor.resources) expect(troubles("data-resource", one)).toEqual([]);
    // A profile that took anything would take these too.
    expect(troubles("data-package", { ...descriptor, name: "Not A Name" })).toHaveLength(1);
    expect(troubles("data-package", { ...descriptor, resources: [] })).toHaveLength(1);
    const { path: _, ...pathless } = table;
    expect(troubles("data-resource", pathless)).toHaveLength(1);
    expect(troubles("tabular-data-resource", { ...table, schema: { fields: [{ type: "number" }] } })).not.toEqual([]);
    for (const { path, hash } of descriptor.resources)
      expect(hash).toBe(`sha256:${createHash("sha256").update(files.get(path)!).digest("hex")}`);
  });

  it("says of invented data that they are: in what the whole is described by, in its README, and for a program to read", async () => {
    const [own, demo] = [choice(), choice()];
    const invented = (await dataPackage({ ...demo, about: { ...demo.about, invented: true } })).files;
    const descriptor = JSON.parse(text(invented, "datapackage.json")) as { description: string; invented: boolean };
    expect(descriptor.description.startsWith(INVENTED)).toBe(true);
    expect(descriptor.invented).toBe(true);
    const profile = JSON.parse(readFileSync("test/published/frictionless/data-package.json", "utf8")) as object;
    expect(draft04Troubles(profile as never, descriptor)).toEqual([]);
    expect(text(invented, "README.md")).toContain(INVENTED);
    expect(saysInvented(invented.get("datapackage.json"))).toBe(true);
    const others = (await dataPackage(own)).files;
    for (const path of ["datapackage.json", "README.md"]) {
      expect(text(others, path)).toBe(text(files, path));
      expect(text(others, path)).not.toContain(INVENTED);
    }
    for (const bytes of [files.get("datapackage.json"), undefined, new TextEncoder().encode("null")])
      expect(saysInvented(bytes)).toBe(false);
  });

  it("tells how each pull's log was judged, with unit, bounds and meaning, and reads it back; places only where chosen", async () => {
    const how = {
      ...{ heldFor_s: 30, heldWithin_m: 0.5, calibration: 1.02, tare_N: -35, slackLoad_N: 60 },
      ...{ bearing_deg: 215, trackClock_s: -2.5 },
    };
    const place = { anchorLatitude_deg: 48.12345, anchorLongitude_deg: -5 };
    const judged = async (chosen: readonly Private[]) => {
      const own = choice(chosen);
      const [first, second, ...rest] = own.pulls.map(({ about }) => about);
      const log = {
        held: { kind: "heldTo", newtons: 2000, u: 20, at: "bow", mark: "m", why: { kind: "byHand" }, untold: null },
        ...{ zeroFound: true, unmatched: 0, cell: "load-2" },
      } as unknown as NonNullable<(typeof own.pulls)[number]["about"]["log"]>;
      const byLog = { result: null, steps: null, endedBy: null };
      const cases = [
        { ...first!, pull: { ...first!.pull, ...byLog, ...how, ...place, pulls: "ahead" as const }, log },
        { ...second!, pull: { ...second!.pull, ...byLog, heldFor_s: 12 }, log },
        ...rest,
      ];
      const made = await dataPackage({
        ...own,
        pulls: cases.map((about) => ({ about, evidence: pullEvidence(about) })),
      });
      const table = Papa.parse<Record<string, string>>(text(made.files, "pulls.csv"), { header: true });
      return { files: made.files, rows: table.data, header: table.meta.fields! };
    };
    const plain = await judged([]);
    expect(plain.rows[0]).toMatchObject({
      ...Object.fromEntries(Object.entries(how).map(([name, value]) => [name, String(value)])),
      ...{ boatPulled: "ahead", cell: "load-2", readHeldTo_N: "2000", from: "log" },
    });
    // Judged by its log, and with nothing stated but the time: the rest is as usual, 1 m, and as read.
    const rest = { heldWithin_m: "1", calibration: "", tare_N: "", slackLoad_N: "", boatPulled: "", trackClock_s: "" };
    expect(plain.rows[1]).toMatchObject({ heldFor_s: "12", cell: "load-2", ...rest });
    // Of a pull whose record says what it held nothing was judged.
    expect(plain.rows[2]).toMatchObject({ from: "record", heldFor_s: "", heldWithin_m: "", cell: "" });
    expect(plain.header.filter((name) => /latitude|longitude/i.test(name))).toEqual([]);
    expect(text(plain.files, "pulls.csv")).not.toContain("48.12345");

    const descriptor = JSON.parse(text(plain.files, "datapackage.json")) as {
      resources: { path: string; schema?: { fields: Record<string, unknown>[] } }[];
    };
    const fields = descriptor.resources.find(({ path }) => path === "pulls.csv")!.schema!.fields;
    const field = (name: string) => fields.find((one) => one.name === name);
    expect(field("heldFor_s")).toMatchObject({
      type: "number",
      unit: "s",
      constraints: { minimum: 0.1, maximum: 86_400 },
    });
    expect(field("tare_N")).toMatchObject({ type: "number", unit: "N" });
    expect(field("boatPulled")).toMatchObject({ constraints: { enum: ["astern", "ahead"] } });
    for (const name of [...Object.keys(how), "boatPulled", "cell"])
      expect(String(field(name)!.description).length, name).toBeGreaterThan(20);

    const placed = await judged(["positions"]);
    expect(placed.rows[0]).toMatchObject({ anchorLatitude_deg: "48.12345", anchorLongitude_deg: "-5" });
    for (const made of [plain.files, placed.files]) expect((await check(made)).differences).toEqual([]);
    // What a row says beside what it may: another Parquet, or a number that is none, is told.
    const wrong = (path: string, change: (csv: string) => string): PackageFiles =>
      new Map([...plain.files, [path, new TextEncoder().encode(change(text(plain.files, path)))]]);
    const tampered = await check(wrong("pulls.csv", (csv) => csv.replace(",30,0.5,1.02,", ",31,0.5,1.02,")));
    expect(tampered.differences.map(({ where }) => where)).toContainEqual(expect.stringContaining("heldFor_s"));
    await expect(check(wrong("pulls.csv", (csv) => csv.replace(",30,0.5,1.02,", ",30,0.5,99,")))).rejects.toThrow(
      /column calibration: "99"; a number from 0.1 to 10 is expected/,
    );
    await expect(check(wrong("pulls.csv", (csv) => csv.replace(",ahead,", ",sideways,")))).rejects.toThrow(
      /column boatPulled: "sideways"; one of astern, ahead is expected/,
    );

    // Another tester's comparing reads the rule, and tells where rules differ.
    const { pulls } = readPullsTable(
      Papa.parse<string[]>(text(plain.files, "pulls.csv"), { skipEmptyLines: true }).data,
      "p",
    );
    expect(pulls.slice(0, 3).map(({ holdRule }) => holdRule)).toEqual([
      { heldFor: 30, heldWithin: 0.5 },
      { heldFor: 12, heldWithin: 1 },
      undefined,
    ]);
    expect(holdRulesOf(pulls)).toEqual([
      { heldFor: 30, heldWithin: 0.5, pulls: 1 },
      { heldFor: 12, heldWithin: 1, pulls: 1 },
    ]);
    expect(holdRulesLine(holdRulesOf(pulls), "metric")).toContain(
      "1 kept for 30 s or longer, the anchor moving by less than 0.5 m meanwhile; 1 kept for 12 s or longer",
    );
    expect(holdRulesLine(holdRulesOf(pulls).slice(0, 1), "metric")).toBeNull();
  });

  it("of an earlier program, which told nothing of how logs were judged, is checked as it is", async () => {
    const table = Papa.parse<string[]>(text(files, "pulls.csv"), { skipEmptyLines: true }).data;
    const header = table[0]!;
    const [from, to] = [header.indexOf("cell"), header.indexOf("trackClock_s")];
    expect(to - from).toBe(8);
    const csv = `${Papa.unparse(
      table.map((row) => row.filter((_, i) => i < from || i > to)),
      { newline: "\r\n" },
    )}\r\n`;
    const earlier: PackageFiles = new Map([...files, ["pulls.csv", new TextEncoder().encode(csv)]]);
    const { differences, pulls } = await check(earlier);
    expect(pulls).toBe(36);
    // Its sum is another, since the descriptor is of the table with them; no number is.
    expect(differences.map(({ where }) => where)).toEqual(["pulls.csv, bytes"]);
  });

  it("has a row for each pull that can be compared, read alike from CSV and Parquet by another reader (DuckDB)", async () => {
    for (const path of ["pulls.csv", "pulls.parquet"]) writeFileSync(join(folder, path), files.get(path)!);
    const db = await (await DuckDBInstance.create()).connect();
    const ask = async (from: string): Promise<unknown[]> =>
      (
        await db.runAndReadAll(
          `select count(*)::int, sum("heldTo_N"), sum("anchorAngle_deg"), count(distinct anchor)::int, min("day")::varchar, sum(pull)::int from ${from}`,
        )
      ).getRows()[0]!;
    const csv = await ask(`read_csv('${folder}/pulls.csv')`);
    const parquet = await ask(`read_parquet('${folder}/pulls.parquet')`);
    expect(csv[0]).toBe(36);
    expect(csv[3]).toBe(4);
    expect(csv[5]).toBe((36 * 37) / 2);
    expect(parquet[0]).toBe(csv[0]);
    // Sums of the same doubles in another order.
    expect(Number(parquet[1])).toBeCloseTo(Number(csv[1]), 6);
    expect(Number(parquet[2])).toBeCloseTo(Number(csv[2]), 9);
    expect(parquet.slice(3)).toEqual(csv.slice(3));
    db.closeSync();
  });

  it("gives the load at the anchor that the rig in that depth gives under the load read", () => {
    const { data } = Papa.parse<Record<string, string>>(text(files, "pulls.csv"), {
      header: true,
      skipEmptyLines: true,
    });
    let looked = 0;
    for (const row of data) {
      if (row.rig === "" || row.depth_m === "" || row.paidOut_m !== "" || row.verdict !== "heldTo") continue;
      const rig = readRig(text(files, row.rig!), "rig");
      if (rig.setting.medium !== "water") continue;
      const depth = Number(row.depth_m);
      const length = Number(row.scope) * (depth + rig.setting.rollerHeight);
      const lines = rig.rode.filter((part) => part.kind === "line");
      const whole = lines.reduce((sum, part) => sum + part.length, 0);
      // Where the scope is that of the file's own length but for rounding, the file's is believed.
      const by = Math.abs(length / whole - 1) < 0.02 ? 0 : length - whole;
      if (by !== 0 && lines.length > 1) continue;
      const rode = rig.rode.map((part) => (part.kind === "line" ? { ...part, length: part.length + by } : part));
      const settled = settle(
        { ...rig, rode, setting: { ...rig.setting, depth } },
        { at: row.readAt as "bow", newtons: Number(row.readHeldTo_N) },
      );
      if (settled.kind !== "settled") throw new Error("it settles");
      expect(Number(row.heldTo_N) / settled.anchor.tension).toBeCloseTo(1, 9);
      expect(Number(row.anchorAngle_deg)).toBeCloseTo(settled.anchor.angleToBottom * DEGREES, 6);
      looked++;
    }
    console.log(`${looked} of ${data.length} rows settled here on their own`);
    expect(looked).toBeGreaterThan(0);
  });

  it("is worked out again from itself, and tells what was changed, and where", async () => {
    const sound = await check(files);
    expect(sound.differences).toEqual([]);
    expect(sound.pulls).toBe(36);
    expect(sound.numbers).toBeGreaterThan(100);
    expect(sound.answers).toBe(2);

    const load = /\r\n1,.*?,(\d{3,4}\.\d+),/;
    const [, cell] = load.exec(text(files, "pulls.csv"))!;
    const other = String(Number(cell) * 1.001);
    const tampered = await check(changed("pulls.csv", (csv) => csv.replace(cell!, other)));
    expect(tampered.differences.map(({ where }) => where)).toEqual([
      "pulls.csv, bytes",
      "pulls.parquet, row 1, heldTo_N",
      "pulls.csv, pull 1, heldTo_N",
      "answers.json, sum_N",
    ]);

    const rig = await check(changed("rigs/rig-1.yaml", (yaml) => yaml.replace("20 m", "21 m")));
    expect(rig.differences.filter(({ where }) => /pull \d+, heldTo_N/.test(where)).length).toBeGreaterThan(3);

    const answers = await check(changed("answers.json", (json) => json.replace('"pulls": 36', '"pulls": 37')));
    expect(answers.differences.map(({ where }) => where)).toEqual(["answers.json, content", "answers.json, pulls"]);
  });

  it("holds no person, remark or position unless they were chosen", async () => {
    const people = book.list("day").map(({ testers }) => testers!);
    const position = String(book.list("site")[0]!.latitude_deg);
    const all = (of: PackageFiles): string =>
      [...of.values()].map((bytes) => new TextDecoder("latin1").decode(bytes)).join("");
    expect(people.length).toBeGreaterThan(1);
    for (const name of [...people, ...people.flatMap((one) => one.split(/ and |\(/)[0]!.trim()), position])
      expect(all(files)).not.toContain(name);
    const { files: open } = await dataPackage(choice(["people", "remarks", "positions"]));
    expect(all(open)).toContain(people[0]!);
    expect(all(open)).toContain(position);
    expect((await check(open)).differences).toEqual([]);
  });

  it("is the same to the byte from the same book", async () => {
    const { files: again } = await dataPackage(choice());
    for (const [path, bytes] of files) expect(Buffer.compare(again.get(path)!, bytes), path).toBe(0);
  });

  it("takes a hostile name as text in every file", async () => {
    const [anchor] = book.list("anchor");
    const hostile = '=HYPERLINK("x")<script>\u202E|`[a](b)';
    book.edit("anchor", anchor!.id, { name: hostile });
    const { files: made } = await dataPackage(choice([], "=1+1 <b>"));
    const csv = text(made, "pulls.csv");
    expect(csv).not.toMatch(/(^|,|")=/m);
    expect(csv).not.toMatch(/\p{Bidi_Control}/u);
    expect(csv).toContain("'=1+1 <b>");
    const readme = text(made, "README.md");
    expect(readme).not.toMatch(/[^\\]<b>/);
    expect((await check(made)).differences).toEqual([]);
  });

  it("is refused where a resource leads out of its folder, or a cell is no number", async () => {
    await expect(
      check(changed("datapackage.json", (json) => json.replace('"pulls.csv"', '"../pulls.csv"'))),
    ).rejects.toThrow("a path within the package is expected");
    await expect(check(changed("pulls.csv", (csv) => csv.replace(/\r\n1,/, "\r\none,")))).rejects.toThrow(
      'pulls.csv: row 2, column pull: "one"; a number is expected',
    );
  });
});

describe("what draws concluded", () => {
  const published = {
    holds: [{ anchor: "A", low_N: 1000, median_N: 2000, high_N: 4000 }],
    pairs: [{ moreInTheMean: 0.9 }],
    posterior: { rHatWorst: 1.001 },
  };
  const again = async (other: object): Promise<string[]> => {
    const { files: made } = await dataPackage({ ...choice(), answersOf: async () => published });
    const checked = await checkPackage(made, { sha256, answersOf: async () => other });
    return checked.differences.map(({ where }) => where);
  };

  it("agrees as far as draws agree, and not a step farther", async () => {
    // A band of ln 4 wide: limits may move by a factor of 4 ** 0.15 = 1.23.
    const moved = (low_N: number, moreInTheMean: number) => ({
      ...published,
      holds: [{ ...published.holds[0], low_N }],
      pairs: [{ moreInTheMean }],
    });
    expect(await again(published)).toEqual([]);
    expect(await again(moved(1200, 0.85))).toEqual([]);
    expect(await again(moved(1260, 0.85))).toEqual(["answers.json, holds, 0, low_N"]);
    expect(await again(moved(1000, 0.75))).toEqual(["answers.json, pairs, 0, moreInTheMean"]);
    expect(await again({ ...published, posterior: { rHatWorst: 1.004 } })).toEqual([]);
    expect(await again({ ...published, holds: [{ ...published.holds[0], anchor: "B" }] })).toEqual([
      "answers.json, holds, 0, anchor",
    ]);
  });
});

describe("raw logs in a package", () => {
  const log = (pull: string) => ({
    pull,
    channels: [
      { name: "load", quantity: "force", unit: "N" },
      { name: "latitude", quantity: "latitude", unit: "rad" },
      { name: "longitude", quantity: "longitude", unit: "rad" },
      { name: "speed", quantity: "speed", unit: "m/s" },
    ],
    time: Float64Array.of(1.9e9, 1.9e9 + 0.1, 1.9e9 + 0.25),
    values: [
      Float64Array.of(10.5, Number.NaN, 2500),
      Float64Array.of(0.9, 0.9, 0.9),
      Float64Array.of(0.1, 0.1, 0.1),
      Float64Array.of(0.5, 0.25, 0),
    ],
  });
  const made = (chosen: readonly Private[]) => {
    const with0 = choice(chosen);
    const ids = with0.pulls.map(({ about }) => about.pull.id);
    return dataPackage({ ...with0, logs: [log(ids[4]!), log(ids[1]!), log(ids[1]!), log("of no pull")] });
  };

  it("stand under their pull's number, in SI, from the first reading on, without places unless chosen", async () => {
    const { files: own, channelsLeftOut } = await made([]);
    expect([...own.keys()].filter((path) => path.startsWith("logs/"))).toEqual([
      "logs/pull-2.csv",
      "logs/pull-2-2.csv",
      "logs/pull-5.csv",
    ]);
    expect(text(own, "logs/pull-5.csv")).toBe(
      "time_s,load_N,speed_m_per_s\r\n0,10.5,0.5\r\n0.1,,0.25\r\n0.25,2500,0\r\n",
    );
    expect(channelsLeftOut).toEqual(["latitude", "longitude"]);
    const chosen = await made(["positions"]);
    expect(text(chosen.files, "logs/pull-5.csv").split("\r\n")[1]).toBe("0,10.5,0.9,0.1,0.5");
    expect(chosen.channelsLeftOut).toEqual([]);
    expect(text(own, "README.md")).toContain("`logs/`");
    expect(text(files, "README.md")).not.toContain("`logs/`");
  });

  it("are described column by column, as the published schemas ask, and checked against their sums", async () => {
    const { files: own } = await made([]);
    const descriptor = JSON.parse(text(own, "datapackage.json")) as {
      resources: {
        path: string;
        profile: string;
        schema?: { fields: { name: string; unit?: string }[]; primaryKey?: string };
      }[];
    };
    const resource = descriptor.resources.find(({ path }) => path === "logs/pull-2.csv")!;
    expect(resource.profile).toBe("tabular-data-resource");
    expect(resource.schema!.fields.map(({ name, unit }) => [name, unit])).toEqual([
      ["time_s", "s"],
      ["load_N", "N"],
      ["speed_m_per_s", "m/s"],
    ]);
    expect(resource.schema!.primaryKey).toBeUndefined();
    expect((await check(own)).differences).toEqual([]);
    const bent = new Map([
      ...own,
      ["logs/pull-2.csv", new TextEncoder().encode(text(own, "logs/pull-2.csv").replace("2500", "2600"))],
    ]);
    expect((await check(bent)).differences.map(({ where }) => where)).toEqual(["logs/pull-2.csv, content"]);
    const gone = new Map(own);
    gone.delete("logs/pull-5.csv");
    expect((await check(gone)).differences).toEqual([
      { where: "logs/pull-5.csv", published: '"in the package"', found: '"no such file"' },
    ]);
  });
});
