/** Records in words: what each is called, the line below, what changed in it, and where two devices wrote apart. */
import { describe, expect, it } from "vitest";
import type { AnyRecord, BookCopy, LogHere, Records } from "../../src/web/days/book-copy.ts";
import { type Sent, sizeText, stateText } from "../../src/web/days/bring-in/sent.ts";
import { changeText, fieldLabel, momentText, valueText } from "../../src/web/days/change-text.ts";
import { conflictsIn } from "../../src/web/days/conflicts.ts";
import { addWords, type Kept, kept } from "../../src/web/days/kinds.ts";
import {
  dayText,
  lineOf,
  logLine,
  logsOf,
  recordOf,
  resultParts,
  resultText,
  type Say,
  titleOf,
} from "../../src/web/days/record-text.ts";
import { sedimentName } from "../../src/web/days/sediment-name.ts";
import { holds, shelfCounts } from "../../src/web/days/shelf-kinds.ts";
import type { Entry } from "../../src/web/days/use-history.ts";

const say: Say = (value, field, dimension, u) => `${value}|${field}|${dimension}${u === undefined ? "" : `|±${u}`}`;
const rec = (id: string, fields: object): AnyRecord => ({ id, hidden: false, ...fields });
const records = {
  ...Object.fromEntries([...kept, "picture"].map((kind) => [kind, []])),
  site: [rec("s1", { name: "Ebb Cove" }), rec("s2", { name: "Long Flats" })],
  seabed: [rec("b1", { name: "soft mud" })],
  anchor: [rec("a1", { name: "Scoop" }), rec("a2", { name: "Claw" })],
  rig: [rec("r1", { name: "Chain" }), rec("r2", { name: "Rope" })],
  rigVersion: [rec("v1", { rig: "r1" }), rec("v2", { rig: "r2" }), rec("v3", { rig: "r1" })],
} as unknown as Records;
const title = (kind: Kept, fields: object, id = "x") => titleOf(records, kind, rec(id, fields));
const line = (kind: Kept, fields: object) => lineOf(records, kind, rec("x", fields), say);

describe("what a record is called", () => {
  it("is found by its kind and id", () => {
    expect(recordOf(records, "site", "s2")?.name).toBe("Long Flats");
    expect(recordOf(records, "site", "a1")).toBeUndefined();
    expect(recordOf(records, "site", 7)).toBeUndefined();
  });
  it("of a day is its date and its site", () => {
    // 17 May 2031 is a Saturday: 1 January 2031 is a Wednesday, and 136 days are nineteen weeks and three days.
    expect(dayText("2031-05-17")).toMatch(/^Sat,? 17 May 2031$/);
    expect(dayText("2031-12-31")).toMatch(/^Wed,? 31 Dec 2031$/);
    expect(dayText("someday")).toBe("someday");
    expect(title("day", { date: "2031-05-17", site: "s2" })).toMatch(/^Sat,? 17 May 2031, Long Flats$/);
    expect(title("day", { date: "2031-05-17", site: "gone" })).toMatch(/2031$/);
  });
  it("of a pull is its number and its anchor, with what is known of them", () => {
    expect(title("pull", { number: 0, anchor: "a2" })).toBe("Pull 0, Claw");
    expect(title("pull", { number: 12 })).toBe("Pull 12");
    expect(title("pull", { anchor: "a1" })).toBe("Pull, Scoop");
  });
  it("of a rig as deployed is its rig, counted where there are several", () => {
    expect(title("rigVersion", { rig: "r1" }, "v1")).toBe("Chain, version 1");
    expect(title("rigVersion", { rig: "r1" }, "v3")).toBe("Chain, version 2");
    expect(title("rigVersion", { rig: "r2" }, "v2")).toBe("Rope");
  });
  it("of a note is how it begins; of all others their name", () => {
    expect(title("note", { text: `${"a".repeat(90)}\nb` })).toBe("a".repeat(80));
    expect(title("note", { text: "one\ntwo" })).toBe("one");
    expect(title("boat", { name: "Tern" })).toBe("Tern");
    expect(title("boat", {})).toBe("(no name)");
  });
  it("is added in words", () => {
    expect(addWords("anchor")).toBe("Add an anchor");
    expect(addWords("site")).toBe("Add a site");
    expect(addWords("series")).toBe("Add a series");
  });
});

