/**
 * The level of the sea at a time. From harmonic constituents:
 *
 *   level(t) = mean + Σ f A cos(V(t) + u − g)
 *
 * with the amplitude A and the phase lag g (Greenwich) of each; or between high and low waters as a half cosine, of which
 * the rule of twelfths is the hourly rounding. Weather, which no table holds, is not in it. To 0.05 m where the
 * constituents given carry the tide, tested against an independent harmonic predictor.
 */
import { DEGREE } from "../quantity/index.ts";
import { argumentOf, type Longitudes } from "./constituents.ts";

/** One constituent of a place. */
export interface Constituent {
  readonly name: string;
  /** m */
  readonly amplitude: number;
  /** Lag behind the equilibrium tide at Greenwich, rad. */
  readonly lag: number;
}

/** A high or low water. */
export interface Turn {
  /** s since 1970 */
  readonly at: number;
  /** m above the datum of the depths */
  readonly level: number;
}

/** How the tide of a site is known. */
export type Tide =
  | { readonly kind: "none" }
  | { readonly kind: "harmonic"; readonly mean: number; readonly constituents: readonly Constituent[] }
  | { readonly kind: "turns"; readonly turns: readonly Turn[] };

/** 2000-01-01 12:00, s since 1970. */
const J2000 = 946_728_000;
const DAY = 86_400;

/** @source mean longitudes of J2000 after Meeus, Astronomical Algorithms (1998), recalled; the terms in T² are left out */
function longitudesAt(seconds: number): Longitudes {
  const d = (seconds - J2000) / DAY;
  const day = seconds / DAY;
  return {
    T: 360 * (day - Math.floor(day)) + 180,
    s: 218.3164477 + 13.17639648 * d,
    h: 280.46646 + 0.98564736 * d,
    p: 83.3532465 + 0.11140353 * d,
    p1: 282.93735 + 0.0000470684 * d,
    N: 125.04452 - 0.05295377 * d,
  };
}

/**
 * Level above the datum of the depths, m; null outside the high and low waters given.
 * @param seconds s since 1970
 */
export function levelAt(tide: Tide, seconds: number): number | null {
  switch (tide.kind) {
    case "none":
      return 0;
    case "harmonic": {
      const at = longitudesAt(seconds);
      let level = tide.mean;
      for (const { name, amplitude, lag } of tide.constituents) {
        const { f, u } = argumentOf(name, at);
        level += f * amplitude * Math.cos(u * DEGREE - lag);
      }
      return level;
    }
    case "turns": {
      const { turns } = tide;
      const next = turns.findIndex(({ at }) => at >= seconds);
      if (next < 0 || (next === 0 && turns[0]!.at > seconds)) return null;
      if (next === 0) return turns[0]!.level;
      const [from, to] = [turns[next - 1]!, turns[next]!];
      const share = (1 - Math.cos((Math.PI * (seconds - from.at)) / (to.at - from.at))) / 2;
      return from.level + (to.level - from.level) * share;
    }
  }
}
