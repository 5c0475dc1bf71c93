// Cuts the power under programs at work on a book, so often, and looks at what is left:
//   node --import tsx scripts/power-cuts.ts [COUNT=1000] [SEED=1]
// Prints a line for each fault and the tally; exit status 1 when there was any.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { jobNames } from "../test/book/kill-job.ts";
import { buildChild } from "../test/book/kills.ts";
import { cutOnce, recordJob } from "../test/book/power/cuts.ts";
import { buildRecorder } from "../test/book/power/trace.ts";

const count = Number(process.argv[2] ?? 1000);
const seed = Number(process.argv[3] ?? 1);
const rng = xoroshiro128plus(seed);
const draw = () => uniformFloat64(rng);
const only = process.argv[4];

const folder = mkdtempSync(join(tmpdir(), "rodebench-recorder-"));
const recorder = buildRecorder(folder);
if ("why" in recorder) {
  process.stdout.write(`not run: ${recorder.why}\n`);
  process.exit(0);
}
const child = await buildChild();
let faults = 0;
let cuts = 0;
const jobs = jobNames.filter((job) => only === undefined || job === only);
try {
  for (const job of jobs) {
    const recorded = await recordJob(child.path, recorder.library, job, job === "migrate" ? 9 : 12);
    for (const path of recorded.unseen) process.stdout.write(`${job}: the recording misses something of ${path}\n`);
    faults += recorded.unseen.length;
    const told = recorded.disk.toldBefore(recorded.disk.steps).length - 1;
    const sum = { cuts: 0, told: 0, faults: 0 };
    const until = Math.ceil(count / jobs.length);
    for (; sum.cuts < until; sum.cuts++) {
      const cut = await cutOnce(recorded, draw);
      sum.told += cut.told;
      sum.faults += cut.faults.length;
      for (const fault of cut.faults)
        process.stdout.write(
          `${job} cut before step ${cut.step}, bytes ${cut.fate.bytes}, names ${cut.fate.names}, ${cut.told} told: ${fault}\n`,
        );
    }
    cuts += sum.cuts;
    faults += sum.faults;
    process.stdout.write(
      `${job}: ${recorded.disk.steps} steps recorded, ${told} things done in them; ${sum.cuts} cuts, ${sum.told} things told before them, ${sum.faults} faults\n`,
    );
  }
} finally {
  child.remove();
  rmSync(folder, { recursive: true, force: true });
}
process.stdout.write(`${cuts} power cuts, ${faults} faults\n`);
process.exitCode = faults > 0 ? 1 : 0;
