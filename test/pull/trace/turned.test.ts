/** A pull seen from another side: the compass turned, the place moved, the axes swapped; nothing measured may change. */
import { describe, expect, it } from "vitest";
import { type Trace, tracedToJson } from "../../../src/pull/index.ts";
import { reduceTrace } from "../../../src/pull/trace/reduce-trace.ts";
import { displayStep, readings } from "../../../src/pull/trace/trace.ts";
import { traceWords } from "../../../src/words/index.ts";
import { simulatePull } from "./simulated-pull.ts";

const give = (newtons: number): number => 6e-4 * Math.max(0, newtons) ** 0.5;
/** The first of some pulls in which an anchor dragged by a way the track tells. */
const trace: Trace = Array.from({ length: 40 }, (_, i) =>
  simulatePull({ seed: 800 + i, track: true, heading: true, noise: 0.002, surge: 0.005 }),
).find(({ trace: one }) =>
  reduceTrace(one, { readAt: "bow", give }).drags.some((d) => (d.distance?.value ?? 0) > 0.5),
)!.trace;

function turned(by: number, east = 0, north = 0): Trace {
  const { track, heading } = trace as Required<Trace>;
  const [c, s] = [Math.cos(by), Math.sin(by)];
  return {
    ...trace,
    track: {
      ...track,
      // Turned with the clock, as headings are counted.
      east: track.east.map((e, i) => c * e + s * track.north[i]! + east),
      north: track.north.map((n, i) => c * n - s * track.east[i]! + north),
    },
    heading: { ...heading, angle: heading.angle.map((a) => a + by) },
  };
}

/** What is told in metres and times of what the boat did. */
function moved(of: Trace, anchor?: { east: number; north: number }) {
  const r = reduceTrace(of, { readAt: "bow", give, ...(anchor === undefined ? {} : { settings: { anchor } }) });
  return {
    set: r.set.kind === "measured" ? [r.set.distance.value, r.set.distance.u, r.set.from, r.set.to] : [],
    drags: r.drags.flatMap((d) => [d.from, d.to, d.distance?.value ?? -1, d.distance?.u ?? -1]),
    kinds: r.corrected.marks.map((m) => m.kind),
  };
}

function same(one: ReturnType<typeof moved>, other: ReturnType<typeof moved>): void {
  expect(other.kinds).toEqual(one.kinds);
  expect(other.drags.length).toBe(one.drags.length);
  for (const key of ["set", "drags"] as const)
    one[key].forEach((value, i) => {
      // Turning rounds, and averages of places far off lose digits: a micrometre.
      expect(Math.abs(other[key][i]! - value), `${key} ${i}`).toBeLessThan(1e-6);
    });
}

describe("turning the whole chart", () => {
  const before = moved(trace);
  it("has something to turn", () => {
    expect(before.set.length).toBe(4);
    expect(before.drags.length).toBeGreaterThan(0);
    expect(before.drags[2]).toBeGreaterThan(0.2);
  });
  it.each([0.7, Math.PI / 2, -2.4, Math.PI])("by %d rad changes no distance, no ± and no mark", (by) =>
    same(before, moved(turned(by))),
  );
  it("moving it neither", () => same(before, moved(turned(0, 1000, -400))));
  it("with the anchor marked, turned along with it, likewise", () => {
    const anchor = { east: -60, north: 25 };
    const [c, s] = [Math.cos(1.1), Math.sin(1.1)];
    const there = { east: c * anchor.east + s * anchor.north + 7, north: c * anchor.north - s * anchor.east - 9 };
    same(moved(trace, anchor), moved(turned(1.1, 7, -9), there));
  });
});

describe("readings of a log", () => {
  it("have the median time between them, however many there are", () => {
    for (const n of [3, 50_000]) {
      const time = Float64Array.from({ length: n }, (_, i) => 10 + 0.25 * i);
      const all = readings(time, time, 3, "load");
      expect(all.interval).toBeCloseTo(0.25, 9);
      expect(all.longestGap).toBe(3);
      expect(all.dropped).toBe(0);
    }
    const slow = readings(Float64Array.of(0, 5, 10, 15), Float64Array.of(1, 2, 3, 4), 3, "load");
    expect([slow.interval, slow.longestGap]).toEqual([5, 20]);
  });
  it("tell the step of their display also when it is rarely met", () => {
    const values = Float64Array.from({ length: 60_000 }, (_, i) => (i % 7) * 5 + (i % 1000 === 3 ? 0.5 : 0));
    expect(displayStep(values)).toBeCloseTo(0.5, 9);
  });
});