describe("the line below", () => {
  it("of a day tells the wind, the weather and who was there", () => {
    expect(line("day", { wind_m_per_s: 6, windFrom_deg: 224.6, weather: "rain", testers: "Jo" })).toBe(
      "wind 6|wind|speed from 225° · rain · Jo",
    );
    expect(line("day", { wind_m_per_s: 0 })).toBe("wind 0|wind|speed");
    expect(line("day", { windFrom_deg: 90, weather: "fog" })).toBe("fog");
  });
  it("of a pull tells depth, length, scope, ground and how it ended", () => {
    expect(line("pull", { depth_m: 7, paidOut_m: 35, scope: 5, seabed: "b1", endedBy: "drag" })).toBe(
      "7|depth|length deep · 35|length paid out|length paid out · scope 5:1 · soft mud · ended by drag",
    );
    expect(line("pull", {})).toBe("");
  });
  it("of an anchor tells shape, mass, area and make", () => {
    expect(line("anchor", { shape: "claw", mass_kg: 15, flukeArea_m2: 0.1, make: "own" })).toBe(
      "claw · 15|mass|mass · 0.1|fluke area|area · own",
    );
  });
  it("of a seabed tells site, grain and description; of others what they say of themselves", () => {
    expect(line("seabed", { site: "s1", grain: "wentworth:medium-sand", description: "firm" })).toBe(
      "Ebb Cove · medium sand, 0.25 to 0.5 mm (Wentworth) · firm",
    );
    expect(line("series", { question: "which?", description: "no" })).toBe("which?");
    expect(line("boat", { description: "blue", question: "no" })).toBe("blue");
  });
  it("of a log counts its readings and their time", () => {
    const log = (content: object) => logLine({ content } as unknown as LogHere);
    const channels = [{ name: "load" }, { name: "depth" }];
    expect(log({ rows: 1200, from_s: 100, to_s: 190, channels, finished: true })).toBe(
      "1,200 readings · 1 min 30 s · load, depth",
    );
    expect(log({ rows: 1, from_s: null, to_s: 5, channels: [], finished: false })).toBe(
      "1 reading · not read to its end",
    );
    expect(log({ rows: 0, from_s: 5, to_s: null, channels: [], finished: true })).toBe("0 readings");
  });
  it("has logs by their pull, or by the day where they name no pull", () => {
    const logs = [
      rec("1", { pull: "p", day: "d" }),
      rec("2", { pull: null, day: "d" }),
      { ...rec("3", { pull: "p", day: null }), hidden: true },
      rec("4", { pull: null, day: "e" }),
    ];
    const ids = (field: "pull" | "day", id: string) =>
      logsOf({ logs } as unknown as BookCopy, field, id).map((one) => one.id);
    expect(ids("pull", "p")).toEqual(["1"]);
    expect(ids("day", "d")).toEqual(["2"]);
  });
});

describe("what a pull came to", () => {
  const of = (result: unknown) => [resultText({ result } as never, say), resultParts({ result } as never, say)];
  it("is said with its load and that load's ±", () => {
    expect(of({ kind: "gaveWay", load_N: 4100, u_N: 30 })).toEqual([
      "gave way at 4100|load|force|±30",
      { said: "gave way at", load: "4100|load|force|±30" },
    ]);
    expect(of({ kind: "heldTo", load_N: 0 })[0]).toBe("held 0|load|force");
    expect(of({ kind: "gaveWay" })).toEqual(["gave way", { said: "gave way", load: "" }]);
    expect(of({ kind: "heldTo" })[0]).toBe("held");
  });
  it("has no load where it never set or has no result, and is nothing where nothing is said", () => {
    expect(of({ kind: "neverSet", load_N: 5 })).toEqual(["never set", { said: "never set", load: "" }]);
    expect(of({ kind: "none", load_N: 5 })).toEqual(["no result", { said: "no result", load: "" }]);
    expect(of(null)).toEqual(["", { said: "", load: "" }]);
    expect(of(undefined)[0]).toBe("");
  });
});

