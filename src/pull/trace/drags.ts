import { type Drop, meanLoad } from "./drops.ts";
import { grainAt, type Loaded, varianceAt } from "./loaded.ts";
import { type Along, AVERAGED, meanGive, movedAway, movements } from "./movement.ts";
import { markId } from "./plateaus.ts";
import type { TraceSettings } from "./settings.ts";
import type { Measured, Span } from "./trace.ts";
import { percent } from "./zero.ts";

/** The anchor gave way: seen in the load, in the boat's movement, in both, or by a person who marked it. */
export interface Drag extends Span {
  readonly id: string;
  readonly seenIn: "load" | "movement" | "both" | "hand";
  /** Load it gave way at: in the seconds before, N. */
  readonly load: Measured;
  /** Load lost, N; null when it was seen in the movement only. */
  readonly lost: Measured | null;
  /** How far the boat went away from the anchor, m; null without a track, or without the line of the pull. */
  readonly distance: Measured | null;
  readonly why: string;
}

/** The load was let off: by the engine, or by the end of the pull. */
export interface Easing extends Span {
  readonly id: string;
  readonly load: Measured;
  readonly lost: Measured;
  readonly why: string;
}

/** A fall that is less than this share of the loss around it is part of a slower one. */
const SUDDEN = 0.6;

/** Ends of a fall are known to so much, s. */
const BLUR = 0.5;

/** Seconds averaged for the load at which a movement began. */
const BEFORE = 2;

/**
 * Tells drags from easings. With a track the boat's movement decides: a boat that goes away from the anchor while the
 * load falls has dragged it, one that comes back to it was let off. Without, a quick fall that the load outlives is
 * taken for a drag; a slow one, or one to slack with nothing after it, for an easing.
 *
 * @param give movement of the boat that the rode itself allows at a load, m; absent: movement counts only while the
 * load does not rise
 */
export function findDrags(
  drops: readonly Drop[],
  along: readonly (Along | null)[],
  loaded: Loaded,
  settings: TraceSettings,
  give?: (newtons: number) => number,
): { drags: Drag[]; easings: Easing[] } {
  const drags: Drag[] = [];
  const easings: Easing[] = [];
  for (const drop of drops) {
    const lost = { value: drop.before.value - drop.after.value, u: Math.hypot(drop.before.u, drop.after.u) };
    const line = along.find((a) => a !== null && a.span.from <= drop.from && a.span.to >= drop.from - 1);
    const moved = line ? movedAway(line, drop.from - BLUR, drop.to + BLUR) : null;
    const away = moved && { value: moved.value + recoil(drop), u: moved.u };
    const seconds = drop.to - drop.from;
    const fell = `fell ${percent(lost.value / drop.before.value)} in ${seconds.toFixed(1)} s`;
    const clear = Number.isFinite(drop.clear) ? `, ${drop.clear.toPrecision(2)} times the scatter` : "";
    const base = { from: drop.from, to: drop.to, load: drop.before };
    if (away && away.value > 3 * away.u)
      drags.push({
        ...base,
        id: markId("drag", drop.from),
        seenIn: "both",
        lost,
        distance: away,
        why: `load ${fell}${clear}, and the boat went away`,
      });
    else if (away && away.value < -3 * away.u)
      easings.push({ ...base, id: markId("easing", drop.from), lost, why: `load ${fell}, and the boat came back` });
    else if (seconds > settings.drag.longestFall || drop.quick < SUDDEN)
      easings.push({
        ...base,
        id: markId("easing", drop.from),
        lost,
        why: `load ${fell}${seconds > settings.drag.longestFall ? `: slower than ${settings.drag.longestFall} s` : ", as part of a slower fall"}`,
      });
    else if (drop.toSlack && !comesBack(drop))
      easings.push({ ...base, id: markId("easing", drop.from), lost, why: `load ${fell} to slack and stayed there` });
    else
      drags.push({
        ...base,
        id: markId("drag", drop.from),
        seenIn: "load",
        lost,
        distance: away,
        why: `load ${fell}${clear}${away ? "; the track does not tell" : "; no track to tell it from an easing"}`,
      });
  }
  for (const line of along) if (line) for (const m of movements(line)) addMovement(m);
  drags.sort((a, b) => a.from - b.from);
  return { drags, easings };

  /**
   * The rode takes the boat back as the load falls: what it would have gone by itself is put on. A slack rode takes
   * it nowhere.
   */
  function recoil(drop: Drop): number {
    if (!give || drop.toSlack) return 0;
    const [from, to] = [drop.from - BLUR, drop.to + BLUR];
    return (
      meanGive(give, loaded, { from: from - AVERAGED, to: from }) -
      meanGive(give, loaded, { from: to, to: to + AVERAGED })
    );
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

  function addMovement(m: Span & { distance: Measured }): void {
    const near = (d: Span): boolean => d.from < m.to + 6 && d.to > m.from - 6;
    if (drags.some(near) || easings.some(near)) return;
    const third = (m.to - m.from) / 3;
    const first = meanLoad(loaded, { from: m.from, to: m.from + third });
    const last = meanLoad(loaded, { from: m.to - third, to: m.to });
    if (!(first > 2 * loaded.slackLimit && last > 2 * loaded.slackLimit)) return;
    const allowed = give ? give(last) - give(first) : 0;
    const distance = { value: m.distance.value - allowed, u: m.distance.u };
    if (!(distance.value > 4 * distance.u)) return;
    if (!give && last > 1.05 * first) return;
    const before = meanLoad(loaded, { from: m.from - BEFORE, to: m.from });
    drags.push({
      id: markId("drag", m.from),
      from: m.from,
      to: m.to,
      seenIn: "movement",
      load: {
        value: Math.max(before, first),
        u: Math.sqrt(varianceAt(loaded, first) / Math.max(1, BEFORE / loaded.even.grain)),
      },
      lost: null,
      distance,
      why: `the boat went away under a load that did not rise, ${(distance.value / distance.u).toPrecision(2)} times the uncertainty of its place`,
    });
  }
}
