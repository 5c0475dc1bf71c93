/**
 * How fast anchors are compared, beside two things that mean something, in one run:
 *  (a) 2 000 refits of the lognormal regression on 200 pulls beside R's survreg, where R is present;
 *  (b) the gradient of the model (200 pulls, 6 anchors, 10 sites) beside the same loop in C (bench/holding.c), where gcc is;
 *  (c) 4 × 1000 draws after as many of warm-up on that series, and the filter over 100 000 pulls, in seconds of processor.
 * Times are of the processor, not of the clock, so that a busy machine does not tell lies. Only ratios mean anything.
 *
 *     node --import tsx bench/holding.ts
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import {
  AftFitter,
  Model,
  type ModelInput,
  observations,
  type Pull,
  sampleOneChain,
  USUAL_PLAN,
  USUAL_PRIORS,
} from "../src/holding/index.ts";
import { rng } from "../src/statistics/index.ts";
import { type BookPulls, chosenPulls } from "../src/web/holding/book-pulls.ts";
import { usualHolding } from "../src/web/holding/state.ts";

const here = dirname(fileURLToPath(import.meta.url));
const draw = rng(1);
const pulls: Pull[] = Array.from({ length: 200 }, (_, i): Pull => {
  const angle = 10 * draw.uniform();
  const load = Math.exp(8 + 0.15 * (i % 6) - 0.03 * angle + 0.4 * draw.normal());
  const limit = Math.exp(8.4 + 0.3 * draw.normal());
  return {
    anchor: `A${i % 6}`,
    site: `S${i % 10}`,
    mass: 15 + (i % 6),
    anchorAngle: (angle * Math.PI) / 180,
    hold: load <= limit ? { kind: "gaveWay", newtons: load } : { kind: "heldTo", newtons: limit },
  };
});
const seen = observations(pulls.map(({ hold }) => hold));
const degrees = pulls.map(({ anchorAngle }) => (anchorAngle! * 180) / Math.PI);

function processorSeconds(work: () => void): number {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1e6;
}

refits();
gradients();
draws();
filter();

function refits(): void {
  const rows = pulls.flatMap((_, i) => [1, ...[1, 2, 3, 4, 5].map((a) => (i % 6 === a ? 1 : 0)), degrees[i]!]);
  const terms = { names: ["1", "a1", "a2", "a3", "a4", "a5", "angle"], rows: Float64Array.from(rows) };
  const fitter = new AftFitter({ law: "lognormal", observations: seen, terms });
  for (let k = 0; k < 200; k++) fitter.maximise();
  const ours = processorSeconds(() => {
    for (let k = 0; k < 2000; k++) if (fitter.maximise().kind !== "maximum") throw new Error("no maximum");
  });
  const loads = Array.from(seen.low, Math.exp);
  const r = spawnSync("Rscript", ["-"], {
    encoding: "utf8",
    input: `suppressMessages(library(survival)); y <- Surv(c(${loads}), c(${Array.from(seen.kind, (kind) => (kind === 0 ? 1 : 0))}))
      a <- factor(rep(0:5, length.out=200)); x <- c(${degrees})
      t <- system.time(for (k in 1:200) survreg(y ~ a + x, dist="lognormal")); cat(t[["user.self"]] + t[["sys.self"]])`,
  });
  const theirs = r.status === 0 ? (Number(r.stdout) * 2000) / 200 : undefined;
  const beside =
    theirs === undefined
      ? "R is not here"
      : `R's survreg ${theirs.toFixed(2)} s: ${(theirs / ours).toFixed(0)} times as long`;
  console.log(`2 000 refits of 200 pulls: ${ours.toFixed(2)} s; ${beside}`);
}

function modelInput(): ModelInput {
  return { pulls, law: "lognormal", terms: ["anchor", "angle", "mass"], random: ["site"], priors: USUAL_PRIORS };
}

function gradients(): void {
  const model = new Model(modelInput());
  const at = model.start(rng(2));
  const gradient = new Float64Array(model.parameters);
  const turns = 2000;
  const run = () => {
    for (let k = 0; k < turns; k++) {
      at[0] = 8 + (k % 7) * 0.01;
      model.logDensity(at, gradient);
    }
  };
  for (let k = 0; k < 10; k++) run();
  let ours = Number.POSITIVE_INFINITY;
  for (let batch = 0; batch < 20; batch++) ours = Math.min(ours, processorSeconds(run));
  const folder = mkdtempSync(join(tmpdir(), "rodebench-holding-"));
  try {
    const table = join(folder, "pulls.txt");
    const rows = pulls.map((pull, i) =>
      [seen.kind[i], seen.low[i], degrees[i]! - 5, Math.log(pull.mass!) - model.lnMassMiddle, i % 6, i % 10].join(" "),
    );
    at[0] = 8;
    const value = model.logDensity(at, gradient);
    writeFileSync(table, `${rows.length} ${model.parameters} ${turns}\n${[...at].join(" ")}\n${rows.join("\n")}\n`);
    for (const [way, told] of [
      ["tabled", "the same loop in C, ln Φ by the same table"],
      ["below", "in C, ln Φ by quotients"],
      ["by_library", "in C, ln Φ by the library's erfc"],
    ] as const) {
      const program = join(folder, way);
      const source = [`-DLOG_BELOW=${way}`, "-o", program, join(here, "holding.c"), "-lm"];
      if (spawnSync("gcc", ["-O3", ...source]).status !== 0) {
        console.log(`gradient: ${((1e6 * ours) / turns).toFixed(1)} µs; gcc is not here`);
        return;
      }
      const c = spawnSync(program, [table], { encoding: "utf8" });
      const [seconds, theirValue, first] = c.stdout.trim().split(/\s+/).map(Number);
      const same = Math.abs(theirValue! - value) < 1e-6 && Math.abs(first! - gradient[0]!) < 1e-6;
      console.log(
        `gradient: ${((1e6 * ours) / turns).toFixed(1)} µs, ${(ours / seconds!).toFixed(2)} times ${told}${same ? "" : ` (C says ${theirValue}, ${first}; here ${value}, ${gradient[0]})`}`,
      );
    }
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function draws(): void {
  let gradientCount = 0;
  const seconds = processorSeconds(() => {
    for (let chain = 0; chain < 4; chain++) gradientCount += sampleOneChain(modelInput(), USUAL_PLAN, chain).gradients;
  });
  console.log(
    `4 × 1000 draws after warm-up (200 pulls, 6 anchors, 10 sites): ${seconds.toFixed(1)} s of one core, ${(seconds / 2).toFixed(1)} s on two; ${gradientCount} gradients after warm-up`,
  );
}

function filter(): void {
  const many: BookPulls = {
    pulls: Array.from({ length: 100_000 }, (_, i) => ({
      ...pulls[i % 200]!,
      seabed: i % 3 === 0 ? "mud" : "sand",
      day: "2031-05-01",
    })),
    ids: Array.from({ length: 100_000 }, (_, i) => String(i)),
    series: Array.from({ length: 100_000 }, (_, i) => String(i % 4)),
    versions: [],
    leftOut: [],
    remarks: [],
  };
  const question = { ...usualHolding, anchors: ["A1", "A3"], seabed: "sand", series: "1", from: "2031-01-01" };
  for (let k = 0; k < 5; k++) chosenPulls(many, question, new Set());
  const seconds = processorSeconds(() => {
    for (let k = 0; k < 10; k++) chosenPulls(many, question, new Set(["5"]));
  });
  console.log(`filter over 100 000 pulls: ${(100 * seconds).toFixed(1)} ms`);
}