describe("a change of the history in words", () => {
  const value = (kind: string, field: string, given: unknown) => valueText(kind, field, given, records, say);
  const change = (field: string, was: unknown, now: unknown, kind = "pull") =>
    changeText({ kind, record: "x", field, was, value: now } as never, records, say);
  it("names the field as its form does, with what was and what is", () => {
    expect(change("depth_m", 7, 7.4)).toBe("Depth: 7|depth|length → 7.4|depth|length");
    expect(change("depth_m", null, 7)).toBe("Depth: 7|depth|length");
    expect(change("depth_m", undefined, 7)).toBe("Depth: 7|depth|length");
    expect(change("depth_m", 7, null)).toBe("Depth: 7|depth|length → nothing");
    expect(change("hidden", false, true)).toBe("put aside");
    expect(change("hidden", true, false)).toBe("brought back");
    expect(fieldLabel("pull", "paidOut_m")).toBe("Paid out");
    expect(fieldLabel("pull", "unheard")).toBe("unheard");
    expect(fieldLabel("mark", "detail")).toBe("detail");
  });
  it("tells each sort of value as people read it", () => {
    expect(value("pull", "anchor", "a1")).toBe("Scoop");
    expect(value("pull", "anchor", "s1")).toBe("one that is not here");
    expect(value("pull", "scope", 5)).toBe("5:1");
    expect(value("pull", "heading_deg", 270)).toBe("270°");
    expect(value("pull", "number", 3)).toBe("3");
    expect(value("site", "latitude_deg", -10.5)).toMatch(/^10° 30\.0+′? ?'? ?S$|10°30.*S/);
    expect(value("site", "longitude_deg", 20.25)).toMatch(/^20.*15.*E$/);
    expect(value("pull", "result", { kind: "heldTo", load_N: 10 })).toBe("held 10|load|force");
    expect(value("pull", "steps", [1])).toBe("1 step");
    expect(value("pull", "steps", [1, 2])).toBe("2 steps");
    expect(value("pull", "loadAt", "bow")).toBe("bow");
    expect(value("seabed", "grain", "iso-14688:clay")).toBe(sedimentName("iso-14688:clay"));
    expect(value("pull", "startedAt", "2031-05-17T09:31:00Z")).toBe(momentText("2031-05-17T09:31:00Z"));
    expect(momentText("2031-05-17T12:31:00Z")).toMatch(/^1[78] May 2031, \d\d:[03]1$/);
    expect(value("mark", "detail", { a: 1 })).toBe('{"a":1}');
  });
  it("cuts what is long after 57 signs, and only what has more than 60", () => {
    expect(value("pull", "remarks", "x".repeat(60))).toBe("x".repeat(60));
    expect(value("pull", "remarks", "x".repeat(61))).toBe(`${"x".repeat(57)}…`);
  });
});

describe("a grain class in words", () => {
  it("has its bounds, open at the ends, and its standard", () => {
    // ISO 14688-1:2017, table 1: fine sand from 0.063 to 0.2 mm, clay up to 0.002 mm, large boulders above 630 mm (recalled).
    expect(sedimentName("iso-14688:fine-sand")).toBe("fine sand, 0.063 to 0.2 mm (ISO 14688-1)");
    expect(sedimentName("iso-14688:clay")).toMatch(/^clay, below 0\.002 mm \(ISO 14688-1\)$/);
    expect(sedimentName("iso-14688:large-boulder")).toBe("large boulder, from 630 mm (ISO 14688-1)");
    expect(sedimentName("shingle")).toBe("shingle");
  });
});

describe("shelves", () => {
  it("hold each listed kind once, and count what was not put aside", () => {
    const hidden = { ...rec("h", {}), hidden: true };
    const copy = {
      records: {
        ...records,
        ...{
          site: [rec("1", {}), hidden],
          day: [],
          pull: [rec("1", {}), rec("2", {})],
          anchor: [rec("1", {}), rec("2", {}), rec("3", {})],
        },
        ...{ rig: [hidden], boat: [rec("1", {})], series: [rec("1", {}), rec("2", {})] },
      },
      logs: [rec("1", {}), hidden, rec("2", {})],
    } as unknown as BookCopy;
    // Pulls of no day stand under one heading of their own.
    expect(shelfCounts(copy)).toEqual({ days: 1, sites: 1, anchors: 3, rigs: 0, boats: 1, series: 2, logs: 2 });
    const days = {
      ...copy,
      records: { ...copy.records, day: [rec("1", {}), rec("2", {})], pull: [] },
    } as unknown as BookCopy;
    expect(shelfCounts(days).days).toBe(2);
    expect(Object.values(holds).flatMap(({ kinds }) => kinds)).toEqual([
      "site",
      "seabed",
      "anchor",
      "rig",
      "boat",
      "series",
    ]);
    expect(holds.days.add).toEqual(["day", "pull"]);
  });
});

describe("what two devices wrote apart", () => {
  const entry = (who: string, at: string, changes: object[]) => ({ who, at, changes }) as unknown as Entry;
  const set = (record: string, field: string, was: unknown, value: unknown) => ({
    kind: "site",
    record,
    field,
    was,
    value,
  });
  it("is found by what each saw, in the order written though the newest is told first", () => {
    const found = conflictsIn([
      entry("phone", "3", [set("s1", "name", "A", "C")]),
      entry("tablet", "2", [set("s1", "name", "A", "B"), set("s2", "name", null, "X")]),
      entry("desk", "1", [set("s1", "name", null, "A")]),
    ]);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({
      ...{ record: "s1", kind: "site", field: "name" },
      stands: { value: "C", who: "phone", at: "3" },
      others: [{ value: "B", who: "tablet", at: "2" }],
    });
  });
  it("is none where each saw the one before", () => {
    expect(
      conflictsIn([entry("b", "2", [set("s", "name", "A", "B")]), entry("a", "1", [set("s", "name", null, "A")])]),
    ).toEqual([]);
  });
});

describe("a file that was sent", () => {
  it("has its size in kB below a megabyte and in MB from there", () => {
    expect([1, 1499, 1500, 999_499, 1e6, 12_340_000].map(sizeText)).toEqual([
      ...["1 kB", "1 kB", "2 kB", "999 kB", "1.0 MB", "12.3 MB"],
    ]);
  });
  it("says how far its reading is", () => {
    const text = (reading: object) => stateText({ reading } as unknown as Sent);
    expect(text({ kind: "waiting" })).toBe("waits to be read");
    expect(text({ kind: "reading" })).toBe("is being read");
    expect(text({ kind: "failed" })).toBe("could not be read");
    expect(text({ kind: "done", answer: { kind: "stopped" } })).toBe("stopped");
    expect(text({ kind: "done", answer: { kind: "imported" } })).toBe("read");
  });
});
