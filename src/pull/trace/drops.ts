import { meanOver, sums } from "./even.ts";
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
  /** When the load was back at nine tenths of what it had been, s; null when it was not. */
  readonly backAt: number | null;
  readonly toSlack: boolean;
}

/** Seconds averaged on either side of a fall, and between them. */
const SIDE = 2;
const BETWEEN = 1;

/**
 * Falls of the load: the mean of the seconds before minus that of the seconds after, as a share of the load before,
 * where it is a local maximum, loses at least the share asked for and stands clear of what the same difference does
 * elsewhere under load (the third of the time when it does least: ramps do not count). The limit is z = √(2 ln(n / 2α)), which noise passes α times in n independent trials at most.
 * The back of a short gust is no fall: the load is compared with a robust line through the seconds before it too.
 */
export function findDrops(loaded: Loaded, settings: TraceSettings): Drop[] {
  const { even } = loaded;
  const n = even.value.length;
  const w = Math.max(1, Math.round(SIDE / even.grain));
  const g = Math.max(1, Math.round(BETWEEN / even.grain));
  const s = sums(even.value);
  const share = new Float64Array(n).fill(Number.NaN);
  const noise: number[] = [];
  for (let k = w; k + g + w <= n; k++) {
    const before = meanOver(s, k - w, k);
    const after = meanOver(s, k + g, k + g + w);
    if (!(before > 2 * loaded.slackLimit) || Number.isNaN(after)) continue;
    share[k] = (before - after) / before;
    if (after > loaded.slackLimit) noise.push(share[k]!);
  }
  const scatter = noise.length >= 8 ? scaleOfNearest(Float64Array.from(noise), 0) : 0;
  const trials = Math.max(2, noise.length / (w + g));
  const z = Math.sqrt(2 * Math.log(trials / (2 * settings.drag.falseAlarms)));
  const limit = Math.max(settings.drag.loss, z * scatter);
  const drops: Drop[] = [];
  const reach = w + g;
  for (let k = w; k < n; k++) {
    if (!(share[k]! >= limit)) continue;
    let best = k;
    for (let j = k; j < Math.min(n, best + reach); j++) if (share[j]! > share[best]!) best = j;
    const drop = measured(best);
    if (drop) drops.push(drop);
    k = Math.max(k, best + reach);
  }
  return drops;

  function measured(k: number): Drop | null {
    const high = meanOver(s, k - w, k);
    const low = meanOver(s, k + g, k + g + w);
    // A gust rises as fast as it falls: against the seconds before it nothing is lost.
    if (ahead(k - w, k + g + w) - low < (high - low) / 2) return null;
    let steepest = k;
    for (let j = Math.max(1, k - w); j < Math.min(n, k + g + w); j++) if (fall(j) > fall(steepest)) steepest = j;
    // The fall reaches as far as it goes on at a quarter of its steepest rate.
    const still = fall(steepest) / 4;
    let from = steepest;
    while (from > 1 && (fall(from - 1) >= still || fall(from - 2) >= still)) from--;
    let to = steepest;
    while (to < n - 2 && (fall(to + 1) >= still || fall(to + 2) >= still)) to++;
    const before = finite(meanOver(s, from - w, from), high);
    const after = finite(meanOver(s, to + 1, to + 1 + w), low);
    const loss = before - after;
    if (!(loss >= limit * before)) return null;
    const blur = (load: number): number => Math.sqrt(varianceAt(loaded, load) / w);
    let back: number | null = null;
    for (let j = to; j + w <= n && back === null; j++)
      if (meanOver(s, j, j + w) >= 0.9 * before) back = even.start + j * even.grain;
    return {
      // Grain means fall a grain wider than the load did.
      from: even.start + from * even.grain,
      to: even.start + (to + 0.5) * even.grain,
      before: { value: before, u: blur(before) },
      after: { value: after, u: blur(after) },
      clear: scatter > 0 ? loss / before / scatter : Number.POSITIVE_INFINITY,
      backAt: back,
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
  return meanOver(sums(loaded.even.value), grainAt(loaded.even, span.from), grainAt(loaded.even, span.to));
}
