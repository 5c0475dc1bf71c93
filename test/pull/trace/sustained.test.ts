import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sustainedLoads } from "../../../src/pull/trace/sustained.ts";

const of = (time: readonly number[], load: readonly number[], durations: readonly number[], gap = 3) =>
  sustainedLoads({ time: Float64Array.from(time) }, Float64Array.from(load), durations, gap, () => 7);

/** The same by trying every stretch. */
function byTrying(time: readonly number[], load: readonly number[], duration: number, gap: number): number | null {
  let best: number | null = null;
  for (let i = 0; i < time.length; i++) {
    let low = load[i]!;
    for (let j = i; j < time.length; j++) {
      if (j > i && time[j]! - time[j - 1]! > gap) break;
      low = Math.min(low, load[j]!);
      if (time[j]! - time[i]! >= duration && (best === null || low > best)) best = low;
    }
  }
  return best;
}

describe("the highest load sustained", () => {
  it("for some time is the lowest reading of the best stretch that lasts so long, with its ± and where it lies", () => {
    const load = [0, 10, 50, 40, 45, 30, 30, 60, 5];
    expect(of([0, 1, 2, 3, 4, 5, 6, 7, 8], load, [1, 2, 3, 6, 60])).toEqual([
      { duration: 1, from: 2, to: 3, load: { value: 40, u: 7 } },
      { duration: 2, from: 2, to: 4, load: { value: 40, u: 7 } },
      { duration: 3, from: 2, to: 5, load: { value: 30, u: 7 } },
      { duration: 6, from: 1, to: 7, load: { value: 10, u: 7 } },
    ]);
  });

  it("does not reach across a gap", () => {
    expect(of([0, 1, 2, 10, 11], [9, 9, 9, 9, 9], [2, 3])).toEqual([
      { duration: 2, from: 0, to: 2, load: { value: 9, u: 7 } },
    ]);
  });

  it("is what trying every stretch finds, whatever the times and loads", () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ wait: fc.integer({ min: 1, max: 9 }), load: fc.integer({ min: -5, max: 20 }) }), {
          minLength: 1,
          maxLength: 40,
        }),
        fc.integer({ min: 1, max: 25 }),
        (rows, duration) => {
          let now = 0;
          const time = rows.map(({ wait }) => (now += wait));
          const load = rows.map((row) => row.load);
          expect(of(time, load, [duration], 6)[0]?.load.value ?? null).toBe(byTrying(time, load, duration, 6));
        },
      ),
      { seed: 5, numRuns: 400 },
    );
  });
});
