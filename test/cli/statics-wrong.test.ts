import { describe, expect, it } from "vitest";
import { rodebench } from "../support/command-line.ts";

const AIR = `format: rodebench/rig@1
name: Rig
setting: { medium: air, rise: 9 m }
rode:
  - line: { length: 30 m, massPerLength: 2 kg/m, density: 7850 kg/m3, workingLoad: 8 kN }
`;
const AFLOAT = `format: rodebench/rig@1
name: Boat
setting: { medium: water, depth: 8 m, rollerHeight: 1 m }
rode:
  - chain: { grade: "30", size: 10 mm, length: 20 m }
  - weight: { name: kellet, mass: 15 kg, density: 7850 kg/m3 }
  - chain: { grade: "30", size: 10 mm, length: 20 m }
  - rope: { fibre: polyamide, lay: three-strand, diameter: 14 mm, length: 10 m }
`;

const changed = (text: string, from: string, to: string) => {
  if (!text.includes(from)) throw new Error(`nothing to change: ${from}`);
  return text.replace(from, to);
};
const a = (from: string, to: string) => changed(AIR, from, to);
const w = (from: string, to: string) => changed(AFLOAT, from, to);

type Wrong = readonly (readonly [what: string, given: string, line: string])[];
type WrongOptions = readonly (readonly [what: string, argv: readonly string[], line: string])[];

