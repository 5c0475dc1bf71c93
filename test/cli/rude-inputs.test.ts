/** The table of wrong inputs goes on: what nobody polite would send, over all commands, each with the one line it is told in. */
import { BOAT, changed, PLAN, RIG, RUN, SEA } from "../support/stranger-files.ts";
import { eachToldInOneLine, type WrongInput } from "../support/told-in-one-line.ts";

const LOG = "data/examples/pulls/three-steps.csv";
const PULLS = "data/examples/holding/three-anchors.csv";
const SWEEP = "data/examples/sweeps/chain-or-nylon.yaml";
/** A rig told wrong, settled. */
const S = ["settle", "a.yaml", "--span", "5 m"];
/** The rig with another part. */
const LINE = (part: string) => changed(RIG, 'chain: { grade: "30", size: 10 mm, length: 30 m }', part);

const wrong: readonly WrongInput[] = [
  [
    "a load that is not a number",
    ["settle", "rig.yaml", "--pull", "NaN", "--at", "bow"],
    '--pull: "NaN"; it does not begin with a number; a force is expected, such as "12 N"',
  ],
  [
    "a load without end",
    ["settle", "rig.yaml", "--pull", "Infinity N", "--at", "bow"],
    '--pull: "Infinity N"; it does not begin with a number; a force is expected, such as "12 N"',
  ],
  [
    "a load past what a number holds",
    ["settle", "rig.yaml", "--pull", "1e999 N", "--at", "bow"],
    '--pull: "1e999 N"; the number is too large; a force is expected, such as "12 N"',
  ],
  [
    "a load in hexadecimal",
    ["settle", "rig.yaml", "--pull", "0x10 N", "--at", "bow"],
    '--pull: "0x10 N" has a unit that is not known here, "x"; a force is expected, such as "12 N"',
  ],
  [
    "a load with a decimal comma",
    ["settle", "rig.yaml", "--pull", "1,5 kN", "--at", "bow"],
    '--pull: "1,5 kN"; a decimal point is expected: 1.5 kN; a force is expected, such as "12 N"',
  ],
  [
    "a load in tonnes",
    ["settle", "rig.yaml", "--pull", "2 t", "--at", "bow"],
    '--pull: "2 t" is a mass; the force of 1 t at rest is 1 tf; a force is expected, such as "2 N"',
  ],
  [
    "a load in per cent",
    ["settle", "rig.yaml", "--pull", "20 %", "--at", "bow"],
    '--pull: "20 %" is a ratio; a force is expected, such as "20 N"',
  ],
  [
    "a load of blanks",
    ["settle", "rig.yaml", "--pull", "   ", "--at", "bow"],
    '--pull: "   "; a force is expected, such as "12 N"',
  ],
  [
    "a load with a line break in it",
    ["settle", "rig.yaml", "--pull", "2\nkN x", "--at", "bow"],
    '--pull: "2\\nkN x" has a unit that is not known here, "x"; a force is expected, such as "2 N"',
  ],
  [
    "two ends",
    ["settle", "rig.yaml", "--pull", "2kN", "--at", "anchor,bow"],
    '--at: "anchor,bow"; one of anchor, bow, horizontal is expected',
  ],
  [
    "an end in capitals",
    ["settle", "rig.yaml", "--pull", "2kN", "--at", "BOW"],
    '--at: "BOW"; one of anchor, bow, horizontal is expected',
  ],
  [
    "an end with a span",
    ["settle", "rig.yaml", "--at", "bow", "--span", "5 m"],
    '--span: "5 m"; either --span or --pull with --at is expected, not both',
  ],
  [
    "an uncertainty that is none",
    ["settle", "rig.yaml", "--pull", "2kN", "--at", "bow", "--pull-u", "some"],
    '--pull-u: "some"; it does not begin with a number; a force is expected, such as "12 N"',
  ],
  [
    "a rig that is a list",
    S,
    "a.yaml: a list; a rig file is expected, which begins with format: rodebench/rig@1",
    { "a.yaml": "- 1\n- 2\n" },
  ],
  [
    "a rig that is a number",
    S,
    "a.yaml: 42; a rig file is expected, which begins with format: rodebench/rig@1",
    { "a.yaml": "42" },
  ],
  [
    "a rig that is null",
    S,
    "a.yaml: an empty file; a rig file is expected, which begins with format: rodebench/rig@1",
    { "a.yaml": "~" },
  ],
  [
    "a rig without a format",
    S,
    "a.yaml: format: nothing given; rodebench/rig@1 is expected",
    { "a.yaml": changed(RIG, "format: rodebench/rig@1\n", "") },
  ],
  [
    "a format that is a number",
    S,
    "a.yaml: format: 1; rodebench/rig@1 is expected",
    { "a.yaml": changed(RIG, "rodebench/rig@1", "1") },
  ],
  [
    "a rig without a setting",
    S,
    "a.yaml: setting: nothing given; a setting with medium: air or medium: water is expected",
    { "a.yaml": changed(RIG, "setting: { medium: air, rise: 9 m }\n", "") },
  ],
  [
    "a medium there is none of",
    S,
    'a.yaml: setting.medium: "mud"; a setting with medium: air or medium: water is expected',
    { "a.yaml": changed(RIG, "air", "mud") },
  ],
  [
    "a rise in words",
    S,
    'a.yaml: setting.rise: "high"; it does not begin with a number; a length is expected, such as "12 m"',
    { "a.yaml": changed(RIG, "9 m", "high") },
  ],
  [
    "no rise",
    S,
    'a.yaml: setting.rise: nothing given; a length is expected, such as "9 m"',
    { "a.yaml": changed(RIG, ", rise: 9 m", "") },
  ],
  [
    "a depth below zero",
    S,
    'a.yaml: setting.depth: "-8 m"; a length above zero, at most 100 km, is expected',
    { "a.yaml": changed(SEA, "8 m", "-8 m") },
  ],
  [
    "a roller under water",
    S,
    'a.yaml: setting.rollerHeight: "-1 m"; a height of zero or more, at most 10 km, is expected',
    { "a.yaml": changed(SEA, "1 m }", "-1 m }") },
  ],
  [
    "water as light as air",
    S,
    'a.yaml: setting.waterDensity: "1.2 kg/m3"; a density from 900 to 1400 kg/m³ is expected, such as "1025 kg/m3"',
    { "a.yaml": changed(SEA, "1 m }", "1 m, waterDensity: 1.2 kg/m3 }") },
  ],
  [
    "a bottom that stands",
    S,
    'a.yaml: setting.bottomSlope: "90 deg"; a slope from -45 to 45 deg is expected',
    { "a.yaml": changed(SEA, "1 m }", "1 m, bottomSlope: 90 deg }") },
  ],
  [
    "a friction below zero",
    S,
    "a.yaml: setting.bottomFriction: -0.5; a friction from 0 to 3 is expected",
    { "a.yaml": changed(SEA, "1 m }", "1 m, bottomFriction: -0.5 }") },
  ],
  [
    "a current of a jet",
    S,
    'a.yaml: setting.current: "300 kn"; a current from -10 to 10 m/s is expected',
    { "a.yaml": changed(SEA, "1 m }", "1 m, current: 300 kn }") },
  ],
  [
    "a rode that is a text",
    S,
    'a.yaml: rode: "chain"; a list of parts from the anchor to the bow is expected',
    { "a.yaml": changed(RIG, '\n  - chain: { grade: "30", size: 10 mm, length: 30 m }', " chain") },
  ],
  [
    "a part that is null",
    S,
    "a.yaml: rode #1: nothing given; a part is expected, such as chain: { grade: 30, size: 10 mm, length: 30 m }",
    { "a.yaml": LINE("") },
  ],
  [
    "a weight of nothing",
    S,
    'a.yaml: rode #1.weight.mass: "0 kg"; a mass above zero, at most 10000 t, is expected',
    { "a.yaml": LINE("weight: { mass: 0 kg, density: 7850 kg/m3 }") },
  ],
  [
    "an uncertainty of what there is not",
    S,
    "a.yaml: uncertainty.colour: no such field; one of massPerLength, rise, depth, length, stretch, friction, bottomSlope, waterDensity, current is expected",
    { "a.yaml": changed(RIG, "massPerLength: 2 %", "colour: 2 %") },
  ],
  [
    "a field twice",
    S,
    "a.yaml: line 7: rode stands twice in one group; each name once is expected",
    { "a.yaml": `${RIG}rode: []\n` },
  ],
  [
    "an alias",
    S,
    "a.yaml: the anchor mark &a; every value is expected to be written out",
    { "a.yaml": changed(RIG, "name: Rig", "name: &a Rig") },
  ],
  [
    "a second document",
    S,
    "a.yaml: line 7: a second document; one document is expected",
    { "a.yaml": `${RIG}---\n${RIG}` },
  ],
  [
    "a tag",
    S,
    "a.yaml: line 2: the tag !!js/function; a value without a tag is expected",
    { "a.yaml": changed(RIG, "name: Rig", "name: !!js/function Rig") },
  ],
  [
    "tabs for indents",
    S,
    "a.yaml: line 5: a tab that indents; blanks are expected",
    { "a.yaml": changed(RIG, "\n  - chain", "\n\t- chain") },
  ],
  [
    "JSON cut off",
    S,
    "a.yaml: line 1: a { that is not closed; a } at its end is expected",
    { "a.yaml": '{ "format": "rodebench/rig@1", "setting": {' },
  ],
  [
    "a run whose readings are a group",
    ["reduce", "a.yaml"],
    "a.yaml: readings: a group of fields; a list of readings is expected",
    {
      "a.yaml": changed(
        RUN,
        "readings:\n  - { load: 1500, angle: 5.1 }\n  - { load: 2000, angle: 7.6 }\n",
        "readings: { load: 1 }\n",
      ),
    },
  ],
  [
    "a load of nothing in a run",
    ["reduce", "a.yaml"],
    "a.yaml: readings #2.load: 0; a load above zero, below 1 GN, is expected",
    { "a.yaml": changed(RUN, "2000", "0") },
  ],
  [
    "a reading with a field too many",
    ["reduce", "a.yaml"],
    "a.yaml: readings #1.wind: no such field; one of load, angle, event is expected",
    { "a.yaml": changed(RUN, "angle: 5.1", "angle: 5.1, wind: 3") },
  ],
  [
    "a load that is infinite in a run",
    ["reduce", "a.yaml"],
    "a.yaml: readings #1.load: Infinity; a load is expected, as a number in the run's unit or with a unit",
    { "a.yaml": changed(RUN, "1500", ".inf") },
  ],
  [
    "a release of one row",
    ["reduce", "a.yaml"],
    "a.yaml: release: one row; a row after the first, or readings, are expected",
    {
      "a.yaml": changed(
        RUN,
        "readings:\n  - { load: 1500, angle: 5.1 }\n  - { load: 2000, angle: 7.6 }\n",
        "release: [{ load: 1000, movement: 0 }]\n",
      ),
    },
  ],
  [
    "a rig that is a number in a run",
    ["reduce", "a.yaml"],
    "a.yaml: rig: 3; the path of a rig file, or a rig, is expected",
    { "a.yaml": changed(RUN, "rig.yaml", "3") },
  ],
  [
    "a run that is its own rig",
    ["reduce", "a.yaml"],
    'a.yaml: format: "rodebench/run@1"; rodebench/rig@1 is expected',
    { "a.yaml": changed(RUN, "rig.yaml", "a.yaml") },
  ],
  [
    "no run",
    ["carry", "--to", "rig.yaml"],
    "rodebench: missing required argument 'run'; `rodebench carry [options] <run>` is expected",
  ],
  [
    "a rig to carry to that is not there",
    ["carry", "run.yaml", "--to", "gone.yaml"],
    "gone.yaml: no such file; a readable file is expected",
  ],
  [
    "a part that is no number",
    ["find", "rig.yaml", "--unknown", "length:one", "--liftoff", "--pull", "2kN", "--at", "bow"],
    '--unknown: "length:one"; one of length:N, scope, depth, rise, pull, mass:N, place:N is expected, such as length:1',
  ],
  [
    "half a part",
    ["find", "rig.yaml", "--unknown", "length:1.5", "--liftoff", "--pull", "2kN", "--at", "bow"],
    '--unknown: "length:1.5"; one of length:N, scope, depth, rise, pull, mass:N, place:N is expected, such as length:1',
  ],
  [
    "no load to find with",
    ["find", "rig.yaml", "--unknown", "length:1", "--liftoff"],
    "--pull: nothing given; a load such as --pull 2kN with --at anchor, bow or horizontal, or --span, is expected",
  ],
  [
    "a working load of gear that states none",
    ["find", "a.yaml", "--unknown", "pull", "--working-load", "80%"],
    '--working-load: "80%"; a rig with a working load limit is expected; no part of Rig states one',
    { "a.yaml": LINE("line: { length: 30 m, massPerLength: 2 kg/m, density: 7850 kg/m3 }") },
  ],
  [
    "a ladder without a step",
    ["ladder", "rig.yaml", "--pull", "100..1000N", "--at", "bow"],
    '--pull: "100..1000N"; loads as FROM..TO/STEP with a unit are expected, such as "100..1000/100lbf"',
  ],
  [
    "a ladder in metres",
    ["ladder", "rig.yaml", "--pull", "1..10/1m", "--at", "bow"],
    '--pull "1..10/1m": "1 m" is a length; a force is expected, such as "1 N"',
  ],
  [
    "a part of the other rig past its last",
    ["match", "rig.yaml", "sea.yaml", "--pull", "2kN", "--unknown", "length:9"],
    '--unknown: "length:9"; part 1 is expected: the rode has no other',
  ],
  [
    "a wind below zero",
    ["weather", "boat.yaml", "--wind", "-20 kn"],
    '--wind: "-20 kn"; a value above zero is expected',
  ],
  [
    "a load without a unit of force",
    ["weather", "boat.yaml", "--load", "2 bar"],
    '--load: "2 bar" is a pressure; a force is expected, such as "2 N"',
  ],
  [
    "a swing in words",
    ["weather", "boat.yaml", "--wind", "20 kn", "--swing", "wide"],
    '--swing: "wide"; a largest angle and a period are expected, such as "25 deg, 45 s"',
  ],
  [
    "a boat that weighs nothing",
    ["weather", "a.yaml", "--wind", "20 kn"],
    'a.yaml: displacement: "0 t"; a value above zero is expected',
    { "a.yaml": changed(BOAT, "7 t", "0 t") },
  ],
  [
    "a boat wider than a ship",
    ["weather", "a.yaml", "--wind", "20 kn"],
    "a.yaml: beam: 3600 m, more than 11 m; a beam within the boat's length is expected",
    { "a.yaml": changed(BOAT, "3.6 m", "3.6 km") },
  ],
  [
    "a drag in newtons",
    ["weather", "a.yaml", "--wind", "20 kn"],
    'a.yaml: windage.front.drag: "0.9 N" is a force; a ratio is expected, such as "12 %" or 0.12',
    { "a.yaml": changed(BOAT, "drag: 0.9", "drag: 0.9 N") },
  ],
  [
    "a boat for itself",
    ["ride", "sea.yaml", "--boat", "sea.yaml", "--wind", "20 kn"],
    'sea.yaml: format: "rodebench/rig@1"; rodebench/boat@1 is expected',
  ],
  [
    "a ride without a boat",
    ["ride", "sea.yaml", "--wind", "20 kn"],
    "rodebench: option '--boat <file>' missing; it is expected",
  ],
  [
    "a ride of no time",
    ["ride", "sea.yaml", "--boat", "boat.yaml", "--wind", "20 kn", "--hours", "0"],
    '--hours: "0"; a number of hours from 0.02 to 48 is expected',
  ],
  [
    "a ride of NaN hours",
    ["ride", "sea.yaml", "--boat", "boat.yaml", "--wind", "20 kn", "--hours", "NaN"],
    '--hours: "NaN"; a number of hours from 0.02 to 48 is expected',
  ],
  [
    "a seed past the last",
    ["ride", "sea.yaml", "--boat", "boat.yaml", "--wind", "20 kn", "--seed", "99999999999999999999"],
    '--seed: "99999999999999999999"; a whole number from 0 to 2147483648 is expected',
  ],
  [
    "a sea without a period",
    ["ride", "sea.yaml", "--boat", "boat.yaml", "--wind", "20 kn", "--sea", "1 m"],
    '--sea: "1 m"; a significant height and a peak period are expected, such as "0.6 m, 3 s"',
  ],
  [
    "a wind log that is a rig",
    ["ride", "sea.yaml", "--boat", "boat.yaml", "--wind-log", "rig.yaml"],
    "rig.yaml: no rows of numbers; a log of readings is expected",
  ],
  ["a rig for a sweep", ["sweep", "rig.yaml"], 'rig.yaml: format: "rodebench/rig@1"; rodebench/sweep@1 is expected'],
  [
    "a shard past the last",
    ["sweep", SWEEP, "--shard", "3/2"],
    '--shard: "3/2"; a part, from 1 to the number of parts, is expected, such as 3/16',
  ],
  [
    "shard 0",
    ["sweep", SWEEP, "--shard", "0/2"],
    '--shard: "0/2"; a part, from 1 to the number of parts, is expected, such as 3/16',
  ],
  ["no threads", ["sweep", SWEEP, "--threads", "0"], '--threads: "0"; a whole number from 1 to 256 is expected'],
  [
    "nothing to join",
    ["join"],
    "rodebench: missing required argument 'parts'; `rodebench join [options] <parts...>` is expected",
  ],
  [
    "parts joined into a table of text",
    ["join", "a.parquet", "--into", "all.csv"],
    "--into: all.csv; a file that ends in .parquet is expected",
  ],
  [
    "a part that is not there",
    ["join", "gone.parquet", "--into", "all.parquet"],
    "gone.parquet: no such file; the Parquet file of a part of a sweep is expected",
  ],
  [
    "the folder of a sweep for its part",
    ["join", "src", "--into", "all.parquet"],
    "src: a folder; the Parquet file of a part of a sweep is expected",
  ],
  [
    "a part that is none",
    ["join", "package.json", "--into", "all.parquet"],
    "package.json: not Parquet; the Parquet file of a part of a sweep is expected",
  ],
  [
    "a snubber of straw",
    ["shock", "sea.yaml", "--pull", "2kN", "--at", "bow", "--speed", "1 m/s", "--snubber", "straw 14 mm"],
    '--snubber: "straw 14 mm"; a diameter and a length are expected, such as "14 mm, 9 m"',
  ],
  [
    "a snubber that nothing pulls",
    ["shock", "sea.yaml", "--pull", "2kN", "--at", "bow", "--snubber", "14 mm, 8 m"],
    "--speed: nothing given; a surge is expected to try a snubber on: --speed, --distance, --waves or --peak",
  ],
  [
    "a rig to shock in words",
    ["shock", "sea.yaml", "--pull", "a lot", "--at", "bow"],
    '--pull: "a lot"; it does not begin with a number; a force is expected, such as "12 N"',
  ],
  [
    "a plan that is a list",
    ["choose", "a.yaml"],
    "a.yaml: an empty list; a plan, a group of fields, is expected",
    { "a.yaml": "[]" },
  ],
  [
    "a plan whose load is a text",
    ["choose", "a.yaml"],
    'a.yaml: load: "much"; a group of fields is expected',
    { "a.yaml": changed(PLAN, "{ mean: 3 kN, at: bow }", "much") },
  ],
  [
    "a criterion there is none of",
    ["choose", "a.yaml"],
    'a.yaml: criteria #1: "beauty"; one of weight, volume, anchorAngle, workingLoad, breakingLoad, strength, peak, span, price, energy, movement, grounded is expected',
    { "a.yaml": `${PLAN}criteria: [beauty]\n` },
  ],
  [
    "a gear file without rows",
    ["gear", "--with", "a.yaml"],
    "a.yaml: rows: nothing given; a list is expected",
    { "a.yaml": "format: rodebench/gear@1\n" },
  ],
  [
    "a size in words",
    ["gear", "--size", "thick"],
    '--size: "thick"; it does not begin with a number; a length is expected, such as "12 m"',
  ],
  [
    "a log of words",
    ["trace", "a.csv"],
    "a.csv: no rows of numbers; a log of readings is expected",
    { "a.csv": "it\npulled\nhard\n" },
  ],
  [
    "a log of one reading",
    ["trace", "a.csv"],
    "a.csv: load: 1 reading; at least two readings at different times are expected",
    { "a.csv": "time_s,load_N\n0,100\n" },
  ],
  [
    "a rig for a track",
    ["trace", LOG, "--track", "rig.yaml"],
    "rig.yaml: no rows of numbers; a log of readings is expected",
  ],
  [
    "a boat for the rig of a log",
    ["trace", LOG, "--rig", "boat.yaml"],
    'boat.yaml: format: "rodebench/boat@1"; rodebench/rig@1 is expected',
  ],
  [
    "a log and the book of another",
    ["trace", LOG, "--book", "gone.book"],
    "gone.book: no such file; a book is expected; make one with rodebench book new",
  ],
  ["no log", ["trace"], "rodebench: missing required argument 'log'; `rodebench trace [options] <log>` is expected"],
  ["steps of nothing", ["trace", LOG, "--steps", "0N:30s"], '--steps: "0N:30s"; a load above zero is expected'],
  [
    "a scope in words",
    ["trace", LOG, "--rig", "sea.yaml", "--scope", "long"],
    '--scope: "long"; a number above 1 is expected, such as 5',
  ],
  [
    "a chance of nothing",
    ["compare", PULLS, "--chance", "0"],
    "rodebench: option '--chance <share>' argument '0'; a share between 0 and 1, such as 0.9, is expected",
  ],
  [
    "terms twice",
    ["compare", PULLS, "--terms", "anchor,anchor"],
    '--terms: "anchor,anchor"; each of anchor, angle, mass, seabed once is expected',
  ],
  [
    "a group there is none of",
    ["compare", PULLS, "--random", "weather"],
    '--random: "weather"; one of site, day, none is expected',
  ],
  ["a seed below zero", ["compare", PULLS, "--seed", "-1"], '--seed: "-1"; a whole number from 0 is expected'],
  [
    "conditions in words",
    ["compare", PULLS, "--no-sampling", "--at", "windy"],
    '--at: "windy"; angle, mass or seabed is expected, such as "angle 5 deg, mass 15 kg"',
  ],
  [
    "a book that is not there",
    ["book", "list", "gone.book"],
    "gone.book: no such file; a book is expected; make one with rodebench book new",
  ],
  [
    "a book that is a text",
    ["book", "list", "package.json"],
    "package.json: not a book; a file that rodebench book new made is expected",
  ],
  ["a book without a title", ["book", "new", "a.book"], "rodebench: option '--title <text>' missing; it is expected"],
  [
    "a book where a file is",
    ["book", "new", "package.json", "--title", "A"],
    "package.json: there is a file already; a name not yet taken is expected",
  ],
  [
    "a log into a folder that is none",
    ["log", LOG, "--into", "no/where/a.book"],
    "no/where/a.book: no such file; a book is expected; make one with rodebench book new",
  ],
  ["a preview of nothing", ["log", "gone.csv", "--preview"], "gone.csv: no such file; a readable file is expected"],
  ["a port below zero", ["open", "--port", "-1"], '--port: "-1"; a port from 0 to 65535 is expected'],
  [
    "a book to open that is not there",
    ["open", "gone.book", "--no-browser"],
    "gone.book: no such file; a book is expected; make one with rodebench book new",
  ],
  [
    "a schema of a later form",
    ["schema", "rig@9"],
    'schema: "rig@9"; is rig meant? one of those `rodebench schema` lists is expected',
  ],
  [
    "a schema of another program",
    ["schema", "nosuch"],
    'schema: "nosuch"; one of those `rodebench schema` lists is expected',
  ],
  [
    "a shell in capitals",
    ["completion", "BASH"],
    "rodebench: shell 'BASH'; one of bash, zsh, fish, powershell is expected",
  ],
  [
    "help of a command there is none of",
    ["help", "settel"],
    "rodebench: unknown command 'settel'; is settle meant? one of those `rodebench --help` lists is expected",
  ],
  [
    "an option with an empty name",
    ["settle", "--", "--pull"],
    "--pull: nothing given; a load such as --pull 2kN with --at anchor, bow or horizontal, or --span, is expected",
  ],
  [
    "an option joined to its value by a blank sign",
    ["settle", "rig.yaml", "--pull=2kN", "--at="],
    '--at: ""; one of anchor, bow, horizontal is expected',
  ],
  [
    "none beside a site",
    ["compare", PULLS, "--random", "none,site"],
    '--random: "none,site"; site, day or both, or none alone, is expected',
  ],
  [
    "the same chance of what is spread twice",
    ["compare", PULLS, "--random", "site,site"],
    '--random: "site,site"; each of site, day, none once is expected',
  ],
  [
    "help of a book's command there is none of",
    ["book", "help", "lst"],
    "rodebench: unknown command 'lst'; is list meant? one of those `rodebench book --help` lists is expected",
  ],
  [
    "a length that is text of nothing",
    S,
    'a.yaml: rode #1.chain.length: ""; a length is expected, such as "12 m"',
    { "a.yaml": changed(RIG, "30 m", '""') },
  ],
  [
    "the second part wrong, and told as the second",
    S,
    'a.yaml: rode #2.rope.fibre: "hemp"; one of polyamide, polyester is expected',
    {
      "a.yaml": changed(
        RIG,
        "uncertainty",
        "  - rope: { fibre: hemp, lay: three-strand, diameter: 14 mm, length: 5 m }\nuncertainty",
      ),
    },
  ],
  [
    "a rig of JSON in which a comma is missing",
    S,
    'a.yaml: line 1: "\\"name\\": \\"A\\" }" right after what stands before it; a comma or a line of its own, or nothing, is expected',
    { "a.yaml": '{ "format": "rodebench/rig@1" "name": "A" }' },
  ],
  [
    "a file of zeros",
    S,
    'a.yaml: "\\u0000\\u0000\\u0000\\u0000"; a rig file is expected, which begins with format: rodebench/rig@1',
    { "a.yaml": "\u0000\u0000\u0000\u0000" },
  ],
];

eachToldInOneLine(wrong);
