import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readCatalogue } from "../../src/gear/index.ts";
import { InputError } from "../../src/quantity/index.ts";
import {
  type Rig,
  readRig,
  readRigFile,
  rigFileSchema,
  rigFrom,
  rigToFields,
  rigToFile,
  writeRigFile,
} from "../../src/rode/index.ts";
import { anyRig } from "./any-rig.ts";

const examples = join(import.meta.dirname, "../../data/examples/rigs");

const LINE = "line: { length: 20 m, massPerLength: 0.12 kg/m, density: 1140 kg/m3 }";

describe("a rig file", () => {
  it("is read as the contract's example says", () => {
    const rig = readRig(
      `format: rodebench/rig@1
name: Quay rig
setting:
  medium: water
  depth: 8 m
  rollerHeight: 1.5 m
  bottomSlope: 3 deg
  bottomFriction: 0.7
  current: 1 kn
rode:
  - chain: { grade: "30", size: 10 mm, length: 30 m }
  - weight: { mass: 15 kg, density: 7850 kg/m3 }
  - rope: { fibre: polyamide, lay: three-strand, diameter: 14 mm, length: 20 m }
  - line: { length: 20 m, massPerLength: 0.12 kg/m, density: 1140 kg/m3, stiffness: 90 kN }
  - line: { length: 9 m, massPerLength: 0.12 kg/m, density: 1140 kg/m3, stretch: [[0.06, "1500 N"], [0.12, "5 kN"]] }
uncertainty: { massPerLength: 2 %, rise: 0.1 m }
`,
      "quay.yaml",
    );
    expect(rig.name).toBe("Quay rig");
    expect(rig.setting).toEqual({
      medium: "water",
      depth: 8,
      rollerHeight: 1.5,
      waterDensity: 1025,
      bottomSlope: (3 * Math.PI) / 180,
      bottomFriction: 0.7,
      current: 1852 / 3600,
    });
    expect(rig.uncertainty).toEqual({ massPerLength: 0.02, rise: 0.1 });
    const [chain, weight, rope, spring, curve] = rig.rode;
    expect(chain).toMatchObject({ kind: "line", material: "chain", length: 30, density: 7850, diameter: 0.01 });
    expect(weight).toEqual({ kind: "point", name: "weight", mass: 15, density: 7850 });
    expect(rope).toMatchObject({
      kind: "line",
      material: "rope",
      length: 20,
      diameter: 0.014,
      stretch: { kind: "curve" },
    });
    expect(spring).toMatchObject({ stretch: { kind: "linear", stiffness: 90_000 } });
    expect(curve).toMatchObject({
      stretch: {
        kind: "curve",
        points: [
          [0.06, 1500],
          [0.12, 5000],
        ],
      },
    });
  });

  it("takes what it does not say from the contract's defaults", () => {
    const air = readRig(
      `{"format":"rodebench/rig@1","setting":{"medium":"air","rise":9},"rode":[{${LINE.replace(/^/, '"').replace(":", '":')}}]}`,
      "a",
    );
    expect(air.setting).toEqual({ medium: "air", rise: 9, bottomSlope: 0, bottomFriction: 0 });
    const water = readRig(file({}), "b");
    expect(water.setting).toEqual({
      medium: "water",
      depth: 8,
      rollerHeight: 1.5,
      waterDensity: 1025,
      bottomSlope: 0,
      bottomFriction: 0,
      current: 0,
    });
    expect(water.rode[0]).toMatchObject({ stretch: { kind: "rigid" } });
    expect(water.uncertainty).toEqual({});
  });

  it("says no stretch by leaving stiffness out, or by none", () => {
    const none = readRig(file({ rode: [LINE.replace(" }", ", stiffness: none }")] }), "rig");
    expect(none).toEqual(readRig(file({}), "rig"));
  });

  it("may write the (0, 0) of a stretch curve or not", () => {
    const withZero = LINE.replace(" }", ", stretch: [[0, 0], [6 %, 1500 N]] }");
    const without = LINE.replace(" }", ", stretch: [[6 %, 1500 N]] }");
    expect(readRig(file({ rode: [withZero] }), "rig")).toEqual(readRig(file({ rode: [without] }), "rig"));
  });

  it("prefers a weighed mass per length to the catalogue's", () => {
    const [weighed] = readRig(
      file({ rode: ["chain: { grade: 30, size: 10 mm, length: 5 m, massPerLength: 2.31 kg/m }"] }),
      "rig",
    ).rode;
    expect(weighed).toMatchObject({ massPerLength: 2.31, density: 7850 });
  });

  it("finds gear in the user's own catalogue", () => {
    const own = readCatalogue(
      `format: rodebench/gear@1
rows:
  - chain: { grade: "35", size: 9 mm, massPerLength: 1.8 kg/m, density: 7800 kg/m3, breakingLoad: 40 kN }
`,
      "own.yaml",
    );
    const [chain] = readRig(file({ rode: ["chain: { grade: 35, size: 9 mm, length: 5 m }"] }), "rig", own).rode;
    expect(chain).toMatchObject({ massPerLength: 1.8, breakingLoad: 40_000, density: 7800 });
  });

  it("names shackles and swivels by size", () => {
    const rig = readRig(
      file({ rode: ["shackle: { size: 10 mm }", "swivel: { size: 3/8 in, name: at the anchor }", LINE] }),
      "rig",
    );
    expect(rig.rode[0]).toMatchObject({ kind: "point", name: "bow shackle 10 mm" });
    expect(rig.rode[1]).toMatchObject({ kind: "point", name: "at the anchor" });
    const masses = rig.rode.slice(0, 2).map((part) => (part.kind === "point" ? part.mass : 0));
    // A 10 mm fitting weighs hundreds of grams, not grams and not kilograms.
    for (const mass of masses) expect(mass > 0.05 && mass < 1).toBe(true);
  });

  const files = readdirSync(examples);
  it("has examples to read", () => expect(files.length).toBeGreaterThanOrEqual(6));
  it.each(files)("of the examples, %s, survives being written out and read again", (name) => {
    const rig = readRig(readFileSync(join(examples, name), "utf8"), name);
    expect(rig.rode.length).toBeGreaterThan(0);
    expect(readRig(rigToFile(rig), name)).toEqual(rig);
    const asFile = readRigFile(readFileSync(join(examples, name), "utf8"), name);
    expect(rigFrom(asFile, name)).toEqual(rig);
    expect(readRig(writeRigFile(asFile), name)).toEqual(rig);
  });
});

