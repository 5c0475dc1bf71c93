/** Every constituent against Schureman's own theory, worked out here from the moon's orbit: speeds, arguments, node factors. */
import { describe, expect, it } from "vitest";
import { argumentOf, CONSTITUENTS, type Longitudes } from "../../src/series/constituents.ts";

const DEGREE = Math.PI / 180;

/**
 * Arguments V in T (hour angle of the mean sun), s, h, p, p₁, and which node factor: Schureman, Manual of Harmonic Analysis
 * and Prediction of Tides (1958), table 2 (recalled). Speeds, degrees an hour, of the tables of NOAA CO-OPS (recalled).
 */
const TABLE: readonly (readonly [name: string, argument: string, speed: number, node: string])[] = [
  ["SA", "h", 0.0410686, "1"],
  ["SSA", "2h", 0.0821373, "1"],
  ["MM", "s - p", 0.5443747, "Mm"],
  ["MSF", "2s - 2h", 1.0158958, "-M2"],
  ["MF", "2s", 1.0980331, "Mf"],
  ["2Q1", "T - 4s + h + 2p + 90", 12.8542862, "O1"],
  ["Q1", "T - 3s + h + p + 90", 13.3986609, "O1"],
  ["RHO", "T - 3s + 3h - p + 90", 13.4715145, "O1"],
  ["O1", "T - 2s + h + 90", 13.9430356, "O1"],
  ["P1", "T - h + 90", 14.9589314, "1"],
  ["S1", "T", 15, "1"],
  ["K1", "T + h - 90", 15.0410686, "K1"],
  ["J1", "T + s + h - p - 90", 15.5854433, "J1"],
  ["OO1", "T + 2s + h - 90", 16.1391017, "OO1"],
  ["2N2", "2T - 4s + 2h + 2p", 27.8953548, "M2"],
  ["MU2", "2T - 4s + 4h", 27.9682084, "M2"],
  ["N2", "2T - 3s + 2h + p", 28.4397295, "M2"],
  ["NU2", "2T - 3s + 4h - p", 28.5125831, "M2"],
  ["M2", "2T - 2s + 2h", 28.9841042, "M2"],
  ["LAM2", "2T - s + p + 180", 29.4556253, "M2"],
  ["L2", "2T - s + 2h - p + 180", 29.5284789, "M2"],
  ["T2", "2T - h + q", 29.9589333, "1"],
  ["S2", "2T", 30, "1"],
  ["R2", "2T + h - q + 180", 30.0410667, "1"],
  ["K2", "2T + 2h", 30.0821373, "K2"],
  ["2SM2", "2T + 2s - 2h", 31.0158958, "-M2"],
  ["2MK3", "3T - 4s + 3h + 90", 42.9271398, "2M2 - K1"],
  ["M3", "3T - 3s + 3h", 43.4761563, "1.5M2"],
  ["MK3", "3T - 2s + 3h - 90", 44.0251729, "M2 + K1"],
  ["MN4", "4T - 5s + 4h + p", 57.4238337, "2M2"],
  ["M4", "4T - 4s + 4h", 57.9682084, "2M2"],
  ["MS4", "4T - 2s + 2h", 58.9841042, "M2"],
  ["S4", "4T", 60, "1"],
  ["M6", "6T - 6s + 6h", 86.9523127, "3M2"],
  ["S6", "6T", 90, "1"],
  ["M8", "8T - 8s + 8h", 115.9364166, "4M2"],
];

/** Degrees an hour (recalled). */
const SPEEDS = { T: 15, s: 0.5490165, h: 0.0410686, p: 0.0046418, q: 0.000002 };

/** `2T - s + 180` at those values of the letters. */
function worked(argument: string, at: Readonly<Record<string, number>>): number {
  let sum = 0;
  for (const [, sign, count, letter] of argument.matchAll(/([+-]?)\s*(\d*\.?\d*)([A-Za-z]*\d?)/g)) {
    if (count === "" && letter === "") continue;
    const times = (sign === "-" ? -1 : 1) * (count === "" ? 1 : Number(count));
    sum += times * (letter === "" ? 1 : at[letter!]!);
  }
  return sum;
}

interface Node {
  readonly f: number;
  readonly u: number;
}

/**
 * Node factors f and u, degrees, from the inclination I of the moon's orbit to the equator and where the two meet:
 * Schureman (1958), formulas 73 to 80 and 215 to 235, with his constants (recalled).
 */
