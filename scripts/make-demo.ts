/**
 * Makes the demo of data/demo: an invented tester's readings on a rig in a yard, from the model plus stated noise.
 *
 *   node --import tsx scripts/make-demo.ts        writes the files
 *
 * The same seed gives the same files; a test asserts that the files in the tree are these.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { endForcesOf, perturbed, readRig } from "../src/rode/index.ts";
import { rng } from "../src/statistics/index.ts";

const SEED = 20260;
const DEGREES = 180 / Math.PI;

/** What is true of the invented rig, and what its instruments do. The tester knows none of it. */
const TRUTH = {
  /** Chain 2.5 % heavier than its table says. */
  massFactor: 1.025,
  /** Upper end 6 cm higher than measured, m. */
  riseShift: 0.06,
  /** Gauge reads high, rad. */
  gaugeZero: 0.3 / DEGREES,
  /** Frame, cell and slings, m/N. */
  give: 3.2e-6,
  /** Scatter of one reading. */
  load: 8,
  angle: 0.35 / DEGREES,
  movement: 0.004,
  /** Below this load chain lies on the ground and sticks: it comes back only this share of the way, N and 1. */
  sticksBelow: 600,
  comesBack: 0.4,
} as const;

const rigText = `# An invented rig, for the examples. A gantry in a boatyard holds the upper end; the load cell sits there.
format: rodebench/rig@1
name: Gantry rig, Hallow Yard
setting:
  medium: air
  rise: 7.4 m
rode:
  - chain: { grade: "30", size: 8 mm, length: 26 m }
uncertainty: { massPerLength: 3 %, rise: 0.1 m }
`;

const afloatText = `# The chain of the gantry rig as it would lie afloat, anchor to bow roller the same height: to lay over the rig in air.
format: rodebench/rig@1
name: The same chain afloat
setting:
  medium: water
  depth: 6.05 m
  rollerHeight: 1.35 m
rode:
  - chain: { grade: "30", size: 8 mm, length: 26 m }
uncertainty: { massPerLength: 3 %, rise: 0.1 m }
`;

const boatText = `# What the invented boat Marsh Tern lies to: the rode that the gantry rig stands for.
format: rodebench/rig@1
name: Marsh Tern at anchor
setting:
  medium: water
  depth: 6.5 m
  rollerHeight: 1.35 m
  bottomFriction: 0.7
rode:
  - chain: { grade: "30", size: 8 mm, length: 30 m }
uncertainty: { massPerLength: 3 %, rise: 0.2 m }
`;

const STEPS = [750, 800, 900, 1050, 1250, 1500, 1800, 2150, 2550];
const RELEASE = [2600, 2300, 2000, 1700, 1400, 1150, 950, 800, 700, 600, 500, 400];

/** The run file as text: readings on the way up, then the release. */
function runText(): string {
  const rig = readRig(rigText, "gantry-rig.yaml");
  const settled = endForcesOf(perturbed(rig, TRUTH.massFactor, TRUTH.riseShift));
  const at = (newtons: number) => {
    const endForces = settled({ at: "bow", newtons });
    if (endForces === null) throw new Error(`no equilibrium at ${newtons} N`);
    return endForces;
  };
  const stream = rng(SEED);
  const scattered = (value: number, u: number) => value + u * stream.normal();

  const liftoff = (): number => {
    let [low, high] = [500, 800];
    for (let i = 0; i < 60; i++) {
      const middle = (low + high) / 2;
      if (at(middle).grounded > 0) low = middle;
      else high = middle;
    }
    return high;
  };
  const readings = [
    `  - { load: ${tens(scattered(liftoff(), TRUTH.load))}, event: liftoff }`,
    ...STEPS.map((load) => {
      const angle = scattered(at(scattered(load, TRUTH.load)).anchorAngle + TRUTH.gaugeZero, TRUTH.angle);
      return `  - { load: ${load}, angle: ${(angle * DEGREES).toFixed(1)} }`;
    }),
  ];

  const first = RELEASE[0]!;
  const free = (load: number) => at(first).span - at(load).span + TRUTH.give * (first - load);
  const moved = (load: number) =>
    load >= TRUTH.sticksBelow
      ? free(load)
      : free(TRUTH.sticksBelow) + TRUTH.comesBack * (free(load) - free(TRUTH.sticksBelow));
  const release = RELEASE.map((load, i) => {
    const movement = i === 0 ? 0 : scattered(moved(scattered(load, TRUTH.load)), TRUTH.movement);
    return `  - { load: ${load}, movement: ${Math.round(movement * 1000)} }`;
  });

  return `# INVENTED READINGS. No such yard, boat or tester exists, and nothing was pulled.
# Made by scripts/make-demo.ts (seed ${SEED}) from the program's own model, plus normal noise on every reading:
#   load ${TRUTH.load} N, angle ${(TRUTH.angle * DEGREES).toFixed(2)} deg, movement ${(TRUTH.movement * 1000).toFixed(0)} mm.
# Put in, for \`reduce\` to find: chain ${((TRUTH.massFactor - 1) * 100).toFixed(1)} % heavier than its table, upper end ${(TRUTH.riseShift * 100).toFixed(0)} cm higher than measured,
# gauge zero ${(TRUTH.gaugeZero * DEGREES).toFixed(1)} deg high, give of frame and slings ${(TRUTH.give * 1e6).toFixed(1)} mm per kN.
# One honest difficulty: below ${TRUTH.sticksBelow} N chain lies on the ground and sticks, so on release the end comes back only
# ${(TRUTH.comesBack * 100).toFixed(0)} % of the way from there on. The model knows nothing of sticking.
format: rodebench/run@1
name: Gantry pull, Hallow Yard
note: >
  Tester: Orrin, with a crane cell at the upper end and a bubble gauge on the shank. Dry, no wind. Chain as it came from
  the locker of Marsh Tern. Invented.
rig: gantry-rig.yaml
loadCellAt: bow
angleAt: anchor
units: { load: N, angle: deg, movement: mm }
uncertainty: { load: 8 N, angle: 0.4 deg, movement: 4 mm, gaugeZero: 0.5 deg }
readings:
${readings.join("\n")}
release:
${release.join("\n")}
`;
}

const tens = (value: number) => Math.round(value / 10) * 10;

/** Every file of the demo by its name in data/demo. */
export function demoFiles(): Record<string, string> {
  return {
    "gantry-rig.yaml": rigText,
    "gantry-rig-afloat.yaml": afloatText,
    "marsh-tern-rode.yaml": boatText,
    "gantry-run.yaml": runText(),
  };
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  const folder = new URL("../data/demo/", import.meta.url);
  mkdirSync(folder, { recursive: true });
  for (const [name, text] of Object.entries(demoFiles())) {
    writeFileSync(new URL(name, folder), text);
    console.log(`data/demo/${name}`);
  }
}
