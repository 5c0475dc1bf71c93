import { describe, expect, it } from "vitest";
import { rainflow, turns } from "../../src/statistics/rainflow.ts";

/**
 * ASTM E1049-85, clause 5.4.4 and figure 6: the worked example of rainflow counting (seen: range, mean and count of
 * every cycle, as several independent counters print them). One printed copy of the list has 6: 1, 8: 1, 3: ½, which
 * does not follow from the series; it is not used.
 */
const series = Float64Array.from([-2, 1, -3, 5, -1, 3, -4, 4, -2]);
const published = [
  [3, -0.5, 0.5],
  [4, -1, 0.5],
  [4, 1, 1],
  [8, 1, 0.5],
  [9, 0.5, 0.5],
  [8, 0, 0.5],
  [6, 1, 0.5],
] as const;

describe("rainflow counting, ASTM E1049-85 figure 6", () => {
  it("counts the published cycles, in the published order", () => {
    expect(rainflow(series).map((c) => [c.range, c.mean, c.count])).toEqual(published);
  });

  it("counts by range 3: ½, 4: 1½, 6: ½, 8: 1, 9: ½, four cycles in all", () => {
    const byRange = new Map<number, number>();
    for (const c of rainflow(series)) byRange.set(c.range, (byRange.get(c.range) ?? 0) + c.count);
    expect(Object.fromEntries(byRange)).toEqual({ 3: 0.5, 4: 1.5, 6: 0.5, 8: 1, 9: 0.5 });
    expect([...byRange.values()].reduce((a, b) => a + b)).toBe(4);
  });

  it("counts the same when readings lie between the turns", () => {
    const fine: number[] = [];
    for (let i = 0; i + 1 < series.length; i++)
      for (let k = 0; k < 4; k++) fine.push(series[i]! + (k / 4) * (series[i + 1]! - series[i]!));
    fine.push(series.at(-1)!);
    expect(rainflow(Float64Array.from(fine)).map((c) => [c.range, c.mean, c.count])).toEqual(published);
  });

  it("takes every value of the example for a turn", () => {
    expect([...turns(series)]).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
  });
});
