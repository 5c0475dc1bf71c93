/** The small parts of a trace's reduction, each against the same written out plainly. */
import { describe, expect, it } from "vitest";
import { apart, mostLikely, softmax } from "../../../src/pull/anchor/direction.ts";
import type { FixGrid } from "../../../src/pull/anchor/fix-grid.ts";
import { placeOf, statedDirection, stretchesOf } from "../../../src/pull/anchor/stretches.ts";
import { evenly, meanOver, sums, unbroken } from "../../../src/pull/trace/even.ts";
import { giveOf } from "../../../src/pull/trace/give.ts";
import { meanHeading } from "../../../src/pull/trace/headings.ts";
import { JoiningHeap } from "../../../src/pull/trace/joining-heap.ts";
import { costOf, line, lineCosts } from "../../../src/pull/trace/line-fit.ts";
import { onPlaneOf, planeAt } from "../../../src/pull/trace/plane.ts";
import type { TraceSettings } from "../../../src/pull/trace/settings.ts";
import { settledCuts, withoutSlivers } from "../../../src/pull/trace/settled-cuts.ts";
import type { Readings, Track } from "../../../src/pull/trace/trace.ts";
import { readRig, settle } from "../../../src/rode/index.ts";
import { rng } from "../../../src/statistics/index.ts";

const random = rng(31);

/** Weighted residual sum of squares of the best line, by its two normal equations. */
function plainCost(y: readonly number[], w: readonly number[]): number {
  let [n, x, v, xx, xv] = [0, 0, 0, 0, 0];
  y.forEach((value, k) => {
    n += w[k]!;
    x += w[k]! * k;
    v += w[k]! * value;
    xx += w[k]! * k * k;
    xv += w[k]! * k * value;
  });
  const slope = (n * xv - x * v) / (n * xx - x * x);
  const middle = (v - slope * x) / n;
  return y.reduce((sum, value, k) => sum + w[k]! * (value - middle - slope * k) ** 2, 0);
}

describe("straight lines through a series", () => {
  const y = Float64Array.from({ length: 12 }, (_, k) => 3 + 0.5 * k + random.normal());
  const w = Float64Array.from({ length: 12 }, () => 0.5 + random.uniform());

  it("cost what their weighted residuals do, grain by grain either way", () => {
    const up = lineCosts(y, 2, 11, 1, w);
    const down = lineCosts(y, 10, 1, -1, w);
    expect([up[0], up[1], down[0]]).toEqual([0, expect.closeTo(0, 12), 0]);
    for (let j = 2; j < 9; j++) {
      const forward = Array.from({ length: j + 1 }, (_, k) => 2 + k);
      expect(up[j]).toBeCloseTo(
        plainCost(
          forward.map((k) => y[k]!),
          forward.map((k) => w[k]!),
        ),
        9,
      );
      const back = forward.map((_, k) => 10 - k);
      expect(down[j]).toBeCloseTo(
        plainCost(
          back.map((k) => y[k]!),
          back.map((k) => w[k]!),
        ),
        9,
      );
    }
    expect(costOf(y, 2, 11, w)).toBe(up[8]);
  });

  it("have the mean and the slope of least squares", () => {
    const straight = Float64Array.from({ length: 9 }, (_, k) => 7 - 2 * k);
    expect(line(straight, 2, 7)).toEqual({ from: 2, to: 7, mean: 7 - 2 * 4, slope: expect.closeTo(-2, 12) });
    expect(line(straight, 3, 4)).toEqual({ from: 3, to: 4, mean: 1, slope: 0 });
    // By hand: 1, 3, 2 about 2 with slopes −1·(−1) + 0 + 1·0 over 2.
    expect(line(Float64Array.of(1, 3, 2), 0, 3)).toEqual({ from: 0, to: 3, mean: 2, slope: 0.5 });
  });

  it("are cut where two of them fit best", () => {
    const bent = Float64Array.from({ length: 60 }, (_, k) => (k < 37 ? 100 + k : 300 - 4 * k));
    const even = new Float64Array(60).fill(1);
    expect(settledCuts(bent, [0, 30, 60], even)).toEqual([0, 37, 60]);
    expect(settledCuts(bent, [0, 45, 60], even)).toEqual([0, 37, 60]);
    // Farther than two dozen grains a cut is not moved at once.
    const late = Float64Array.from({ length: 200 }, (_, k) => (k < 150 ? 0 : 500));
    expect(settledCuts(late, [0, 140, 200], new Float64Array(200).fill(1))).toEqual([0, 150, 200]);
  });

  it("lose a cut whose going costs less than the penalty, and a sliver for one cut within it", () => {
    const step = Float64Array.from({ length: 40 }, (_, k) => (k < 20 ? 0 : 100));
    const even = new Float64Array(40).fill(1);
    const ends = (cuts: number[], penalty: number) =>
      withoutSlivers(step, cuts, penalty, even).map(({ from, to }) => [from, to]);
    expect(ends([0, 10, 20, 40], 50)).toEqual([
      [0, 20],
      [20, 40],
    ]);
    // A short piece laid across the step: one cut at the step in place of two beside it.
    expect(ends([0, 17, 23, 40], 50)).toEqual([
      [0, 20],
      [20, 40],
    ]);
    expect(ends([0, 20, 40], 1e9)).toEqual([[0, 40]]);
    expect(withoutSlivers(step, [0, 20, 40], 50, even)[1]).toMatchObject({ mean: 100, slope: expect.closeTo(0, 12) });
  });
});

