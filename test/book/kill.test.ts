import { uniformInt } from "pure-rand/distribution/uniformInt";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { expect, it } from "vitest";
import { jobNames } from "./kill-job.ts";
import { buildChild, type Killed, killOnce } from "./kills.ts";

// scripts/kill-book.ts does the same 500 times.
it("25 programs killed at work lose nothing they told as done, and leave a sound book", async () => {
  const rng = xoroshiro128plus(20310517);
  const plan = Array.from({ length: 25 }, (_, i) => ({
    job: jobNames[i % jobNames.length]!,
    after_ms: uniformInt(rng, 0, 200),
    // Every other one at work for certain, however long it takes to begin.
    told: i % 2,
  }));
  const child = await buildChild();
  const killed: Killed[] = [];
  const work = async (): Promise<void> => {
    for (let next = plan.pop(); next; next = plan.pop())
      killed.push(await killOnce(child.path, next.job, next.after_ms, next.told));
  };
  await Promise.all([work(), work()]);
  child.remove();
  expect(killed.filter((k) => k.faults.length > 0)).toEqual([]);
  expect(killed).toHaveLength(25);
  // They were killed at work, not before it.
  expect(killed.filter((k) => k.done > 0).length).toBeGreaterThanOrEqual(12);
});
