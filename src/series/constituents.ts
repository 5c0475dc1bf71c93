/**
 * The harmonic constituents of a tide: for each, its argument and how the moon's node moves it.
 *
 *   V = d₀ T + d₁ s + d₂ h + d₃ p + d₄ p₁ + V₀,   T = 15° × hours of the day (UT) + 180°
 *
 * with the mean longitudes s of the moon, h of the sun, p of the lunar perigee, p₁ of the solar one and N of the lunar node.
 * f and u are the usual series in cos N and sin N. L2 takes those of M2: its own depend on the perigee too.
 *
 * @source arguments and node factors after Doodson and Warburg (1941) and Schureman (1958), recalled
 */
import { DEGREE } from "../quantity/index.ts";

/** Mean longitudes at a time, degrees. */
export interface Longitudes {
  readonly T: number;
  readonly s: number;
  readonly h: number;
  readonly p: number;
  readonly p1: number;
  readonly N: number;
}

/** Factor on the amplitude and its angle, degrees. */
interface Node {
  readonly f: number;
  readonly u: number;
}

type NodeOf = (N: number) => Node;

const UNMOVED: NodeOf = () => ({ f: 1, u: 0 });
/** f = a + b cos N + c cos 2N, u = d sin N + e sin 2N (degrees). */
const series =
  (a: number, b: number, c: number, d: number, e: number): NodeOf =>
  (N) => ({
    f: a + b * Math.cos(N * DEGREE) + c * Math.cos(2 * N * DEGREE),
    u: d * Math.sin(N * DEGREE) + e * Math.sin(2 * N * DEGREE),
  });
const m2 = series(1.0004, -0.0373, 0.0002, -2.14, 0);
const k1 = series(1.006, 0.115, -0.0088, -8.86, 0.68);
const o1 = series(1.0089, 0.1871, -0.0147, 10.8, -1.34);
const k2 = series(1.0241, 0.2863, 0.0083, -17.74, 0.68);
const j1 = series(1.0129, 0.1676, -0.017, -12.94, 1.34);
const oo1 = series(1.1027, 0.6504, 0.0317, -36.68, 4.02);
const mf = series(1.0429, 0.4135, -0.004, -23.74, 2.68);
const mm = series(1, -0.13, 0.0013, 0, 0);
/** A shallow-water constituent moves as those it is made of together; a negative count turns the angle, not the factor. */
const together =
  (...parts: readonly (readonly [NodeOf, number])[]): NodeOf =>
  (N) =>
    parts.reduce(
      (sum, [of, times]) => {
        const { f, u } = of(N);
        return { f: sum.f * f ** Math.abs(times), u: sum.u + times * u };
      },
      { f: 1, u: 0 },
    );

type Row = readonly [T: number, s: number, h: number, p: number, p1: number, V0: number, node: NodeOf];

const ROWS: Readonly<Record<string, Row>> = {
  SA: [0, 0, 1, 0, 0, 0, UNMOVED],
  SSA: [0, 0, 2, 0, 0, 0, UNMOVED],
  MM: [0, 1, 0, -1, 0, 0, mm],
  MSF: [0, 2, -2, 0, 0, 0, together([m2, -1])],
  MF: [0, 2, 0, 0, 0, 0, mf],
  "2Q1": [1, -4, 1, 2, 0, 90, o1],
  Q1: [1, -3, 1, 1, 0, 90, o1],
  RHO: [1, -3, 3, -1, 0, 90, o1],
  O1: [1, -2, 1, 0, 0, 90, o1],
  P1: [1, 0, -1, 0, 0, 90, UNMOVED],
  S1: [1, 0, 0, 0, 0, 0, UNMOVED],
  K1: [1, 0, 1, 0, 0, -90, k1],
  J1: [1, 1, 1, -1, 0, -90, j1],
  OO1: [1, 2, 1, 0, 0, -90, oo1],
  "2N2": [2, -4, 2, 2, 0, 0, m2],
  MU2: [2, -4, 4, 0, 0, 0, m2],
  N2: [2, -3, 2, 1, 0, 0, m2],
  NU2: [2, -3, 4, -1, 0, 0, m2],
  M2: [2, -2, 2, 0, 0, 0, m2],
  LAM2: [2, -1, 0, 1, 0, 180, m2],
  L2: [2, -1, 2, -1, 0, 180, m2],
  T2: [2, 0, -1, 0, 1, 0, UNMOVED],
  S2: [2, 0, 0, 0, 0, 0, UNMOVED],
  R2: [2, 0, 1, 0, -1, 180, UNMOVED],
  K2: [2, 0, 2, 0, 0, 0, k2],
  "2SM2": [2, 2, -2, 0, 0, 0, together([m2, -1])],
  "2MK3": [3, -4, 3, 0, 0, 90, together([m2, 2], [k1, -1])],
  M3: [3, -3, 3, 0, 0, 0, together([m2, 1.5])],
  MK3: [3, -2, 3, 0, 0, -90, together([m2, 1], [k1, 1])],
  MN4: [4, -5, 4, 1, 0, 0, together([m2, 2])],
  M4: [4, -4, 4, 0, 0, 0, together([m2, 2])],
  MS4: [4, -2, 2, 0, 0, 0, m2],
  S4: [4, 0, 0, 0, 0, 0, UNMOVED],
  M6: [6, -6, 6, 0, 0, 0, together([m2, 3])],
  S6: [6, 0, 0, 0, 0, 0, UNMOVED],
  M8: [8, -8, 8, 0, 0, 0, together([m2, 4])],
};

/** The constituents known, by the names of the trade. */
export const CONSTITUENTS: readonly string[] = Object.keys(ROWS);

/** Argument V + u of a constituent, degrees, and its factor f. @param name one of CONSTITUENTS */
export function argumentOf(name: string, { T, s, h, p, p1, N }: Longitudes): Node {
  const [dT, ds, dh, dp, dp1, V0, node] = ROWS[name]!;
  const { f, u } = node(N);
  return { f, u: dT * T + ds * s + dh * h + dp * p + dp1 * p1 + V0 + u };
}