describe("a heap of joinings", () => {
  it("hands out the cheapest first, each with its own key and stamp", () => {
    const heap = new JoiningHeap(50);
    const put: { cost: number; key: number; stamp: number }[] = [];
    for (let k = 0; k < 120; k++) {
      const one = { cost: Math.round(100 * random.uniform()), key: k, stamp: 7 * k };
      put.push(one);
      heap.push(one.cost, one.key, one.stamp);
      if (k % 5 === 4) {
        const cheapest = Math.min(...put.map(({ cost }) => cost));
        const out = heap.pop();
        expect(out.cost).toBe(cheapest);
        expect(put).toContainEqual(out);
        put.splice(
          put.findIndex(({ key }) => key === out.key),
          1,
        );
      }
    }
    expect(heap.size).toBe(put.length);
    const rest = Array.from({ length: put.length }, () => heap.pop());
    expect(rest.map(({ cost }) => cost)).toEqual(put.map(({ cost }) => cost).sort((a, b) => a - b));
    expect(new Set(rest.map(({ key }) => key)).size).toBe(put.length);
    expect(rest.every(({ key, stamp }) => stamp === 7 * key)).toBe(true);
    expect(heap.size).toBe(0);
  });
});

describe("a trace over even grains", () => {
  const of = (time: number[], value: number[], longestGap = 10): Readings =>
    ({ time: Float64Array.from(time), value: Float64Array.from(value), longestGap }) as unknown as Readings;

  it("is the mean of the straight lines between readings, over each grain", () => {
    // 0 at 0 s to 4 at 4 s, down to 2 at 6 s: by hand.
    const { value, start, grain } = evenly(of([0, 4, 6], [0, 4, 2]), 2, 0, 6);
    expect([start, grain]).toEqual([0, 2]);
    expect([...value]).toEqual([1, 3, 3]);
    // Grains of 1.5 s from 1 s on: means at 1.75 and 3.25; the last is cut short at 6 s.
    const other = evenly(of([0, 4, 6], [0, 4, 2]), 1.5, 1, 6).value;
    expect(other[0]).toBeCloseTo(1.75, 12);
    expect(other[1]).toBeCloseTo(3.25, 12);
    expect(other[2]).toBeCloseTo(3.25, 12);
    expect(other[3]).toBeCloseTo(2.25, 12);
  });

  it("is none over a gap longer than is bridged, nor where less than half of a grain is covered", () => {
    const { value } = evenly(of([0, 2, 8, 10], [1, 1, 5, 5], 5), 2, 0, 10);
    expect([...value]).toEqual([1, Number.NaN, Number.NaN, Number.NaN, 5]);
    expect([...evenly(of([0, 2, 8, 10], [1, 1, 5, 5], 6), 2, 0, 10).value]).toEqual([
      1,
      expect.closeTo(5 / 3, 12),
      3,
      expect.closeTo(13 / 3, 12),
      5,
    ]);
    // One second of two is half; less is not.
    expect(evenly(of([1, 2], [3, 3]), 2, 0, 2).value[0]).toBe(3);
    expect(evenly(of([1.01, 2], [3, 3]), 2, 0, 2).value[0]).toBeNaN();
  });

  it("bridges what is left out", () => {
    const { value } = evenly(of([0, 1, 2], [1, 99, 1]), 1, 0, 2, Uint8Array.of(0, 1, 0));
    expect([...value]).toEqual([1, 1]);
  });

  it("has runs without a gap, and means over any part by sums", () => {
    const value = Float64Array.of(1, 2, Number.NaN, 4, 5, 6, Number.NaN);
    expect(unbroken(value)).toEqual([
      [0, 2],
      [3, 6],
    ]);
    expect(unbroken(Float64Array.of(1, 2))).toEqual([[0, 2]]);
    const s = sums(value);
    expect(meanOver(s, 0, 2)).toBe(1.5);
    expect(meanOver(s, 1, 5)).toBeCloseTo(11 / 3, 12);
    // Half of them read is enough, less is not.
    expect(meanOver(s, 1, 3)).toBe(2);
    expect(meanOver(s, 2, 3)).toBeNaN();
    expect(meanOver(s, 5, 8)).toBeNaN();
    expect(meanOver(s, -1, 1)).toBe(1);
    expect(meanOver(s, 4, 4)).toBeNaN();
  });
});

