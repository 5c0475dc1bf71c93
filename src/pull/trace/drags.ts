import type { AnchorPath } from "../anchor/index.ts";
import type { MarkCause } from "./cause.ts";
import { type Drop, meanLoad } from "./drops.ts";
import { grainAt, type Loaded, varianceAt } from "./loaded.ts";
import { markId, type Plateau } from "./plateaus.ts";
import type { TraceSettings } from "./settings.ts";
import type { Measured, Span } from "./trace.ts";

/** The anchor gave way: seen in the load, in the boat's movement, in both, or by a person who marked it. */
export interface Drag extends Span {
  readonly id: string;
  readonly seenIn: "load" | "movement" | "both" | "hand";
  /** Load it gave way at: in the seconds before, N; of a slow movement the mean load it ploughed at. */
  readonly load: Measured;
  /** Load lost, N; null when it was seen in the movement only. */
  readonly lost: Measured | null;
  /** How far the anchor went, m; null without a track, or without the line of the pull. */
  readonly distance: Measured | null;
  readonly why: MarkCause;
}

/** The load was let off: by the engine, or by the end of the pull. */
export interface Easing extends Span {
  readonly id: string;
  readonly load: Measured;
  readonly lost: Measured;
  readonly why: MarkCause;
}

/** A fall that is less than this share of the loss around it is part of a slower one. */
const SUDDEN = 0.6;
/** A fall is looked at so long before and after, s: an anchor that breaks out goes on for a while. */
const AROUND = { before: 1.5, after: 4, ends: 1 };
/** What the anchor does in so many metres is no drag. */
const NOTHING = 0.3;
/** Chance from which a movement is believed; with a sudden fall of the load, the likelier of the two. */
const SURE = 0.95;
/** Movements nearer than this in time are one, s. */
const APART = 3;
/** A movement that begins so soon after a sudden fall of the load is what made it fall, s: when it began is known no better. */
const FOLLOWS = 5;
/** An anchor that goes no farther while the load rises by so much digs itself in. */
const DIGS_IN = { metres: 2, rise: 1.25 };
/** Seconds averaged for the load at which a movement began. */
const BEFORE = 2;
/** A movement that lasts so long is a plough, s. */
const PLOUGHS = 6;

/**
 * Tells drags from easings. Where a track tells, the anchor's own movement decides, whatever the load did: a load that
 * falls while the anchor stays was let off, or swung back. Without, a quick fall that the load outlives is taken for a
 * drag; a slow one, or one to slack with nothing after it, for an easing.
 */
