import { describe, expect, it } from "vitest";
import {
  anchorShapes,
  checkFields,
  endings,
  fieldOf,
  fieldsOf,
  isKept,
  isKind,
  type Kind,
  kindNames,
  kinds,
} from "../../src/record/index.ts";

const ID = "01970001-0000-7000-8000-000000000000";
const taken = (kind: Kind, field: string, value: unknown) => checkFields(kind, { [field]: value }).get(field);
const refused = (kind: Kind, field: string, value: unknown): string => {
  try {
    taken(kind, field, value);
  } catch (error) {
    return (error as Error).message;
  }
  return "taken";
};

describe("numbers of a record", () => {
  it.each([
    ["site", "latitude_deg", -90, 90],
    ["site", "longitude_deg", -180, 180],
    ["anchor", "mass_kg", 1e-3, 1e6],
    ["anchor", "flukeArea_m2", 1e-6, 1e4],
    ["day", "wind_m_per_s", 0, 200],
    ["day", "gust_m_per_s", 0, 200],
    ["day", "windFrom_deg", -360, 360],
    ["day", "waterLevel_m", -100, 100],
    ["pull", "number", 0, 2 ** 40],
    ["pull", "depth_m", 0, 12_000],
    ["pull", "scope", 1, 1000],
    ["pull", "paidOut_m", 0.01, 1e5],
    ["pull", "heading_deg", -360, 360],
    ["pull", "setDistance_m", -1e4, 1e4],
    ["pull", "heldFor_s", 0.1, 86_400],
    ["pull", "heldWithin_m", 1e-3, 1000],
    ["pull", "calibration", 0.1, 10],
    ["pull", "tare_N", -1e7, 1e7],
    ["pull", "slackLoad_N", -1e7, 1e7],
    ["pull", "bearing_deg", -360, 360],
    ["pull", "anchorLatitude_deg", -90, 90],
    ["pull", "anchorLongitude_deg", -180, 180],
    ["pull", "trackClock_s", -86_400, 86_400],
    ["series", "heldFor_s", 0.1, 86_400],
    ["series", "heldWithin_m", 1e-3, 1000],
    ["log", "clockOffset_s", -1e10, 1e10],
    ["mark", "from_s", -1e12, 1e12],
    ["mark", "to_s", -1e12, 1e12],
  ] as const)("%s.%s lies from %d to %d, both taken, and the form is told the same", (kind, field, least, most) => {
    expect(taken(kind, field, least)).toBe(JSON.stringify(least));
    expect(taken(kind, field, most)).toBe(JSON.stringify(most));
    const step = kind === "pull" && field === "number" ? 1 : Math.max(Math.abs(least), Math.abs(most)) * 1e-9;
    for (const beyond of [least - step, most + step, Number.NaN, Number.POSITIVE_INFINITY, "5", true, [5]])
      expect(refused(kind, field, beyond), `${beyond}`).toMatch(new RegExp(`^${kind}\\.${field}: .* is expected$`));
    expect(fieldOf(kind, field)?.bounds).toEqual({ least, most });
  });

  it("that count are whole", () => expect(refused("pull", "number", 1.5)).toMatch(/^pull.number: 1.5; a whole number/));
});