describe("places on a plane", () => {
  // Lengths of a degree on the ellipsoid of WGS 84 (recalled): of longitude 111 319.491 m at the equator and 78 846.81 m
  // at 45°; of latitude 110 574.28 m and 111 131.75 m. Taken over a thousandth of a degree.
  it.each([
    [0, 111_319.491, 110_574.28],
    [45, 78_846.81, 111_131.75],
  ])("at %s° a degree east and a degree north are so long", (latitude, east, north) => {
    const plane = planeAt(latitude, 12);
    expect(plane.east(12.001) * 1000).toBeCloseTo(east, 1);
    expect(plane.north(latitude + 0.001) * 1000).toBeCloseTo(north, 0);
    expect(plane.east(11.999)).toBeCloseTo(-plane.east(12.001), 6);
  });
  it("go the short way over the line where days change, and need an origin", () => {
    const plane = planeAt(0, 179.999);
    expect(plane.east(-179.999)).toBeCloseTo(222.639, 2);
    expect(planeAt(0, -179.999).east(179.999)).toBeCloseTo(-222.639, 2);
    const track = { origin: { latitude: 0, longitude: 10 } } as unknown as Track;
    expect(onPlaneOf(track, { latitude: 0.001, longitude: 10.002 })).toEqual({
      east: expect.closeTo(222.639, 2),
      north: expect.closeTo(110.574, 2),
    });
    expect(onPlaneOf({} as Track, { latitude: 0, longitude: 0 })).toBeNull();
  });
});

describe("headings and directions", () => {
  const headings = { time: Float64Array.of(0, 10, 20, 30, 40), angle: Float64Array.of(1, 0.1, -0.1, Number.NaN, 3) };
  it("mean what lies within the span, both ends among it", () => {
    expect(meanHeading(headings, { from: 10, to: 30 })).toEqual({
      angle: expect.closeTo(0, 12),
      agreement: expect.closeTo(Math.cos(0.1), 12),
    });
    expect(meanHeading(headings, { from: 10, to: 10 })!.angle).toBeCloseTo(0.1, 12);
    expect(meanHeading(headings, { from: 10.5, to: 20 })!.angle).toBeCloseTo(-0.1, 12);
    expect(meanHeading(headings, { from: 21, to: 39 })).toBeNull();
    const contrary = { time: Float64Array.of(0, 1), angle: Float64Array.of(0, Math.PI) };
    expect(meanHeading(contrary, { from: 0, to: 1 })!.agreement).toBeCloseTo(0, 12);
  });
  it("are apart by the shorter way, and weighed by the exponentials of their logarithms", () => {
    expect(apart(3, -3)).toBeCloseTo(6 - 2 * Math.PI, 12);
    expect(apart(-3, 3)).toBeCloseTo(2 * Math.PI - 6, 12);
    expect(apart(1, 0.4)).toBeCloseTo(0.6, 12);
    const weights = softmax([1000, 1000 + Math.log(3)]);
    expect([...weights]).toEqual([expect.closeTo(0.25, 12), expect.closeTo(0.75, 12)]);
    expect(mostLikely(Float64Array.of(0.2, 0.5, 0.3))).toBe(1);
  });
});

