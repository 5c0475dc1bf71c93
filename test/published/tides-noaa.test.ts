/**
 * Predictions published by NOAA CO-OPS (public domain) for three stations, against the harmonic constants it publishes for
 * them; all seen in public repositories that keep files fetched from its service.
 *
 * 9414290, San Francisco (Golden Gate): high and low waters, and levels every six minutes, above mean sea level, in UTC, of
 * 2026-09-15 and 16. 1612340, Honolulu: levels every six minutes above mean lower low water, in GMT, of 2023-08-30 and 31.
 * 9447130, Seattle: high and low waters of 2019-08-30 above mean lower low water, ft, in local daylight time. Mean sea level
 * above mean lower low water by the datums published with the constants.
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
const knownOf = (published: typeof PUBLISHED) =>
  Object.entries(published).filter(([name]) => (CONSTITUENTS as readonly string[]).includes(name));
const tideOf = (published: typeof PUBLISHED, mean: number): Tide => ({
  kind: "harmonic",
  mean,
  constituents: knownOf(published).map(([name, [amplitude, lag]]) => ({ name, amplitude, lag: lag * DEGREE })),
});
const known = knownOf(PUBLISHED);
const tide = tideOf(PUBLISHED, 0);

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

const HONOLULU: typeof PUBLISHED = {
  M2: [0.171, 59.4],
  S2: [0.056, 54.7],
  N2: [0.033, 48.8],
  K1: [0.149, 226.8],
  M4: [0.001, 195.3],
  O1: [0.081, 215.9],
  M6: [0.001, 229.7],
  MK3: [0.001, 342.6],
  MN4: [0.001, 92.9],
  NU2: [0.007, 56],
  MU2: [0.004, 7.8],
  "2N2": [0.004, 39.9],
  OO1: [0.005, 251.7],
  LAM2: [0.001, 76.2],
  S1: [0.002, 210],
  M1: [0.005, 232.5],
  J1: [0.01, 238.3],
  MM: [0.005, 43.4],
  SA: [0.048, 177.7],
  MF: [0.006, 44.3],
  RHO: [0.002, 195.4],
  Q1: [0.014, 209.6],
  T2: [0.004, 43.6],
  R2: [0.001, 357.3],
  "2Q1": [0.001, 231],
  P1: [0.045, 224.9],
  "2SM2": [0.001, 199.8],
  M3: [0.001, 164.1],
  L2: [0.004, 49.3],
  K2: [0.016, 45.7],
  MS4: [0.001, 104],
};

/** Each second hour, and the turns, of the levels every six minutes. */
const HONOLULU_LEVELS = [
  ["2023-08-30 00:00", 0.712],
  ["2023-08-30 01:12", 0.78],
  ["2023-08-30 02:00", 0.758],
  ["2023-08-30 04:00", 0.511],
  ["2023-08-30 06:00", 0.192],
  ["2023-08-30 08:06", 0.04],
  ["2023-08-30 10:00", 0.131],
  ["2023-08-30 12:00", 0.306],
  ["2023-08-30 13:30", 0.362],
  ["2023-08-30 14:00", 0.354],
  ["2023-08-30 16:00", 0.2],
  ["2023-08-30 18:00", 0.019],
  ["2023-08-30 19:00", -0.012],
  ["2023-08-30 20:00", 0.022],
  ["2023-08-30 22:00", 0.274],
  ["2023-08-31 00:00", 0.606],
  ["2023-08-31 01:54", 0.757],
  ["2023-08-31 04:00", 0.589],
  ["2023-08-31 06:00", 0.261],
  ["2023-08-31 08:36", 0.027],
  ["2023-08-31 10:00", 0.083],
  ["2023-08-31 12:00", 0.286],
  ["2023-08-31 14:12", 0.422],
] as const;

describe("the level at Honolulu as NOAA predicts it", () => {
  // M1, 0.005 m here, with its greatest factor 0.009 m; a centimetre for the node factors, as above.
  it.each(HONOLULU_LEVELS)("at %s is %s m, to 2 cm of a range of 0.8 m", (when, level) => {
    expect(Math.abs(levelAt(tideOf(HONOLULU, 1.412 - 1.161), at(when))! - level)).toBeLessThan(WITHIN);
  });
});

const SEATTLE: typeof PUBLISHED = {
  M2: [1.063, 10.8],
  S2: [0.268, 36.8],
  N2: [0.214, 341.1],
  K1: [0.834, 276.8],
  M4: [0.021, 200.7],
  O1: [0.459, 254.6],
  M6: [0.009, 312.8],
  MK3: [0.036, 79.3],
  S4: [0.002, 254.3],
  MN4: [0.009, 172.7],
  NU2: [0.044, 355.5],
  MU2: [0.034, 238.9],
  "2N2": [0.023, 313.1],
  OO1: [0.031, 330.2],
  LAM2: [0.02, 49.9],
  S1: [0.021, 45],
  M1: [0.024, 304.1],
  J1: [0.043, 313.4],
  SSA: [0.024, 217],
  SA: [0.07, 283.2],
  MF: [0.015, 157],
  RHO: [0.015, 245],
  Q1: [0.073, 248.9],
  T2: [0.016, 38],
  R2: [0.003, 11.2],
  "2Q1": [0.01, 265.5],
  P1: [0.257, 276.2],
  "2SM2": [0.008, 284.4],
  M3: [0.004, 178],
  L2: [0.049, 58.7],
  "2MK3": [0.035, 48.5],
  K2: [0.079, 37.7],
  M8: [0.001, 204.4],
  MS4: [0.012, 229.3],
};

/** ft; the clock is seven hours behind UTC. */
const SEATTLE_TURNS = [
  ["2019-08-30 04:39", 11.11],
  ["2019-08-30 11:23", -2.062],
  ["2019-08-30 18:18", 11.894],
] as const;

describe("high and low water at Seattle as NOAA predicts them", () => {
  const seattle = tideOf(SEATTLE, 4.443 - 2.419);

  it.each(SEATTLE_TURNS)("at %s is %s ft, to 6 cm of a range of 4.3 m, within ten minutes", (when, feet) => {
    const time = at(when) + 7 * 3600;
    // M1, 0.024 m here, with its greatest factor 0.043 m; two centimetres for the node factors and L2 with those of M2.
    expect(Math.abs(levelAt(seattle, time)! - 0.3048 * feet)).toBeLessThan(0.063);
    const levels = Array.from({ length: 121 }, (_, i) => levelAt(seattle, time + 60 * (i - 60))!);
    const turn = levels.indexOf(feet > 0 ? Math.max(...levels) : Math.min(...levels));
    // M1 rises by at most 0.043 m × 7.03e-5 /s, and the turn bends by M2 alone with 1.06 m × (1.405e-4 /s)²: 144 s; the
    // diurnal tides, which bend a turn less, may take half of that away.
    expect(Math.abs(turn - 60)).toBeLessThanOrEqual(10);
  });
});
