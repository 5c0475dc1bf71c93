/**
 * The share of a surge that a rode at rest would have to take to end in the load it ends in by a run in time: below 1 where the
 * rode's drag and its own weight in motion take the rest, above 1 where they add to it. It runs smoothly over lengths and
 * diameters of a snubber, so a map takes it from runs at a few of its places, straight in the logarithms between them.
 */
import type { Rig } from "../rode/index.ts";
import type { Rope } from "./rope-choice.ts";
import { COARSE, type Surge, surgePeak } from "./snatch.ts";
import { spansBeam, withSnubber } from "./snubber.ts";
import type { SnubberKind } from "./snubber-column.ts";

/** Places run along each side of the map. */
const ALONG_LENGTHS = 4;
const ALONG_DIAMETERS = 3;
/** In waves, whose runs are long, at its corners alone. */
const CORNERS = 2;
/** Share beyond which neither is looked for. */
const LEAST = 1e-3;
const MOST = 1e3;

export interface SharesQuestion {
  readonly rig: Rig;
  readonly surge: Surge;
  readonly kind: SnubberKind;
  /** m, rising. */
  readonly lengths: ArrayLike<number>;
  readonly diameters: ArrayLike<number>;
}

/** Load at the bow that a share of the surge ends in at a place of the map, N; null where it is taken at none. */
export type PeakAtRest = (length: number, diameter: number, share: number) => number | null;

/** @returns the share at a place of the map, lengths and diameters by their places in the question */
export function surgeShares(
  question: SharesQuestion,
  horizontal: number,
  ropes: readonly Rope[],
  peakAtRest: PeakAtRest,
): (length: number, diameter: number) => number {
  const { rig, surge, kind } = question;
  const lengths = Array.from(question.lengths);
  const diameters = Array.from(question.diameters);
  const columns = spread(lengths, surge.kind === "waves" ? CORNERS : ALONG_LENGTHS);
  const rows = spread(diameters, surge.kind === "waves" ? CORNERS : ALONG_DIAMETERS);
  const known = rows.map((j) =>
    columns.map((i) => {
      if (!spansBeam(kind, lengths[i]!)) return Number.NaN;
      const snubbed = withSnubber(rig, { ...kind, rope: ropes[j]!, length: lengths[i]! });
      if ("kind" in snubbed) return Number.NaN;
      const ridden = surgePeak(snubbed.rig, horizontal, surge, COARSE);
      if (ridden?.kind !== "peak") return Number.NaN;
      return Math.log(shareEnding((share) => peakAtRest(i, j, share), ridden.bow));
    }),
  );
  return (i, j) => {
    const [c, x] = between(columns, (k) => Math.log(lengths[k]!), Math.log(lengths[i]!));
    const [r, y] = between(rows, (k) => Math.log(diameters[k]!), Math.log(diameters[j]!));
    const weights = [
      [r, c, (1 - x) * (1 - y)],
      [r, c + 1, x * (1 - y)],
      [r + 1, c, (1 - x) * y],
      [r + 1, c + 1, x * y],
    ] as const;
    let sum = 0;
    let weight = 0;
    for (const [row, column, w] of weights) {
      const value = known[row]?.[column];
      if (value === undefined || Number.isNaN(value)) continue;
      sum += w * value;
      weight += w;
    }
    return weight > 0 ? Math.exp(sum / weight) : 1;
  };
}

/** So many places from first to last, evenly in the logarithm of what stands there. */
function spread(values: readonly number[], count: number): number[] {
  const [first, last] = [Math.log(values[0]!), Math.log(values.at(-1)!)];
  const places = Array.from({ length: count }, (_, k) => {
    const wanted = first + ((last - first) * k) / (count - 1);
    let best = 0;
    values.forEach((value, i) => {
      if (Math.abs(Math.log(value) - wanted) < Math.abs(Math.log(values[best]!) - wanted)) best = i;
    });
    return best;
  });
  return [...new Set(places)];
}

/** The place before a value among rising ones, and the share of the way to the next. */
function between(places: readonly number[], at: (place: number) => number, value: number): readonly [number, number] {
  let k = 0;
  while (k < places.length - 2 && at(places[k + 1]!) <= value) k++;
  if (places.length < 2) return [0, 0];
  const [a, b] = [at(places[k]!), at(places[k + 1]!)];
  return [k, Math.min(1, Math.max(0, (value - a) / (b - a)))];
}

/** The share whose peak at rest is the one ridden; peaks rise with it. */
function shareEnding(peak: (share: number) => number | null, ridden: number): number {
  let [low, high] = [Math.log(LEAST), Math.log(MOST)];
  for (let n = 0; n < 24; n++) {
    const middle = 0.5 * (low + high);
    const found = peak(Math.exp(middle));
    if (found !== null && found < ridden) low = middle;
    else high = middle;
  }
  return Math.exp(0.5 * (low + high));
}