describe("texts of a record", () => {
  it.each([
    ["site", "name", 100_000],
    ["boat", "file", 5_000_000],
    ["log", "fingerprint", 200],
    ["mark", "kind", 100],
    ["picture", "type", 100],
    ["picture", "reference", 4000],
  ] as const)("%s.%s is at most %d signs long", (kind, field, most) => {
    expect(taken(kind, field, "a".repeat(most))).toBe(JSON.stringify("a".repeat(most)));
    expect(refused(kind, field, "a".repeat(most + 1))).toMatch(/is expected$/);
  });
  it("are whole: no NUL, no half of a pair; emptied, they are nothing", () => {
    expect(refused("site", "name", "a\0b")).not.toBe("taken");
    expect(refused("site", "name", "\ud83d")).not.toBe("taken");
    expect(taken("site", "name", "⚓ 🌊 é\n")).toBe('"⚓ 🌊 é\\n"');
    expect(taken("site", "description", "")).toBeNull();
    expect(taken("site", "description", null)).toBeNull();
    expect(checkFields("site", { name: undefined }).has("name")).toBe(false);
  });
  it("that are dates and times are such", () => {
    for (const date of ["2031-05-17", "2032-02-29"]) expect(taken("day", "date", date)).toBe(`"${date}"`);
    for (const date of ["17.5.2031", "2031-02-29", "2031-05-17T00:00:00Z"])
      expect(refused("day", "date", date)).toMatch(/a date such as "2031-05-17" is expected$/);
    expect(taken("pull", "startedAt", "2031-05-17T09:30:00+02:00")).toBe('"2031-05-17T09:30:00+02:00"');
    for (const at of ["2031-05-17", "2031-05-17T09:30:00", "noon"])
      expect(refused("pull", "startedAt", at)).toMatch(/a time such as/);
  });
  it("that choose are one of the choices, which the form is told too", () => {
    for (const shape of anchorShapes) expect(taken("anchor", "shape", shape)).toBe(`"${shape}"`);
    for (const ending of endings) expect(taken("pull", "endedBy", ending)).toBe(`"${ending}"`);
    expect(refused("pull", "endedBy", "Drag")).toBe(
      'pull.endedBy: "Drag"; one of engine limit, drag, roll-out, break-out, stopped by tester, gear is expected',
    );
    // As many as a line can bear are told in full.
    expect(refused("anchor", "shape", "round")).toBe(
      `anchor.shape: "round"; one of ${anchorShapes.join(", ")} is expected`,
    );
    expect(refused("seabed", "grain", "mud")).toBe(
      'seabed.grain: "mud"; one of iso-14688:clay, iso-14688:fine-silt, iso-14688:medium-silt, iso-14688:coarse-silt … wentworth:boulder is expected',
    );
    expect(fieldOf("pull", "loadAt")?.choices).toEqual(["anchor", "bow"]);
    expect(fieldOf("mark", "origin")?.choices).toEqual(["automatic", "by hand"]);
    expect(refused("about", "simulated", 1)).toBe("about.simulated: 1; true or false is expected");
  });
  it("that point are ids, of a kind there is", () => {
    for (const kind of kindNames)
      for (const [name, field] of fieldsOf(kind)) {
        if (field.refers === undefined) continue;
        // Each kind comes after those it points to, or points to itself.
        expect(kindNames.indexOf(field.refers as Kind), `${kind}.${name}`).toBeGreaterThanOrEqual(0);
        expect(kindNames.indexOf(field.refers as Kind)).toBeLessThanOrEqual(kindNames.indexOf(kind));
        expect(taken(kind, name, ID)).toBe(`"${ID}"`);
        expect(refused(kind, name, "x")).toBe(
          `${kind}.${name}: "x"; the id of a ${field.refers} in this book is expected`,
        );
      }
    expect(refused("note", "about", "x")).toBe('note.about: "x"; the id of a record in this book is expected');
    expect(refused("picture", "copy", "x")).toMatch(/SHA-256/);
    expect(taken("picture", "copy", "0".repeat(64))).toBe(JSON.stringify("0".repeat(64)));
  });
});

