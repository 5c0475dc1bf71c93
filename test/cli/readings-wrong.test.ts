import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rodebench } from "../support/command-line.ts";

const RIG = `
  format: rodebench/rig@1
  name: Rig
  setting: { medium: air, rise: 9 m }
  rode: [{ line: { length: 30 m, massPerLength: 2 kg/m, density: 7850 kg/m3 } }]
  uncertainty: { massPerLength: 3 %, rise: 0.1 m }`;
const GOOD: Record<string, string> = {
  format: "rodebench/run@1",
  rig: RIG,
  loadCellAt: "anchor",
  units: "{ load: N, angle: deg, movement: m }",
  uncertainty: "{ load: 5 N, angle: 0.5 deg, movement: 5 mm }",
  readings: "[{ load: 1500, angle: 4 }, { load: 2500, angle: 9 }]",
  release: "[{ load: 2500, movement: 0 }, { load: 1500, movement: 0.1 }, { load: 1000, movement: 0.3 }]",
};

/** The good run with some fields otherwise; null leaves one out. */
function text(changed: Record<string, string | null>): string {
  return Object.entries({ ...GOOD, ...changed })
    .flatMap(([field, value]) => (value === null ? [] : [`${field}: ${value}\n`]))
    .join("");
}

const reduce = (file: string, argv: readonly string[] = ["reduce", "run.yaml"]) =>
  rodebench(argv, { "run.yaml": file }, { write: async () => undefined });

