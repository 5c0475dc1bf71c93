import { unbroken } from "./even.ts";
import { line, type Piece } from "./line-fit.ts";
import { grainAt, type Loaded, varianceAt } from "./loaded.ts";
import { straightPieces } from "./pieces.ts";
import { meanOfGrains } from "./scatter.ts";
import type { TraceSettings } from "./settings.ts";
import type { Measured, Span } from "./trace.ts";
import { type Zero, zeroAt } from "./zero.ts";

/** A stretch at one load. */
export interface Plateau extends Span {
  readonly id: string;
  /** Mean load over time, zero taken off, N, and its standard uncertainty (readings, zero, cell): the load's own swing is none. */
  readonly load: Measured;
  /** Creep: change of load with time, N/s. */
  readonly creep: Measured;
  /** Standard deviation of the grains about the straight line, N. */
  readonly scatter: number;
  /** How many independent grains the scatter amounts to. */
  readonly effective: number;
}

/**
 * Plateaus: straight pieces of the load that are flat. Flat is what changes, in the time of the shortest plateau, by
 * no more than the share allowed, or by no more than twice what its slope is uncertain by.
 */
export function findPlateaus(
  loaded: Loaded,
  zero: Zero,
  settings: TraceSettings,
  breaks: readonly Span[] = [],
): Plateau[] {
  const { even } = loaded;
  const flats: Piece[] = [];
  for (const [a, b] of unbroken(even.value)) {
    const y = even.value.subarray(a, b);
    const weight = y.map((_, k) => 1 / (varianceAt(loaded, loaded.level[a + k]!) || 1));
    const pieces = straightPieces(y, 3 * Math.log(Math.max(3, y.length)), weight).map((p) => ({
      ...p,
      from: p.from + a,
      to: p.to + a,
    }));
    flats.push(...gathered(pieces));
  }
  const plateaus: Plateau[] = [];
  for (const flat of flats) {
    const [from, to] = trimmed(flat);
    const span = { from: even.start + from * even.grain, to: even.start + to * even.grain };
    if (span.to - span.from < settings.plateau.shortest - 1e-9) continue;
    plateaus.push(measurePlateau(loaded, zero, settings, span));
  }
  return plateaus;

  function isFlat(p: Piece): boolean {
    if (!(p.mean > loaded.slackLimit)) return false;
    const n = p.to - p.from;
    const u = Math.sqrt((12 * varianceAt(loaded, p.mean)) / Math.max(1, n * (n * n - 1)));
    const allowed = (settings.plateau.change * p.mean * even.grain) / settings.plateau.shortest;
    // A short piece is flat to within its own vagueness only if that vagueness is small beside its level.
    return Math.abs(p.slope) <= allowed + 2 * Math.min(u, allowed);
  }

  /** Joins flat pieces that are one plateau, disturbed for a moment or not at all, and what beside them is level with them. */
  function gathered(pieces: readonly Piece[]): Piece[] {
    const groups: Piece[] = [];
    let k = 0;
    while (k < pieces.length) {
      const piece = pieces[k++]!;
      if (!isFlat(piece)) continue;
      let group = piece;
      for (
        let back = k - 2;
        back >= 0 && pieces[back]!.from >= (groups.at(-1)?.to ?? 0) && levelWith(group, pieces[back]!);
        back--
      )
        group = line(even.value, pieces[back]!.from, group.to);
      let reach = k;
      for (let j = k; j < pieces.length; j++) {
        const next = pieces[j]!;
        if ((next.from - group.to) * even.grain > settings.plateau.disturbed + 1e-9) break;
        if (!(levelWith(group, next) || (isFlat(next) && sameLevel(group, next))) || isBroken(group.to, next.from))
          continue;
        group = line(even.value, group.from, next.to);
        reach = j + 1;
      }
      k = reach;
      groups.push(group);
    }
    return groups;
  }

  function sameLevel(group: Piece, next: Piece): boolean {
    const shorter = Math.min(next.to - next.from, group.to - group.from);
    const blur = 2 * Math.sqrt(varianceAt(loaded, next.mean) / shorter);
    const step = Math.min(
      Math.abs(valueAt(next, next.from) - valueAt(group, group.to)),
      Math.abs(next.mean - group.mean),
    );
    const level = Math.max(next.mean, group.mean);
    return step <= settings.plateau.sameLevel * level + Math.min(blur, settings.plateau.sameLevel * level);
  }

  /** A piece too short or too swung about to be called flat by itself, but lying on the plateau's line all along. */
  function levelWith(group: Piece, next: Piece): boolean {
    const n = next.to - next.from;
    if (n > group.to - group.from) return false;
    const off = Math.max(
      Math.abs(valueAt(next, next.from) - group.mean),
      Math.abs(valueAt(next, next.to) - group.mean),
    );
    return off <= settings.plateau.sameLevel * group.mean + 2 * Math.sqrt(varianceAt(loaded, group.mean) / n);
  }

  function isBroken(to: number, from: number): boolean {
    return breaks.some((s) => grainAt(even, s.from) <= from && grainAt(even, s.to) >= to);
  }

  /** Takes grains off the ends that stand out of the plateau: the ramp's last and the fall's first. */
  function trimmed(p: Piece): [number, number] {
    const inner = Math.max(2, Math.round((p.to - p.from) / 8));
    const core = line(even.value, p.from + inner, p.to - inner);
    let rss = 0;
    for (let k = core.from; k < core.to; k++) rss += (even.value[k]! - valueAt(core, k)) ** 2;
    const limit = 3 * Math.max(Math.sqrt(rss / Math.max(1, core.to - core.from - 2)), 1e-3 * Math.abs(core.mean));
    let from = p.from;
    let to = p.to;
    while (from < core.from && Math.abs(even.value[from]! - valueAt(core, from)) > limit) from++;
    while (to > core.to && Math.abs(even.value[to - 1]! - valueAt(core, to - 1)) > limit) to--;
    return [from, to];
  }
}

function valueAt(p: Piece, k: number): number {
  return p.mean + p.slope * (k - (p.from + p.to - 1) / 2);
}

/** Measures the load over a stretch, wherever its ends came from. */
export function measurePlateau(loaded: Loaded, zero: Zero, settings: TraceSettings, span: Span): Plateau {
  const { even } = loaded;
  const kept = even.value.subarray(grainAt(even, span.from), grainAt(even, span.to)).filter((v) => !Number.isNaN(v));
  const m = meanOfGrains(kept, 0, kept.length);
  const z = zeroAt(zero, (span.from + span.to) / 2);
  const { noise, interval } = loaded.reading;
  // The load swung, and its mean is what it was in the mean: only what the readings missed of it makes that uncertain, and
  // that a swing may begin or end a reading later.
  const seconds = Math.max(interval, kept.length * even.grain);
  const missed = Math.hypot(noise * Math.sqrt(interval / seconds), (m.scatter * interval) / seconds);
  return {
    id: markId("plateau", span.from),
    from: span.from,
    to: span.to,
    load: {
      value: m.mean,
      u: Math.hypot(missed, z.u, settings.cell.relative * m.mean, settings.cell.step / Math.sqrt(12)),
    },
    creep: { value: m.slope / even.grain, u: m.uSlope / even.grain },
    scatter: m.scatter,
    effective: m.effective,
  };
}

/** A mark's name: its kind and when it begins, so that the same find keeps its name. */
export function markId(kind: string, from: number): string {
  return `${kind}@${(Math.round(from * 10) / 10).toFixed(1)}`;
}