describe("a rig written out", () => {
  it("reads back as the same rig to the last digit, as YAML and as JSON", () => {
    fc.assert(
      fc.property(anyRig, (rig: Rig) => {
        expect(readRig(rigToFile(rig), "rig")).toEqual(rig);
        expect(readRig(JSON.stringify(rigToFields(rig)), "rig")).toEqual(rig);
      }),
      { seed: 31, numRuns: 500 },
    );
  });

  it("says round figures as people do", () => {
    const text = rigToFile(readRig(file({ setting: ["current: 1 kn", "bottomSlope: 3 deg"] }), "rig"));
    expect(text).toContain("current: 1 kn");
    expect(text).toContain("bottomSlope: 3 deg");
    expect(text).toContain("depth: 8 m");
  });
});

describe("the text of a rig written out", () => {
  it("has short groups and stretch curves on one line, units at hand where they say the number exactly", () => {
    const text = `format: rodebench/rig@1
name: Written
setting: { medium: water, depth: 26 ft, rollerHeight: 1.5 m, waterDensity: 1025 kg/m3, bottomSlope: -3 deg, bottomFriction: 0.6, current: 1 kn }
rode:
  - line: { name: Wire, length: 20 m, massPerLength: 0.9 lb/ft, density: 7850 kg/m3, stiffness: 90 kN, diameter: 0.5 in, breakingLoad: 9000 N }
  - line: { name: Rope, material: rope, length: 12.3456789012345 m, massPerLength: 0.12 kg/m, density: 1140 kg/m3, stretch: [[0.06, 1500 N], [0.12, 10 kN]], diameter: 14 mm, drag: { across: 1.3, along: 0.07 } }
  - weight: { name: Kellet, mass: 33.123 lb, density: 7850 kg/m3, workingLoad: 450 lbf }
uncertainty: { massPerLength: 3 %, rise: 0.3 m, current: 0.1 m/s }
`;
    const rig = readRig(text, "rig");
    // The first of a unit's names that says the number in at most ten digits: 26 ft is 7.9248 m, 33.123 lb no such figure.
    // A group of more than a hundred characters, or with another in it, has a line for each of its fields.
    expect(rigToFile(rig)).toBe(`format: rodebench/rig@1
name: Written
setting:
  medium: water
  depth: 7.9248 m
  rollerHeight: 1.5 m
  waterDensity: 1025 kg/m3
  bottomSlope: -3 deg
  bottomFriction: 0.6
  current: 1 kn
rode:
  - line:
      name: Wire
      length: 20 m
      massPerLength: 0.9 lb/ft
      density: 7850 kg/m3
      stiffness: 90 kN
      diameter: 12.7 mm
      breakingLoad: 9000 N
  - line:
      name: Rope
      material: rope
      length: 12.3456789012345 m
      massPerLength: 0.12 kg/m
      density: 1140 kg/m3
      stretch: [ [ 0.06, 1500 N ], [ 0.12, 10 kN ] ]
      diameter: 14 mm
      drag: { across: 1.3, along: 0.07 }
  - weight: { name: Kellet, mass: 33.123 lb, density: 7850 kg/m3, workingLoad: 450 lbf }
uncertainty: { massPerLength: 3 %, rise: 0.3 m, current: 0.1 m/s }
`);
  });

  it("leaves out what stands at nought: slope, friction, current, uncertainty", () => {
    const rig = readRig(file({}), "rig");
    expect(rigToFile({ ...rig, setting: { ...rig.setting, bottomFriction: 0 }, uncertainty: {} })).not.toMatch(
      /bottomSlope|bottomFriction|current|uncertainty/,
    );
  });
});

