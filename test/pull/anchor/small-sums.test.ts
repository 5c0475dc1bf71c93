/** Small parts of finding where the anchor was: likely means, the give of a rode, windows, and directions that agree. */
import { describe, expect, it } from "vitest";
import { agreed } from "../../../src/pull/anchor/agreed.ts";
import { logEither, logMovedOverStayed, MOVES } from "../../../src/pull/anchor/chance-moved.ts";
import type { FixGrid } from "../../../src/pull/anchor/fix-grid.ts";
import type { Known } from "../../../src/pull/anchor/found-movements.ts";
import { rodeGive } from "../../../src/pull/anchor/rode-give.ts";
import { windowsOf } from "../../../src/pull/anchor/windows.ts";
import { likelyMean } from "../../../src/statistics/index.ts";

describe("a likely mean", () => {
  it("is weighed by how likely each is, whatever is the same for all", () => {
    const tried = [
      { at: 2, log: 700 },
      { at: 5, log: 700 + Math.log(2) },
      { at: 8, log: 700 },
    ];
    expect(likelyMean(tried)).toEqual({ mean: expect.closeTo(5, 12), variance: expect.closeTo(4.5, 12) });
    expect(likelyMean([{ at: 3, log: -1e4 }])).toEqual({ mean: 3, variance: 0 });
    expect(likelyMean([])).toBeNull();
    expect(likelyMean([{ at: 3, log: Number.NEGATIVE_INFINITY }])).toBeNull();
  });
});

describe("how much likelier a movement makes the fixes", () => {
  it("is an exponential of three metres against staying", () => {
    for (const [value, u, over] of [
      [1.2, 0.4, 0.5],
      [0.1, 0.5, 1],
      [6, 1, 0],
    ] as const) {
      let sum = 0;
      const n = 200_000;
      for (let k = 0; k < n; k++) {
        const way = over + (60 * (k + 0.5)) / n;
        // Density of the way beyond `over`, times how likely it makes what was measured.
        sum += (60 / n) * (Math.exp(-(way - over) / 3) / 3) * Math.exp(-0.5 * ((value - way) / u) ** 2);
      }
      expect(logMovedOverStayed({ value, u }, over)).toBeCloseTo(Math.log(sum / Math.exp(-0.5 * (value / u) ** 2)), 5);
    }
    const went = [
      { value: 1.2, u: 0.4, inside: 1, share: Math.log(0.4) },
      { value: 0.5, u: 0.4, inside: 1, share: Math.log(0.6) },
    ];
    const both = went.reduce((all, way, i) => all + [0.4, 0.6][i]! * Math.exp(logMovedOverStayed(way, 0)), 0);
    expect(logEither({ stayed: 7, went })).toBeCloseTo(7 + Math.log(1 - MOVES + MOVES * both), 10);
    expect(MOVES).toBe(0.3);
  });
});

const grid = (over: Partial<FixGrid>, n = 40): FixGrid =>
  ({
    ...{ start: 0, step: 1 },
    east: new Float64Array(n),
    north: new Float64Array(n),
    load: new Float64Array(n).fill(1000),
    tight: new Uint8Array(n).fill(1),
    white: 0.3,
    shaped: (k: number, shape: (newtons: number) => number) => shape(100 * (k + 1)),
    ...over,
  }) as FixGrid;

