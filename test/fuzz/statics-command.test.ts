import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rodebench, root } from "../support/command-line.ts";

const folder = join(root, "data/examples/rigs");
const texts = readdirSync(folder)
  .map((name) => readFileSync(join(folder, name), "utf8"))
  // A rode in a current is marched by steps and takes seconds; the fuzz is of reading and answering.
  .map((text) => text.replace(/^ +current: .*\n/m, ""));

/** Pieces that have meaning to YAML, to quantities, to a rig or to a command line. */
const PIECES = [
  ...["0", "-1", "1e999", ".nan", ".inf", "null", "~", "true", "1e-300", "1e300", "89.9", "0.5"],
  ...["[]", "{}", "{", "}", "[", "]", "- ", ": ", ", ", "\n", "\n  ", "\t", "#", "|\n", "---\n", "'", '"'],
  ...["&a ", "*a", "!x ", "<<: ", "\u0000", "\ud800", "\u2028", "\u001b[31m", "__proto__", "constructor"],
  ...["kN", "kg", "m", "ft", "kn", "deg", "%", "1,5", "9 1/2 in", "105' 6\"", "10 m", "100 km", "1 mm"],
  ...["air", "water", "rise", "depth", "chain", "rope", "weight", "line", "stretch", "length", "30 deg", "-20 deg"],
];

const edits = fc.array(
  fc.tuple(fc.nat(), fc.nat(9), fc.oneof(fc.constantFrom(...PIECES), fc.string({ maxLength: 3 }))),
  { maxLength: 3 },
);

function patched(whole: string, cuts: readonly (readonly [number, number, string])[]): string {
  return cuts.reduce((now, [at, length, piece]) => {
    const place = at % (now.length + 1);
    return now.slice(0, place) + piece + now.slice(place + length);
  }, whole);
}

const rig = fc.tuple(fc.constantFrom(...texts), edits).map(([text, cuts]) => patched(text, cuts));

/** A rig whose every figure is within what the format allows, however odd. */
const odd = fc
  .record({
    air: fc.boolean(),
    rise: fc.double({ min: 1e-3, max: 1e5, noNaN: true }),
    slope: fc.double({ min: -45, max: 45, noNaN: true }),
    friction: fc.double({ min: 0, max: 3, noNaN: true }),
    parts: fc.array(
      fc.record({
        point: fc.boolean(),
        length: fc.double({ min: 1e-3, max: 1e5, noNaN: true }),
        mass: fc.double({ min: 1e-6, max: 1e4, noNaN: true }),
        density: fc.double({ min: 100, max: 23000, noNaN: true }),
        stiffness: fc.option(fc.double({ min: 1, max: 1e12, noNaN: true })),
      }),
      { minLength: 1, maxLength: 4 },
    ),
  })
  .map(({ air, rise, slope, friction, parts }) =>
    JSON.stringify({
      format: "rodebench/rig@1",
      setting: {
        ...(air ? { medium: "air", rise } : { medium: "water", depth: rise, rollerHeight: rise / 10 }),
        bottomSlope: slope,
        bottomFriction: friction,
      },
      rode: parts.map(({ point, length, mass, density, stiffness }) =>
        point
          ? { weight: { mass, density } }
          : { line: { length, massPerLength: mass, density, ...(stiffness === null ? {} : { stiffness }) } },
      ),
    }),
  );

