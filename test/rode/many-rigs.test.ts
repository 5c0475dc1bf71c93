/** As scripts/random-rigs.ts, which settles ten times as many and with any seed. */
import { describe, expect, it } from "vitest";
import { settleTraced } from "../../src/rode/index.ts";
import { rng } from "../../src/statistics/index.ts";
import { offBy } from "./off-by.ts";
import { randomPull, randomRig } from "./random-rigs.ts";
import { unfounded } from "./refusals.ts";

const LOTS = 10;
const RIGS = 10_000;
/** What is asked of every equilibrium, as a share of the rode's lengths and forces. */
const CLOSED = 1e-9;
/** Some 2 s a lot on an idle machine: time for a busy one. */
const PATIENCE = 120_000;

describe("a hundred thousand random rigs heavier than their water, each under a random load or span", () => {
  const ends = new Map<string, number>();

  it.each(Array.from({ length: LOTS }, (_, lot) => lot))(
    "lot %d: each is settled, closing to 1e-9 when worked out anew, or has none for a reason that holds",
    (lot) => {
      const wrong: string[] = [];
      for (let i = lot * RIGS; i < (lot + 1) * RIGS; i++) {
        const random = rng(1e9 + i);
        const rig = randomRig(random);
        const pull = randomPull(random, rig);
        const answer = settleTraced(rig, pull);
        const end = "settled" in answer ? "settled" : answer.cause;
        ends.set(end, (ends.get(end) ?? 0) + 1);
        if ("settled" in answer) {
          const { worst, which } = offBy(rig, pull, answer);
          if (!(worst <= CLOSED)) wrong.push(`rig ${i}: ${which} off by ${worst}`);
        } else {
          const why = unfounded(rig, pull, answer);
          if (why !== null) wrong.push(`rig ${i}: refused as ${answer.cause}, but ${why}`);
        }
      }
      expect(wrong).toEqual([]);
    },
    PATIENCE,
  );

  it("are all accounted for, most of them settled, and every honest reason occurs", () => {
    expect([...ends.values()].reduce((sum, n) => sum + n, 0)).toBe(LOTS * RIGS);
    expect(ends.get("settled")).toBeGreaterThan(0.8 * LOTS * RIGS);
    expect([...ends.keys()].sort()).toEqual(
      ["aground", "beyondReach", "lighterThanHanging", "lighterThanResting", "settled", "tooNear"].sort(),
    );
  });
});