export function findDrags(
  drops: readonly Drop[],
  path: AnchorPath | null,
  plateaus: readonly Plateau[],
  loaded: Loaded,
  settings: TraceSettings,
): { drags: Drag[]; easings: Easing[] } {
  const drags: Drag[] = [];
  const easings: Easing[] = [];
  const movements = path === null ? [] : [...path.movements, ...movedPlateaus(path)];
  for (const drop of drops) {
    const lost = { value: drop.before.value - drop.after.value, u: Math.hypot(drop.before.u, drop.after.u) };
    const moved = path?.moved({ from: drop.from - AROUND.before, to: drop.to + AROUND.after }) ?? null;
    const seconds = drop.to - drop.from;
    const fell = { share: lost.value / drop.before.value, seconds };
    const clear = Number.isFinite(drop.clear) ? drop.clear : null;
    const drag = { from: drop.from, to: drop.to, load: drop.before, id: markId("drag", drop.from), lost };
    const easing = { from: drop.from, to: drop.to, load: drop.before, id: markId("easing", drop.from), lost };
    const slow = seconds > settings.drag.longestFall || drop.quick < SUDDEN;
    const ends = drop.toSlack && !comesBack(drop);
    const follows = movements.find((m) => m.from > drop.from - APART && m.from < drop.to + FOLLOWS);
    if (follows && !slow && !ends) {
      const to = Math.max(drop.to, follows.to);
      const way = path?.moved({ from: drop.from - AROUND.before, to: to + AROUND.ends }) ?? null;
      const distance = way === null ? follows.distance : { value: way.value, u: way.u };
      drags.push({ ...drag, to, seenIn: "both", distance, why: { kind: "fellAndWent", ...fell, clear } });
    } else if (moved && moved.chance(NOTHING) > (slow || ends ? SURE : 0.5)) {
      const distance = { value: moved.value, u: moved.u };
      drags.push({ ...drag, seenIn: "both", distance, why: { kind: "fellAndWent", ...fell, clear } });
    } else if (moved || (path && path.stretches.length > 0 && !slow && !ends)) {
      // Where the boat veered the track knows no line of the pull for a time: a fall shows no movement there, and what
      // was held is told by the load alone.
      easings.push({ ...easing, why: { kind: "fellAndStayed", ...fell } });
    } else if (slow)
      easings.push({
        ...easing,
        why:
          seconds > settings.drag.longestFall
            ? { kind: "fellSlowly", ...fell, longest: settings.drag.longestFall }
            : { kind: "fellInPart", ...fell },
      });
    else if (ends) easings.push({ ...easing, why: { kind: "fellToSlack", ...fell } });
    else
      drags.push({
        ...drag,
        seenIn: "load",
        distance: null,
        why: { kind: "fellUntracked", ...fell, clear },
      });
  }
  for (const m of movements) addMovement(m, m.distance);
  drags.sort((a, b) => a.from - b.from);
  return { drags, easings };

  /** Plateaus in which the anchor went farther than it may, though no movement was found by itself. */
  function movedPlateaus(known: AnchorPath): { from: number; to: number; distance: Measured }[] {
    return plateaus.flatMap((p) => {
      const moved = known.moved(p);
      const goes = moved !== null && moved.chance(settings.heldWithin) > SURE;
      return goes ? [{ from: p.from, to: p.to, distance: { value: moved.value, u: moved.u } }] : [];
    });
  }

  /** Whether the load is well above slack again soon after. */
  function comesBack(drop: Drop): boolean {
    const { even } = loaded;
    const first = grainAt(even, drop.to) + 4;
    const last = Math.min(even.value.length, grainAt(even, drop.to + settings.drag.comesBack));
    for (let k = first; k < last; k++)
      if (even.value[k]! > Math.max(2 * loaded.slackLimit, 0.1 * drop.before.value)) return true;
    return false;
  }

  function addMovement(span: Span, moved: Measured): void {
    const third = (span.to - span.from) / 3;
    const first = meanLoad(loaded, { from: span.from, to: span.from + Math.max(third, loaded.even.grain) });
    const last = meanLoad(loaded, { from: span.to - Math.max(third, loaded.even.grain), to: span.to });
    if (last > DIGS_IN.rise * first && moved.value < DIGS_IN.metres) return;
    if (drags.some((d) => d.from < span.to + APART && d.to > span.from - APART)) return;
    const seconds = span.to - span.from;
    const ploughs = seconds >= PLOUGHS;
    const mean = meanLoad(loaded, span);
    const before = meanLoad(loaded, { from: span.from - BEFORE, to: span.from });
    // One that goes at once gave way at the load before; one that goes on and on ploughs at the mean.
    const value = ploughs || Number.isNaN(before) ? mean : Math.max(before, first);
    const over = ploughs ? seconds : BEFORE;
    drags.push({
      id: markId("drag", span.from),
      from: span.from,
      to: span.to,
      seenIn: "movement",
      load: { value, u: Math.sqrt(varianceAt(loaded, value) / Math.max(1, over / loaded.even.grain)) },
      lost: null,
      distance: { value: moved.value, u: moved.u },
      why: ploughs
        ? { kind: "ploughed", seconds, speed: moved.value / seconds }
        : { kind: "went", times: moved.value / moved.u },
    });
  }
}