function nodeOf(N: number): Readonly<Record<string, Node>> {
  const n = N * DEGREE;
  const I = Math.acos(0.9137 - 0.03569 * Math.cos(n));
  // Half sums and differences of the spherical triangle of node, equinox and intersection.
  const sum = Math.atan2(1.01883 * Math.sin(n / 2), Math.cos(n / 2));
  const difference = Math.atan2(0.64412 * Math.sin(n / 2), Math.cos(n / 2));
  const nu = sum - difference;
  const xi = n - sum - difference;
  const [s1, s2] = [Math.sin(I), Math.sin(2 * I)];
  const primed = Math.atan2(s2 * Math.sin(nu), s2 * Math.cos(nu) + 0.3347);
  const doubled = Math.atan2(s1 ** 2 * Math.sin(2 * nu), s1 ** 2 * Math.cos(2 * nu) + 0.0727);
  return {
    M2: { f: Math.cos(I / 2) ** 4 / 0.91544, u: (2 * xi - 2 * nu) / DEGREE },
    O1: { f: (s1 * Math.cos(I / 2) ** 2) / 0.37998, u: (2 * xi - nu) / DEGREE },
    K1: { f: Math.sqrt(0.8965 * s2 ** 2 + 0.6001 * s2 * Math.cos(nu) + 0.1006), u: -primed / DEGREE },
    K2: { f: Math.sqrt(19.0444 * s1 ** 4 + 2.7702 * s1 ** 2 * Math.cos(2 * nu) + 0.0981), u: -doubled / DEGREE },
    J1: { f: s2 / 0.72137, u: -nu / DEGREE },
    OO1: { f: (s1 * Math.sin(I / 2) ** 2) / 0.016358, u: (-2 * xi - nu) / DEGREE },
    Mf: { f: s1 ** 2 / 0.15782, u: (-2 * xi) / DEGREE },
    Mm: { f: (2 / 3 - s1 ** 2) / 0.50211, u: 0 },
  };
}

/** `2M2 - K1`: factors multiply as often as counted whatever the sign, angles add with it. */
function expected(node: string, N: number): Node {
  const of = nodeOf(N);
  let [f, u] = [1, 0];
  for (const [, sign, count, name] of node.matchAll(/([+-]?)\s*(\d*\.?\d*?)(M2|O1|K1|K2|J1|OO1|Mf|Mm)/g)) {
    const times = count === "" ? 1 : Number(count);
    f *= of[name!]!.f ** times;
    u += (sign === "-" ? -times : times) * of[name!]!.u;
  }
  return { f, u };
}

/**
 * How near the usual series in N come to the theory: a share of f, and degrees. They end with sin 2N; the terms in sin 3N
 * left out are 0.19° for O1, 0.38° for Mf and 0.57° for OO1 (Doodson & Warburg 1941, recalled); a quarter of that again
 * for rounded constants.
 */
const NEAR: Readonly<Record<string, readonly [f: number, u: number]>> = {
  OO1: [0.02, 1],
  K2: [0.006, 0.3],
  Mf: [0.006, 0.48],
  J1: [0.006, 0.3],
  O1: [0.003, 0.24],
  K1: [0.003, 0.15],
  Mm: [0.006, 0.01],
  M2: [0.001, 0.05],
};

const at: Longitudes = { T: 100.3, s: 211.7, h: 33.1, p: 301.9, p1: 77.7, N: 0 };

describe("the constituents of the tide", () => {
  it("are those of the table, no more and no fewer", () => {
    expect([...CONSTITUENTS].sort()).toEqual(TABLE.map(([name]) => name).sort());
  });

  it.each(TABLE)("%s has the argument %s and the speed %f° an hour", (name, argument, speed) => {
    const still = expected(TABLE.find(([one]) => one === name)![3], 0);
    const { u } = argumentOf(name, at);
    const letters = { T: at.T, s: at.s, h: at.h, p: at.p, q: at.p1 };
    // At N = 0 no node turns the angle.
    expect(still.u).toBeCloseTo(0, 9);
    expect(u).toBeCloseTo(worked(argument, letters), 9);
    const later = {
      ...at,
      T: at.T + SPEEDS.T,
      s: at.s + SPEEDS.s,
      h: at.h + SPEEDS.h,
      p: at.p + SPEEDS.p,
      p1: at.p1 + SPEEDS.q,
    };
    // Speeds of the letters are rounded to 5e-8, of which eight are added up.
    expect(Math.abs(argumentOf(name, later).u - u - speed)).toBeLessThan(8e-7);
  });

  it.each(TABLE)("%s moves with the moon's node as the theory has it", (name, argument, _, node) => {
    const letters = { T: at.T, s: at.s, h: at.h, p: at.p, q: at.p1 };
    const parts = [...node.matchAll(/(\d*\.?\d*?)(M2|O1|K1|K2|J1|OO1|Mf|Mm)/g)].map(
      ([, count, of]) => [count === "" ? 1 : Number(count), NEAR[of!]!] as const,
    );
    const near = [0, 1].map((i) => parts.reduce((sum, [times, by]) => sum + times * by[i]!, 1e-9));
    for (let N = 0; N < 360; N += 7) {
      const { f, u } = argumentOf(name, { ...at, N });
      // As an angle between the node's two ends, whichever way round the theory's own comes.
      const wanted = expected(node, N > 180 ? N - 360 : N);
      expect(Math.abs(f / wanted.f - 1), `f at ${N}`).toBeLessThan(near[0]!);
      expect(Math.abs(u - worked(argument, letters) - wanted.u), `u at ${N}`).toBeLessThan(near[1]!);
    }
  });
});