describe("a reduction as a document", () => {
  const pull = simulatePull({ seed: 40_003, track: true, heading: true, reversal: true });
  const steps = [300, 600, 900].map((share) => ({ load: (share / 1000) * pull.truth.top, hold: 10 }));
  const r = reduceTrace(pull.trace, { readAt: "bow", give, steps });
  // biome-ignore lint/suspicious/noExplicitAny: a document, as another program gets it
  const json: any = JSON.parse(JSON.stringify(tracedToJson(r, traceWords("metric"))));
  const degrees = 180 / Math.PI;

  it("has each plateau, peak and cycle under its own name", () => {
    expect(r.plateaus.length).toBeGreaterThan(1);
    r.plateaus.forEach((p, i) => {
      expect(json.plateaus[i]).toEqual({
        id: p.id,
        from_s: p.from,
        to_s: p.to,
        duration_s: p.to - p.from,
        load_N: p.load.value,
        u_N: p.load.u,
        creep_N_per_s: p.creep.value,
        creepU_N_per_s: p.creep.u,
        scatter_N: p.scatter,
        independent: p.effective,
      });
    });
    r.peaks.forEach((p, i) => {
      expect(json.peaks[i]).toEqual({
        id: p.id,
        at_s: p.at,
        load_N: p.load.value,
        u_N: p.load.u,
        filtered_N: p.filtered,
        prominence_N: p.prominence,
        alone: p.alone,
        above: p.above.map((a) => ({ share: a.share, from_s: a.from, to_s: a.to, duration_s: a.seconds })),
      });
      for (const a of p.above) expect(a.seconds).toBeCloseTo(a.to - a.from, 9);
    });
    expect(json.peakCount).toBe(r.peakCount);
    expect(json.cycles.deadBand_N).toBe(r.cycles.deadBand);
    expect(json.cycles.total).toBe(r.cycles.total);
    expect(json.cycles.classes.map((c: { rangeUpTo_N: number }) => c.rangeUpTo_N)).toEqual(
      r.cycles.classes.map((c) => c.upTo),
    );
    for (const c of json.cycles.classes) expect(c.rangeAbove_N).toBeLessThan(c.rangeUpTo_N);
    expect(json.above).toEqual(
      r.above.map((a) => ({ load_N: a.level, upcrossings: a.upcrossings, duration_s: a.seconds })),
    );
  });

  it("has the log, the filter and the zero under theirs", () => {
    expect(json.log).toEqual({
      from_s: r.log.from,
      to_s: r.log.to,
      readings: r.log.readings,
      dropped: r.log.dropped,
      interval_s: r.log.interval,
      gaps: r.log.gaps.map((gap) => ({ from_s: gap.from, to_s: gap.to })),
      noise_N: r.log.noise,
    });
    expect(json.filter).toEqual({
      bandwidth_Hz: r.filter.bandwidth,
      timeConstant_s: r.filter.timeConstant,
      limitedByLog: r.filter.limitedByLog,
      grain_s: r.filter.grain,
      keeps: r.filter.keeps.map((k) => ({ peak_s: k.seconds, share: k.share })),
    });
    if (r.zero.kind !== "drifting") throw new Error(r.zero.kind);
    const { before, after, rate } = r.zero;
    expect(json.zero).toEqual({
      kind: "drifting",
      before: { from_s: before.from, to_s: before.to, read_N: before.mean, u_N: before.u },
      after: { from_s: after.from, to_s: after.to, read_N: after.mean, u_N: after.u },
      drift_N_per_s: rate.value,
      driftU_N_per_s: rate.u,
    });
  });

  it("has what the boat and the anchor did under theirs", () => {
    const newtons = (m: { value: number; u: number } | null) => m && { value_N: m.value, u_N: m.u };
    const metres = (m: { value: number; u: number } | null) => m && { value_m: m.value, u_m: m.u };
    expect(json.drags).toEqual(
      r.drags.map((d) => ({
        id: d.id,
        from_s: d.from,
        to_s: d.to,
        seenIn: d.seenIn,
        load_N: d.load.value,
        u_N: d.load.u,
        lost: newtons(d.lost),
        distance: metres(d.distance),
        why: traceWords("metric").mark(d.why),
      })),
    );
    expect(r.reversals.length).toBe(1);
    const [turn] = r.reversals;
    expect(json.reversals[0].turn_deg).toBeCloseTo(turn!.turn! * degrees, 9);
    expect(json.reversals[0].before).toEqual(newtons(turn!.before));
    expect(json.reversals[0].after).toEqual(newtons(turn!.after));
    expect([json.reversals[0].from_s, json.reversals[0].to_s]).toEqual([turn!.from, turn!.to]);
    if (r.set.kind !== "measured") throw new Error(r.set.kind);
    expect(json.set).toEqual({
      kind: "measured",
      value_m: r.set.distance.value,
      u_m: r.set.distance.u,
      from_s: r.set.from,
      to_s: r.set.to,
      give: r.set.give,
    });
    r.protocol!.steps.forEach(({ planned, outcome }, i) => {
      const said = json.protocol.steps[i];
      expect([said.load_N, said.hold_s, said.outcome.kind]).toEqual([planned.load, planned.hold, outcome.kind]);
      if (outcome.kind === "notReached") return;
      expect([said.outcome.plateau, said.outcome.off, said.outcome.held_s]).toEqual([
        outcome.plateau,
        outcome.off,
        outcome.held,
      ]);
    });
    expect(json.protocol.unplanned).toEqual(r.protocol!.unplanned);
    expect(json.held.kind).toBe(r.held.kind);
    if (r.held.kind !== "notKnown")
      expect([json.held.load_N, json.held.u_N, json.held.at, json.held.mark]).toEqual([
        r.held.newtons,
        r.held.u,
        r.held.at,
        r.held.mark,
      ]);
    for (const [i, mark] of r.corrected.marks.entries()) {
      const said = json.marks[i];
      expect([said.id, said.kind, said.from_s, said.to_s, said.origin]).toEqual([
        mark.id,
        mark.kind,
        mark.from,
        mark.to,
        mark.origin,
      ]);
      const [value, u] =
        mark.of === "angle" ? [said.value_deg / degrees, said.u_deg / degrees] : [said.value_N, said.u_N];
      expect(value).toBeCloseTo(mark.value, 9);
      expect(u).toBeCloseTo(mark.u, 9);
    }
  });
});
