import { type Even, evenly, meanOver, type Sums, sums, unbroken } from "./even.ts";
import { line } from "./line-fit.ts";
import { grainAt, type Loaded } from "./loaded.ts";
import { straightPieces } from "./pieces.ts";
import { slowVariance } from "./scatter.ts";
import type { TraceSettings } from "./settings.ts";
import { type Headings, type Measured, readings, type Span, type Track } from "./trace.ts";

/** Where the boat was along the line of one pull: metres away from the anchor, from any origin. */
export interface Along {
  readonly span: Span;
  readonly even: Even;
  /** Unit vector away from the anchor. */
  readonly away: { readonly east: number; readonly north: number };
  /** How the direction is known. */
  readonly by: "anchor" | "heading" | "movement";
  /** Standard uncertainty of that direction, rad. */
  readonly uDirection: number;
  /** Place across the pull, m: it tells how far a fix wanders when nothing drags. */
  readonly across: Float64Array;
  readonly sums: Sums;
  readonly acrossSums: Sums;
  /** Variance per grain that moves slow means of the position as these move, m². */
  readonly variance: number;
}

/** Longest time over which positions are averaged for one place, s. */
export const AVERAGED = 6;

/**
 * The boat's place along each pull. Its direction is that from the marked anchor; else the one the boat points; else
 * the one it moved from the start of the pull to its highest load, when that is more than noise.
 */
export function alongPulls(
  track: Track,
  headings: Headings | undefined,
  loaded: Loaded,
  settings: TraceSettings,
): (Along | null)[] {
  const east = readings(track.time, track.east, 4 * settings.longestGap, "track");
  const north = readings(track.time, track.north, 4 * settings.longestGap, "track");
  const grain = Math.max(1, settings.grain, east.interval);
  const start = loaded.even.start;
  const end = start + loaded.even.grain * loaded.even.value.length;
  const e = evenly(east, grain, start, end);
  const n = evenly(north, grain, start, end);
  const eastSums = sums(e.value);
  const northSums = sums(n.value);
  const variance = Math.max(varianceOf(e.value), varianceOf(n.value));
  return loaded.pulls.map((span) => {
    const known = direction(span);
    if (!known) return null;
    const a = Math.max(0, Math.floor((span.from - AVERAGED - start) / grain));
    const b = Math.min(e.value.length, Math.ceil((span.to + AVERAGED - start) / grain));
    const value = new Float64Array(b - a);
    const across = new Float64Array(b - a);
    for (let k = a; k < b; k++) {
      value[k - a] = e.value[k]! * known.east + n.value[k]! * known.north;
      across[k - a] = n.value[k]! * known.east - e.value[k]! * known.north;
    }
    const even = { start: start + a * grain, grain, value };
    return {
      span,
      even,
      away: { east: known.east, north: known.north },
      by: known.by,
      uDirection: known.uDirection,
      across,
      sums: sums(value),
      acrossSums: sums(across),
      variance: varianceOf(value),
    };
  });

  function varianceOf(value: Float64Array): number {
    const runs = unbroken(value).map(([a, b]) => value.subarray(a, b));
    return slowVariance(runs, Math.max(1, Math.round(AVERAGED / grain)));
  }

  function direction(span: Span): { east: number; north: number; by: Along["by"]; uDirection: number } | null {
    const highest = { from: highestAt(loaded, span) - AVERAGED / 2, to: highestAt(loaded, span) + AVERAGED / 2 };
    const there = place(highest);
    const u = Math.sqrt((2 * variance * grain) / AVERAGED);
    if (settings.anchor && there) {
      const off = { east: there.east - settings.anchor.east, north: there.north - settings.anchor.north };
      const one = unit(off.east, off.north);
      if (one) return { ...one, by: "anchor", uDirection: u / Math.hypot(off.east, off.north) };
    }
    const pointed = headings && meanHeading(headings, span);
    if (pointed) {
      // Pulling astern the bow looks at the anchor.
      const sign = settings.pulls === "astern" ? -1 : 1;
      return {
        east: sign * Math.sin(pointed.angle),
        north: sign * Math.cos(pointed.angle),
        by: "heading",
        uDirection: Math.sqrt(-2 * Math.log(pointed.agreement)),
      };
    }
    const here = place({ from: span.from - AVERAGED / 2, to: span.from + AVERAGED / 2 });
    if (!here || !there) return null;
    const moved = Math.hypot(there.east - here.east, there.north - here.north);
    if (!(moved > 4 * u)) return null;
    const one = unit(there.east - here.east, there.north - here.north);
    return one && { ...one, by: "movement", uDirection: u / moved };
  }

  function place(span: Span): { east: number; north: number } | null {
    const [a, b] = [grainAt(e, span.from), grainAt(e, span.to)];
    const at = { east: meanOver(eastSums, a, b), north: meanOver(northSums, a, b) };
    return Number.isNaN(at.east) || Number.isNaN(at.north) ? null : at;
  }
}

function unit(east: number, north: number): { east: number; north: number } | null {
  const length = Math.hypot(east, north);
  return length > 0 ? { east: east / length, north: north / length } : null;
}