const wrongFiles: Wrong = [
  ["an empty file", "", "rig.yaml: an empty file; a rig file is expected, which begins with format: rodebench/rig@1"],
  [
    "only words",
    "thirty metres of chain",
    'rig.yaml: "thirty metres of chain"; a rig file is expected, which begins with format: rodebench/rig@1',
  ],
  ["a list", "- 1\n- 2\n", "rig.yaml: a list; a rig file is expected, which begins with format: rodebench/rig@1"],
  ["broken YAML", "format: [rodebench", "rig.yaml: line 1: a [ that is not closed; a ] at its end is expected"],
  ["two documents", `${AIR}---\n${AIR}`, "rig.yaml: line 6: a second document; one document is expected"],
  [
    "a field twice",
    `${AIR}name: Again\n`,
    "rig.yaml: line 6: name stands twice in one group; each name once is expected",
  ],
  [
    "an alias",
    a("name: Rig", "name: &n Rig"),
    "rig.yaml: the anchor mark &n; every value is expected to be written out",
  ],
  ["another format", a("rig@1", "run@1"), 'rig.yaml: format: "rodebench/run@1"; rodebench/rig@1 is expected'],
  ["a later format", a("rig@1", "rig@2"), 'rig.yaml: format: "rodebench/rig@2"; rodebench/rig@1 is expected'],
  ["no format", a("format: rodebench/rig@1\n", ""), "rig.yaml: format: nothing given; rodebench/rig@1 is expected"],
  [
    "no setting",
    a("setting: { medium: air, rise: 9 m }\n", ""),
    "rig.yaml: setting: nothing given; a setting with medium: air or medium: water is expected",
  ],
  [
    "an unknown medium",
    a("medium: air", "medium: oil"),
    'rig.yaml: setting.medium: "oil"; a setting with medium: air or medium: water is expected',
  ],
  [
    "no medium",
    a("medium: air, ", ""),
    "rig.yaml: setting.medium: nothing given; a setting with medium: air or medium: water is expected",
  ],
  [
    "a rise in water",
    w("depth: 8 m", "depth: 8 m, rise: 9 m"),
    'rig.yaml: setting.rise: "9 m"; a rig in water has depth and rollerHeight in place of a rise',
  ],
  [
    "a depth in air",
    a("rise: 9 m", "rise: 9 m, depth: 8 m"),
    'rig.yaml: setting.depth: "8 m"; a rig in air has no depth; its rise is expected',
  ],
  [
    "a current in air",
    a("rise: 9 m", "rise: 9 m, current: 1 kn"),
    'rig.yaml: setting.current: "1 kn"; a rig in air has no current; medium: water is expected with it',
  ],
  ["no rise", a(", rise: 9 m", ""), 'rig.yaml: setting.rise: nothing given; a length is expected, such as "9 m"'],
  [
    "a rise past any rode",
    a("rise: 9 m", "rise: -11 km"),
    'rig.yaml: setting.rise: "-11 km"; a rise from -10 km to 100 km is expected',
  ],
  [
    "a rise that is a mass",
    a("rise: 9 m", "rise: 9 kg"),
    'rig.yaml: setting.rise: "9 kg" is a mass; a length is expected, such as "9 m"',
  ],
  [
    "a decimal comma",
    a("rise: 9 m", 'rise: "9,5 m"'),
    'rig.yaml: setting.rise: "9,5 m"; a decimal point is expected: 9.5 m; a length is expected, such as "12 m"',
  ],
  [
    "a rise in cubits",
    a("rise: 9 m", "rise: 9 cubits"),
    'rig.yaml: setting.rise: "9 cubits" has a unit that is not known here, "cubits"; a length is expected, such as "9 m"',
  ],
  ["no depth", w("depth: 8 m, ", ""), 'rig.yaml: setting.depth: nothing given; a length is expected, such as "8 m"'],
  [
    "a roller under water",
    w("rollerHeight: 1 m", "rollerHeight: -1 m"),
    'rig.yaml: setting.rollerHeight: "-1 m"; a height of zero or more, at most 10 km, is expected',
  ],
  [
    "water as dense as steel",
    w("rollerHeight: 1 m", "rollerHeight: 1 m, waterDensity: 7850 kg/m3"),
    'rig.yaml: setting.waterDensity: "7850 kg/m3"; a density from 900 to 1400 kg/m³ is expected, such as "1025 kg/m3"',
  ],
  [
    "a cliff for a bottom",
    w("rollerHeight: 1 m", "rollerHeight: 1 m, bottomSlope: 60 deg"),
    'rig.yaml: setting.bottomSlope: "60 deg"; a slope from -45 to 45 deg is expected',
  ],
  [
    "a friction below nothing",
    w("rollerHeight: 1 m", "rollerHeight: 1 m, bottomFriction: -0.1"),
    "rig.yaml: setting.bottomFriction: -0.1; a friction from 0 to 3 is expected",
  ],
  [
    "a current that is a length",
    w("rollerHeight: 1 m", "rollerHeight: 1 m, current: 1 m"),
    'rig.yaml: setting.current: "1 m" is a length; a speed is expected, such as "1 m/s"',
  ],
  [
    "a current of 40 knots",
    w("rollerHeight: 1 m", "rollerHeight: 1 m, current: 40 kn"),
    'rig.yaml: setting.current: "40 kn"; a current from -10 to 10 m/s is expected',
  ],
  [
    "a mistyped field",
    w("rollerHeight: 1 m", "rollerHeigth: 1 m"),
    "rig.yaml: setting.rollerHeigth: no such field; is rollerHeight meant?",
  ],
  [
    "a field nobody knows",
    a("name: Rig", "name: Rig\ncolour: red"),
    "rig.yaml: colour: no such field; one of format, name, setting, rode, uncertainty is expected",
  ],
  [
    "no rode",
    AIR.slice(0, AIR.indexOf("rode:")),
    "rig.yaml: rode: nothing given; a list of parts from the anchor to the bow is expected",
  ],
  [
    "a rode of no parts",
    a(AIR.slice(AIR.indexOf("rode:")), "rode: []\n"),
    "rig.yaml: rode: an empty list; at least one part is expected, such as chain: { grade: 30, size: 10 mm, length: 30 m }",
  ],
  [
    "a rode that is no list",
    a(AIR.slice(AIR.indexOf("rode:")), "rode: chain\n"),
    'rig.yaml: rode: "chain"; a list of parts from the anchor to the bow is expected',
  ],
  [
    "a part of no kind",
    a(AIR.slice(AIR.indexOf("- line")), "- {}\n"),
    "rig.yaml: rode #1: no kind of part; one of chain, rope, wire, line, weight, shackle, swivel is expected",
  ],
  [
    "a part of two kinds",
    w(
      "- weight: { name: kellet, mass: 15 kg, density: 7850 kg/m3 }",
      "- { weight: { mass: 15 kg, density: 7850 kg/m3 }, swivel: { size: 3/8 in } }",
    ),
    "rig.yaml: rode #2: weight and swivel; one of chain, rope, wire, line, weight, shackle, swivel is expected",
  ],
  [
    "a part of an unknown kind",
    w("- weight:", "- anvil:"),
    "rig.yaml: rode #2.anvil: no such field; one of chain, rope, wire, line, weight, shackle, swivel is expected",
  ],
  [
    "a length that is a speed",
    a("length: 30 m", "length: 12 kn"),
    'rig.yaml: rode #1.line.length: "12 kn" is a speed; a length is expected, such as "12 m"',
  ],
  [
    "a length of nothing",
    a("length: 30 m", "length: 0 m"),
    'rig.yaml: rode #1.line.length: "0 m"; a length above zero, at most 100 km, is expected',
  ],
  [
    "a length of 200 km",
    a("length: 30 m", "length: 200 km"),
    'rig.yaml: rode #1.line.length: "200 km"; a length above zero, at most 100 km, is expected',
  ],
  [
    "a length that is a word",
    a("length: 30 m", "length: long"),
    'rig.yaml: rode #1.line.length: "long"; it does not begin with a number; a length is expected, such as "12 m"',
  ],
  [
    "a length that is a list",
    a("length: 30 m", "length: [30]"),
    'rig.yaml: rode #1.line.length: a list; a length is expected, such as "20 m"',
  ],
  [
    "no length",
    a("length: 30 m, ", ""),
    'rig.yaml: rode #1.line.length: nothing given; a length is expected, such as "20 m"',
  ],
  [
    "a line of no mass",
    a("massPerLength: 2 kg/m", "massPerLength: 0 kg/m"),
    'rig.yaml: rode #1.line.massPerLength: "0 kg/m"; a mass per length above zero, at most 10000 kg/m, is expected',
  ],
  [
    "a line lighter than any",
    a("density: 7850 kg/m3", "density: 5 kg/m3"),
    'rig.yaml: rode #1.line.density: "5 kg/m3"; a density from 100 to 23000 kg/m³ is expected, such as "7850 kg/m3"',
  ],
  [
    "stiffness and stretch at once",
    a("density: 7850 kg/m3", "density: 7850 kg/m3, stiffness: 90 kN, stretch: [[0.1, 1 kN]]"),
    "rig.yaml: rode #1.line: stiffness and stretch; one of the two is expected, or neither for no stretch",
  ],
  [
    "a stiffness of nothing",
    a("density: 7850 kg/m3", "density: 7850 kg/m3, stiffness: 0 N"),
    'rig.yaml: rode #1.line.stiffness: "0 N"; a force above zero is expected, such as "90 kN"',
  ],
  [
    "a stretch that turns back",
    a("density: 7850 kg/m3", "density: 7850 kg/m3, stretch: [[0.1, 1 kN], [0.05, 2 kN]]"),
    "rig.yaml: rode #1.line.stretch #2 #1: 0.05; a strain above the one before is expected",
  ],
  [
    "a stretch whose load falls",
    a("density: 7850 kg/m3", "density: 7850 kg/m3, stretch: [[0.1, 2 kN], [0.2, 1 kN]]"),
    'rig.yaml: rode #1.line.stretch #2 #2: "1 kN"; a load above the one before is expected',
  ],
  [
    "a stretch that is a number",
    a("density: 7850 kg/m3", "density: 7850 kg/m3, stretch: 5"),
    "rig.yaml: rode #1.line.stretch: 5; a list of strain and load is expected, such as [[0.06, 1500 N], [0.12, 5 kN]]",
  ],
  [
    "a point of stretch alone",
    a("density: 7850 kg/m3", "density: 7850 kg/m3, stretch: [[0.1]]"),
    "rig.yaml: rode #1.line.stretch #1: a list; a pair of strain and load is expected, such as [0.06, 1500 N]",
  ],
  [
    "a working load above the breaking load",
    a("workingLoad: 8 kN", "workingLoad: 8 kN, breakingLoad: 5 kN"),
    'rig.yaml: rode #1.line.workingLoad: "8 kN"; a working load not above the breaking load is expected',
  ],
  [
    "a working load that is a mass",
    a("workingLoad: 8 kN", "workingLoad: 800 kg"),
    'rig.yaml: rode #1.line.workingLoad: "800 kg" is a mass; the force of 1 kg at rest is 1 kgf; a force is expected, such as "800 N"',
  ],
  [
    "a drag of one coefficient",
    a("workingLoad: 8 kN", "workingLoad: 8 kN, drag: { across: 1.2 }"),
    'rig.yaml: rode #1.line.drag.along: nothing given; a drag coefficient is expected, such as "0.1"',
  ],
  [
    "a material nobody knows",
    a("workingLoad: 8 kN", "material: straw"),
    'rig.yaml: rode #1.line.material: "straw"; one of chain, rope, wire, line is expected',
  ],
  [
    "a grade not in the catalogue",
    w('grade: "30"', 'grade: "99"'),
    'rig.yaml: rode #1.chain.grade: "99"; one of 30, 40, 43, 70 is expected',
  ],
  [
    "a size not in the catalogue",
    w("size: 10 mm", "size: 33 mm"),
    'rig.yaml: rode #1.chain.size: "33 mm" of grade 30; a size in the catalogue or in a file of your own rows is expected; nearest: chain 14 mm grade 30 DIN 766, chain 13 mm grade 30 DIN 766',
  ],
  [
    "a fibre not in the catalogue",
    w("polyamide", "hemp"),
    'rig.yaml: rode #4.rope.fibre: "hemp"; one of polyamide, polyester is expected',
  ],
  [
    "a lay not in the catalogue",
    w("three-strand", "plaited"),
    'rig.yaml: rode #4.rope.lay: "plaited"; one of three-strand, double-braid is expected',
  ],
  [
    "a weight of no mass",
    w("mass: 15 kg", "mass: 0 kg"),
    'rig.yaml: rode #2.weight.mass: "0 kg"; a mass above zero, at most 10000 t, is expected',
  ],
  [
    "a weight of no density",
    w(", density: 7850 kg/m3 }", " }"),
    'rig.yaml: rode #2.weight.density: nothing given; a density is expected, such as "7850 kg/m3"',
  ],
  [
    "a swivel of no size",
    w("- weight: { name: kellet, mass: 15 kg, density: 7850 kg/m3 }", "- swivel: {}"),
    'rig.yaml: rode #2.swivel.size: nothing given; a length is expected, such as "10 mm"',
  ],
  [
    "an uncertainty of 90 %",
    `${AIR}uncertainty: { massPerLength: 90 % }\n`,
    'rig.yaml: uncertainty.massPerLength: "90 %"; a standard uncertainty from 0 to 50 % is expected',
  ],
  [
    "an uncertainty of the wrong kind",
    `${AIR}uncertainty: { rise: 3 kg }\n`,
    'rig.yaml: uncertainty.rise: "3 kg" is a mass; a length is expected, such as "3 m"',
  ],
  [
    "an uncertainty of what has none",
    `${AIR}uncertainty: { depth: 1 m }\n`,
    'rig.yaml: uncertainty.depth: "1 m"; a rig in air has none; one in water is expected with it',
  ],
  [
    "a name of nothing",
    a("name: Rig", 'name: ""'),
    'rig.yaml: name: ""; a name is expected, in at most 200 characters',
  ],
];

