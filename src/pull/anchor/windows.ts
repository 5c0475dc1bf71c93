import type { FixGrid } from "./fix-grid.ts";
import type { Ramp, Stretch } from "./ramp.ts";

/** Lengths of movements that are tried, s. */
const LENGTHS = [1, 2, 3, 5, 8, 12, 18, 27, 40, 60, 90, 130];
/** Neighbouring windows of one length lie apart by this share of it. */
const PACE = 5;

/** An anchor goes where it bears what it has not borne before, or nearly, so many seconds long. */
const NEARLY = 0.85;
const BORNE = 5;
/** Beginning under less it is so much less likely to go. */
const UNDER_LESS = 0.1;

/** Movements to try, and ln of the share of chance that each has beforehand. */
export interface Windows {
  readonly windows: readonly Ramp[];
  readonly shares: Float64Array;
}

/**
 * Movements of many lengths, beginning at many times, under load all along: each length as likely as another, and a
 * beginning where the load is the highest so far likelier than elsewhere.
 */
export function windowsOf({ grid, stretch }: { readonly grid: FixGrid; readonly stretch: Stretch }): Windows {
  const loaded = new Int32Array(stretch.to - stretch.from + 1);
  for (let k = stretch.from; k < stretch.to; k++)
    loaded[k - stretch.from + 1] = loaded[k - stretch.from]! + grid.tight[k]!;
  const fresh = freshLoads(grid, stretch);
  const byLength = LENGTHS.map((seconds) => {
    const long = Math.max(1, Math.round(seconds / grid.step));
    const pace = Math.max(1, Math.floor(long / PACE));
    const out: Ramp[] = [];
    for (let k = 0; k + long <= stretch.to - stretch.from; k += pace)
      if (loaded[k + long]! - loaded[k]! >= 0.9 * long)
        out.push({ from: stretch.from + k, to: stretch.from + k + long });
    return out;
  }).filter((some) => some.length > 0);
  return {
    windows: byLength.flat(),
    shares: Float64Array.from(
      byLength.flatMap((some) => {
        const weights = some.map((ramp) => (fresh[ramp.from - stretch.from] === 1 ? 1 : UNDER_LESS));
        const all = weights.reduce((sum, w) => sum + w, 0) * byLength.length;
        return weights.map((w) => Math.log(w / all));
      }),
    ),
  };
}

/** 1 for each step from which on the load is as high as any that was borne before it, or nearly. */
function freshLoads(grid: FixGrid, { from, to }: Stretch): Uint8Array {
  const long = Math.max(1, Math.round(BORNE / grid.step));
  const means = new Float64Array(to - from);
  const out = new Uint8Array(to - from);
  let sum = 0;
  for (let k = to - 1; k >= from; k--) {
    sum += grid.load[k]! || 0;
    if (k + long < to) sum -= grid.load[k + long]! || 0;
    means[k - from] = sum / Math.min(long, to - k);
  }
  let most = 0;
  for (let i = 0; i < out.length; i++) {
    if (i >= long) most = Math.max(most, means[i - long]!);
    out[i] = means[i]! >= NEARLY * most ? 1 : 0;
  }
  return out;
}
