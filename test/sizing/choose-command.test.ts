import { describe, expect, it } from "vitest";
import { rodebench } from "../support/command-line.ts";
import { cautionOnce } from "./command.ts";

const choose = (path: string, files: Record<string, string> = {}, ...options: string[]) =>
  rodebench(["choose", path, ...options], files);

const good = `format: rodebench/plan@1
name: Two chains
setting: { medium: water, depth: 8 m, rollerHeight: 1.5 m }
load: { mean: 1.5 kN, peak: 3 kN, u: 100 N, at: bow }
loads: [1 kN, 2 kN]
limits: { anchorAngle: 8 deg }
candidates:
  - name: heavy
    rode: [{ chain: { grade: "30", size: 10 mm, length: 45 m } }]
  - name: light
    rode: [{ chain: { grade: "30", size: 8 mm, length: 45 m } }]
    snubber: { diameter: 14 mm, length: 8 m }
`;
const bare =
  "format: rodebench/boat@1\nname: Bare\nlength: 12 m\nbeam: 3.8 m\ndraught: 1.8 m\ndisplacement: 9000 kg\nbowRollerHeight: 1.3 m\n";

describe("rodebench choose", () => {
  it("sets the candidates side by side, marks those than which none is better, shows catenary at every wind, cautions once", async () => {
    const { out, err, status } = await choose("data/plans/marsh-tern.yaml");
    expect([status, err]).toEqual([0, ""]);
    for (const part of [
      "Marsh Tern in 40.0 ± 3.0 kn by its measured points",
      "(none better)",
      "of working load limit",
      "in the locker",
      "Give of catenary at each wind, m per kN",
      "Angle to the bottom at the anchor",
      "Assumed:",
    ])
      expect(out).toContain(part);
    expect(out.split(cautionOnce)).toHaveLength(2);
    for (const line of out.split("\n")) expect(line).toBe(line.trimEnd());
  });

  it("answers in one JSON document", async () => {
    const { out, status } = await choose("data/plans/quay-trial.yaml", {}, "--json");
    expect(status).toBe(0);
    const document = JSON.parse(out);
    expect(document.format).toBe("rodebench/choice@1");
    expect(document.candidates).toHaveLength(2);
    expect(document.candidates[0].price).toBe(320);
    expect(document.table).toHaveLength(4);
    expect(document.criteria).toEqual(["weight", "anchorAngle", "movement"]);
    expect(document.caution).toContain(cautionOnce);
  });

  it("says the same in metric and US units", async () => {
    const [metric, us] = [
      await choose("data/plans/marsh-tern.yaml"),
      await choose("data/plans/marsh-tern.yaml", {}, "--units", "us"),
    ];
    expect(us.out).toContain("ft³");
    expect(us.out).not.toMatch(/\d (N|kg|J)\b/);
    expect(us.out.split("\n")).toHaveLength(metric.out.split("\n").length);
  });

  it("reads the plan from standard input, the files it names beside where one stands, a boat within", async () => {
    expect((await choose("-", { "-": good })).status).toBe(0);
    const within = good.replace(
      /load: .*\n/,
      `load: { wind: 20 kn, by: windage, gust: froya, boat: { ${bare.trim().split("\n").join(", ")}, windage: { front: { area: 10 m2, drag: 1, height: 3 m }, side: { area: 30 m2, drag: 1, height: 3 m } } } }\n`,
    );
    const { out, err } = await choose("-", { "-": within });
    expect(err).toBe("");
    expect(out).toContain("Bare in 20 kn by its windage");
    expect(out).toContain("brief peaks");
  });

  it("says that none is within the limits, and why one has no answer", async () => {
    const tight = await choose("-", { "-": good.replace("anchorAngle: 8 deg", "weight: 1 kg") });
    expect(tight.out).toContain("None is within every limit");
    const short = await choose("-", { "-": good.replace("size: 10 mm, length: 45 m", "size: 10 mm, length: 9 m") });
    expect(short.status).toBe(0);
    expect(short.out).toMatch(/1 {2}no answer: /);
  });

  const wrong: [string, (text: string) => string, RegExp][] = [
    ["nothing", () => "", /standard input: /],
    ["a list", () => "- 1\n", /a plan, a group of fields, is expected/],
    ["no YAML", () => "format: [", /line 1: a \[ that is not closed; a \] at its end is expected/],
    ["another format", (text) => text.replace("plan@1", "plan@2"), /format: "rodebench\/plan@2"/],
    ["a mistyped field", (text) => text.replace("limits:", "limit:"), /limit: no such field; is limits meant\?/],
    ["no load", (text) => text.replace(/load: .*\n/, ""), /load: /],
    ["mean and wind", (text) => text.replace("mean: 1.5 kN", "mean: 1.5 kN, wind: 20 kn"), /both mean and wind/],
    ["neither mean nor wind", (text) => text.replace("mean: 1.5 kN, peak: 3 kN, ", ""), /neither mean nor wind/],
    ["a load that is a speed", (text) => text.replace("1.5 kN", "20 kn"), /load\.mean: "20 kn"/],
    ["a load of nothing", (text) => text.replace("1.5 kN", "0 N"), /load\.mean: "0 N"/],
    ["a peak below the mean", (text) => text.replace("peak: 3 kN", "peak: 1 kN"), /load\.peak: "1 kN"/],
    ["an uncertainty below zero", (text) => text.replace("u: 100 N", "u: -1 N"), /load\.u: "-1 N"/],
    ["an unknown end", (text) => text.replace("at: bow", "at: stern"), /load\.at: "stern"/],
    [
      "a wind without a boat",
      (text) => text.replace(/load: .*\n/, "load: { wind: 20 kn }\n"),
      /load\.boat: nothing given/,
    ],
    [
      "a boat that is not there",
      (text) => text.replace(/load: .*\n/, "load: { wind: 20 kn, boat: gone.yaml }\n"),
      /gone\.yaml: no such file/,
    ],
    [
      "a boat from standard input",
      (text) => text.replace(/load: .*\n/, 'load: { wind: 20 kn, boat: "-" }\n'),
      /standard input: -/,
    ],
    [
      "a boat with no length",
      (text) => text.replace(/load: .*\n/, "load: { wind: 20 kn, boat: { format: rodebench/boat@1, name: x } }\n"),
      /load\.boat: /,
    ],
    [
      "a boat with nothing to go by",
      (text) => text.replace(/load: .*\n/, "load: { wind: 20 kn, boat: bare.yaml }\n"),
      /load\.boat: "Bare"/,
    ],
    [
      "measured points there are none of",
      (text) => text.replace(/load: .*\n/, "load: { wind: 20 kn, boat: bare.yaml, by: measured }\n"),
      /load\.by: "measured"/,
    ],
    [
      "a gust on measured points",
      (text) => text.replace(/load: .*\n/, "load: { wind: 20 kn, boat: data/boats/marsh-tern.yaml, gust: froya }\n"),
      /load\.gust: "froya"/,
    ],
    [
      "an unknown gust",
      (text) => text.replace(/load: .*\n/, "load: { wind: 20 kn, boat: data/boats/marsh-tern.yaml, gust: puff }\n"),
      /load\.gust: "puff"/,
    ],
    [
      "a hurricane on another planet",
      (text) => text.replace(/load: .*\n/, "load: { wind: 300 kn, boat: data/boats/marsh-tern.yaml }\n"),
      /load\.wind: "300 kn"/,
    ],
    [
      "a wind's load at an end",
      (text) => text.replace(/load: .*\n/, "load: { wind: 20 kn, boat: data/boats/marsh-tern.yaml, at: bow }\n"),
      /load\.at: "bow"/,
    ],
    [
      "winds without a boat",
      (text) => text.replace("loads: [1 kN, 2 kN]", "winds: [10 kn]"),
      /winds: winds without a boat/,
    ],
    ["a wind of nothing in the table", (text) => text.replace("1 kN, 2 kN", "0 N"), /loads #1: "0 N"/],
    [
      "a surge of two kinds",
      (text) => `${text}surge: { speed: 1 kn, distance: 1 m, mass: 8 t }\n`,
      /surge: both speed and distance/,
    ],
    ["a surge of none", (text) => `${text}surge: { }\n`, /surge: neither speed nor distance/],
    ["a speed without a mass", (text) => `${text}surge: { speed: 1 kn }\n`, /surge\.mass: nothing given/],
    ["a mass with a distance", (text) => `${text}surge: { distance: 1 m, mass: 8 t }\n`, /surge\.mass: "8 t"/],
    ["no candidates", (text) => text.replace(/candidates:[\s\S]*/, ""), /candidates: nothing given/],
    [
      "a candidate of neither kind",
      (text) => text.replace(/ {4}rode: .*8 mm.*\n/, ""),
      /candidates #2: neither rode nor rig/,
    ],
    [
      "a candidate of both kinds",
      (text) => text.replace("  - name: heavy\n", "  - name: heavy\n    rig: a.yaml\n"),
      /candidates #1: |a\.yaml/,
    ],
    ["a rode without a setting", (text) => text.replace(/setting: .*\n/, ""), /a rode without a setting/],
    [
      "a part of no kind",
      (text) => text.replace('{ chain: { grade: "30", size: 10 mm, length: 45 m } }', "{ }"),
      /candidates #1: rode #1/,
    ],
    [
      "a chain there is not",
      (text) => text.replace("size: 10 mm", "size: 11 mm"),
      /candidates #1: rode #1\.chain\.size: "11 mm"/,
    ],
    ["a setting without depth", (text) => text.replace("depth: 8 m, ", ""), /depth/],
    ["two of one name", (text) => text.replace("name: light", "name: heavy"), /candidates: "heavy"/],
    ["a price below zero", (text) => text.replace("name: light", "name: light\n    price: -3"), /candidates #2\.price/],
    [
      "a price for some, chosen by price",
      (text) => `${text.replace("name: light", "name: light\n    price: 3")}criteria: [price]\n`,
      /criteria: price; a price of every candidate/,
    ],
    ["an unknown criterion", (text) => `${text}criteria: [beauty]\n`, /criteria #1: "beauty"/],
    ["no criterion", (text) => `${text}criteria: []\n`, /criteria/],
    ["a limit that is a length", (text) => text.replace("8 deg", "8 m"), /limits\.anchorAngle: "8 m"/],
    ["a limit of nothing", (text) => text.replace("anchorAngle: 8 deg", "weight: 0 kg"), /limits\.weight: "0 kg"/],
    [
      "a snubber of no rope there is",
      (text) => text.replace("diameter: 14 mm, length: 8 m", "fibre: hemp, diameter: 14 mm, length: 8 m"),
      /candidates #2\.snubber\.fibre: "hemp"/,
    ],
    ["a snubber of no length", (text) => text.replace("length: 8 m }", "length: 0 m }"), /snubber\.length: "0 m"/],
    [
      "a heading without a beam",
      (text) => text.replace("length: 8 m }", "length: 8 m, heading: 10 deg }"),
      /snubber\.heading: "10 deg"/,
    ],
    [
      "a heading backwards",
      (text) => text.replace("length: 8 m }", "length: 8 m, beam: 2 m, heading: 100 deg }"),
      /snubber\.heading: "100 deg"/,
    ],
    [
      "chains as strong as nothing",
      (text) => `${text}chains: { grades: ["30"], length: 45 m }\n`,
      /chains: neither workingLoad nor asStrongAs/,
    ],
    [
      "chains of no such grade",
      (text) => `${text}chains: { workingLoad: 5 kN, grades: ["99"], length: 45 m }\n`,
      /chains\.grades #1: "99"/,
    ],
    [
      "chains stronger than any",
      (text) => `${text}chains: { workingLoad: 5 MN, grades: ["30"], length: 45 m }\n`,
      /chains\.grades #1: "30"/,
    ],
    ["an alias", (text) => text.replace("name: Two chains", "name: &a Two chains"), /anchor mark &a/],
  ];

  it.each(wrong)("refuses %s in one line, status 2, nothing on standard output", async (_, change, told) => {
    const text = change(good);
    const { out, err, status } = await choose("-", { "-": text, "bare.yaml": bare });
    expect(err).toMatch(told);
    expect(err).toMatch(/^[^\n]+\n$/);
    expect([status, out]).toEqual([2, ""]);
  });

  it("has a table of wrong inputs of at least 25", () => expect(wrong.length).toBeGreaterThanOrEqual(25));
});
