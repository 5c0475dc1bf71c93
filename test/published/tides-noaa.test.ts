/**
 * Predictions published by NOAA CO-OPS (public domain) for station 9414290, San Francisco (Golden Gate): high and low waters,
 * and levels every six minutes, above mean sea level, in UTC, of 2026-09-15 and 16; with the harmonic constants it publishes
 * for that station. Seen in files fetched from its service that are kept in the tests of a public repository.
 */
import { describe, expect, it } from "vitest";
import { CONSTITUENTS, levelAt, type Tide } from "../../src/series/index.ts";

const DEGREE = Math.PI / 180;
const at = (text: string) => Date.parse(`${text.replace(" ", "T")}Z`) / 1000;

/** Amplitude, m, and phase lag at Greenwich, degrees; those of amplitude zero are left out. */
const PUBLISHED: Readonly<Record<string, readonly [number, number]>> = {
  M2: [0.576, 208.2],
  S2: [0.137, 216.2],
  N2: [0.122, 183.2],
  K1: [0.37, 225.4],
  M4: [0.022, 136.8],
  O1: [0.23, 208.4],
  M6: [0.002, 7.3],
  MK3: [0.018, 124.1],
  MN4: [0.008, 112],
  NU2: [0.026, 189.9],
  MU2: [0.007, 100.2],
  "2N2": [0.013, 153.3],
  OO1: [0.012, 260],
  LAM2: [0.007, 214.3],
  S1: [0.007, 282.6],
  M1: [0.011, 237.5],
  J1: [0.019, 244.3],
  SSA: [0.03, 272.3],
  SA: [0.044, 200.2],
  MF: [0.015, 153.1],
  RHO: [0.009, 200],
  Q1: [0.041, 202.4],
  T2: [0.009, 204.6],
  R2: [0.001, 126.8],
  "2Q1": [0.006, 208.6],
  P1: [0.114, 222.1],
  "2SM2": [0.003, 37.3],
  M3: [0.003, 37.6],
  L2: [0.018, 229.6],
  "2MK3": [0.014, 92.2],
  K2: [0.04, 206],
  M8: [0.001, 108.5],
  MS4: [0.01, 149],
};
const known = Object.entries(PUBLISHED).filter(([name]) => (CONSTITUENTS as readonly string[]).includes(name));
const tide: Tide = {
  kind: "harmonic",
  mean: 0,
  constituents: known.map(([name, [amplitude, lag]]) => ({ name, amplitude, lag: lag * DEGREE })),
};

const TURNS = [
  ["2026-09-15 03:34", -0.78],
  ["2026-09-15 10:19", 0.435],
  ["2026-09-15 15:17", -0.201],
  ["2026-09-15 21:40", 0.807],
  ["2026-09-16 04:23", -0.757],
  ["2026-09-16 11:26", 0.342],
  ["2026-09-16 15:59", -0.035],
  ["2026-09-16 22:16", 0.752],
] as const;

/** Each second hour of the levels every six minutes. */
const LEVELS = [
  ["2026-09-15 00:00", 0.162],
  ["2026-09-15 02:00", -0.574],
  ["2026-09-15 04:00", -0.765],
  ["2026-09-15 06:00", -0.398],
  ["2026-09-15 08:00", 0.129],
  ["2026-09-15 10:00", 0.429],
  ["2026-09-15 12:00", 0.268],
  ["2026-09-15 14:00", -0.104],
  ["2026-09-15 16:00", -0.172],
  ["2026-09-15 18:00", 0.172],
  ["2026-09-15 20:00", 0.635],
  ["2026-09-15 22:00", 0.798],
  ["2026-09-16 00:00", 0.388],
  ["2026-09-16 02:00", -0.343],
  ["2026-09-16 04:00", -0.747],
  ["2026-09-16 06:00", -0.598],
  ["2026-09-16 08:00", -0.15],
  ["2026-09-16 10:00", 0.239],
  ["2026-09-16 12:00", 0.327],
  ["2026-09-16 14:00", 0.113],
  ["2026-09-16 16:00", -0.035],
] as const;

/**
 * All constituents but M1, of 0.011 m here, whose factor of the node goes to some 1.8 (Schureman 1958, recalled): 0.02 m
 * with a centimetre for the node factors, which are series in N alone.
 */
const WITHIN = 0.02;

describe("the level at San Francisco as NOAA predicts it", () => {
  it("takes all but one of the constituents published for the station", () => {
    expect(Object.keys(PUBLISHED).filter((name) => !known.some(([one]) => one === name))).toEqual(["M1"]);
  });

  it.each([...TURNS, ...LEVELS])("at %s is %s m, to 2 cm of a range of 1.6 m", (when, level) => {
    expect(Math.abs(levelAt(tide, at(when))! - level)).toBeLessThan(WITHIN);
  });

  it.each(TURNS)("turns at %s within six minutes", (when, level) => {
    // The slope of M1 is at most 0.02 m × 7.03e-5 /s = 1.4e-6 m/s; the weakest turn bends by 0.19 m × (1.405e-4 /s)², and
    // 1.4e-6 / 3.7e-9 is 380 s.
    const times = Array.from({ length: 241 }, (_, i) => at(when) + 60 * (i - 120));
    const high = TURNS.filter(([other]) => Math.abs(at(other) - at(when)) < 8 * 3600).every(([, v]) => v <= level);
    const levels = times.map((time) => levelAt(tide, time)!);
    const turn = levels.indexOf(high ? Math.max(...levels) : Math.min(...levels));
    expect(Math.abs(turn - 120)).toBeLessThanOrEqual(6.4);
  });
});