describe("groups of a record", () => {
  it("steps have a load, and what else is known", () => {
    const steps = [{ load_N: 0 }, { load_N: 5, duration_s: 0, movement_m: -1, remarks: "x" }];
    expect(taken("pull", "steps", steps)).toBe(JSON.stringify(steps));
    for (const wrong of [
      {},
      [{}],
      [{ load_N: -1 }],
      [{ load_N: 1, duration_s: -1 }],
      [{ load_N: 1, remarks: "" }],
      [{ load_N: 1, remarks: "x".repeat(10_001) }],
      [{ load_N: 1, more: 1 }],
    ])
      expect(refused("pull", "steps", wrong), JSON.stringify(wrong)).toMatch(/a list of steps/);
    expect(
      refused(
        "pull",
        "steps",
        Array.from({ length: 10_001 }, () => ({ load_N: 1 })),
      ),
    ).toMatch(/a list of steps/);
  });
  it("channels have names of their own", () => {
    const channel = { name: "load", quantity: "force", unit: "N", precision: "double" };
    expect(taken("log", "channels", [{ ...channel, quantity: "q".repeat(64), unit: "u".repeat(32) }])).toContain("qq");
    expect(taken("log", "channels", [channel, { ...channel, name: "L2 .:/-_" }])).toContain("L2");
    for (const wrong of [
      [channel, channel],
      [{ ...channel, name: "_time_s" }],
      [{ ...channel, name: "" }],
      [{ ...channel, name: "a".repeat(65) }],
      [{ ...channel, quantity: "" }],
      [{ ...channel, quantity: "q".repeat(65) }],
      [{ ...channel, unit: "u".repeat(33) }],
      [{ ...channel, precision: "half" }],
      [{ ...channel, more: 1 }],
      Array.from({ length: 501 }, (_, i) => ({ ...channel, name: `c${i}` })),
    ])
      expect(refused("log", "channels", wrong)).toMatch(/a list of channels of different names/);
  });
  it("open ones hold what JSON holds", () => {
    expect(taken("log", "mapping", { a: [1, { b: null }] })).toBe('{"a":[1,{"b":null}]}');
    expect(refused("log", "mapping", [1])).toMatch(/a group of fields/);
  });
});

describe("what is known of a kind", () => {
  it("is asked of it alone, not of what every object has", () => {
    for (const name of ["constructor", "toString", "__proto__", "hidden"]) {
      expect(isKind(name), name).toBe(false);
      expect(fieldOf("site", name), name).toBeUndefined();
      expect(refused("site", name, "x"), name).toMatch(name === "__proto__" ? /taken|no such field/ : /no such field/);
    }
    expect(isKind("site")).toBe(true);
  });
  it("says what must be given, and what is given once", () => {
    const marked = (mark: "required" | "once") =>
      kindNames.flatMap((kind) => fieldsOf(kind).flatMap(([name, f]) => (f[mark] ? [`${kind}.${name}`] : [])));
    expect(marked("required")).toEqual([
      "about.title",
      "site.name",
      "seabed.name",
      "anchor.name",
      "anchor.shape",
      "boat.name",
      "rig.name",
      "rigVersion.rig",
      "rigVersion.file",
      "series.name",
      "day.date",
      "log.name",
      "log.channels",
      "mark.log",
      "mark.kind",
      "mark.from_s",
      "mark.origin",
      "conclusion.at",
      "conclusion.program",
      "conclusion.seed",
      "conclusion.pulls",
      "conclusion.question",
      "conclusion.answer",
      "note.text",
    ]);
    expect(marked("once")).toEqual([
      "rigVersion.rig",
      "rigVersion.file",
      "picture.copy",
      "conclusion.at",
      "conclusion.program",
      "conclusion.seed",
      "conclusion.pulls",
      "conclusion.question",
      "conclusion.answer",
    ]);
  });
  it("keeps fields in the kind's own order, whatever order they are given in", () => {
    expect([...checkFields("site", { description: "d", name: "n", latitude_deg: 1 }).keys()]).toEqual([
      "name",
      "latitude_deg",
      "description",
    ]);
  });
  it("may be held in history as it may be written, and a negative zero is none", () => {
    expect(isKept(kinds.site.latitude_deg, "91")).toBe(false);
    expect(isKept(kinds.site.latitude_deg, "90")).toBe(true);
    expect(isKept(kinds.site.latitude_deg, "9 0")).toBe(false);
    expect(isKept(kinds.pull.result, '{"kind":"heldTo"}')).toBe(true);
    expect(isKept(kinds.pull.result, '{"kind":"held"}')).toBe(false);
    expect(taken("site", "latitude_deg", -0)).toBe("0");
  });
});
