import { meanOver } from "./even.ts";
import { grainAt, type Loaded, varianceAt } from "./loaded.ts";
import { median, scaleOfNearest } from "./order.ts";
import type { TraceSettings } from "./settings.ts";
import type { Measured, Span } from "./trace.ts";

/** A fall of the load. */
export interface Drop extends Span {
  /** Load in the seconds before, N. */
  readonly before: Measured;
  /** Load in the seconds after, N. */
  readonly after: Measured;
  /** Loss over what noise alone would do, in its standard deviations. */
  readonly clear: number;
  /** Loss in the fall itself over that from some seconds before to some after: little for a part of a slow fall. */
  readonly quick: number;
  readonly toSlack: boolean;
}

/** Seconds averaged on either side of a fall: two scales, for quick falls and for those among slow surge. */
const SIDES = [2, 4];
/** Seconds between the two sides. */
const BETWEEN = 1;
/** Seconds before and after a fall looked at to see whether it was part of a slower one. */
const AROUND = 6;

/**
 * Falls of the load: the mean of the seconds before minus that of the seconds after, as a share of the load before,
 * where it is a local maximum, loses at least the share asked for and stands clear of what the same difference does
 * elsewhere under load (the third of the time when it does least: ramps do not count). The limit is
 * z = √(2 ln(n / 2α)), which noise passes α times in n independent trials at most.
 * The back of a short gust is no fall: the load is compared with a robust line through the seconds before it too.
 */
export function findDrops(loaded: Loaded, settings: TraceSettings): Drop[] {
  const { even } = loaded;
  const n = even.value.length;
  const w = Math.max(1, Math.round(SIDES[0]! / even.grain));
  const g = Math.max(1, Math.round(BETWEEN / even.grain));
  const s = loaded.sums;
  const scales = SIDES.map((side) => losses(Math.max(1, Math.round(side / even.grain))));
  const drops: Drop[] = [];
  const reach = w + g;
  for (let k = w; k < n; k++) {
    if (!(clear(k) >= 1)) continue;
    let best = k;
    for (let j = k; j < Math.min(n, best + reach); j++) if (clear(j) > clear(best)) best = j;
    const drop = measured(best);
    if (drop && !(drop.from < (drops.at(-1)?.to ?? Number.NEGATIVE_INFINITY))) drops.push(drop);
    k = Math.max(k, best + reach);
  }
  return drops;

  /** Shares of load lost around each grain, means of `side` grains compared, and the limit that noise keeps to. */
  function losses(side: number): { share: Float64Array; scatter: number; limit: number } {
    const share = new Float64Array(n).fill(Number.NaN);
    const noise: number[] = [];
    for (let k = w; k + g + w <= n; k++) {
      const before = meanOver(s, k - side, k);
      const after = meanOver(s, k + g, k + g + side);
      if (!(before > 2 * loaded.slackLimit) || Number.isNaN(after)) continue;
      share[k] = (before - after) / before;
      if (after > loaded.slackLimit) noise.push(share[k]!);
    }
    const scatter = noise.length >= 8 ? scaleOfNearest(Float64Array.from(noise), 0) : 0;
    const trials = Math.max(2, (SIDES.length * noise.length) / (side + g));
    const limit = Math.max(
      settings.drag.loss,
      scatter * Math.sqrt(2 * Math.log(trials / (2 * settings.drag.falseAlarms))),
    );
    return { share, scatter, limit };
  }

  /** The loss around a grain as a multiple of its limit, on the scale where that is most; NaN counts as none. */
  function clear(k: number): number {
    let most = 0;
    for (const { share, limit } of scales) if (share[k]! / limit > most) most = share[k]! / limit;
    return most;
  }

  function measured(k: number): Drop | null {
    const high = meanOver(s, k - w, k);
    const low = meanOver(s, k + g, k + g + w);
    let steepest = k;
    for (let j = Math.max(1, k - w); j < Math.min(n, k + g + w); j++) if (fall(j) > fall(steepest)) steepest = j;
    // The fall reaches as far as it goes on at a quarter of its steepest rate.
    const still = fall(steepest) / 4;
    let from = steepest;
    while (from > 1 && (fall(from - 1) >= still || fall(from - 2) >= still)) from--;
    let to = steepest;
    while (to < n - 2 && (fall(to + 1) >= still || fall(to + 2) >= still)) to++;
    const before = finite(meanOver(s, Math.max(0, from - w), from), high);
    const after = finite(meanOver(s, to + 1, Math.min(n, to + 1 + w)), low);
    const loss = before - after;
    if (!(loss >= settings.drag.loss * before)) return null;
    // A gust rises as fast as it falls: against where the load was heading before it little is lost.
    if (ahead(from - w, to + 1 + w / 2) - after < Math.max(loss / 2, settings.drag.loss * before)) return null;
    const around = Math.round(AROUND / even.grain);
    let lowest = after;
    for (let j = to + 1; j + w <= Math.min(n, to + 1 + around); j++)
      lowest = Math.min(lowest, finite(meanOver(s, j, j + w), lowest));
    const whole = finite(meanOver(s, from - around, from - w), before) - lowest;
    const blur = (load: number): number => Math.sqrt(varianceAt(loaded, load) / w);
    return {
      from: even.start + from * even.grain,
      to: even.start + (to + 0.5) * even.grain,
      before: { value: before, u: blur(before) },
      after: { value: after, u: blur(after) },
      clear: clear(k) * (scales[0]!.limit / (scales[0]!.scatter || Number.NaN)),
      quick: whole > 0 ? loss / whole : 1,
      toSlack: after <= 1.5 * loaded.slackLimit,
    };
  }

  function fall(j: number): number {
    const d = (even.value[j - 1] ?? Number.NaN) - (even.value[j] ?? Number.NaN);
    return Number.isNaN(d) ? Number.NEGATIVE_INFINITY : d;
  }

  /** Where the load before grain `end` was heading at `target`: the line of median slope through some seconds. */
  function ahead(end: number, target: number): number {
    const from = Math.max(0, end - 3 * w);
    const slopes: number[] = [];
    for (let a = from; a < end; a++)
      for (let b = a + 1; b < end; b++) {
        const d = (even.value[b]! - even.value[a]!) / (b - a);
        if (!Number.isNaN(d)) slopes.push(d);
      }
    if (slopes.length < 6) return Number.POSITIVE_INFINITY;
    const slope = median(Float64Array.from(slopes));
    const levels: number[] = [];
    for (let a = from; a < end; a++)
      if (!Number.isNaN(even.value[a]!)) levels.push(even.value[a]! + slope * (target - a));
    return median(Float64Array.from(levels));
  }
}

function finite(value: number, otherwise: number): number {
  return Number.isNaN(value) ? otherwise : value;
}

/** Mean load over a span, N. */
export function meanLoad(loaded: Loaded, span: Span): number {
  return meanOver(loaded.sums, grainAt(loaded.even, span.from), grainAt(loaded.even, span.to));
}
