/** Bounds of the viewer's own fields, against the words that tell them; steps of an axis of time, against the clock's own. */
import { describe, expect, it } from "vitest";
import { parseQuantity } from "../../src/quantity/index.ts";
import { timeStep, timeTicks } from "../../src/web/days/log/clock.ts";
import { QUANTITIES } from "../../src/web/viewer/fields.ts";

describe("the fields of a viewer's page", () => {
  it.each(Object.entries(QUANTITIES))("%s: the words tell the bounds that hold", (_, { dimension, range }) => {
    const [, least, most] = /from (\S+ \S+) to (\S+ \S+) is expected/.exec(range.expected)!;
    expect(parseQuantity(least!, dimension, "least")).toBeCloseTo(range.least!, 9);
    expect(parseQuantity(most!, dimension, "most")).toBeCloseTo(range.most!, 9);
    expect(range.least!).toBeLessThan(range.most!);
  });
});

describe("an axis of time", () => {
  it("is cut at what clocks count by, up to a week", () => {
    // Thousandths to halves of a second, then seconds, minutes, hours and days that divide the next larger evenly.
    const steps = [0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 15, 30];
    const minutes = [1, 2, 5, 10, 15, 30].map((m) => 60 * m);
    const hours = [1, 2, 3, 6, 12].map((h) => 3600 * h);
    const days = [1, 2, 7].map((d) => 86_400 * d);
    const all = [...steps, ...minutes, ...hours, ...days];
    for (const [k, step] of all.entries()) {
      expect(timeStep(5.999 * step, 6)).toBe(step);
      expect(timeStep(6.001 * step, 6)).toBe(all[Math.min(k + 1, all.length - 1)]);
    }
  });

  it("has its marks at whole steps, both ends among them", () => {
    expect(timeTicks(60, 180, 4)).toEqual({ at: [60, 90, 120, 150, 180], step: 30 });
    expect(timeTicks(-2, 2.5, 5)).toEqual({ at: [-2, -1, 0, 1, 2], step: 1 });
    expect(timeTicks(0, 1e9, 5).at).toHaveLength(200);
  });
});
