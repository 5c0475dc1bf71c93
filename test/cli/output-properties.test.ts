/**
 * What every text answer keeps to, over all commands and several rigs, in both unit systems: no figure sharper than its ±
 * or than sense, no sign before nothing, tables within a line of a terminal, and no bottom where a rode hangs on land.
 */
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { rodebench, root } from "../support/command-line.ts";

const DEMO = "data/demo/gantry-rig-afloat.yaml";
const TERN = "data/demo/marsh-tern-rode.yaml";
const LAND = "data/demo/gantry-rig.yaml";
const BOAT = "data/boats/marsh-tern.yaml";
const LOG = "data/examples/pulls/three-steps.csv";
const PULLS = "data/examples/holding/three-anchors.csv";

const rigs = [
  DEMO,
  TERN,
  LAND,
  ...readdirSync(join(root, "data/examples/rigs"))
    .filter((file) => file.endsWith(".yaml"))
    .map((file) => `data/examples/rigs/${file}`),
];

const ofRigs = rigs.flatMap((rig) => [
  ["settle", rig, "--pull", "3217 N", "--at", "bow"],
  ["settle", rig, "--pull", "1234.5 N", "--at", "horizontal", "--pull-u", "5 %"],
  ["ladder", rig, "--pull", "1..3/1kN", "--at", "bow"],
  ["find", rig, "--unknown", "pull", "--anchor-angle", "8 deg"],
  ["shock", rig, "--pull", "1.5 kN", "--at", "bow"],
]);

const others = [
  ["match", DEMO, TERN, "--pull", "2 kN"],
  ["carry", "data/demo/gantry-run.yaml", "--to", DEMO],
  ["carry", "data/demo/gantry-run.yaml", "--to", LAND],
  ["reduce", "data/demo/gantry-run.yaml"],
  [
    "weather",
    BOAT,
    "--wind",
    "20 kn",
    "--gust",
    "froya",
    "--current",
    "1 kn",
    "--waves",
    "0.6 m, 3 s",
    "--depth",
    "6 m",
  ],
  ["weather", BOAT, "--load", "800 N"],
  ["shock", TERN, "--pull", "1.5 kN", "--at", "bow", "--speed", "1.5 kn", "--boat", BOAT, "--snubber", "14 mm, 9 m"],
  ["choose", "data/plans/marsh-tern.yaml"],
  ["gear"],
  ["trace", LOG, "--rig", TERN, "--steps", "1700N:40s,3800N:30s,6000N:30s"],
  ["compare", PULLS, "--no-sampling"],
  ["ride", TERN, "--boat", BOAT, "--wind", "20 kn", "--hours", "0.05", "--seed", "1"],
  ["log", LOG, "--preview"],
  ["schema"],
];

const cases = [...ofRigs, ...others].map((argv) => [argv.join(" "), argv] as const);

/** A number as text: its digits that mean something, and how many stand behind the point. */
function digitsOf(text: string): { meaning: number; decimals: number } {
  const bare = text.replace("-", "").replace(/e.*$/, "");
  const decimals = bare.split(".")[1]?.length ?? 0;
  const digits = bare.replace(".", "").replace(/^0+/, "");
  return { meaning: (decimals > 0 ? digits : digits.replace(/0+$/, "")).length, decimals };
}

/** Numbers with a unit after them, their ± where they bear one. Text in brackets is of sources, times or notes. */
const FIGURE =
  /(?<![\w.:/-])(-?\d+(?:\.\d+)?(?:e-?\d+)?)(°?) ?(?:± (\d+(?:\.\d+)?(?:e-?\d+)?)°? ?)?(N|kN|lbf|m|ft|kn|m\/s|°|%|J|ft·lbf|kg|lb)?(?![\w])/g;

/** Lines that are columns: two or more blanks between words, after the first sign. */
const isTable = (line: string): boolean => /\S {2,}\S/.test(line);

function faults(text: string): string[] {
  const found: string[] = [];
  for (const line of text.split("\n")) {
    if (isTable(line) && line.length > 80) found.push(`${line.length} columns: ${line}`);
    if (/(?<![\w.])-0(\.0+)?(?![.\d])/.test(line)) found.push(`a sign before nothing: ${line}`);
    if (/\de-\d/.test(line)) found.push(`a trace of rounding: ${line}`);
    for (const [figure, value, degrees, u, unit] of line.matchAll(FIGURE)) {
      if (u !== undefined) {
        const [of, its] = [digitsOf(value!), digitsOf(u)];
        if (its.meaning > 2) found.push(`± of ${its.meaning} digits: ${figure}`);
        // Whole numbers: the second digit of the ± is the last that means something.
        const place = its.decimals > 0 ? 0 : 10 ** Math.max(0, u.length - 2);
        if (of.decimals !== its.decimals || (place > 0 && Number(value) % place !== 0))
          found.push(`not to the place of its ±: ${figure}`);
      } else if (degrees === "°" && digitsOf(value!).decimals > 2) found.push(`an angle below 0.01°: ${figure}`);
      else if (unit !== undefined && digitsOf(value!).meaning > 4) found.push(`${figure} in: ${line}`);
    }
  }
  return found;
}

/** Figures as they were typed, which come back as they were. */
const TYPED = /1234\.5 N|3217 N/g;

describe.each(["metric", "us"])("in %s units", (units) => {
  it.each(cases)("%s", async (_, argv) => {
    const withUnits = argv[0] === "schema" ? argv : [...argv, "--units", units];
    const said = await rodebench(withUnits);
    expect([0, 3], said.err).toContain(said.status);
    expect(faults(`${said.out}${said.err}`.replace(TYPED, "")), said.both).toEqual([]);
    if (argv.includes(LAND) && !argv.includes(DEMO)) expect(said.both).not.toMatch(/bottom|seabed/);
  });
});

it("finds what is wrong where something is", () => {
  expect(faults("at the bow 26300 ± 4900 N")).toEqual([]);
  expect(faults("at the bow 26320 ± 4900 N")).not.toEqual([]);
  expect(faults("at the bow 26300.4 ± 490 N")).not.toEqual([]);
  expect(faults("residual  -0.0")).not.toEqual([]);
  expect(faults("adds 1.14e-13 N")).not.toEqual([]);
  expect(faults("at 0.0567°")).not.toEqual([]);
  expect(faults("a load of 26321.7 N")).not.toEqual([]);
});
