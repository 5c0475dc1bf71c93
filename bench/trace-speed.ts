/**
 * How long the reduction of a log takes beside the least that any reduction must do: reading every value once in
 * order and sorting nothing. Time of the processor, not of the clock: other work on the machine does not count.
 * Ratios travel between machines; the times are this machine's.
 *
 * node --import tsx bench/trace-speed.ts
 */
import { reduceTrace } from "../src/pull/index.ts";
import { simulatePull } from "../test/pull/trace/simulated-pull.ts";

const sizes = [10_000, 100_000, 1_000_000];

/** One pull after another until the log is long enough. */
function longLog(readings: number, rate: number): { time: Float64Array; load: Float64Array } {
  const time = new Float64Array(readings);
  const load = new Float64Array(readings);
  let filled = 0;
  for (let seed = 1; filled < readings; seed++) {
    const { trace } = simulatePull({ seed, rate, top: 8000, spikes: 2 });
    const n = Math.min(trace.time.length, readings - filled);
    const from = filled / rate;
    for (let i = 0; i < n; i++) {
      time[filled + i] = from + trace.time[i]!;
      load[filled + i] = trace.load[i]!;
    }
    filled += n;
  }
  return { time, load };
}

function quickest(runs: number, work: () => unknown): number {
  let best = Number.POSITIVE_INFINITY;
  for (let k = 0; k < runs; k++) {
    const began = process.cpuUsage();
    work();
    const used = process.cpuUsage(began);
    best = Math.min(best, (used.user + used.system) / 1000);
  }
  return best;
}

let kept = 0;
console.log("readings   rate Hz   hours   reduce ms   one pass ms   passes   ns a reading");
for (const rate of [1000, 10]) {
  for (const n of sizes) {
    const trace = longLog(n, rate);
    const pass = quickest(9, () => {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += trace.load[i]! * trace.load[i]!;
      kept += sum;
    });
    const all = quickest(3, () => {
      kept += reduceTrace(trace, { readAt: "bow" }).marks.length;
    });
    const cells = [
      String(n),
      String(rate),
      (n / rate / 3600).toFixed(2),
      all.toFixed(1),
      pass.toFixed(2),
      (all / pass).toFixed(0),
      ((1e6 * all) / n).toFixed(0),
    ];
    console.log(cells.map((c, i) => c.padStart([8, 9, 7, 11, 13, 8, 14][i]!)).join(" "));
  }
}
if (!Number.isFinite(kept)) throw new Error("the sums came to nothing");
