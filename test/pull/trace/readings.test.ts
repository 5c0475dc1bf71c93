import { describe, expect, it } from "vitest";
import { readings } from "../../../src/pull/trace/trace.ts";
import { InputError } from "../../../src/quantity/index.ts";

const f = (...values: number[]): Float64Array => Float64Array.from(values);

describe("readings made fit to work on", () => {
  it("rows that share a stamp are spread up to the next stamp", () => {
    const r = readings(f(0, 0, 0, 0, 1, 1, 2), f(1, 2, 3, 4, 5, 6, 7), 3, "load");
    expect([...r.time]).toEqual([0, 0.25, 0.5, 0.75, 1, 1.5, 2]);
  });

  it("rows that share the last stamp keep the spacing met before", () => {
    const r = readings(f(0, 0, 1, 1), f(1, 2, 3, 4), 3, "load");
    expect([...r.time]).toEqual([0, 0.5, 1, 1.5]);
  });

  it("rows without a number are left out and counted", () => {
    const r = readings(f(0, 1, 2, 3), f(1, Number.NaN, 3, Number.POSITIVE_INFINITY), 3, "load");
    expect([...r.value]).toEqual([1, 3]);
    expect(r.dropped).toBe(2);
  });

  it("a silence longer than asked is a gap, and in a slow log one longer than four intervals", () => {
    expect(readings(f(0, 1, 2, 10, 11), f(1, 1, 1, 1, 1), 3, "load").gaps).toEqual([{ from: 2, to: 10 }]);
    expect(readings(f(0, 10, 20, 50, 60, 140), f(1, 1, 1, 1, 1, 1), 3, "load").gaps).toEqual([{ from: 60, to: 140 }]);
  });

  it("time running backward is told with its row", () => {
    expect(() => readings(f(0, 2, 1), f(1, 2, 3), 3, "load")).toThrow(InputError);
    expect(() => readings(f(0, 2, 1), f(1, 2, 3), 3, "load")).toThrow(
      "load.time[2]: 1 s after 2 s; a time not before the one above is expected",
    );
  });

  it.each([
    ["nothing", f(), f()],
    ["one reading", f(1), f(2)],
    ["one moment", f(1, 1), f(2, 3)],
    ["nothing but gaps in the values", f(1, 2), f(Number.NaN, Number.NaN)],
    ["more times than values", f(1, 2), f(1)],
  ])("%s is no log", (_, time, load) => {
    expect(() => readings(time, load, 3, "load")).toThrow(InputError);
  });
});