describe("stretches of a track", () => {
  /** Steps of two seconds; slack where `tight` is 0. */
  const grid = (tight: readonly number[], east: (k: number) => number): FixGrid =>
    ({
      start: 100,
      step: 2,
      tight: Uint8Array.from(tight),
      east: Float64Array.from(tight, (_, k) => east(k)),
      north: Float64Array.from(tight, () => 4),
    }) as unknown as FixGrid;
  const pattern = (slack: number) => [0, 1, 1, 1, 1, 1, 1, ...new Array<number>(slack).fill(0), 1, 1, 1, 1, 1, 1, 0];

  it("are cut where the rode was slack for more than eight seconds and the boat came back ten metres off", () => {
    const moved = (metres: number, slack: number) =>
      stretchesOf(grid(pattern(slack), (k) => (k < 7 + slack ? 0 : metres)));
    expect(moved(10.5, 4)).toEqual([
      { from: 1, to: 7 },
      { from: 11, to: 17 },
    ]);
    expect(moved(9.5, 4)).toEqual([{ from: 1, to: 17 }]);
    // Three slack steps: eight seconds from tight to tight.
    expect(moved(10.5, 3)).toEqual([{ from: 1, to: 16 }]);
    expect(stretchesOf(grid([0, 0, 0], () => 0))).toEqual([]);
  });

  it("lie where their tight fixes do in the mean", () => {
    expect(
      placeOf(
        grid([1, 0, 1, 1], (k) => 10 * k),
        0,
        4,
      ),
    ).toEqual({ east: expect.closeTo(50 / 3, 12), north: 4 });
    expect(
      placeOf(
        grid([1, 0, 1, 1], (k) => 10 * k),
        1,
        2,
      ),
    ).toBeNull();
    expect(
      placeOf(
        grid([1, 0, 1, 1], (k) => 10 * k),
        -5,
        1,
      ),
    ).toEqual({ east: 0, north: 4 });
  });

  it("are pulled as stated: away from the anchor's place, along a bearing, or by the heading, the bow to the anchor", () => {
    const one = grid([1, 1, 1, 1], () => 3);
    const stretch = { from: 0, to: 4 };
    const by = (settings: Partial<TraceSettings>, heading?: number) =>
      statedDirection(
        one,
        stretch,
        heading === undefined
          ? undefined
          : { time: Float64Array.of(102, 106), angle: Float64Array.of(heading, heading) },
        settings as TraceSettings,
      );
    // Four north and three east of an anchor at the origin.
    expect(by({ anchor: { east: 0, north: 0 } })).toEqual({
      value: expect.closeTo(Math.atan2(3, 4), 12),
      u: 0.4,
      by: "anchor",
    });
    expect(by({ anchor: { east: 3, north: 104 } })).toMatchObject({ value: expect.closeTo(Math.PI, 12), u: 0.02 });
    // Within three metres the place says nothing of the direction.
    expect(by({ anchor: { east: 1, north: 3 } })).toBeNull();
    expect(by({ bearing: 1.1 })).toEqual({ value: 1.1, u: 0.1, by: "stated" });
    expect(by({ pulls: "ahead" }, 0.7)).toEqual({ value: expect.closeTo(0.7, 12), u: 0.08, by: "heading" });
    expect(by({ pulls: "astern" }, 0.7)!.value).toBeCloseTo(0.7 + Math.PI, 12);
    expect(by({})).toBeNull();
    const turning = { time: Float64Array.of(102, 106), angle: Float64Array.of(0, 1.4) };
    expect(statedDirection(one, stretch, turning, { pulls: "ahead" } as TraceSettings)).toBeNull();
  });
});

describe("the give of a rode", () => {
  it("is its span beyond that at the least load that holds it up, and the rode's own from there", () => {
    const hanging = readRig(
      "format: rodebench/rig@1\nsetting: { medium: water, depth: 6 m, rollerHeight: 1 m }\nrode:\n  - chain: { grade: 30, size: 8 mm, length: 25 m }\n",
      "rig",
    );
    const give = giveOf(hanging, "bow")!;
    const span = (newtons: number): number => {
      const settled = settle(hanging, { at: "bow", newtons });
      if (settled.kind !== "settled") throw new Error(settled.kind);
      return settled.span;
    };
    expect(give(3000) - give(500)).toBeCloseTo(span(3000) - span(500), 6);
    expect(give(0)).toBe(0);
    expect(give(100)).toBeGreaterThanOrEqual(0);
    // Beyond all loads of any boat it gives no more.
    expect(give(1e8)).toBe(give(1e7));
    const short = { ...hanging, rode: hanging.rode.map((part) => ({ ...part, length: 5 })) } as typeof hanging;
    expect(giveOf(short, "bow")).toBeNull();
  });
});
