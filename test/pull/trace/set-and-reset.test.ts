import { describe, expect, it } from "vitest";
import { reduceTrace } from "../../../src/pull/trace/reduce-trace.ts";
import { recallOf, seedsFrom, share } from "./recall.ts";
import { simulatePull } from "./simulated-pull.ts";

/** The simulator's rode gives 6 m · T/(T + 0.15 top) as it is pulled straight. */
const giveOf = (top: number) => (newtons: number) => (6 * Math.max(0, newtons)) / (Math.max(0, newtons) + 0.15 * top);

describe("set distance", () => {
  // It said before how far the boat went, the rode's give among it, where no rig was known: the curve of load and track
  // takes that give off too, with a ± that says how well.
  it("is nothing when the anchor did not move, by the rig's curve and by one fitted to load and track", () => {
    let checked = 0;
    for (let seed = 700; seed < 720; seed++) {
      const { trace, truth } = simulatePull({ seed, track: true, drags: false, noise: 0.002, surge: 0.005 });
      const plain = reduceTrace(trace, { readAt: "bow" });
      const freed = reduceTrace(trace, { readAt: "bow", give: giveOf(truth.top) });
      if (plain.set.kind !== "measured" || freed.set.kind !== "measured") continue;
      checked++;
      expect([plain.set.give, freed.set.give]).toEqual(["fitted", "rig"]);
      // Four standard uncertainties: twenty pulls are looked at, and u itself is estimated.
      expect(Math.abs(plain.set.distance.value)).toBeLessThan(4 * plain.set.distance.u);
      expect(Math.abs(freed.set.distance.value)).toBeLessThan(4 * freed.set.distance.u + 0.3);
    }
    expect(checked).toBeGreaterThan(15);
  });

  it("is not known without a track", () => {
    expect(reduceTrace(simulatePull({ seed: 3 }).trace, { readAt: "bow" }).set).toEqual({
      kind: "notKnown",
      why: "noTrack",
    });
  });

  it("of a drag is the way the anchor went", () => {
    let close = 0;
    let all = 0;
    for (let seed = 800; seed < 840; seed++) {
      const { trace, truth } = simulatePull({ seed, track: true, noise: 0.002, surge: 0.005 });
      const r = reduceTrace(trace, { readAt: "bow", give: giveOf(truth.top) });
      for (const t of truth.drags) {
        const d = r.drags.find((x) => x.from < t.to + 2 && x.to > t.from - 2);
        if (!d?.distance) continue;
        all++;
        if (Math.abs(d.distance.value - t.distance) < 3 * d.distance.u + 0.5) close++;
      }
    }
    expect(all).toBeGreaterThan(20);
    expect(close / all).toBeGreaterThan(0.9);
  });
});

describe("re-set after a reversal", () => {
  it("is seen by heading in every pull, and by the boat's own track in nineteen of twenty", () => {
    const byHeading = recallOf(seedsFrom(40_001, 60), { heading: true, reversal: true });
    const byTrack = recallOf(seedsFrom(50_001, 60), { track: true, reversal: true });
    expect(share(byHeading.reversal)).toBe(1);
    expect(byHeading.reversal.falseAlarms).toBe(0);
    expect(share(byTrack.reversal)).toBeGreaterThan(0.9);
    expect(byTrack.reversal.falseAlarms).toBeLessThanOrEqual(1);
  });

  it("tells whether the anchor held half of what it had held before", () => {
    let right = 0;
    let all = 0;
    for (let seed = 900; seed < 960; seed++) {
      const { trace, truth } = simulatePull({
        seed,
        heading: true,
        reversal: true,
        noise: 0.002,
        surge: 0.005,
        drags: false,
      });
      const r = reduceTrace(trace, { readAt: "bow" });
      const best = (from: number, to: number): number =>
        Math.max(0, ...truth.plateaus.filter((p) => p.from >= from && p.to <= to).map((p) => p.mean));
      const before = best(0, truth.reversal!.from + 1);
      const after = best(truth.reversal!.to - 1, Number.POSITIVE_INFINITY);
      // Near one half the answer may fall either way.
      if (Math.abs(after / before - 0.5) < 0.05) continue;
      all++;
      const outcome = r.reversals[0]?.outcome.kind;
      if (outcome === (after > 0.5 * before ? "reset" : "didNotReset")) right++;
    }
    expect(all).toBeGreaterThan(40);
    expect(right / all).toBeGreaterThan(0.95);
  });

  it("marked by hand is judged like one that was seen", () => {
    const { trace, truth } = simulatePull({ seed: 905, reversal: true, noise: 0.002, surge: 0.005, drags: false });
    expect(reduceTrace(trace, { readAt: "bow" }).reversals).toEqual([]);
    const { from, to } = truth.reversal!;
    const mark = {
      id: "turned",
      kind: "reversal",
      from,
      to,
      value: 0,
      u: 0,
      of: "angle",
      why: { kind: "written", text: "seen from the quay" },
    } as const;
    const [r] = reduceTrace(trace, { readAt: "bow", corrections: [{ change: "add", mark }] }).reversals;
    expect(r).toMatchObject({ id: "turned", turn: null });
    expect(r!.before).not.toBeNull();
  });
});