const wrong: readonly (readonly [what: string, file: string, line: RegExp])[] = [
  ["an empty file", "", /^run\.yaml: .*expected$/],
  ["no mapping", "just words", /^run\.yaml: .*expected$/],
  ["a list", "- 1\n- 2\n", /^run\.yaml: .*expected$/],
  ["broken YAML", "format: [", /^run\.yaml: .*/],
  ["another format", text({ format: "rodebench/rig@1" }), /^run\.yaml: format: .*rodebench\/run@1 is expected$/],
  ["a later format", text({ format: "rodebench/run@2" }), /^run\.yaml: format: /],
  ["no format", text({ format: null }), /^run\.yaml: format: /],
  ["no rig", text({ rig: null }), /^run\.yaml: rig: .*a rig file, or a rig, is expected$/],
  ["a rig that is a number", text({ rig: "12" }), /^run\.yaml: rig: /],
  ["a rig file that is not there", text({ rig: "other.yaml" }), /^run\.yaml: rig: other\.yaml: no such file; /],
  ["a rig from standard input", text({ rig: '"-"' }), /^run\.yaml: rig: -; the path of a rig file is expected$/],
  [
    "a wrong rig within",
    text({ rig: RIG.replace("9 m", "9 kg") }),
    /^run\.yaml: rig: setting\.rise: "9 kg" is a mass; /,
  ],
  [
    "a rig of no parts",
    text({ rig: RIG.replace(/rode: .*/, "rode: []") }),
    /^run\.yaml: rig: rode: .*at least one part is expected/,
  ],
  ["no load cell", text({ loadCellAt: null }), /^run\.yaml: loadCellAt: .*anchor or bow is expected$/],
  [
    "a load cell elsewhere",
    text({ loadCellAt: "stern" }),
    /^run\.yaml: loadCellAt: .*stern.*anchor or bow is expected$/,
  ],
  ["a gauge elsewhere", text({ angleAt: "middle" }), /^run\.yaml: angleAt: .*anchor or bow is expected$/],
  ["an unknown field", text({ loadcellAt: "anchor" }), /^run\.yaml: .*loadcellAt/],
  [
    "a load unit that is a length",
    text({ units: "{ load: m }" }),
    /^run\.yaml: units\.load: .*a unit of force is expected/,
  ],
  ["an angle unit that is a force", text({ units: "{ angle: lbf }" }), /^run\.yaml: units\.angle: /],
  ["a movement unit nobody knows", text({ units: "{ movement: cubits }" }), /^run\.yaml: units\.movement: .*cubits/],
  ["a unit for what is not read", text({ units: "{ wind: kn }" }), /^run\.yaml: units.*wind/],
  [
    "an uncertainty of the wrong kind",
    text({ uncertainty: "{ angle: 5 lbf }" }),
    /^run\.yaml: uncertainty\.angle: "5 lbf" is a force/,
  ],
  [
    "an uncertainty of nothing",
    text({ uncertainty: "{ load: 0 N }" }),
    /^run\.yaml: uncertainty\.load: .*above zero is expected$/,
  ],
  [
    "an uncertainty below nothing",
    text({ uncertainty: "{ movement: -1 mm }" }),
    /^run\.yaml: uncertainty\.movement: .*above zero is expected$/,
  ],
  ["neither readings nor release", text({ readings: null, release: null }), /^run\.yaml: readings: .*are expected$/],
  ["empty lists", text({ readings: "[]", release: "[]" }), /^run\.yaml: readings: .*are expected$/],
  [
    "readings that are no list",
    text({ readings: "{ load: 1 }" }),
    /^run\.yaml: readings: .*a list of readings is expected$/,
  ],
  [
    "a reading without a load",
    text({ readings: "[{ angle: 4 }]" }),
    /^run\.yaml: readings #1\.load: .*a load is expected/,
  ],
  [
    "a reading of a load alone",
    text({ readings: "[{ load: 1500 }]" }),
    /^run\.yaml: readings #1: .*the event liftoff, is expected/,
  ],
  [
    "an event nobody knows",
    text({ readings: "[{ load: 1500, event: bang }]" }),
    /^run\.yaml: readings #1\.event: .*liftoff is expected$/,
  ],
  [
    "a lift-off noted without an angle, on level ground, where no load lifts the rig off",
    text({
      rig: RIG.replace("rise: 9 m", "rise: 0 m"),
      readings: "[{ load: 1500, angle: 4 }, { load: 2500, event: liftoff }]",
      release: null,
    }),
    /^run\.yaml: readings #2\.event: liftoff; an angle is expected beside the lift-off: by theory no load lifts this rig off$/,
  ],
  ["a load of nothing", text({ readings: "[{ load: 0, angle: 4 }]" }), /^run\.yaml: readings #1\.load: .*above zero/],
  [
    "a load below nothing",
    text({ readings: "[{ load: -5, angle: 4 }]" }),
    /^run\.yaml: readings #1\.load: .*above zero/,
  ],
  [
    "a load past all bounds",
    text({ readings: "[{ load: 1e12, angle: 4 }]" }),
    /^run\.yaml: readings #1\.load: .*below 1 GN/,
  ],
  [
    "a load that is a mass",
    text({ readings: '[{ load: "5 kg", angle: 4 }]' }),
    /^run\.yaml: readings #1\.load: "5 kg" is a mass/,
  ],
  [
    "a decimal comma",
    text({ readings: '[{ load: "1500,5 N", angle: 4 }]' }),
    /^run\.yaml: readings #1\.load: .*(comma|point)/,
  ],
  [
    "an angle past upright",
    text({ readings: "[{ load: 1500, angle: 95 }]" }),
    /^run\.yaml: readings #1\.angle: .*between -90 and 90 deg is expected$/,
  ],
  [
    "an angle that is no number",
    text({ readings: "[{ load: 1500, angle: .nan }]" }),
    /^run\.yaml: readings #1\.angle: /,
  ],
  ["an angle that is a word", text({ readings: "[{ load: 1500, angle: steep }]" }), /^run\.yaml: readings #1\.angle: /],
  ["a reading that is a list", text({ readings: "[[1500, 4]]" }), /^run\.yaml: readings #1: /],
  [
    "a release that does not begin at 0",
    text({ release: "[{ load: 2500, movement: 0.1 }]" }),
    /^run\.yaml: release #1\.movement: .*movement counts from the first row$/,
  ],
  [
    "a release without movement",
    text({ release: "[{ load: 2500 }]" }),
    /^run\.yaml: release #1\.movement: .*a movement is expected/,
  ],
  [
    "a movement of a hundred miles",
    text({ release: '[{ load: 2500, movement: 0 }, { load: 9, movement: "100 mi" }]' }),
    /^run\.yaml: release #2\.movement: /,
  ],
  ["a name that is a list", text({ name: "[a]" }), /^run\.yaml: name: /],
  ["a field twice", `${text({})}loadCellAt: bow\n`, /^run\.yaml: .*loadCellAt/],
];

describe("a wrong run file is told in one line: file, field, what stands there, what was expected", () => {
  it(`holds ${wrong.length} of them`, () => expect(wrong.length).toBeGreaterThanOrEqual(25));

  it("and the right one is not", async () => {
    const { status, err } = await reduce(text({}));
    expect([status, err]).toEqual([0, ""]);
  });

  it.each(wrong)("%s", async (_what, file, line) => {
    for (const argv of [
      ["reduce", "run.yaml"],
      ["reduce", "run.yaml", "--json", "--report", "x.html"],
    ]) {
      const { out, err, status } = await reduce(file, argv);
      expect([status, out]).toEqual([2, ""]);
      expect(err.trim().split("\n").length).toBe(1);
      expect(err.trim()).toMatch(line);
    }
  });
});

/** Pieces that have meaning to YAML, to quantities or to a run. */
const PIECES = [
  "0",
  "-1",
  "1e999",
  ".nan",
  ".inf",
  "null",
  "~",
  "true",
  "[]",
  "{}",
  "{",
  "}",
  "[",
  "]",
  "- ",
  ": ",
  "\n",
  "\n  ",
  "\t",
  "&a ",
  "*a",
  "!x ",
  "<<: ",
  "|\n",
  "'",
  '"',
  "#",
  "---\n",
  "\u0000",
  "\ud800",
  "kN",
  "deg",
  "lbf",
  "1,5",
  "9 1/2 in",
  "__proto__",
  "constructor",
  "liftoff",
  "bow",
  "anchor",
  "1e-300",
  "1e8",
  "89.9",
];
const texts = [
  text({}),
  readFileSync(join(import.meta.dirname, "../../data/examples/runs/three-loads.yaml"), "utf8").replace(
    /rig: .*/,
    `rig: ${RIG}`,
  ),
];
const mutated = fc
  .tuple(
    fc.constantFrom(...texts),
    fc.array(
      fc.tuple(
        fc.nat(),
        fc.nat(8),
        fc.oneof(fc.constantFrom(...PIECES), fc.string({ maxLength: 3 }), fc.double().map(String)),
      ),
      { minLength: 1, maxLength: 3 },
    ),
  )
  .map(([whole, cuts]) =>
    cuts.reduce((now, [at, length, piece]) => {
      const place = at % (now.length + 1);
      return now.slice(0, place) + piece + now.slice(place + length);
    }, whole),
  );

/** Runs whose every figure is within what the schema allows, however odd. */
const odd = fc
  .record({
    loads: fc.array(
      fc.tuple(fc.double({ min: 1e-3, max: 1e9, noNaN: true }), fc.double({ min: -89, max: 89, noNaN: true })),
      {
        maxLength: 5,
      },
    ),
    release: fc.array(
      fc.tuple(fc.double({ min: 1e-3, max: 1e9, noNaN: true }), fc.double({ min: -1e5, max: 1e5, noNaN: true })),
      {
        minLength: 1,
        maxLength: 5,
      },
    ),
    at: fc.constantFrom("anchor", "bow"),
  })
  .map(({ loads, release, at }) =>
    text({
      loadCellAt: at,
      readings: JSON.stringify(loads.map(([load, angle]) => ({ load, angle }))),
      release: JSON.stringify(release.map(([load, movement], i) => ({ load, movement: i === 0 ? 0 : movement }))),
    }),
  );

describe("any run file at all", () => {
  it.each([
    ["cut and patched at random", mutated, 250],
    ["of odd figures", odd, 30],
  ] as const)("%s is answered, or told in one line; never a crash, never a trace", async (_what, files, numRuns) => {
    let answered = 0;
    await fc.assert(
      fc.asyncProperty(files, async (file) => {
        const { out, err, status } = await reduce(file, ["reduce", "run.yaml", "--report", "x.html"]);
        if (status === 0) {
          answered += 1;
          expect(err).toBe("");
          expect(out).not.toMatch(/NaN|undefined|Infinity/);
          return;
        }
        expect([2, 3]).toContain(status);
        expect(out).toBe("");
        expect(err.trim().split("\n").length).toBe(1);
        expect(err).not.toMatch(/\n +at |fault of the program|^(start|sample|scale):/);
      }),
      { seed: 12, numRuns },
    );
    expect(answered).toBeGreaterThan(0);
  });
});