describe("the give of a rode", () => {
  it("that nobody described is fitted by what lifts, what stretches, and what lies between", () => {
    const rode = rodeGive(2000);
    const quarter = 0.25;
    expect(rode.rises).toEqual(
      [Math.sqrt(1 / quarter) - 1, 1 - quarter, -Math.log(quarter)].map((rise) => expect.closeTo(rise, 12)),
    );
    const states = rode.states(grid({}), { from: 4, to: 9 });
    expect(states.map(({ mean, u }) => [mean, u])).toEqual([
      [0.7, 0.8],
      [0.7, 0.8],
      [0, 0.4],
    ]);
    states.forEach(({ column }, i) => {
      expect(column).toHaveLength(5);
      const share = 500 / 2000;
      expect(column[0]).toBeCloseTo([1 - Math.sqrt(1 / share), share - 1, Math.log(share)][i]!, 12);
    });
    // Below three hundredths of the highest load it is not followed.
    const slack = rode.states(grid({ shaped: (_k, shape) => shape(1) }), { from: 0, to: 1 });
    expect(slack[1]!.column[0]).toBeCloseTo(0.03 - 1, 12);
  });
  it("by a rig's curve is that curve from the highest load down, known to 15 %", () => {
    const give = (newtons: number) => 3 * Math.log(newtons);
    const rode = rodeGive(2000, give);
    expect(rode.rises).toEqual([expect.closeTo(3 * Math.log(4), 6)]);
    const [state] = rode.states(grid({}), { from: 4, to: 9 });
    expect([state!.mean, state!.u]).toEqual([1, 0.15]);
    for (let i = 0; i < 5; i++) expect(state!.column[i]).toBeCloseTo(3 * Math.log((100 * (5 + i)) / 2000), 6);
  });
});

describe("windows of movements", () => {
  it("are of many lengths, under load, one length as likely as another, likelier where the load is new", () => {
    const load = new Float64Array(40).fill(1000);
    for (let k = 20; k < 40; k++) load[k] = 400;
    const tight = new Uint8Array(40).fill(1);
    tight[30] = 0;
    const { windows, shares } = windowsOf({ grid: grid({ load, tight }), stretch: { from: 2, to: 40 } });
    const lengths = [...new Set(windows.map(({ from, to }) => to - from))];
    expect(lengths).toEqual([1, 2, 3, 5, 8, 12, 18, 27]);
    let all = 0;
    for (const length of lengths) {
      const own = windows.flatMap(({ from, to }, i) =>
        to - from === length ? [{ from, share: Math.exp(shares[i]!) }] : [],
      );
      const sum = own.reduce((total, { share }) => total + share, 0);
      expect(sum).toBeCloseTo(1 / lengths.length, 10);
      all += sum;
      const pace = Math.max(1, Math.floor(length / 5));
      expect(own[0]!.from).toBe(2);
      for (const { from } of own) expect((from - 2) % pace).toBe(0);
      // Windows with more than a tenth of them slack are none.
      for (const { from } of own) if (length < 10) expect(from > 30 || from + length <= 30).toBe(true);
      const [fresh, worn] = [own.find(({ from }) => from < 15), own.find(({ from }) => from >= 25)];
      if (fresh && worn) expect(fresh.share / worn.share).toBeCloseTo(10, 8);
    }
    expect(all).toBeCloseTo(1, 10);
  });
});

describe("directions that agree", () => {
  const model = (from: number, east: number, north: number) =>
    ({
      stretch: { from, to: from + 10 },
      grid: grid({ east: new Float64Array(40).fill(east), north: new Float64Array(40).fill(north) }),
    }) as unknown as Known["model"];
  const way = (of: Known["model"], value: number, evidence: number): Known =>
    ({ model: of, direction: { value, u: 0.1, by: "track" }, evidence }) as unknown as Known;
  it("are the likeliest of each stretch, unless two neighbours contradict each other about one anchor", () => {
    const [first, second] = [model(0, 0, 20), model(15, 0, -20)];
    // From north of her anchor to south of it: north first, then south.
    const choices = [
      { model: first, ways: [way(first, 0, -10), way(first, Math.PI, -13)] },
      { model: second, ways: [way(second, 0, -10), way(second, Math.PI, -12)] },
    ];
    const values = (of: typeof choices) => agreed(of).map(({ direction }) => direction.value);
    expect(values(choices)).toEqual([0, Math.PI]);
    // In much the same place nothing contradicts.
    const near = model(15, 0, 12);
    expect(values([choices[0]!, { model: near, ways: [way(near, 0, -10), way(near, Math.PI, -14)] }])).toEqual([0, 0]);
    expect(values([choices[0]!])).toEqual([0]);
    expect(agreed([])).toEqual([]);
  });
});