const load = fc.oneof(
  fc.constantFrom("2kN", "500 lbf", "1N", "1e9N", "0", "-3kN", "2,5kN", "20kn", "5 kg", ""),
  // An error line says again what was given: "NaN" would be there by right.
  fc.double({ noNaN: true }).map(String),
  fc.constantFrom(...PIECES),
);
const end = fc.constantFrom("anchor", "bow", "horizontal", "bow", "stern");
const unknown = fc.constantFrom(
  ...["length:1", "length:2", "depth", "rise", "pull", "mass:2", "mass:1", "place:2", "length:0", "length:99", "speed"],
);
const goal = fc.oneof(
  fc.constant(["--liftoff"]),
  fc.constantFrom("5deg", "0", "-10deg", "90deg", "5kN").map((angle) => ["--anchor-angle", angle]),
  fc.constantFrom("50%", "0", "5m").map((share) => ["--working-load", share]),
  fc.constant([]),
);
const pull = fc.oneof(
  { weight: 5, arbitrary: fc.tuple(load, end).map(([newtons, at]) => [`--pull=${newtons}`, "--at", at]) },
  load.map((metres) => [`--span=${metres}`]),
  fc.constantFrom("2kN", "1kN").map((newtons) => ["--pull", newtons, "--at", "bow"]),
);
const steps = fc.oneof(
  fc.constantFrom("1..5/1kN", "100..900/100lbf", "500N..2kN/0.5kN", "5..1/1kN", "1..5", "0..1/1N", "1..1e9/1e8N"),
  fc.tuple(load, load, load).map(([from, to, step]) => `${from}..${to}/${step}`),
);
const line = fc.oneof(
  pull.map((options) => ["settle", "rig.yaml", ...options]),
  fc
    .tuple(unknown, goal, pull)
    .map(([what, wanted, options]) => [
      ...["find", "rig.yaml", "--unknown", what],
      ...wanted,
      ...(what === "pull" ? [] : options),
    ]),
  fc.tuple(load, end).map(([newtons, at]) => ["match", "rig.yaml", "other.yaml", `--pull=${newtons}`, "--at", at]),
  fc.tuple(fc.nat(), fc.constantFrom(...PIECES), pull).map(([at, piece, options]) => {
    const words = ["settle", "rig.yaml", ...options];
    words.splice(at % (words.length + 1), 0, piece);
    return words;
  }),
);
/** A ladder of a hundred thousand rungs is allowed, and takes its time: here at most some tens. */
const ladder = fc
  .tuple(steps, end)
  .filter(([text]) => !/\.\.[^/]*\/.*(e-|1 mm)/.test(text) && text.length < 40)
  .map(([text, at]) => ["ladder", "rig.yaml", `--pull=${text}`, "--at", at]);
const show = fc.constantFrom<string[]>([], ["--json"], ["--units", "us"]);

const OTHER = texts[1]!;

/** An answer without a fault in it, or one line and a status that says whose turn it is. */
async function outcome(argv: readonly string[], text: string): Promise<0 | 2 | 3> {
  const { out, err, status } = await rodebench(argv, { "rig.yaml": text, "other.yaml": OTHER, "-": text });
  expect([0, 2, 3], err).toContain(status);
  if (status === 0) {
    expect(err).toBe("");
    expect(out).not.toMatch(/\b(NaN|undefined|Infinity)\b|\[object/);
    // What is not a number is null in JSON; a match without a reverse says so itself, and a part whose strength is not known.
    const said = out.replace(/"(?:reverse|past|workingLoad_N|breakingLoad_N)": null/g, "");
    if (argv.includes("--json")) expect(said).not.toMatch(/: null\b/);
    if (argv.includes("--json")) JSON.parse(out);
    return 0;
  }
  expect(out).toBe("");
  expect(err.endsWith("\n")).toBe(true);
  expect(err.slice(0, -1)).not.toMatch(/[\p{Cc}\u2028\u2029]/u);
  expect(err).not.toMatch(/fault of the program|\bat .*\.ts:|\b(NaN|undefined)\b|\[object/);
  return status as 2 | 3;
}

describe("settle, ladder, find and match", () => {
  it.each([
    ["a rig cut and patched at random, under any options", rig, fc.oneof(line, ladder), 500],
    ["a rig as it stands, under any options", fc.constantFrom(...texts), fc.oneof(line, ladder), 150],
    ["a rig of odd figures", odd, line, 150],
  ] as const)(
    "answer %s, or tell in one line why not; never a crash, never a trace",
    async (_, rigs, lines, numRuns) => {
      const seen = { 0: 0, 2: 0, 3: 0 };
      await fc.assert(
        fc.asyncProperty(rigs, lines, show, async (text, argv, shown) => {
          seen[await outcome([...argv, ...shown], text)]++;
        }),
        { seed: 2, numRuns },
      );
      // Some of each, or the fuzz has stopped looking.
      expect(seen[0]).toBeGreaterThan(0);
      expect(seen[2]).toBeGreaterThan(0);
      expect(seen[3]).toBeGreaterThan(0);
    },
  );
});