const S = ["settle", "air.yaml"];
const F = ["find", "boat.yaml"];
const P = ["--pull", "2kN", "--at", "bow"];

const wrongOptions: WrongOptions = [
  [
    "no rig at all",
    ["settle"],
    "rodebench: missing required argument 'rig'; `rodebench settle [options] <rig>` is expected",
  ],
  ["a rig that is not there", ["settle", "none.yaml", ...P], "none.yaml: no such file; a readable file is expected"],
  [
    "two rigs to settle",
    ["settle", "air.yaml", "boat.yaml", ...P],
    "rodebench: too many arguments for 'settle', 2 given; `rodebench settle [options] <rig>` is expected",
  ],
  [
    "no load",
    S,
    "--pull: nothing given; a load such as --pull 2kN with --at anchor, bow or horizontal, or --span, is expected",
  ],
  ["a load without an end", [...S, "--pull", "2kN"], "--at: nothing given; one of anchor, bow, horizontal is expected"],
  [
    "an end without a load",
    [...S, "--at", "bow"],
    "--pull: nothing given; a load such as --pull 2kN with --at anchor, bow or horizontal, or --span, is expected",
  ],
  [
    "an end nobody knows",
    [...S, "--pull", "2kN", "--at", "stern"],
    '--at: "stern"; one of anchor, bow, horizontal is expected',
  ],
  ["a load of nothing", [...S, "--pull", "0N", "--at", "bow"], '--pull: "0N"; a load above zero is expected'],
  ["a load below nothing", [...S, "--pull=-2kN", "--at", "bow"], '--pull: "-2kN"; a load above zero is expected'],
  [
    "a load of less than rounding",
    [...S, "--pull", "5e-324N", "--at", "bow"],
    '--pull: "5e-324N"; a load from 1e-6 N to 1e12 N is expected',
  ],
  [
    "a load no steel bears",
    [...S, "--pull", "1e15 kN", "--at", "bow"],
    '--pull: "1e15 kN"; a load from 1e-6 N to 1e12 N is expected',
  ],
  [
    "a span round the world",
    [...S, "--span", "40000 km"],
    '--span: "40000 km"; a distance from 1e-6 m to 1000 km is expected',
  ],
  [
    "a ladder past all steel",
    ["ladder", "air.yaml", "--pull", "1..9e20/1e20N", "--at", "bow"],
    '--pull: "1..9e20/1e20N"; a load from 1e-6 N to 1e12 N is expected',
  ],
  [
    "a load that is a mass",
    [...S, "--pull", "200kg", "--at", "bow"],
    '--pull: "200kg" is a mass; the force of 1 kg at rest is 1 kgf; a force is expected, such as "200 N"',
  ],
  [
    "a load that is a word",
    [...S, "--pull", "hard", "--at", "bow"],
    '--pull: "hard"; it does not begin with a number; a force is expected, such as "12 N"',
  ],
  [
    "a load without its value",
    [...S, "--at", "bow", "--pull"],
    "rodebench: option '--pull <load>' argument missing; a value is expected after it",
  ],
  [
    "a load past all numbers",
    [...S, "--pull", "1e999N", "--at", "bow"],
    '--pull: "1e999N"; the number is too large; a force is expected, such as "12 N"',
  ],
  [
    "a decimal comma in a load",
    [...S, "--pull", "2,5 kN", "--at", "bow"],
    '--pull: "2,5 kN"; a decimal point is expected: 2.5 kN; a force is expected, such as "12 N"',
  ],
  [
    "a load and a span",
    [...S, ...P, "--span", "20m"],
    '--span: "20m"; either --span or --pull with --at is expected, not both',
  ],
  [
    "an end and a span",
    [...S, "--at", "bow", "--span", "20m"],
    '--span: "20m"; either --span or --pull with --at is expected, not both',
  ],
  ["a span of nothing", [...S, "--span", "0m"], '--span: "0m"; a distance above zero is expected'],
  [
    "a span that is a speed",
    [...S, "--span", "20kn"],
    '--span: "20kn" is a speed; a length is expected, such as "20 m"',
  ],
  [
    "units nobody knows",
    [...S, ...P, "--units", "imperial"],
    "rodebench: option '--units <system>' argument 'imperial'; one of metric, us is expected",
  ],
  [
    "an option nobody knows",
    [...S, ...P, "--wind", "20kn"],
    "rodebench: unknown option '--wind'; one of those `rodebench settle --help` lists is expected",
  ],
  [
    "a command nobody knows",
    ["sttle", "air.yaml"],
    "rodebench: unknown command 'sttle'; is settle meant? one of those `rodebench --help` lists is expected",
  ],
  [
    "no loads to climb",
    ["ladder", "air.yaml", "--at", "bow"],
    '--pull: nothing given; loads as FROM..TO/STEP with a unit are expected, such as "100..1000/100lbf"',
  ],
  [
    "loads without an end",
    ["ladder", "air.yaml", "--pull", "1..5/1kN"],
    "--at: nothing given; one of anchor, bow, horizontal is expected",
  ],
  [
    "one load to climb",
    ["ladder", "air.yaml", "--pull", "2kN", "--at", "bow"],
    '--pull: "2kN"; loads as FROM..TO/STEP with a unit are expected, such as "100..1000/100lbf"',
  ],
  [
    "a ladder of no step",
    ["ladder", "air.yaml", "--pull", "1..5kN", "--at", "bow"],
    '--pull: "1..5kN"; loads as FROM..TO/STEP with a unit are expected, such as "100..1000/100lbf"',
  ],
  [
    "a step of nothing",
    ["ladder", "air.yaml", "--pull", "1..5/0kN", "--at", "bow"],
    '--pull: "1..5/0kN"; loads that rise from above zero by a step above zero are expected',
  ],
  [
    "a ladder downward",
    ["ladder", "air.yaml", "--pull", "5..1/1kN", "--at", "bow"],
    '--pull: "5..1/1kN"; loads that rise from above zero by a step above zero are expected',
  ],
  [
    "a ladder from nothing",
    ["ladder", "air.yaml", "--pull", "0..5/1kN", "--at", "bow"],
    '--pull: "0..5/1kN"; loads that rise from above zero by a step above zero are expected',
  ],
  [
    "a ladder of a million rungs",
    ["ladder", "air.yaml", "--pull", "1kN..2kN/0.001N", "--at", "bow"],
    '--pull: "1kN..2kN/0.001N"; at most 100000 loads are expected',
  ],
  [
    "a ladder of lengths",
    ["ladder", "air.yaml", "--pull", "1..5/1m", "--at", "bow"],
    '--pull "1..5/1m": "1 m" is a length; a force is expected, such as "1 N"',
  ],
  [
    "a ladder at no end",
    ["ladder", "air.yaml", "--pull", "1..5/1kN", "--at", "stern"],
    '--at: "stern"; one of anchor, bow, horizontal is expected',
  ],
  [
    "a span to climb",
    ["ladder", "air.yaml", "--span", "20m"],
    "rodebench: unknown option '--span'; one of those `rodebench ladder --help` lists is expected",
  ],
  [
    "no unknown",
    [...F, "--liftoff", ...P],
    "--unknown: nothing given; one of length:N, scope, depth, rise, pull, mass:N, place:N is expected, such as length:1",
  ],
  [
    "an unknown nobody knows",
    [...F, "--unknown", "weight", "--liftoff", ...P],
    '--unknown: "weight"; one of length:N, scope, depth, rise, pull, mass:N, place:N is expected, such as length:1',
  ],
  [
    "a length of no part",
    [...F, "--unknown", "length", "--liftoff", ...P],
    '--unknown: "length"; one of length:N, scope, depth, rise, pull, mass:N, place:N is expected, such as length:1',
  ],
  [
    "part 0",
    [...F, "--unknown", "length:0", "--liftoff", ...P],
    '--unknown: "length:0"; one of length:N, scope, depth, rise, pull, mass:N, place:N is expected, such as length:1',
  ],
  [
    "part 9 of 4",
    [...F, "--unknown", "length:9", "--liftoff", ...P],
    '--unknown: "length:9"; a part from 1 to 4 is expected',
  ],
  [
    "the length of a point",
    [...F, "--unknown", "length:2", "--liftoff", ...P],
    '--unknown: "length:2"; a line is expected; part 2 is a point',
  ],
  [
    "the mass of a line",
    [...F, "--unknown", "mass:1", "--liftoff", ...P],
    '--unknown: "mass:1"; a point is expected; part 1 is a line',
  ],
  [
    "the place of a line",
    [...F, "--unknown", "place:1", "--liftoff", ...P],
    '--unknown: "place:1"; a point is expected; part 1 is a line',
  ],
  [
    "the depth of a rig in air",
    ["find", "air.yaml", "--unknown", "depth", "--liftoff", ...P],
    '--unknown: "depth"; rise is expected: a rig in air has no depth',
  ],
  [
    "no goal",
    [...F, "--unknown", "depth", ...P],
    "find: no goal; one of --anchor-angle, --angle-to-bottom, --liftoff, --working-load is expected",
  ],
  [
    "two goals",
    [...F, "--unknown", "depth", "--liftoff", "--anchor-angle", "5deg", ...P],
    "find: --anchor-angle and --liftoff; one of --anchor-angle, --angle-to-bottom, --liftoff, --working-load is expected",
  ],
  [
    "an angle past upright",
    [...F, "--unknown", "depth", "--anchor-angle", "95deg", ...P],
    '--anchor-angle: "95deg"; an angle between -90 and 90 deg is expected',
  ],
  [
    "an angle that is a load",
    [...F, "--unknown", "depth", "--anchor-angle", "5N", ...P],
    '--anchor-angle: "5N" is a force; an angle is expected, such as "5 deg"',
  ],
  [
    "a share of nothing",
    [...F, "--unknown", "depth", "--working-load", "0%", ...P],
    '--working-load: "0%"; a share above zero is expected, such as 80%',
  ],
  [
    "a share that is a load",
    [...F, "--unknown", "depth", "--working-load", "5kN", ...P],
    '--working-load: "5kN" is a force; a ratio is expected, such as "12 %" or 0.12',
  ],
  [
    "a share of a limit nobody states",
    ["find", "bare.yaml", "--unknown", "pull", "--working-load", "50%"],
    '--working-load: "50%"; a rig with a working load limit is expected; no part of Rig states one',
  ],
  [
    "no load to find with",
    [...F, "--unknown", "depth", "--liftoff"],
    "--pull: nothing given; a load such as --pull 2kN with --at anchor, bow or horizontal, or --span, is expected",
  ],
  [
    "a load that is given and unknown",
    [...F, "--unknown", "pull", "--liftoff", ...P],
    '--pull: "2kN"; no load is expected: it is the unknown',
  ],
  [
    "a span where the load is unknown",
    [...F, "--unknown", "pull", "--liftoff", "--span", "20m"],
    '--pull: "20m"; no load is expected: it is the unknown',
  ],
  [
    "an unknown load at no end",
    [...F, "--unknown", "pull", "--liftoff", "--at", "keel"],
    '--at: "keel"; one of anchor, bow, horizontal is expected',
  ],
  [
    "one rig to match",
    ["match", "air.yaml", "--pull", "2kN"],
    "rodebench: missing required argument 'other'; `rodebench match [options] <rig> <other>` is expected",
  ],
  [
    "no load to match under",
    ["match", "air.yaml", "boat.yaml"],
    "--pull: nothing given; a load such as --pull 2kN with --at anchor, bow or horizontal, or --span, is expected",
  ],
  [
    "another rig that is not there",
    ["match", "air.yaml", "none.yaml", "--pull", "2kN"],
    "none.yaml: no such file; a readable file is expected",
  ],
  [
    "standard input twice",
    ["match", "-", "-", "--pull", "2kN"],
    "<other>: -; a file is expected: standard input holds one rig",
  ],
  [
    "a depth to match",
    ["match", "air.yaml", "boat.yaml", "--pull", "2kN", "--unknown", "depth"],
    '--unknown: "depth"; a length of OTHER is expected, such as length:1',
  ],
  [
    "the length of a point to match",
    ["match", "air.yaml", "boat.yaml", "--pull", "2kN", "--unknown", "length:2"],
    '--unknown: "length:2"; a line is expected; part 2 is a point',
  ],
  [
    "a match at no end",
    ["match", "air.yaml", "boat.yaml", "--pull", "2kN", "--at", "mast"],
    '--at: "mast"; one of anchor, bow, horizontal is expected',
  ],
  [
    "a match under a span",
    ["match", "air.yaml", "boat.yaml", "--span", "20m"],
    "rodebench: unknown option '--span'; one of those `rodebench match --help` lists is expected",
  ],
];

