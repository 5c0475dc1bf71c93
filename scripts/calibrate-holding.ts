/**
 * Simulation-based calibration (Talts et al., arXiv:1804.06788) of the model conclusions come from: truths are drawn from
 * its priors, small series pulled from them (4 anchors, 6 pulls each, about two thirds ended while they held), and each
 * truth ranked among draws of what the series then says. If sampler, gradient and model are one, the ranks are uniform.
 * With `read`, each load has an error and each angle is the one its own load made. The series are dealt out to four
 * processes, each with a seed of its own; ctrl-c reports on those that are done.
 *
 *     node --import tsx scripts/calibrate-holding.ts [series] [law] [read]
 */
import { type ChildProcess, spawn } from "node:child_process";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";
import type { Law } from "../src/holding/index.ts";
import { type Calibrated, calibrated, gathered, uniformity } from "../test/holding/calibration.ts";

const PROCESSES = 4;
const series = Number(process.argv[2] ?? 500);
const law: Law = process.argv[3] === "weibull" ? "weibull" : "lognormal";
const read = process.argv[4] === "read";
const seed = process.argv[5];

if (seed !== undefined) {
  for (const one of calibrated(series, law, Number(seed), read)) process.stdout.write(`${JSON.stringify(one)}\n`);
} else {
  const each = Math.ceil(series / PROCESSES);
  const done: Calibrated[] = [];
  const runs = Array.from({ length: PROCESSES }, (_, k) => run(Math.min(each, series - k * each), k + 1));
  for (const signal of ["SIGINT", "SIGTERM"] as const)
    process.on(signal, () => {
      for (const one of runs) one.kill();
    });
  await Promise.all(runs.map((one) => lines(one, done)));
  report(done);
}

/** A process of its own for so many series. */
function run(count: number, own: number): ChildProcess {
  const file = fileURLToPath(import.meta.url);
  const command = ["--import", "tsx", file, String(count), law, read ? "read" : "-", String(own)];
  return spawn(process.execPath, command, { stdio: ["ignore", "pipe", "inherit"] });
}

async function lines(from: ChildProcess, done: Calibrated[]): Promise<void> {
  for await (const line of createInterface({ input: from.stdout! })) {
    // A process that was ended may leave half a line.
    if (!line.endsWith("}")) continue;
    done.push(JSON.parse(line) as Calibrated);
    if (process.stderr.isTTY || done.length % 25 === 0) process.stderr.write(`${done.length} of ${series}\n`);
  }
}

function report(done: readonly Calibrated[]): void {
  const { names, ranks, covered, coveredAll, heldOn } = gathered(done);
  const few = done.length < series ? `${done.length} of ${series} series` : `${series} series`;
  process.stdout.write(
    `${few}, ${law}${read ? ", loads with errors, angles of the loads' making" : ""}, ${(100 * heldOn).toFixed(0)} % of pulls ended while the anchor held\n`,
  );
  process.stdout.write("chi-squared (19 df)       p   in 95 % limits   parameter\n");
  for (const [k, name] of names.entries()) {
    const { chi2, p } = uniformity(ranks[k]!);
    process.stdout.write(
      `${chi2.toFixed(1).padStart(19)}  ${p.toFixed(4)}   ${(100 * covered[k]!).toFixed(1).padStart(12)} %   ${name}\n`,
    );
  }
  process.stdout.write(`all parameters: ${(100 * coveredAll).toFixed(2)} % within 95 % limits\n`);
}
