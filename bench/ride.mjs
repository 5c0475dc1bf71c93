/**
 * How fast a moving rode is, in one run:
 *  (a) the step of a rode of 40 elements whose bow is led to and fro, beside the same in C (bench/ride.c, gcc -O3);
 *  (b) a whole ride, boat and gusts and sea, against real time, and what a step makes anew in memory.
 * Times are of the processor, not of the clock. Only ratios mean anything on a machine that does other things. It runs what is built, as
 * users do: a loader of TypeScript beside the loops makes them ask at every look at an array whether it is still there.
 *
 *     npm run build && node --expose-gc bench/ride.mjs
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import {
  atRest,
  cutIntoElements,
  generalisedAlpha,
  ledBow,
  quieten,
  ride,
  step,
  surroundingsOf,
} from "../dist/motion/index.js";
import { readRig, settleTraced } from "../dist/rode/index.js";
import { jonswap, readBoat, USUAL_AIR } from "../dist/sea/index.js";

const here = dirname(fileURLToPath(import.meta.url));
const read = (path) => readFileSync(join(here, "..", path), "utf8");
const rig = readRig(read("data/demo/marsh-tern-rode.yaml"), "rig");
/** Stretches of a ride, and how long each is, s. */
const [STRETCHES, STRETCH] = [6, 450];
const [AMPLITUDE, OMEGA, H, STEPS, RADIUS, TURNS] = [0.3, 2, 0.05, 5_000, 0.2, 8];

function still() {
  const traced = settleTraced(rig, { at: "horizontal", newtons: 600 });
  if (!("settled" in traced)) throw new Error(traced.cause);
  const state = atRest(traced, cutIntoElements(rig, 40, 600), surroundingsOf(rig));
  quieten(state, 1e-6);
  return state;
}

const state = still();
const last = 3 * state.elements.count;
const [x0, z0] = [state.place[last], state.place[last + 2]];
const bow = ledBow((t, p, v, a) => {
  const [s, c] = [Math.sin(OMEGA * t), Math.cos(OMEGA * t)];
  p[0] = x0 + AMPLITUDE * s;
  p[1] = 0;
  p[2] = z0;
  v[0] = AMPLITUDE * OMEGA * c;
  v[1] = 0;
  v[2] = 0;
  a[0] = -AMPLITUDE * OMEGA * OMEGA * s;
  a[1] = 0;
  a[2] = 0;
});
const method = generalisedAlpha(RADIUS);

/** The rode as bench/ride.c reads it. */
function written(from) {
  const { elements: e, around } = from;
  const head = new Float64Array(20);
  head.set([
    ...[e.count, e.band.length / 3, around.surface, around.current, around.sinSlope, around.cosSlope, around.friction],
    ...[x0, z0, AMPLITUDE, OMEGA, method.alphaM, method.alphaF, method.beta, method.gamma, H, STEPS, e.along[e.count]],
  ]);
  const all = [
    ...[head, e.slots, e.mass, e.addedAcross, e.addedAlong, e.band],
    ...[e.pointMass, e.pointDisplaced, e.pointLow, e.pointHigh, e.pointDrag, e.pointSize],
    ...[from.bedStiffness, from.gripStiffness, from.bedDamping, from.bedRest, from.place, from.grip],
  ];
  return Float64Array.from(all.flatMap((one) => Array.from(one)));
}

const folder = mkdtempSync(join(tmpdir(), "bench-ride-"));
try {
  const [file, program] = [join(folder, "rode.bin"), join(folder, "ride")];
  writeFileSync(file, new Uint8Array(written(state).buffer));
  const run = (of) => {
    const start = process.cpuUsage().user;
    let sum = 0;
    for (let k = 0; k < STEPS; k++) {
      if (!step(of, bow, method, H)) throw new Error(`no next step at ${of.time} s`);
      sum += of.tension[of.elements.count - 1];
    }
    return { ns: (1000 * (process.cpuUsage().user - start)) / STEPS, sum };
  };
  const inC = () => {
    const [ns, sum] = spawnSync(program, [file], { encoding: "utf8" }).stdout.trim().split(" ").map(Number);
    return { ns, sum };
  };
  const built = spawnSync("gcc", ["-O3", "-o", program, join(here, "ride.c"), "-lm"], { encoding: "utf8" });
  run(still());
  // In turn, and the least of each: on a machine that does other things the rest tells of those.
  const turns = Array.from({ length: TURNS }, () => [run(still()), built.status === 0 ? inC() : null]);
  const ours = Math.min(...turns.map(([one]) => one.ns));
  const line = `a step of 40 elements: ${(ours / 1000).toFixed(1)} µs`;
  if (built.status !== 0) console.log(`${line}; gcc is not here`);
  else {
    const theirs = Math.min(...turns.map(([, one]) => one.ns));
    const apart = Math.abs(turns[0][0].sum / turns[0][1].sum - 1);
    console.log(
      `${line}, in C ${(theirs / 1000).toFixed(1)} µs: ${(theirs / ours).toFixed(2)} of its speed; loads apart by ${apart.toExponential(1)}`,
    );
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}

const boat = readBoat(read("data/boats/marsh-tern.yaml"), "boat");
const wind = 11;
const whole = ride({
  rig,
  boat,
  air: USUAL_AIR,
  wind: [{ time: 0, speed: wind, toward: 0 }],
  gusts: { kind: "froya", wind, height: 10 },
  sea: jonswap(0.4, 2.8),
  duration: 3600,
  seed: 1,
});
if ("kind" in whole) throw new Error(whole.cause);
whole.goOn(900);
const { gc } = globalThis;
// The least of some stretches: while a loop is still being compiled, it is run by means that make numbers anew.
const stretches = Array.from({ length: STRETCHES }, () => {
  gc?.();
  const before = process.memoryUsage().heapUsed;
  const start = process.cpuUsage().user;
  whole.goOn(STRETCH);
  const seconds = (process.cpuUsage().user - start) / 1e6;
  return { seconds, grown: (process.memoryUsage().heapUsed - before) / (STRETCH / H) };
});
const least = (of) => Math.min(...stretches.map(of));
console.log(
  `a ride of 40 elements, boat, gusts and sea: ${Math.round(STRETCH / least((one) => one.seconds))} × real time on one core`,
);
console.log(
  gc
    ? `${least((one) => one.grown).toFixed(1)} bytes of heap a step`
    : "run with --expose-gc to see what a step allocates",
);
