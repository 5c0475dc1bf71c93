// Kills programs at work on a book at random moments and looks at what they leave:
//   node --import tsx scripts/kill-book.ts [COUNT=500] [SEED=1]
// Prints a line for each fault and the tally; exit status 1 when there was any.
import { uniformInt } from "pure-rand/distribution/uniformInt";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { jobNames } from "../test/book/kill-job.ts";
import { buildChild, type Killed, killOnce } from "../test/book/kills.ts";

const count = Number(process.argv[2] ?? 500);
const seed = Number(process.argv[3] ?? 1);
const rng = xoroshiro128plus(seed);
const plan = Array.from({ length: count }, (_, i) => ({
  job: jobNames[i % jobNames.length]!,
  after_ms: uniformInt(rng, 0, 300),
}));

const tally = new Map<string, { kills: number; done: number; faults: number }>();
let next = 0;
async function work(): Promise<void> {
  while (next < plan.length) {
    const { job, after_ms } = plan[next++]!;
    note(await killOnce(child.path, job, after_ms));
  }
}
function note({ job, after_ms, done, faults }: Killed): void {
  const sum = tally.get(job) ?? { kills: 0, done: 0, faults: 0 };
  tally.set(job, { kills: sum.kills + 1, done: sum.done + done, faults: sum.faults + faults.length });
  for (const fault of faults) process.stdout.write(`${job} killed after ${after_ms} ms: ${fault}\n`);
}

// Two at a time: while one is looked at, the next one works.
const child = await buildChild();
await Promise.all([work(), work()]);
child.remove();
let faults = 0;
for (const [job, sum] of tally) {
  faults += sum.faults;
  process.stdout.write(`${job}: ${sum.kills} kills, ${sum.done} things told as done, ${sum.faults} faults\n`);
}
process.exitCode = faults > 0 ? 1 : 0;