describe("the schema of a rig file", () => {
  it("names every field of the contract and refuses others", () => {
    const schema = rigFileSchema() as {
      properties: Record<string, unknown>;
      additionalProperties: boolean;
      required: string[];
    };
    expect(schema.additionalProperties).toBe(false);
    expect(Object.keys(schema.properties)).toEqual(["format", "name", "setting", "rode", "uncertainty"]);
    expect(schema.required).toEqual(["format", "setting", "rode"]);
    const rode = schema.properties.rode as {
      items: { properties: object; minProperties: number; maxProperties: number };
    };
    expect(Object.keys(rode.items.properties)).toEqual([
      "chain",
      "rope",
      "wire",
      "line",
      "weight",
      "shackle",
      "swivel",
    ]);
    expect(rode.items).toMatchObject({ minProperties: 1, maxProperties: 1 });
  });
});

const WRONG: readonly [claim: string, text: string, line: string][] = [
  ["nothing", "", "rig: an empty file; a rig file is expected, which begins with format: rodebench/rig@1"],
  ["a word", "hello", 'rig: "hello"; a rig file is expected, which begins with format: rodebench/rig@1'],
  ["a list", "- 1\n- 2", "rig: a list; a rig file is expected, which begins with format: rodebench/rig@1"],
  ["broken YAML", "format: [", "rig: line 1: a [ that is not closed; a ] at its end is expected"],
  [
    "a name twice",
    "format: rodebench/rig@1\nformat: rodebench/rig@1",
    "rig: line 2: format stands twice in one group; each name once is expected",
  ],
  [
    "a JSON name twice",
    '{"format":"rodebench/rig@1","name":"a","name":"b"}',
    'rig: line 1: "name" stands twice in one group; each name once is expected',
  ],
  ["two documents", `${file({})}---\n${file({})}`, "rig: line 9: a second document; one document is expected"],
  [
    "an alias",
    file({}).replace("depth: 8 m", "depth: &d 8 m").replace("rollerHeight: 1.5 m", "rollerHeight: *d"),
    "rig: the anchor mark &d; every value is expected to be written out",
  ],
  ["a tag", file({}).replace("8 m", "!deep 8 m"), "rig: line 5: the tag !deep; a value without a tag is expected"],
  ["another format", file({}).replace("rig@1", "run@1"), 'rig: format: "rodebench/run@1"; rodebench/rig@1 is expected'],
  ["no format", file({}).replace(/format.*\n/, ""), "rig: format: nothing given; rodebench/rig@1 is expected"],
  ["a mistyped name", file({}).replace("rode:", "rodes:"), "rig: rodes: no such field; is rode meant?"],
  [
    "a strange name",
    `${file({})}colour: red\n`,
    "rig: colour: no such field; one of format, name, setting, rode, uncertainty is expected",
  ],
  [
    "a name that is a list",
    file({}).replace("name: Test", "name: [a]"),
    "rig: name: a list; a name is expected, in at most 200 characters",
  ],
  [
    "no setting",
    file({}).replace(/setting:[\s\S]*rode:/, "rode:"),
    "rig: setting: nothing given; a setting with medium: air or medium: water is expected",
  ],
  [
    "another medium",
    file({}).replace("medium: water", "medium: sand"),
    'rig: setting.medium: "sand"; a setting with medium: air or medium: water is expected',
  ],
  [
    "a depth in air",
    file({}).replace("medium: water", "medium: air"),
    'rig: setting.depth: "8 m"; a rig in air has no depth; its rise is expected',
  ],
  [
    "a rise in water",
    file({ setting: ["rise: 9 m"] }),
    'rig: setting.rise: "9 m"; a rig in water has depth and rollerHeight in place of a rise',
  ],
  [
    "a current in air",
    airFile("current: 1 kn"),
    'rig: setting.current: "1 kn"; a rig in air has no current; medium: water is expected with it',
  ],
  [
    "a mistyped setting",
    file({ setting: ["bottomSlop: 3 deg"] }),
    "rig: setting.bottomSlop: no such field; is bottomSlope meant?",
  ],
  [
    "no depth",
    file({}).replace(/ {2}depth.*\n/, ""),
    'rig: setting.depth: nothing given; a length is expected, such as "8 m"',
  ],
  [
    "a depth of zero",
    file({}).replace("8 m", "0 m"),
    'rig: setting.depth: "0 m"; a length above zero, at most 100 km, is expected',
  ],
  [
    "a negative depth",
    file({}).replace("8 m", "-8 m"),
    'rig: setting.depth: "-8 m"; a length above zero, at most 100 km, is expected',
  ],
  [
    "a depth in knots",
    file({}).replace("8 m", "8 kn"),
    'rig: setting.depth: "8 kn" is a speed; a length is expected, such as "8 m"',
  ],
  [
    "a decimal comma",
    file({}).replace("1.5 m", "1,5 m"),
    'rig: setting.rollerHeight: "1,5 m"; a decimal point is expected: 1.5 m; a length is expected, such as "12 m"',
  ],
  [
    "a roller under water",
    file({}).replace("1.5 m", "-1.5 m"),
    'rig: setting.rollerHeight: "-1.5 m"; a height of zero or more, at most 10 km, is expected',
  ],
  [
    "water like feathers",
    file({ setting: ["waterDensity: 1.025"] }),
    'rig: setting.waterDensity: 1.025; a density from 900 to 1400 kg/m³ is expected, such as "1025 kg/m3"',
  ],
  [
    "a cliff",
    file({ setting: ["bottomSlope: 46 deg"] }),
    'rig: setting.bottomSlope: "46 deg"; a slope from -45 to 45 deg is expected',
  ],
  [
    "a falling cliff",
    file({ setting: ["bottomSlope: -46"] }),
    "rig: setting.bottomSlope: -46; a slope from -45 to 45 deg is expected",
  ],
  [
    "friction that pushes",
    file({ setting: ["bottomFriction: -0.1"] }),
    "rig: setting.bottomFriction: -0.1; a friction from 0 to 3 is expected",
  ],
  [
    "a current in kilonewtons",
    file({ setting: ["current: 1 kN"] }),
    'rig: setting.current: "1 kN" is a force; case matters: kN is kilonewtons, kn is knots; a speed is expected, such as "1 m/s"',
  ],
  [
    "a depth that is infinite",
    file({}).replace("8 m", ".inf"),
    'rig: setting.depth: Infinity; a length is expected, such as "8 m"',
  ],
  [
    "no rode",
    file({}).replace(/rode:[\s\S]*/, ""),
    "rig: rode: nothing given; a list of parts from the anchor to the bow is expected",
  ],
  [
    "an empty rode",
    file({}).replace(/rode:[\s\S]*/, "rode: []\n"),
    "rig: rode: an empty list; at least one part is expected, such as chain: { grade: 30, size: 10 mm, length: 30 m }",
  ],
  [
    "a rode that is a group",
    file({}).replace(/rode:[\s\S]*/, `rode: { ${LINE} }\n`),
    "rig: rode: a group of fields; a list of parts from the anchor to the bow is expected",
  ],
  [
    "a part that is a word",
    file({ rode: ["chain"] }),
    'rig: rode #1: "chain"; a part is expected, such as chain: { grade: 30, size: 10 mm, length: 30 m }',
  ],
  [
    "a part of an unknown kind",
    file({ rode: ["cable: { length: 3 m }"] }),
    "rig: rode #1.cable: no such field; one of chain, rope, wire, line, weight, shackle, swivel is expected",
  ],
  ["a mistyped kind", file({ rode: ["chian: { length: 3 m }"] }), "rig: rode #1.chian: no such field; is chain meant?"],
  [
    "a part of no kind",
    file({ rode: ["{}"] }),
    "rig: rode #1: no kind of part; one of chain, rope, wire, line, weight, shackle, swivel is expected",
  ],
  [
    "a part of two kinds",
    file({ rode: [`${LINE}\n    weight: { mass: 1 kg, density: 7850 kg/m3 }`] }),
    "rig: rode #1: line and weight; one of chain, rope, wire, line, weight, shackle, swivel is expected",
  ],
  [
    "a mistyped field of a part",
    file({ rode: [LINE.replace("massPerLength", "masPerLength")] }),
    "rig: rode #1.line.masPerLength: no such field; is massPerLength meant?",
  ],
  [
    "a length of zero",
    file({ rode: [LINE.replace("20 m", "0 m")] }),
    'rig: rode #1.line.length: "0 m"; a length above zero, at most 100 km, is expected',
  ],
  [
    "a negative length",
    file({ rode: [LINE, LINE.replace("20 m", "-20 m")] }),
    'rig: rode #2.line.length: "-20 m"; a length above zero, at most 100 km, is expected',
  ],
  [
    "no mass per length",
    file({ rode: ["line: { length: 20 m, density: 1140 kg/m3 }"] }),
    'rig: rode #1.line.massPerLength: nothing given; a mass per length is expected, such as "0.12 kg/m"',
  ],
  [
    "a mass for a mass per length",
    file({ rode: [LINE.replace("0.12 kg/m", "0.12 kg")] }),
    'rig: rode #1.line.massPerLength: "0.12 kg" is a mass; a mass per length is expected, such as "0.12 kg/m"',
  ],
  [
    "a density of zero",
    file({ rode: [LINE.replace("1140 kg/m3", "0")] }),
    'rig: rode #1.line.density: 0; a density from 100 to 23000 kg/m³ is expected, such as "7850 kg/m3"',
  ],
  [
    "a density without its unit",
    file({ rode: [LINE.replace("1140 kg/m3", "1.14")] }),
    'rig: rode #1.line.density: 1.14; a density from 100 to 23000 kg/m³ is expected, such as "7850 kg/m3"',
  ],
  [
    "a stiffness that is no force",
    lineWith("stiffness: 90 kN/m"),
    'rig: rode #1.line.stiffness: "90 kN/m" is a stiffness (force per length); a force is expected, such as "90 N"',
  ],
  [
    "a stiffness of zero",
    lineWith("stiffness: 0 N"),
    'rig: rode #1.line.stiffness: "0 N"; a force above zero is expected, such as "90 kN"',
  ],
  [
    "stiffness and stretch",
    lineWith("stiffness: 90 kN, stretch: [[0.06, 1500 N]]"),
    "rig: rode #1.line: stiffness and stretch; one of the two is expected, or neither for no stretch",
  ],
  [
    "a stretch that is a number",
    lineWith("stretch: 0.06"),
    "rig: rode #1.line.stretch: 0.06; a list of strain and load is expected, such as [[0.06, 1500 N], [0.12, 5 kN]]",
  ],
  [
    "an empty stretch",
    lineWith("stretch: []"),
    "rig: rode #1.line.stretch: an empty list; a list of strain and load is expected, such as [[0.06, 1500 N], [0.12, 5 kN]]",
  ],
  [
    "a stretch of (0, 0)",
    lineWith("stretch: [[0, 0]]"),
    "rig: rode #1.line.stretch: (0, 0) alone; a point above zero strain and load is expected",
  ],
  [
    "a stretch of single numbers",
    lineWith("stretch: [0.06, 0.12]"),
    "rig: rode #1.line.stretch #1: 0.06; a pair of strain and load is expected, such as [0.06, 1500 N]",
  ],
  [
    "a stretch whose strain falls",
    lineWith("stretch: [[0.06, 1500 N], [0.05, 5 kN]]"),
    "rig: rode #1.line.stretch #2 #1: 0.05; a strain above the one before is expected",
  ],
  [
    "a stretch whose load stands still",
    lineWith("stretch: [[0.06, 1500 N], [0.12, 1.5 kN]]"),
    'rig: rode #1.line.stretch #2 #2: "1.5 kN"; a load above the one before is expected',
  ],
  [
    "a stretch with load and no strain",
    lineWith("stretch: [[0, 1500 N]]"),
    "rig: rode #1.line.stretch #1 #1: 0; a strain above zero, at most 10, is expected",
  ],
  [
    "a stretch the wrong way round",
    lineWith("stretch: [[1500 N, 0.06]]"),
    'rig: rode #1.line.stretch #1 #1: "1500 N" is a force; a ratio is expected, such as "12 %" or 0.12',
  ],
  [
    "a working load above breaking",
    lineWith("workingLoad: 9 kN, breakingLoad: 8 kN"),
    'rig: rode #1.line.workingLoad: "9 kN"; a working load not above the breaking load is expected',
  ],
  [
    "a material unheard of",
    lineWith("material: hemp"),
    'rig: rode #1.line.material: "hemp"; one of chain, rope, wire, line is expected',
  ],
  [
    "half a drag",
    lineWith("drag: { across: 1.2 }"),
    'rig: rode #1.line.drag.along: nothing given; a drag coefficient is expected, such as "0.1"',
  ],
  [
    "a weight of nothing",
    file({ rode: ["weight: { mass: 0 kg, density: 7850 kg/m3 }"] }),
    'rig: rode #1.weight.mass: "0 kg"; a mass above zero, at most 10000 t, is expected',
  ],
  [
    "a weight in newtons",
    file({ rode: ["weight: { mass: 15 N, density: 7850 kg/m3 }"] }),
    'rig: rode #1.weight.mass: "15 N" is a force; a mass is expected, such as "15 kg"',
  ],
  [
    "a chain without a grade",
    file({ rode: ["chain: { size: 10 mm, length: 3 m }"] }),
    'rig: rode #1.chain.grade: nothing given; a grade is expected, such as "30"',
  ],
  [
    "an uncertainty of everything",
    `${file({})}uncertainty: { massPerLength: 51 % }\n`,
    'rig: uncertainty.massPerLength: "51 %"; a standard uncertainty from 0 to 50 % is expected',
  ],
  [
    "an uncertainty in kg/m",
    `${file({})}uncertainty: { massPerLength: 0.1 kg/m }\n`,
    'rig: uncertainty.massPerLength: "0.1 kg/m" is a mass per length; a ratio is expected, such as "12 %" or 0.12',
  ],
  [
    "a negative uncertainty",
    `${file({})}uncertainty: { rise: -0.1 m }\n`,
    'rig: uncertainty.rise: "-0.1 m"; a height of zero or more, at most 10 km, is expected',
  ],
];

