/** Inputs nobody polite would send, each with the one line it is told in: where, what was given, what was expected. */
import { expect, it } from "vitest";
import { rodebench } from "../support/command-line.ts";
import { BOAT, changed, FILES, PLAN, RIG, RUN } from "../support/stranger-files.ts";

type Wrong = readonly [what: string, argv: readonly string[], line: string, files?: Readonly<Record<string, string>>];

const wrong: readonly Wrong[] = [
  ["no command", [], "rodebench: no command given; one of those `rodebench --help` lists is expected"],
  [
    "a command mistyped",
    ["setle"],
    "rodebench: unknown command 'setle'; is settle meant? one of those `rodebench --help` lists is expected",
  ],
  [
    "a command of another program",
    ["frobnicate"],
    "rodebench: unknown command 'frobnicate'; one of those `rodebench --help` lists is expected",
  ],
  [
    "a command in capitals",
    ["SETTLE"],
    "rodebench: unknown command 'SETTLE'; is settle meant? one of those `rodebench --help` lists is expected",
  ],
  [
    "an option before any command",
    ["--pull", "2kN"],
    "rodebench: unknown option '--pull'; one of those `rodebench --help` lists is expected",
  ],
  [
    "an option mistyped",
    ["settle", "rig.yaml", "--pul", "2kN"],
    "rodebench: unknown option '--pul'; is --pull meant? one of those `rodebench settle --help` lists is expected",
  ],
  [
    "an option of another command",
    ["settle", "rig.yaml", "--unknown", "pull"],
    "rodebench: unknown option '--unknown'; one of those `rodebench settle --help` lists is expected",
  ],
  [
    "an option twice",
    ["settle", "rig.yaml", "--pull", "2kN", "--at", "bow", "--pull", "3kN"],
    "--pull: 2kN and 3kN; the option once is expected",
  ],
  [
    "a flag twice",
    ["settle", "rig.yaml", "--pull", "2kN", "--at", "bow", "--json", "--json"],
    "--json: given twice; the option once is expected",
  ],
  [
    "units twice",
    ["settle", "rig.yaml", "--pull", "2kN", "--at", "bow", "--units", "us", "--units", "metric"],
    "--units: us and metric; the option once is expected",
  ],
  [
    "units of no system",
    ["settle", "rig.yaml", "--pull", "2kN", "--at", "bow", "--units", "imperial"],
    "rodebench: option '--units <system>' argument 'imperial'; one of metric, us is expected",
  ],
  [
    "no value after an option",
    ["settle", "rig.yaml", "--pull"],
    "rodebench: option '--pull <load>' argument missing; a value is expected after it",
  ],
  ["no file", ["settle"], "rodebench: missing required argument 'rig'; `rodebench settle [options] <rig>` is expected"],
  [
    "two files",
    ["settle", "rig.yaml", "rig.yaml", "--span", "5m"],
    "rodebench: too many arguments for 'settle'; `rodebench settle [options] <rig>` is expected",
  ],
  [
    "a book's command mistyped",
    ["book", "lst", "x.book"],
    "rodebench: unknown command 'lst'; is list meant? one of those `rodebench book --help` lists is expected",
  ],
  [
    "no book's command",
    ["book"],
    "rodebench: no command given; one of those `rodebench book --help` lists is expected",
  ],
  [
    "a shell there is none of",
    ["completion", "csh"],
    "rodebench: shell 'csh'; one of bash, zsh, fish, powershell is expected",
  ],
  [
    "no shell",
    ["completion"],
    "rodebench: missing required argument 'shell'; `rodebench completion [options] <shell>` is expected",
  ],
  [
    "a schema there is none of",
    ["schema", "rigs"],
    'schema: "rigs"; is rig meant? one of those `rodebench schema` lists is expected',
  ],
  [
    "a version option mistyped",
    ["--verson"],
    "rodebench: unknown option '--verson'; is --version meant? one of those `rodebench --help` lists is expected",
  ],
  [
    "no load",
    ["settle", "rig.yaml"],
    "--pull: nothing given; a load such as --pull 2kN with --at anchor, bow or horizontal, or --span, is expected",
  ],
  [
    "a load without an end",
    ["settle", "rig.yaml", "--pull", "2kN"],
    "--at: nothing given; one of anchor, bow, horizontal is expected",
  ],
  [
    "an end there is none of",
    ["settle", "rig.yaml", "--pull", "2kN", "--at", "stern"],
    '--at: "stern"; one of anchor, bow, horizontal is expected',
  ],
  [
    "a length for a load",
    ["settle", "rig.yaml", "--pull", "20 m", "--at", "bow"],
    '--pull: "20 m" is a length; a force is expected, such as "20 N"',
  ],
  [
    "a mass for a load",
    ["settle", "rig.yaml", "--pull", "200 kg", "--at", "bow"],
    '--pull: "200 kg" is a mass; the force of 1 kg at rest is 1 kgf; a force is expected, such as "200 N"',
  ],
  [
    "a speed for a load",
    ["settle", "rig.yaml", "--pull", "20 kn", "--at", "bow"],
    '--pull: "20 kn" is a speed; case matters: kn is knots, kN is kilonewtons; a force is expected, such as "20 N"',
  ],
  [
    "a load of nothing",
    ["settle", "rig.yaml", "--pull", "0", "--at", "bow"],
    '--pull: "0"; a load above zero is expected',
  ],
  [
    "a load below zero",
    ["settle", "rig.yaml", "--pull", "-2 kN", "--at", "bow"],
    '--pull: "-2 kN"; a load above zero is expected',
  ],
  [
    "a load in words",
    ["settle", "rig.yaml", "--pull", "much", "--at", "bow"],
    '--pull: "much"; it does not begin with a number; a force is expected, such as "12 N"',
  ],
  [
    "a load of no rode",
    ["settle", "rig.yaml", "--pull", "1e13 N", "--at", "bow"],
    '--pull: "1e13 N"; a load from 1e-6 N to 1e12 N is expected',
  ],
  [
    "a unit there is none of",
    ["settle", "rig.yaml", "--pull", "2 kM", "--at", "bow"],
    '--pull: "2 kM" has a unit that is not known here, "kM"; case matters: write km; a force is expected, such as "2 N"',
  ],
  [
    "an empty load",
    ["settle", "rig.yaml", "--pull", "", "--at", "bow"],
    '--pull: ""; a force is expected, such as "12 N"',
  ],
  [
    "a load and a span",
    ["settle", "rig.yaml", "--pull", "2kN", "--at", "bow", "--span", "5 m"],
    '--span: "5 m"; either --span or --pull with --at is expected, not both',
  ],
  ["a span of nothing", ["settle", "rig.yaml", "--span", "0 m"], '--span: "0 m"; a distance above zero is expected'],
  [
    "a span in force",
    ["settle", "rig.yaml", "--span", "2 kN"],
    '--span: "2 kN" is a force; a length is expected, such as "2 m"',
  ],
  [
    "a span round the earth",
    ["settle", "rig.yaml", "--span", "40000 km"],
    '--span: "40000 km"; a distance from 1e-6 m to 1000 km is expected',
  ],
  [
    "an uncertainty past the load",
    ["settle", "rig.yaml", "--pull", "2kN", "--at", "bow", "--pull-u", "3kN"],
    '--pull-u: "3kN"; a standard uncertainty from none to half of what is stated is expected',
  ],
  [
    "an uncertainty below zero",
    ["settle", "rig.yaml", "--pull", "2kN", "--at", "bow", "--pull-u", "-1 N"],
    '--pull-u: "-1 N"; a standard uncertainty from none to half of what is stated is expected',
  ],
  [
    "an uncertainty of another sort",
    ["settle", "rig.yaml", "--pull", "2kN", "--at", "bow", "--pull-u", "1 m"],
    '--pull-u: "1 m" is a length; a force is expected, such as "1 N"',
  ],
  [
    "two numbers",
    ["settle", "rig.yaml", "--pull", "2 3 kN", "--at", "bow"],
    '--pull: "2 3 kN" has a unit that is not known here, "3 kN"; a force is expected, such as "2 N"',
  ],
  ["no such file", ["settle", "nope.yaml", "--span", "5 m"], "nope.yaml: no such file; a readable file is expected"],
  ["a folder", ["settle", "src", "--span", "5 m"], "src: no such file; a readable file is expected"],
  [
    "an empty file",
    ["settle", "a.yaml", "--span", "5 m"],
    "a.yaml: an empty file; a rig file is expected, which begins with format: rodebench/rig@1",
    { "a.yaml": "" },
  ],
  [
    "words",
    ["settle", "a.yaml", "--span", "5 m"],
    'a.yaml: "thirty metres"; a rig file is expected, which begins with format: rodebench/rig@1',
    { "a.yaml": "thirty metres" },
  ],
  [
    "broken YAML",
    ["settle", "a.yaml", "--span", "5 m"],
    "a.yaml: line 1: Flow sequence in block collection must be sufficiently indented and end with a ]; YAML or JSON is expected",
    { "a.yaml": "a: [" },
  ],
  [
    "a run for a rig",
    ["settle", "run.yaml", "--span", "5 m"],
    'run.yaml: format: "rodebench/run@1"; rodebench/rig@1 is expected',
  ],
  [
    "a boat for a rig",
    ["settle", "boat.yaml", "--span", "5 m"],
    'boat.yaml: format: "rodebench/boat@1"; rodebench/rig@1 is expected',
  ],
  ["a rig for a run", ["reduce", "rig.yaml"], 'rig.yaml: format: "rodebench/rig@1"; "rodebench/run@1" is expected'],
  [
    "a rig for a boat",
    ["weather", "rig.yaml", "--wind", "20 kn"],
    'rig.yaml: format: "rodebench/rig@1"; rodebench/boat@1 is expected',
  ],
  ["a rig for a plan", ["choose", "rig.yaml"], 'rig.yaml: format: "rodebench/rig@1"; "rodebench/plan@1" is expected'],
  [
    "a run for a boat",
    ["weather", "run.yaml", "--wind", "20kn"],
    'run.yaml: format: "rodebench/run@1"; rodebench/boat@1 is expected',
  ],
  [
    "a boat for a run",
    ["carry", "boat.yaml", "--to", "rig.yaml"],
    'boat.yaml: format: "rodebench/boat@1"; "rodebench/run@1" is expected',
  ],
  [
    "a boat for the rig carried to",
    ["carry", "run.yaml", "--to", "boat.yaml"],
    'boat.yaml: format: "rodebench/boat@1"; rodebench/rig@1 is expected',
  ],
  [
    "a rig for gear",
    ["gear", "--with", "rig.yaml"],
    'rig.yaml: format: "rodebench/rig@1"; rodebench/gear@1 is expected',
  ],
  [
    "a rig for corrections",
    ["trace", "data/examples/pulls/three-steps.csv", "--corrections", "rig.yaml"],
    'rig.yaml: format: "rodebench/rig@1"; rodebench/corrections@1 is expected',
  ],
  [
    "a rig of a later program",
    ["settle", "a.yaml", "--span", "5 m"],
    'a.yaml: format: "rodebench/rig@2"; rodebench/rig@1 is expected',
    { "a.yaml": changed(RIG, "1", "2") },
  ],
  [
    "a format without a number",
    ["settle", "a.yaml", "--span", "5 m"],
    'a.yaml: format: "rodebench/rig"; rodebench/rig@1 is expected',
    { "a.yaml": changed(RIG, "@1", "") },
  ],
  [
    "a field mistyped",
    ["settle", "a.yaml", "--span", "5 m"],
    "a.yaml: setting.rize: no such field; is rise meant?",
    { "a.yaml": changed(RIG, "is", "iz") },
  ],
  [
    "a field of the other medium",
    ["settle", "a.yaml", "--span", "5 m"],
    'a.yaml: setting.depth: "9 m"; a rig in air has no depth; its rise is expected',
    { "a.yaml": changed(RIG, "rise", "depth") },
  ],
  [
    "a size without a unit",
    ["settle", "a.yaml", "--span", "5 m"],
    'a.yaml: rode #1.chain.size: 10; a size with its unit is expected, such as "10 mm" or "10 in"; a bare number is in metres',
    { "a.yaml": changed(RIG, " mm", "") },
  ],
  [
    "a size as text without a unit",
    ["settle", "a.yaml", "--span", "5 m"],
    'a.yaml: rode #1.chain.size: "3/8"; a size with its unit is expected, such as "3/8 mm" or "3/8 in"; a bare number is in metres',
    { "a.yaml": changed(RIG, "10 mm", '"3/8"') },
  ],
  [
    "a size there is none of",
    ["settle", "a.yaml", "--span", "5 m"],
    'a.yaml: rode #1.chain.size: "11.2 mm" of grade 30; a size in the catalogue or in a file of your own rows is expected; nearest: chain 7/16 in grade 30, chain 12 mm grade 30 ISO 4565',
    { "a.yaml": changed(RIG, "10", "11.2") },
  ],
  [
    "a grade there is none of",
    ["settle", "a.yaml", "--span", "5 m"],
    'a.yaml: rode #1.chain.grade: "31"; one of 30, 40, 43, 70 is expected',
    { "a.yaml": changed(RIG, "0", "1") },
  ],
  [
    "a length in force",
    ["settle", "a.yaml", "--span", "5 m"],
    'a.yaml: rode #1.chain.length: "30 N" is a force; a length is expected, such as "30 m"',
    { "a.yaml": changed(RIG, "30 m", "30 N") },
  ],
  [
    "a length of nothing",
    ["settle", "a.yaml", "--span", "5 m"],
    'a.yaml: rode #1.chain.length: "0 m"; a length above zero, at most 100 km, is expected',
    { "a.yaml": changed(RIG, " 3", " ") },
  ],
  [
    "a rode round the earth",
    ["settle", "a.yaml", "--span", "5 m"],
    'a.yaml: rode #1.chain.length: "40000 km"; a length above zero, at most 100 km, is expected',
    { "a.yaml": changed(RIG, "30 ", "40000 k") },
  ],
  [
    "a length in words",
    ["settle", "a.yaml", "--span", "5 m"],
    'a.yaml: rode #1.chain.length: "long"; it does not begin with a number; a length is expected, such as "12 m"',
    { "a.yaml": changed(RIG, "30 m", "long") },
  ],
  [
    "an uncertainty past the half",
    ["settle", "a.yaml", "--span", "5 m"],
    'a.yaml: uncertainty.massPerLength: "80 %"; a standard uncertainty from 0 to 50 % is expected',
    { "a.yaml": changed(RIG, "2", "80") },
  ],
  [
    "an uncertainty without its per cent",
    ["settle", "a.yaml", "--span", "5 m"],
    "a.yaml: uncertainty.massPerLength: 2; a standard uncertainty from 0 to 50 % is expected",
    { "a.yaml": changed(RIG, "% ", "") },
  ],
  [
    "no rode",
    ["settle", "a.yaml", "--span", "5 m"],
    "a.yaml: rode: an empty list; at least one part is expected, such as chain: { grade: 30, size: 10 mm, length: 30 m }",
    { "a.yaml": changed(RIG, '\n  - chain: { grade: "30", size: 10 mm, length: 30 m }', " []") },
  ],
  [
    "a part of two kinds",
    ["settle", "a.yaml", "--span", "5 m"],
    "a.yaml: rode #1: chain and rope; one of chain, rope, wire, line, weight, shackle, swivel is expected",
    {
      "a.yaml": changed(
        RIG,
        "- ",
        "- rope: { fibre: polyamide, lay: three-strand, diameter: 14 mm, length: 2 m }\n    ",
      ),
    },
  ],
  [
    "a part of no kind",
    ["settle", "a.yaml", "--span", "5 m"],
    "a.yaml: rode #1.cable: no such field; one of chain, rope, wire, line, weight, shackle, swivel is expected",
    { "a.yaml": changed(RIG, "hain", "able") },
  ],
  [
    "a working load above the breaking load",
    ["settle", "a.yaml", "--span", "5 m"],
    'a.yaml: rode #1.line.workingLoad: "9 kN"; a working load not above the breaking load is expected',
    {
      "a.yaml": changed(
        RIG,
        'chain: { grade: "30", size: 10 mm, length: 30 m',
        "line: { length: 30 m, massPerLength: 2 kg/m, density: 7850 kg/m3, workingLoad: 9 kN, breakingLoad: 8 kN",
      ),
    },
  ],
  [
    "a density of air",
    ["settle", "a.yaml", "--span", "5 m"],
    'a.yaml: rode #1.line.density: "1.2 kg/m3"; a density from 100 to 23000 kg/m³ is expected, such as "7850 kg/m3"',
    {
      "a.yaml": changed(
        RIG,
        'chain: { grade: "30", size: 10 mm, length: 30 m',
        "line: { length: 30 m, massPerLength: 2 kg/m, density: 1.2 kg/m3",
      ),
    },
  ],
  [
    "the rig's own path is standard input",
    ["reduce", "a.yaml"],
    "a.yaml: rig: -; the path of a rig file is expected",
    { "a.yaml": changed(RUN, "rig.yaml", '"-"') },
  ],
  [
    "a rig beside the run that is not there",
    ["reduce", "a.yaml"],
    "gone.yaml: no such file; a readable file is expected",
    { "a.yaml": changed(RUN, " rig", " gone") },
  ],
  [
    "a rig by a path from the root",
    ["reduce", "a.yaml"],
    "/rigs/gone.yaml: no such file; a readable file is expected",
    { "a.yaml": changed(RUN, " rig", " /rigs/gone") },
  ],
  [
    "a rig by a path of Windows",
    ["reduce", "a.yaml"],
    "C:\\rigs\\gone.yaml: no such file; a readable file is expected",
    { "a.yaml": changed(RUN, " rig", " C:\\rigs\\gone") },
  ],
  [
    "a rig in a folder by Windows' strokes",
    ["reduce", "runs/a.yaml"],
    "runs/more/gone.yaml: no such file; a readable file is expected",
    { "runs/a.yaml": changed(RUN, " rig", " more\\gone") },
  ],
  [
    "no end of the cell",
    ["reduce", "a.yaml"],
    "a.yaml: loadCellAt: nothing given; anchor or bow is expected",
    { "a.yaml": changed(RUN, "loadCellAt: bow\n", "") },
  ],
  [
    "an end there is none of in a run",
    ["reduce", "a.yaml"],
    'a.yaml: loadCellAt: "stern"; anchor or bow is expected',
    { "a.yaml": changed(RUN, "bow", "stern") },
  ],
  [
    "a unit of another sort",
    ["reduce", "a.yaml"],
    'a.yaml: units.load: "kg" is a mass; the force of 1 kg at rest is 1 kgf; a unit of force is expected, such as "N"',
    { "a.yaml": changed(RUN, "N", "kg") },
  ],
  [
    "a load below zero in a run",
    ["reduce", "a.yaml"],
    "a.yaml: readings #1.load: -1500; a load above zero, below 1 GN, is expected",
    { "a.yaml": changed(RUN, "- { load: ", "- { load: -") },
  ],
  [
    "an angle past the vertical",
    ["reduce", "a.yaml"],
    "a.yaml: readings #1.angle: 95; an angle between -90 and 90 deg is expected",
    { "a.yaml": changed(RUN, "5.1", "95") },
  ],
  [
    "a load alone",
    ["reduce", "a.yaml"],
    "a.yaml: readings #1: a load alone; an angle, or the event liftoff, is expected with it",
    { "a.yaml": changed(RUN, ", angle: 5.1", "") },
  ],
  [
    "no readings",
    ["reduce", "a.yaml"],
    "a.yaml: readings: nothing given; readings, a release, or both are expected",
    { "a.yaml": changed(RUN, "\n  - { load: 1500, angle: 5.1 }\n  - { load: 2000, angle: 7.6 }", " []") },
  ],
  [
    "an uncertainty of nothing",
    ["reduce", "a.yaml"],
    "a.yaml: uncertainty.load: 0; a standard uncertainty above zero is expected",
    { "a.yaml": changed(RUN, "20 N", "0") },
  ],
  [
    "an event there is none of",
    ["reduce", "a.yaml"],
    'a.yaml: readings #1.event: "snap"; liftoff is expected',
    { "a.yaml": changed(RUN, "angle: 5.1", "event: snap") },
  ],
  [
    "a load in words in a run",
    ["reduce", "a.yaml"],
    'a.yaml: readings #1.load: "heavy"; it does not begin with a number; a force is expected, such as "12 N"',
    { "a.yaml": changed(RUN, "1500", "heavy") },
  ],
  [
    "a load that is true",
    ["reduce", "a.yaml"],
    "a.yaml: readings #1.load: true; a load is expected, as a number in the run's unit or with a unit",
    { "a.yaml": changed(RUN, "1500", "true") },
  ],
  [
    "a release that begins moved",
    ["reduce", "a.yaml"],
    "a.yaml: release #1.movement: 3; 0 is expected: movement counts from the first row",
    { "a.yaml": changed(RUN, "6 }\n", "6 }\nrelease: [{ load: 1000, movement: 3 }, { load: 500, movement: 4 }]\n") },
  ],
  [
    "a report to nowhere",
    ["reduce", "run.yaml", "--report", ""],
    "--report: nothing given; the path of a file to write is expected",
  ],
  [
    "a rig to nowhere",
    ["reduce", "run.yaml", "--rig-to", "-"],
    '--rig-to: "-"; the path of a file to write is expected',
  ],
  [
    "a rig to carry to that is not told",
    ["carry", "run.yaml"],
    "--to: nothing given; the rig file of the rig that the run stands for is expected",
  ],
  [
    "both from standard input",
    ["carry", "-", "--to", "-"],
    "--to: -; a file is expected: standard input holds the run",
  ],
  [
    "no unknown",
    ["find", "rig.yaml", "--liftoff"],
    "--unknown: nothing given; one of length:N, scope, depth, rise, pull, mass:N, place:N is expected, such as length:1",
  ],
  [
    "an unknown there is none of",
    ["find", "rig.yaml", "--unknown", "weight", "--liftoff"],
    '--unknown: "weight"; one of length:N, scope, depth, rise, pull, mass:N, place:N is expected, such as length:1',
  ],
  [
    "part 0",
    ["find", "rig.yaml", "--unknown", "length:0", "--liftoff", "--pull", "2kN", "--at", "bow"],
    '--unknown: "length:0"; one of length:N, scope, depth, rise, pull, mass:N, place:N is expected, such as length:1',
  ],
  [
    "part 2 of one",
    ["find", "rig.yaml", "--unknown", "length:2", "--liftoff", "--pull", "2kN", "--at", "bow"],
    "--unknown: length:2; a part from 1 to 1 is expected",
  ],
  [
    "the mass of a line",
    ["find", "rig.yaml", "--unknown", "mass:1", "--liftoff", "--pull", "2kN", "--at", "bow"],
    "--unknown: mass:1; a point is expected; part 1 is a line",
  ],
  [
    "the depth of air",
    ["find", "rig.yaml", "--unknown", "depth", "--liftoff", "--pull", "2kN", "--at", "bow"],
    "--unknown: depth; a rig in water has a depth; a rig in air has a rise",
  ],
  [
    "no goal",
    ["find", "rig.yaml", "--unknown", "pull"],
    "--anchor-angle: nothing given; one of --anchor-angle, --angle-to-bottom, --liftoff, --working-load is expected",
  ],
  [
    "two goals",
    ["find", "rig.yaml", "--unknown", "pull", "--liftoff", "--anchor-angle", "5 deg"],
    "--anchor-angle: more than one goal; one of --anchor-angle, --angle-to-bottom, --liftoff, --working-load is expected",
  ],
  [
    "the per cent forgotten",
    ["find", "rig.yaml", "--unknown", "pull", "--working-load", "80"],
    '--working-load: "80"; a share of at most 1200 % is expected, since gear breaks before that; per cent bear their sign, such as 80%',
  ],
  [
    "a share of nothing",
    ["find", "rig.yaml", "--unknown", "pull", "--working-load", "0 %"],
    '--working-load: "0 %"; a share above zero is expected, such as 80%',
  ],
  [
    "a load that is the unknown",
    ["find", "rig.yaml", "--unknown", "pull", "--pull", "2kN", "--liftoff"],
    '--pull: "2kN"; no load is expected: it is the unknown',
  ],
  [
    "an angle past the vertical to find",
    ["find", "rig.yaml", "--unknown", "pull", "--anchor-angle", "95 deg"],
    '--anchor-angle: "95 deg"; an angle between -90 and 90 deg is expected',
  ],
  [
    "an angle in metres",
    ["find", "rig.yaml", "--unknown", "pull", "--anchor-angle", "5 m"],
    '--anchor-angle: "5 m" is a length; an angle is expected, such as "5 deg"',
  ],
  [
    "a scope of a rig that does not rise",
    ["find", "a.yaml", "--unknown", "scope", "--liftoff", "--pull", "2kN", "--at", "bow"],
    "--unknown: scope; a rig whose upper end lies above its anchor has a scope",
    { "a.yaml": changed(RIG, "9", "0") },
  ],
  [
    "an unknown of the other rig that is no length",
    ["match", "rig.yaml", "sea.yaml", "--pull", "2kN", "--unknown", "depth"],
    '--unknown: "depth"; a length of OTHER is expected, such as length:1',
  ],
  [
    "no second rig",
    ["match", "rig.yaml", "--pull", "2kN"],
    "rodebench: missing required argument 'other'; `rodebench match [options] <rig> <other>` is expected",
  ],
  [
    "both rigs from standard input",
    ["match", "-", "-", "--pull", "2kN"],
    "<other>: -; a file is expected: standard input holds one rig",
  ],
  [
    "a ladder of one load",
    ["ladder", "rig.yaml", "--pull", "2kN", "--at", "bow"],
    '--pull: "2kN"; loads as FROM..TO/STEP with a unit are expected, such as "100..1000/100lbf"',
  ],
  [
    "a ladder down",
    ["ladder", "rig.yaml", "--pull", "1000..100/100N", "--at", "bow"],
    '--pull: "1000..100/100N"; loads that rise from above zero by a step above zero are expected',
  ],
  [
    "a ladder of steps of nothing",
    ["ladder", "rig.yaml", "--pull", "100..1000/0N", "--at", "bow"],
    '--pull: "100..1000/0N"; loads that rise from above zero by a step above zero are expected',
  ],
  [
    "a ladder of millions",
    ["ladder", "rig.yaml", "--pull", "1..1000000/0.1N", "--at", "bow"],
    '--pull: "1..1000000/0.1N"; at most 100000 loads are expected',
  ],
  [
    "no ladder",
    ["ladder", "rig.yaml", "--at", "bow"],
    '--pull: nothing given; loads as FROM..TO/STEP with a unit are expected, such as "100..1000/100lbf"',
  ],
  [
    "a ladder without an end",
    ["ladder", "rig.yaml", "--pull", "1..2/1kN"],
    "--at: nothing given; one of anchor, bow, horizontal is expected",
  ],
  ["neither wind nor load", ["weather", "boat.yaml"], "weather: neither --wind nor --load; one of the two is expected"],
  [
    "both wind and load",
    ["weather", "boat.yaml", "--wind", "20 kn", "--load", "2 kN"],
    "weather: both --wind and --load; one of the two is expected",
  ],
  [
    "a wind in metres",
    ["weather", "boat.yaml", "--wind", "20 m"],
    '--wind: "20 m" is a length; a speed is expected, such as "20 m/s"',
  ],
  [
    "a wind past any",
    ["weather", "boat.yaml", "--wind", "300 kn"],
    '--wind: "300 kn"; a wind of at most 100 m/s is expected',
  ],
  [
    "a wind in Beaufort",
    ["weather", "boat.yaml", "--wind", "6 bft"],
    '--wind: "6 bft" has a unit that is not known here, "bft"; a speed is expected, such as "6 m/s"',
  ],
  [
    "a spectrum there is none of",
    ["weather", "boat.yaml", "--wind", "20 kn", "--spectrum", "jonswop"],
    "rodebench: option '--spectrum <name>' argument 'jonswop'; one of jonswap, pierson-moskowitz is expected",
  ],
  [
    "a swing without a time",
    ["weather", "boat.yaml", "--wind", "20 kn", "--swing", "25 deg"],
    '--swing: "25 deg"; a largest angle and a period are expected, such as "25 deg, 45 s"',
  ],
  [
    "shallower than the boat",
    ["weather", "boat.yaml", "--wind", "20kn", "--depth", "1 m"],
    '--depth: "1 m"; a depth in which the boat floats is expected: more than its draught',
  ],
  [
    "a speed unit there is none of",
    ["weather", "boat.yaml", "--wind", "20 kn", "--speeds", "bft"],
    "rodebench: option '--speeds <unit>' argument 'bft'; one of m/s, kn, km/h, mph, ft/s is expected",
  ],
  [
    "a boat without a beam",
    ["weather", "a.yaml", "--wind", "20 kn"],
    'a.yaml: beam: nothing given; a length is expected, such as "12 m"',
    { "a.yaml": changed(BOAT, "beam: 3.6 m\n", "") },
  ],
  [
    "a boat as heavy as a length",
    ["weather", "a.yaml", "--wind", "20 kn"],
    'a.yaml: displacement: "7 m" is a length; a mass is expected, such as "7 kg"',
    { "a.yaml": changed(BOAT, " t", " m") },
  ],
  [
    "a boat's field mistyped",
    ["weather", "a.yaml", "--wind", "20 kn"],
    "a.yaml: draft: no such field; one of format, name, length, waterline, beam, draught, bodyDraught, displacement, bowRollerHeight, windage, engineThrust, veering, measured, uncertainty is expected",
    { "a.yaml": changed(BOAT, "ugh", "f") },
  ],
  [
    "a ride in air",
    ["ride", "rig.yaml", "--boat", "boat.yaml", "--wind", "20 kn"],
    "rig.yaml: a rig in air; a rig in water, with its depth, is expected",
  ],
  [
    "a ride without a wind",
    ["ride", "sea.yaml", "--boat", "boat.yaml"],
    "--wind: nothing given; either a mean wind, such as --wind 25kn, or a --wind-log is expected",
  ],
  [
    "a ride of days",
    ["ride", "sea.yaml", "--boat", "boat.yaml", "--wind", "20 kn", "--hours", "100"],
    '--hours: "100"; a number of hours from 0.02 to 48 is expected',
  ],
  [
    "a ride in a hurricane",
    ["ride", "sea.yaml", "--boat", "boat.yaml", "--wind", "200 kn"],
    '--wind: "200 kn"; a mean wind of at most 60 m/s is expected',
  ],
  [
    "a trace of another sort",
    ["ride", "sea.yaml", "--boat", "boat.yaml", "--wind", "20 kn", "--trace", "out.txt"],
    '--trace: "out.txt"; a file that ends in .csv or .parquet is expected',
  ],
  [
    "a seed of letters",
    ["ride", "sea.yaml", "--boat", "boat.yaml", "--wind", "20 kn", "--seed", "abc"],
    '--seed: "abc"; a whole number from 0 to 2147483648 is expected',
  ],
  [
    "a plan's rig that is not there",
    ["choose", "a.yaml"],
    "gone.yaml: no such file; a readable file is expected",
    { "a.yaml": changed(PLAN, "sea", "gone") },
  ],
  [
    "a plan's rig from the root",
    ["choose", "a.yaml"],
    "/gone.yaml: no such file; a readable file is expected",
    { "a.yaml": changed(PLAN, "sea", "/gone") },
  ],
  [
    "a plan without candidates",
    ["choose", "a.yaml"],
    "a.yaml: candidates: nothing given; at least one candidate is expected, or chains of equal strength",
    { "a.yaml": changed(PLAN, "candidates:\n  - { name: one, rig: sea.yaml }\n", "") },
  ],
  [
    "a kind of gear there is none of",
    ["gear", "--kind", "string"],
    "rodebench: option '--kind <kind>' argument 'string'; one of chain, rope, wire, point is expected",
  ],
  [
    "a grade of rope",
    ["gear", "--kind", "rope", "--grade", "30"],
    '--grade: "30"; no grade is expected: only chain has one',
  ],
  [
    "a size without its unit",
    ["gear", "--size", "10"],
    '--size: "10"; a size with its unit is expected, such as "10 mm" or "10 in"; a bare number is in metres',
  ],
  [
    "a size of nothing there is",
    ["gear", "--size", "77 mm"],
    '--size: "77 mm"; a size in the catalogue is expected; nearest: 24 mm, 7/8 in, 22 mm',
  ],
  ["a grade there is none of in gear", ["gear", "--grade", "31"], '--grade: "31"; one of 30, 40, 43, 70 is expected'],
  ["a log that is none", ["trace", "rig.yaml"], "rig.yaml: no rows of numbers; a log of readings is expected"],
  ["a log that is not there", ["trace", "gone.csv"], "gone.csv: no such file; a readable file is expected"],
  ["an empty log", ["trace", "a.csv"], "a.csv: no lines of text; a log of readings is expected", { "a.csv": "" }],
  [
    "a channel there is none of",
    ["trace", "data/examples/pulls/three-steps.csv", "--channel", "x"],
    'data/examples/pulls/three-steps.csv: no load channel "x"; one of load is expected',
  ],
  [
    "a part there is none of",
    ["trace", "data/examples/pulls/three-steps.csv", "--part", "0"],
    '--part: "0"; a whole number from 1 is expected',
  ],
  [
    "steps without a time",
    ["trace", "data/examples/pulls/three-steps.csv", "--steps", "500lbf"],
    '--steps: "500lbf"; LOAD:TIME is expected, such as 500lbf:30s',
  ],
  [
    "a slack that ends before it begins",
    ["trace", "data/examples/pulls/three-steps.csv", "--slack", "12..0"],
    '--slack: "12..0"; FROM..TO in seconds is expected, such as 0..12',
  ],
  [
    "a depth without a rig",
    ["trace", "data/examples/pulls/three-steps.csv", "--depth", "8 m"],
    '--depth: "8 m"; a rig is expected with it: --rig FILE',
  ],
  [
    "a scope below one",
    ["trace", "data/examples/pulls/three-steps.csv", "--rig", "sea.yaml", "--scope", "0.5"],
    '--scope: "0.5"; a number above 1 is expected, such as 5',
  ],
  [
    "pulls that are none",
    ["compare", "rig.yaml"],
    'rig.yaml: header: "format: rodebench/rig@1"; the columns anchor and heldTo_N or gaveWayBy_N are expected',
  ],
  [
    "pulls without an anchor",
    ["compare", "a.csv"],
    'a.csv: header: "heldTo_N"; the columns anchor and heldTo_N or gaveWayBy_N are expected',
    { "a.csv": "heldTo_N\n4000\n" },
  ],
  [
    "pulls without a load",
    ["compare", "a.csv"],
    'a.csv: header: "anchor"; the columns anchor and heldTo_N or gaveWayBy_N are expected',
    { "a.csv": "anchor\nA\n" },
  ],
  [
    "an empty table of pulls",
    ["compare", "a.csv"],
    "a.csv: an empty file; a row of column names is expected",
    { "a.csv": "" },
  ],
  [
    "a law there is none of",
    ["compare", "data/examples/holding/three-anchors.csv", "--law", "normal"],
    '--law: "normal"; one of lognormal, weibull, loglogistic is expected',
  ],
  [
    "a chance past one",
    ["compare", "data/examples/holding/three-anchors.csv", "--chance", "1.5"],
    "rodebench: option '--chance <share>' argument '1.5'; a share between 0 and 1, such as 0.9, is expected",
  ],
  [
    "a term there is none of",
    ["compare", "data/examples/holding/three-anchors.csv", "--terms", "colour"],
    '--terms: "colour"; one of anchor, angle, mass, seabed is expected',
  ],
  ["logs into no book", ["log", "data/examples/pulls/three-steps.csv"], "--into: nothing given; a book is expected"],
  ["no logs", ["log"], "log: nothing given; log files, or --live with a source, are expected"],
  [
    "a live source and files",
    ["log", "a.csv", "--live", "host:1"],
    '--live: "a.csv"; either files or --live is expected, not both',
  ],
  ["a port of letters", ["open", "--port", "abc"], '--port: "abc"; a port from 0 to 65535 is expected'],
  ["a port past the last", ["open", "--port", "99999"], '--port: "99999"; a port from 0 to 65535 is expected'],
  [
    "https without the boat's network",
    ["open", "--https"],
    "--https: without --boat-network; both are expected, or none",
  ],
  [
    "a certificate without its key",
    ["open", "--boat-network", "--certificate", "a.pem"],
    "--certificate: alone; --certificate and --key are expected together",
  ],
];

it.each(wrong.map((row) => [row[0], row] as const))(
  "%s is told in one line, and nothing else is said",
  async (_what, [, argv, line, files]) => {
    const said = await rodebench(argv, { ...FILES, ...files });
    expect(said).toEqual({ out: "", err: `${line}\n`, both: `${line}\n`, status: 2 });
  },
);