const noAnswer: WrongOptions = [
  [
    "a rode shorter than the rise",
    ["settle", "short.yaml", ...P],
    "Short: no equilibrium: the rode, 8 m long, is not longer than the rise of 9 m; a rode of more than 9 m would reach",
  ],
  [
    "a pull lighter than what hangs",
    ["settle", "air.yaml", "--pull", "100N", "--at", "bow"],
    "Rig: no equilibrium: a pull of 100 N at the bow is less than the 176.5 N of rode that hangs from it; a pull of more than 176.5 N would hold it",
  ],
  [
    "a pull lighter than what hangs, in pounds",
    ["settle", "air.yaml", "--pull", "20lbf", "--at", "bow", "--units", "us"],
    "Rig: no equilibrium: a pull of 20 lbf at the bow is less than the 39.68 lbf of rode that hangs from it; a pull of more than 39.68 lbf would hold it",
  ],
  [
    "a span beyond the rode",
    ["settle", "air.yaml", "--span", "40m"],
    "Rig: no equilibrium: the rode does not reach a span of 40 m; a span of less than 28.62 m would do, or a longer rode",
  ],
  [
    "a ladder whose first rung hangs",
    ["ladder", "air.yaml", "--pull", "100..500/100N", "--at", "bow"],
    "Rig: no equilibrium: a pull of 100 N at the bow is less than the 176.5 N of rode that hangs from it; a pull of more than 176.5 N would hold it",
  ],
  [
    "an angle that no load gives",
    ["find", "air.yaml", "--unknown", "pull", "--anchor-angle", "60deg"],
    "Rig: no equilibrium: no value gives an angle of 60° at the anchor; the nearest angle that can be had is 17.46°",
  ],
  [
    "an angle below the slope",
    [...F, "--unknown", "length:1", "--anchor-angle=-5deg", ...P],
    "Boat: no equilibrium: no value gives an angle of -5° at the anchor; the nearest angle that can be had is 0°",
  ],
  [
    "a limit that no load reaches",
    ["find", "boat.yaml", "--unknown", "depth", "--working-load", "1000%", ...P],
    "Boat: no equilibrium: no value within reach answers the question; another pull or another unknown may have an answer",
  ],
  [
    "a match of what has no equilibrium",
    ["match", "short.yaml", "boat.yaml", "--pull", "2kN"],
    "Short: no equilibrium: the rode, 8 m long, is not longer than the rise of 9 m; a rode of more than 9 m would reach",
  ],
  [
    "a match that no length gives",
    ["match", "steep.yaml", "deep.yaml", "--pull", "2kN"],
    "Deep: no equilibrium: no value within reach answers the question; another pull or another unknown may have an answer",
  ],
];