/** Time of the highest load kept some seconds within a span, s. */
export function highestAt(loaded: Loaded, span: Span): number {
  const { even } = loaded;
  const w = Math.max(1, Math.round(2 / even.grain));
  const s = loaded.sums;
  let best = span.from;
  let high = Number.NEGATIVE_INFINITY;
  for (let k = grainAt(even, span.from); k + w <= grainAt(even, span.to); k++) {
    const m = meanOver(s, k, k + w);
    if (m > high) {
      high = m;
      best = even.start + (k + w / 2) * even.grain;
    }
  }
  return best;
}

/** Mean direction of the headings within a span, rad, and how closely they agree (1: all the same); null without any. */
export function meanHeading(headings: Headings, span: Span): { angle: number; agreement: number } | null {
  let x = 0;
  let y = 0;
  let count = 0;
  for (let i = firstFrom(headings.time, span.from); i < headings.time.length; i++) {
    const t = headings.time[i]!;
    const a = headings.angle[i]!;
    if (t > span.to) break;
    if (!Number.isFinite(a)) continue;
    x += Math.cos(a);
    y += Math.sin(a);
    count++;
  }
  if (count === 0) return null;
  return { angle: Math.atan2(y, x), agreement: Math.min(1, Math.hypot(x, y) / count) };
}

function firstFrom(time: Float64Array, t: number): number {
  let a = 0;
  let b = time.length;
  while (a < b) {
    const m = (a + b) >> 1;
    if (time[m]! < t) a = m + 1;
    else b = m;
  }
  return a;
}

/**
 * How far the boat went away from the anchor between two times, m, each place averaged over some seconds outside them.
 */
export function movedAway(along: Along, from: number, to: number): Measured | null {
  return movedBetween(along, { from: from - AVERAGED, to: from }, { from: to, to: to + AVERAGED });
}

/**
 * How far the boat went away from the anchor between two stretches, m, its place averaged over each.
 * Its uncertainty is what the same difference does across the pull, where the wander of the fix is the same and the
 * anchor does not drag; never less than the scatter along the pull gives.
 */
export function movedBetween(along: Along, first: Span, second: Span): Measured | null {
  const { even, sums: s } = along;
  const [a, b, c, d] = [first.from, first.to, second.from, second.to].map((t) => grainAt(even, t)) as [
    number,
    number,
    number,
    number,
  ];
  const before = meanOver(s, a, Math.max(b, a + 1));
  const after = meanOver(s, c, Math.max(d, c + 1));
  if (Number.isNaN(before) || Number.isNaN(after)) return null;
  const [m, n] = [Math.max(1, b - a), Math.max(1, d - c)];
  return {
    value: after - before,
    u: Math.max(Math.sqrt(along.variance * (1 / m + 1 / n)), wander(along, Math.min(m, n), Math.max(0, c - b))),
  };
}

/** Mean of what the rode itself lets the boat go back at the loads of a stretch, m. */
export function meanGive(give: (newtons: number) => number, loaded: Loaded, span: Span): number {
  const [a, b] = [grainAt(loaded.even, span.from), grainAt(loaded.even, span.to)];
  const step = Math.max(1, Math.floor((b - a) / 6));
  let sum = 0;
  let count = 0;
  for (let k = a; k < Math.max(b, a + 1); k += step) {
    const load = loaded.even.value[k] ?? Number.NaN;
    if (Number.isNaN(load)) continue;
    sum += give(load);
    count++;
  }
  return count > 0 ? sum / count : 0;
}

/** At most so many differences are looked at for the wander of a fix. */
const LOOKED_AT = 2000;

/** Root mean square difference across the pull of means of `w` grains, `apart` grains between them, m. */
function wander(along: Along, w: number, apart: number): number {
  const s = along.acrossSums;
  const step = Math.max(1, Math.floor((along.across.length - apart - 2 * w) / LOOKED_AT));
  let sum = 0;
  let count = 0;
  for (let k = w; k + apart + w <= along.across.length; k += step) {
    const d = meanOver(s, k + apart, k + apart + w) - meanOver(s, k - w, k);
    if (Number.isNaN(d)) continue;
    sum += d * d;
    count++;
  }
  return count > 0 ? Math.sqrt(sum / count) : 0;
}

/** A stretch in which the boat went steadily away from the anchor. */
export interface Movement extends Span {
  readonly distance: Measured;
}

/** Stretches of a pull in which the boat moves away by more than four times its uncertainty. */
export function movements(along: Along): Movement[] {
  const found: Movement[] = [];
  for (const [a, b] of unbroken(along.even.value)) {
    const y = along.even.value.subarray(a, b);
    const alike = new Float64Array(y.length).fill(along.variance > 0 ? 1 / along.variance : 1);
    for (const p of straightPieces(y, 3 * Math.log(Math.max(3, y.length)), alike)) {
      const n = p.to - p.from;
      if (n < 3) continue;
      const distance = line(y, p.from, p.to).slope * n;
      const w = Math.max(1, Math.round(n / 4));
      const u = Math.max(
        Math.sqrt((12 * along.variance * n) / (n * n - 1)),
        (wander(along, w, n - 2 * w) * n) / (n - w),
      );
      if (distance > 4 * u) {
        const from = along.even.start + (p.from + a) * along.even.grain;
        found.push({ from, to: from + n * along.even.grain, distance: { value: distance, u } });
      }
    }
  }
  return found;
}