describe("a wrong rig file", () => {
  it.each(WRONG)("with %s is refused in one line", (_, text, line) => {
    expect(refusal(text)).toBe(line);
  });

  it.each([
    [
      "a chain",
      "chain: { grade: 99, size: 10 mm, length: 3 m }",
      /^rig: rode #1\.chain\.grade: 99; one of .*30.* is expected$/,
    ],
    [
      "a chain size",
      "chain: { grade: 30, size: 77 mm, length: 3 m }",
      /^rig: rode #1\.chain\.size: "77 mm" .*nearest: chain /,
    ],
    [
      "a rope",
      "rope: { fibre: wool, lay: three-strand, diameter: 14 mm, length: 3 m }",
      /^rig: rode #1\.rope\.fibre: "wool"; .*polyamide.* is expected$/,
    ],
    [
      "a wire",
      "wire: { material: stainless, construction: 3x3, diameter: 8 mm, length: 3 m }",
      /^rig: rode #1\.wire\.construction: "3x3"; .*1x19.* is expected$/,
    ],
    [
      "a shackle shape",
      "shackle: { size: 10 mm, shape: round }",
      /^rig: rode #1\.shackle\.shape: "round"; .*bow shackle.* is expected$/,
    ],
    ["a swivel size", "swivel: { size: 90 mm }", /^rig: rode #1\.swivel\.size: "90 mm"; .*nearest: swivel /],
  ])("naming %s that is in no catalogue is told the nearest there are", (_, part, line) => {
    expect(refusal(file({ rode: [part] }))).toMatch(line);
  });

  it("that would unfold to gigabytes is refused at once", () => {
    const levels = Array.from(
      { length: 30 },
      (_, i) => `a${i + 1}: &a${i + 1} [${"*a".concat(String(i), ", ").repeat(9)}*a${i}]`,
    );
    expect(refusal(`a0: &a0 [x, x]\n${levels.join("\n")}\n`)).toMatch(/every value is expected to be written out$/);
  });

  it("that is nested by the thousand is refused", () => {
    expect(refusal("[".repeat(100_000))).toMatch(/^rig: nested too deeply; at most 64 levels are expected$/);
    expect(refusal(`${"{a: ".repeat(3000)}1${"}".repeat(3000)}`)).toMatch(/^rig: /);
  });

  it("that is larger than any rig is refused unread", () => {
    expect(refusal(`${file({})}# ${"x".repeat(300_000)}`)).toMatch(
      /^rig: \d+ characters; a file of at most 262144 characters is expected$/,
    );
  });

  it("with a group that looks like a list is refused", () => {
    const group = "rode: { length: { toString: 1, valueOf: 1 } }";
    expect(refusal(file({}).replace(/rode:[\s\S]*/, group))).toBe(
      "rig: a group of fields in place of a list; the fields of this format are expected",
    );
  });

  it("with more parts than any rode is refused", () => {
    expect(refusal(file({ rode: Array.from({ length: 1001 }, () => LINE) }))).toBe(
      "rig: rode: a list; at most 1000 parts are expected",
    );
  });

  it("whose names are those of an object's insides is refused like any other", () => {
    for (const name of ["__proto__", "constructor", "toString", "hasOwnProperty"]) {
      expect(refusal(`${file({})}${name}: { polluted: 1 }\n`)).toBe(
        `rig: ${name}: no such field; one of format, name, setting, rode, uncertainty is expected`,
      );
      expect(refusal(file({ rode: [`${name}: { length: 3 m }`] }))).toMatch(/^rig: rode #1/);
    }
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });
});

function file({ setting = [], rode = [LINE] }: { setting?: string[]; rode?: string[] }): string {
  const more = setting.map((line) => `  ${line}\n`).join("");
  const parts = rode.map((part) => `  - ${part}\n`).join("");
  return `format: rodebench/rig@1\nname: Test\nsetting:\n  medium: water\n  depth: 8 m\n  rollerHeight: 1.5 m\n${more}rode:\n${parts}`;
}

function airFile(...setting: string[]): string {
  return file({ setting }).replace(/medium: water[\s\S]*?rollerHeight: 1.5 m/, "medium: air\n  rise: 9 m");
}

function lineWith(fields: string): string {
  return file({ rode: [LINE.replace(" }", `, ${fields} }`)] });
}

function refusal(text: string): string {
  try {
    readRig(text, "rig");
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    expect((error as Error).message).not.toMatch(/[\r\n]/);
    return (error as Error).message;
  }
  return "read without complaint";
}
