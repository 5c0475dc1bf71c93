/** What is said of plateaus' loads and of the zero, on pulls of another maker, by the load alone: on seeds of its own. */
import { describe, expect, it } from "vitest";
import { reduceTrace } from "../../../src/pull/index.ts";
import { makePull } from "./make-pull.ts";
import { regimes } from "./regimes.ts";
import { type Count, scoreOf } from "./score.ts";

const byLoad = ["holds, gusts", "holds, light load after slack", "breaks out, throttle off at once", "stick-slip"];
const scores = byLoad.map((name) =>
  scoreOf(
    { ...regimes.find((one) => one.name === name)!, track: false },
    Array.from({ length: 15 }, (_, i) => 930_001 + i),
  ),
);
const all = (of: (s: (typeof scores)[number]) => Count): Count => ({
  there: scores.reduce((n, s) => n + of(s).there, 0),
  so: scores.reduce((n, s) => n + of(s).so, 0),
});

describe("with the load alone", () => {
  it("the mean load of a plateau is where its ± says, 19 times in 20", () => {
    const { there, so } = all((s) => s.plateauLoads);
    expect(there).toBeGreaterThan(100);
    // 95 % of so many scatter by 2 %; plateaus of one pull share its zero, so that they scatter by some 3.
    expect(so / there).toBeGreaterThan(0.89);
  });

  it("the zero is where its ± says though the rode came slowly to rest", () => {
    const { there, so } = all((s) => s.zero);
    expect(there).toBe(60);
    // Three of sixty are expected to miss, with a standard deviation of 1.7.
    expect(there - so).toBeLessThanOrEqual(7);
  });

  it("the swing of a load is no error of its mean", () => {
    const { trace } = makePull(regimes.find((one) => one.name === "holds, quiet water")!, 930_101);
    const swung = trace.load.map(
      (f, i) => f + 0.2 * Math.max(0, f - 500) * Math.sin((2 * Math.PI * trace.time[i]!) / 5),
    );
    const u = (load: Float64Array): number => {
      const { plateaus } = reduceTrace({ time: trace.time, load }, { readAt: "bow" });
      expect(plateaus.length).toBeGreaterThan(0);
      const { value, u } = plateaus.reduce((a, b) => (b.load.value > a.load.value ? b : a)).load;
      return u / value;
    };
    // A fifth of the load over some tens of seconds would be several per cent if it were one.
    expect(u(swung)).toBeLessThan(1.5 * u(trace.load) + 0.002);
  });
});