/** Rigs the options are tried on. */
const RIGS: Record<string, string> = {
  "air.yaml": AIR,
  "boat.yaml": AFLOAT,
  "bare.yaml": a(", workingLoad: 8 kN", ""),
  "short.yaml": a("Rig", "Short").replace("30 m", "8 m"),
  "beach.yaml": w("rollerHeight: 1 m", "rollerHeight: 1 m, bottomSlope: 20 deg"),
  "steep.yaml": a("Rig", "Steep").replace("30 m", "9.1 m"),
  "deep.yaml": a("Rig", "Deep").replace("9 m", "900 m"),
};

describe("a wrong rig file is told in one line: file, field, what stands there, what was expected", () => {
  it(`holds ${wrongFiles.length} of them, and as many options`, () => {
    expect(wrongFiles.length).toBeGreaterThanOrEqual(60);
    expect(wrongOptions.length).toBeGreaterThanOrEqual(60);
  });

  it.each([AIR, AFLOAT])("and a right one is not", async (text) => {
    const { err, status } = await rodebench(["settle", "rig.yaml", ...P], { "rig.yaml": text });
    expect([status, err]).toEqual([0, ""]);
  });

  const ways: readonly (readonly string[])[] = [
    ["settle", "rig.yaml", ...P],
    ["settle", "rig.yaml", ...P, "--json"],
    ["ladder", "rig.yaml", "--pull", "1..3/1kN", "--at", "anchor"],
    ["find", "rig.yaml", "--unknown", "rise", "--liftoff", ...P, "--json"],
    ["match", "boat.yaml", "rig.yaml", "--pull", "2kN", "--units", "us"],
  ];

  it.each(wrongFiles)("%s, by every command", async (_what, text, line) => {
    for (const argv of ways) {
      const said = await rodebench(argv, { ...RIGS, "rig.yaml": text });
      expect(said, argv.join(" ")).toEqual({ out: "", err: `${line}\n`, both: `${line}\n`, status: 2 });
    }
  });

  it("on standard input is called so", async () => {
    const { out, err, status } = await rodebench(["settle", "-", ...P], { "-": a("30 m", "12 kn") });
    expect([out, status]).toEqual(["", 2]);
    expect(err).toBe('standard input: rode #1.line.length: "12 kn" is a speed; a length is expected, such as "12 m"\n');
  });
});

describe("wrong options are told in one line, and nothing else is said", () => {
  it.each(wrongOptions)("%s", async (_what, argv, line) => {
    const said = await rodebench(argv, RIGS);
    expect(said).toEqual({ out: "", err: `${line}\n`, both: `${line}\n`, status: 2 });
  });
});

describe("where no equilibrium exists one line says why, and the nearest change that would give one", () => {
  it.each(noAnswer)("%s", async (_what, argv, line) => {
    for (const json of [[], ["--json"]]) {
      const said = await rodebench([...argv, ...json], RIGS);
      expect(said).toEqual({ out: "", err: `${line}\n`, both: `${line}\n`, status: 3 });
    }
  });

  it("a beach within reach", async () => {
    for (const load of [P, ["--span", "40m"]]) {
      const { out, err, status } = await rodebench(["settle", "beach.yaml", ...load], RIGS);
      expect([out, status]).toEqual(["", 3]);
      // A bottom that rises at 20° meets the surface, 8 m up, at 8 m / tan 20° = 21.98 m.
      expect(err).toMatch(
        /^Boat: no equilibrium: the bottom rises to the boat within the rode's reach, 21\.98 m from the anchor; a shorter rode.* would leave the boat afloat\n$/,
      );
    }
  });
});
