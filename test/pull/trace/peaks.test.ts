import { describe, expect, it } from "vitest";
import { timeAbove } from "../../../src/pull/trace/peaks.ts";
import { reduceTrace } from "../../../src/pull/trace/reduce-trace.ts";
import { readings } from "../../../src/pull/trace/trace.ts";

/** A pull of one step of 1000 N with a triangle of `height` N and `width` s on it at 60 s. */
function withTriangle(height: number, width: number, rate = 50) {
  const n = 120 * rate + 1;
  const time = Float64Array.from({ length: n }, (_, i) => i / rate);
  const load = time.map((t) => {
    const base = 1000 * Math.max(0, Math.min(1, (t - 10) / 15, (110 - t) / 5));
    return base + Math.max(0, height * (1 - Math.abs(t - 60) / (width / 2)));
  });
  return { time, load };
}

describe("peaks", () => {
  it("are the highest reading, with the time above shares of it", () => {
    const r = reduceTrace(withTriangle(1000, 2), { readAt: "bow" });
    expect(r.peaks.length).toBe(1);
    const peak = r.peaks[0]!;
    expect(peak.at).toBeCloseTo(60, 9);
    expect(peak.load.value).toBeCloseTo(2000, 6);
    // 1800 N is four fifths up a triangle of 2 s: 0.4 s… of its width 2 s × (2000 − 1800)/1000.
    expect(peak.above.find((a) => a.share === 0.9)!.seconds).toBeCloseTo(0.4, 6);
    expect(peak.above.find((a) => a.share === 0.75)!.seconds).toBeCloseTo(1, 6);
    // Nothing but slack lies on either side of it.
    expect(peak.prominence).toBeCloseTo(2000, 6);
  });

  it("keep in the filtered load what the filter says of short peaks, and not more", () => {
    const peak = reduceTrace(withTriangle(1000, 0.6), { readAt: "bow" }).peaks[0]!;
    expect(peak.filtered).toBeGreaterThan(1200);
    expect(peak.filtered).toBeLessThan(1000 + 1000 * 0.8);
  });

  it("of two, one lower than the prominence asked for is none", () => {
    const pull = withTriangle(500, 2);
    const load = pull.load.map((v, i) => v + Math.max(0, 80 * (1 - Math.abs(pull.time[i]! - 90))));
    const at = (prominence: number): number[] =>
      reduceTrace({ time: pull.time, load }, { readAt: "bow", settings: { peak: { prominence } } }).peaks.map((p) =>
        Math.round(p.at),
      );
    expect(at(0.1)).toEqual([60]);
    expect(at(0.05)).toEqual([60, 90]);
  });

  it("a pull's own highest reading is one", () => {
    expect(reduceTrace(withTriangle(0, 2), { readAt: "bow" }).peaks.map((p) => p.load.value)).toEqual([1000]);
  });
});

describe("crossings of a level", () => {
  const time = Float64Array.from({ length: 801 }, (_, i) => i / 10);
  const log = readings(
    time,
    time.map((t) => 100 * Math.sin((2 * Math.PI * t) / 8)),
    3,
    "load",
  );

  it("count each rise once, and the time above", () => {
    const [zero, half] = timeAbove(log, log.value, [0, 50], 0);
    // Ten periods of 8 s. From zero load on, the first reading lies on the level: nine rises come after it.
    expect(zero!.upcrossings).toBe(10 - 1);
    expect(zero!.seconds).toBeCloseTo(40, 1);
    expect(half!.upcrossings).toBe(10);
    // sin > 1/2 for a third of the time; straight lines between readings cut the arc by 1e-3.
    expect(Math.abs(half!.seconds - 80 / 3)).toBeLessThan(0.03);
  });

  it("a dead band lets ripples pass", () => {
    const ripple = log.value.map((v, i) => v + (i % 2 === 0 ? 6 : -6));
    const without = timeAbove(log, ripple, [50], 0)[0]!.upcrossings;
    const withBand = timeAbove(log, ripple, [50], 20)[0]!.upcrossings;
    expect(without).toBeGreaterThan(10);
    expect(withBand).toBe(10);
  });
});
