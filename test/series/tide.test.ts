import { describe, expect, it } from "vitest";
import { CONSTITUENTS, levelAt, type Tide } from "../../src/series/index.ts";

const DEGREE = Math.PI / 180;
const at = (text: string) => Date.parse(text) / 1000;

/** Amplitude, m, and phase lag at Greenwich, degrees, of a station in the north-east Pacific (public domain, NOAA CO-OPS; seen in a reference library's tests). */
const STATION: Readonly<Record<string, readonly [number, number]>> = {
  M2: [1.61, 181.3],
  S2: [0.43, 180.1],
  N2: [0.37, 155],
  K1: [1.2, 219.6],
  O1: [0.75, 203.5],
  NU2: [0.07, 160.9],
  MU2: [0.04, 114.7],
  "2N2": [0.05, 125.4],
  J1: [0.07, 232.3],
  SA: [0.2, 198.5],
  SSA: [0.07, 264.6],
  MF: [0.04, 138.1],
  Q1: [0.13, 194.8],
  P1: [0.38, 215.8],
  K2: [0.12, 170.6],
  L2: [0.04, 213.4],
  M3: [0.01, 7],
  OO1: [0.04, 246.4],
  T2: [0.02, 165.3],
  S1: [0.03, 317.1],
  "2Q1": [0.02, 191.7],
  RHO: [0.02, 197],
  LAM2: [0.01, 213.6],
};
const harmonic = (rows: Readonly<Record<string, readonly [number, number]>>): Tide => ({
  kind: "harmonic",
  mean: 0,
  constituents: Object.entries(rows).map(([name, [amplitude, lag]]) => ({ name, amplitude, lag: lag * DEGREE })),
});

describe("the level from harmonic constituents", () => {
  // Reference: @neaps/tide-predictor 0.11.0 (full nodal theory), run on the same constituents; computed there, seen.
  it.each([
    ["2019-09-01T00:00:00Z", -1.39842],
    ["2019-09-01T06:00:00Z", 2.84378],
    ["2026-06-02T05:00:00Z", 2.40139],
    ["2026-06-02T11:00:00Z", -1.45296],
    ["2015-10-05T03:00:00Z", -0.15652],
    ["2030-01-17T21:00:00Z", -1.53791],
  ])("at %s is within 4 cm of an independent predictor, of a range of 4 m", (when, level) => {
    // 4 cm: the node factors are series in N alone, of which small constituents are off by a tenth.
    expect(Math.abs(levelAt(harmonic(STATION), at(when))! - level)).toBeLessThan(0.04);
  });

  // One constituent alone, amplitude 1 m, lag 0: the same reference.
  it.each([
    ["M2", "2026-06-02T11:00:00Z", 0.15422, 0.002],
    ["S1", "2026-06-02T11:00:00Z", 0.96593, 1e-5],
    ["P1", "2019-09-01T06:00:00Z", -0.94044, 1e-5],
    ["SA", "2030-01-17T21:00:00Z", 0.45912, 1e-5],
    ["K1", "2026-06-02T05:00:00Z", -0.56713, 0.002],
    ["K2", "2030-01-17T21:00:00Z", -0.93954, 0.002],
    ["O1", "2015-10-05T03:00:00Z", 0.57678, 0.011],
    ["Q1", "2026-06-02T05:00:00Z", 1.024, 0.011],
    ["2MK3", "2019-09-01T00:00:00Z", 0.73222, 0.002],
  ])("of %s alone at %s agrees with it", (name, when, level, within) => {
    expect(Math.abs(levelAt(harmonic({ [name]: [1, 0] }), at(when))! - level)).toBeLessThanOrEqual(within);
  });

  it("comes back after each constituent's own period", () => {
    // Periods of the tide tables, hours (recalled): the longitudes give them by their own speeds.
    const hours: Readonly<Record<string, number>> = {
      M2: 12.4206012,
      S2: 12,
      N2: 12.65834751,
      K1: 23.93447213,
      O1: 25.81933871,
      M4: 6.210300601,
    };
    for (const [name, period] of Object.entries(hours)) {
      const tide = harmonic({ [name]: [1, 30] });
      const t = at("2026-06-02T05:00:00Z");
      // The node moves by a hundredth of a degree in a day.
      expect(Math.abs(levelAt(tide, t + period * 3600)! - levelAt(tide, t)!), name).toBeLessThan(5e-4);
      expect(CONSTITUENTS).toContain(name);
    }
  });
});

describe("the level between high and low waters", () => {
  const turns: Tide = {
    kind: "turns",
    turns: [
      { at: 0, level: 4.1 },
      { at: 6 * 3600, level: 0.5 },
      { at: 12 * 3600, level: 4.3 },
    ],
  };
  it("is each of them at its time, and the middle halfway", () => {
    expect(levelAt(turns, 0)).toBe(4.1);
    expect(levelAt(turns, 6 * 3600)).toBeCloseTo(0.5, 12);
    expect(levelAt(turns, 12 * 3600)).toBeCloseTo(4.3, 12);
    expect(levelAt(turns, 3 * 3600)).toBeCloseTo(2.3, 12);
  });
  it("runs within a fiftieth of the range of the rule of twelfths (recalled: 1, 2, 3, 3, 2, 1)", () => {
    [1, 3, 6, 9, 11, 12].forEach((twelfths, i) => {
      const byRule = 4.1 - (3.6 * twelfths) / 12;
      expect(Math.abs(levelAt(turns, (i + 1) * 3600)! - byRule)).toBeLessThan(3.6 / 50);
    });
  });
  it("is not told outside them", () => {
    expect(levelAt(turns, -1)).toBeNull();
    expect(levelAt(turns, 12 * 3600 + 1)).toBeNull();
  });
});
