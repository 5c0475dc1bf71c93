import { unbroken } from "./even.ts";
import { grainAt, type Loaded } from "./loaded.ts";
import { measurePlateau, type Plateau } from "./plateaus.ts";
import { meanOfGrains } from "./scatter.ts";
import type { TraceSettings } from "./settings.ts";
import type { Span } from "./trace.ts";
import type { Zero } from "./zero.ts";

/** Lengths that are tried, longest first, in times the shortest plateau. */
const LENGTHS = [8, 6, 4.5, 3.4, 2.5, 1.9, 1.4, 1];
/** A load that swings stays at one level when its line changes by no more than this share of it from end to end. */
const LEVEL = 0.05;
/** Or by no more than twice what the line is uncertain by, up to this share. */
const VAGUE = 0.1;
/** The swing, as a share of the mean: less makes a plateau of its own; with more the rode is slack at times. */
const SWING = { least: 0.02, most: 0.4 };
/** The mean of a swung load is known to this share of it, or it is no plateau. */
const KNOWN = 0.08;

/**
 * Loads held while gusts and swell swing them: stretches under load that no straight piece covers, level in the mean by
 * what the swing itself lets one tell.
 */
export function findSwung(
  loaded: Loaded,
  zero: Zero,
  settings: TraceSettings,
  flats: readonly Plateau[],
  breaks: readonly Span[],
): Plateau[] {
  const { even } = loaded;
  const free = even.value.map((v) => (v > 2 * loaded.slackLimit ? v : Number.NaN));
  for (const p of [...flats, ...breaks])
    for (let k = grainAt(even, p.from); k < grainAt(even, p.to); k++) free[k] = Number.NaN;
  const found: Plateau[] = [];
  const shortest = Math.round(settings.plateau.shortest / even.grain);
  const pace = Math.max(1, Math.round(1 / even.grain));
  for (const [from, to] of unbroken(free)) search(from, to);
  return found.sort((a, b) => a.from - b.from);

  function search(from: number, to: number): void {
    for (const times of LENGTHS) {
      const n = Math.round(times * shortest);
      let best = -1;
      let least = Number.POSITIVE_INFINITY;
      for (let k = from; k + n <= to; k += pace) {
        const change = levelChange(k, n);
        if (change < least) [least, best] = [change, k];
      }
      if (best < 0) continue;
      found.push(
        measurePlateau(loaded, zero, settings, {
          from: even.start + best * even.grain,
          to: even.start + (best + n) * even.grain,
        }),
      );
      search(from, best);
      search(best + n, to);
      return;
    }
  }

  /** Change of the mean line over a stretch, as a share; infinite where it is not level or does not swing. */
  function levelChange(k: number, n: number): number {
    const m = meanOfGrains(even.value, k, k + n);
    if (!(m.u < KNOWN * m.mean && m.scatter > SWING.least * m.mean && m.scatter < SWING.most * m.mean))
      return Number.POSITIVE_INFINITY;
    const change = Math.abs(m.slope * n) / m.mean;
    const allowed = Math.max(LEVEL, Math.min(VAGUE, (2 * m.uSlope * n) / m.mean));
    return change <= allowed ? change : Number.POSITIVE_INFINITY;
  }
}
