import { notNegative } from "../../statistics/index.ts";
import { type AnchorPath, TIGHT } from "../anchor/index.ts";
import type { MarkCause } from "./cause.ts";
import type { Drag } from "./drags.ts";
import { meanHeading } from "./headings.ts";
import { grainAt, type Loaded } from "./loaded.ts";
import type { Plateau } from "./plateaus.ts";
import type { Headings, Measured, Span } from "./trace.ts";

/** How far the anchor went from when the rode bites (a fifth of the first load held) to that load: its way until it set. */
export type SetDistance =
  | {
      readonly kind: "measured";
      readonly distance: Measured;
      readonly from: number;
      readonly to: number;
      /** How the rode's own give was taken off: by the rig's curve, or by one fitted to load and track. */
      readonly give: "rig" | "fitted";
    }
  | { readonly kind: "notKnown"; readonly why: NoSetCause };

/** Why it is not known: no track was logged, no load was held, or the boat's movement does not show the line of the pull. */
export type NoSetCause = "noTrack" | "nothingHeld" | "noLine";

export function setDistance(
  loaded: Loaded,
  path: AnchorPath | null,
  plateaus: readonly Plateau[],
  hasTrack: boolean,
  give: "rig" | "fitted",
): SetDistance {
  if (!hasTrack) return { kind: "notKnown", why: "noTrack" };
  const pull = loaded.pulls.find((p) => plateaus.some((q) => q.from >= p.from && q.to <= p.to + 1e-9));
  if (!pull) return { kind: "notKnown", why: "nothingHeld" };
  const first = plateaus.find((q) => q.from >= pull.from)!;
  const span = { from: biteAt(loaded, pull.from, first), to: first.from };
  const distance = wayUntil(loaded, path, span);
  return distance === null ? { kind: "notKnown", why: "noLine" } : { kind: "measured", distance, ...span, give };
}

/**
 * How far the anchor went in some time, m; null where the track cannot tell. An anchor under load goes towards the boat or
 * stays: of what the fixes say only that is possible. Its ± is how far what is possible lies from what was measured (rms),
 * so that fixes that say otherwise make it wider, not surer; and that the ends of the time are known to a grain, in which it
 * may be under way.
 */
function wayUntil({ even: { grain } }: Loaded, path: AnchorPath | null, span: Span): Measured | null {
  const moved = path?.moved(span);
  if (!moved) return null;
  const { mean, sd } = notNegative(moved.value, moved.u);
  return { value: mean, u: Math.hypot(sd, mean - moved.value, (mean * grain) / Math.max(grain, span.to - span.from)) };
}

/** The rode bites at this share of the first load held, and where it is tight at all. */
const BITES = 0.2;

/** Last time before a plateau at which the load was too low, s; not before `from`. */
function biteAt(loaded: Loaded, from: number, plateau: Plateau): number {
  const { even } = loaded;
  let k = grainAt(even, plateau.from);
  const low = Math.max(BITES * plateau.load.value, TIGHT * loaded.top);
  while (k > grainAt(even, from) && !(even.value[k]! <= low)) k--;
  return even.start + k * even.grain;
}

/** The pull was turned round, and what the anchor held afterwards. */
export interface Reversal extends Span {
  readonly id: string;
  /** Turn of the pull's direction, rad, 0 to π; null when a user marked it and nothing shows how far. */
  readonly turn: number | null;
  /** Highest load held before, and after; null when none was. */
  readonly before: Measured | null;
  readonly after: Measured | null;
  readonly outcome:
    | { readonly kind: "reset"; readonly at: number; readonly share: number; readonly distance: Measured | null }
    | { readonly kind: "didNotReset"; readonly share: number; readonly gaveWay: boolean }
    | { readonly kind: "notTried" };
  /** Why the pull counts as turned. */
  readonly why: MarkCause;
}

/** A turn this large is a reversal, rad. */
const REVERSED = Math.PI / 2;
/** Share of the load held before that counts as set again. */
const SET_AGAIN = 0.5;

/** A turn of the pull's direction between two pulls. */
export interface Turn extends Span {
  /** rad, 0 to π, and its standard uncertainty from how far the headings agree. */
  readonly turn: number;
  readonly u: number;
}

/**
 * Reversals between the pulls of a trace: the direction of a pull is that of the boat's heading, or from the anchor.
 * Without either, the boat's own movement in each pull tells, when it is more than noise.
 */
export function findTurns(loaded: Loaded, path: AnchorPath | null, headings: Headings | undefined): Turn[] {
  const directions = loaded.pulls.map((pull) => {
    const pointed = headings && meanHeading(headings, pull);
    // Agreement R of directions that scatter by s (rad) is exp(-s²/2).
    if (pointed && pointed.agreement > 0.7)
      return { angle: pointed.angle, scatter: Math.sqrt(-2 * Math.log(pointed.agreement)) };
    const own = path?.stretches.find((s) => s.from < pull.to && s.to > pull.from)?.direction;
    return own ? { angle: own.value, scatter: own.u } : null;
  });
  const turns: Turn[] = [];
  for (let i = 1; i < directions.length; i++) {
    const [was, is] = [directions[i - 1], directions[i]];
    if (!was || !is) continue;
    const turn = Math.abs(Math.atan2(Math.sin(is.angle - was.angle), Math.cos(is.angle - was.angle)));
    if (turn < REVERSED) continue;
    turns.push({
      from: loaded.pulls[i - 1]!.to,
      to: loaded.pulls[i]!.from,
      turn,
      u: Math.hypot(was.scatter, is.scatter),
    });
  }
  return turns;
}

/** What was held before and after a reversal, wherever its mark came from. */
export function judgeReversal(
  span: Span,
  turn: number | null,
  loaded: Loaded,
  path: AnchorPath | null,
  plateaus: readonly Plateau[],
  drags: readonly Drag[],
  why: MarkCause,
): Omit<Reversal, "id"> {
  const best = (list: readonly Plateau[]): Plateau | null =>
    list.reduce<Plateau | null>((a, b) => (a && a.load.value >= b.load.value ? a : b), null);
  const before = best(plateaus.filter((p) => p.to <= span.from + 1));
  const after = best(plateaus.filter((p) => p.from >= span.to - 1));
  const common = {
    from: span.from,
    to: span.to,
    turn,
    before: before?.load ?? null,
    after: after?.load ?? null,
    why,
  };
  const pull = loaded.pulls.find((p) => p.to > span.to);
  if (!pull || !before) return { ...common, outcome: { kind: "notTried" } };
  const first = plateaus.find((p) => p.from >= span.to - 1 && p.load.value >= SET_AGAIN * before.load.value);
  if (first) {
    const distance = wayUntil(loaded, path, { from: biteAt(loaded, pull.from, first), to: first.from });
    const share = after!.load.value / before.load.value;
    return {
      ...common,
      outcome: { kind: "reset", at: first.from, share, distance },
    };
  }
  const highest = after?.load.value ?? 0;
  const gaveWay = drags.some((d) => d.from >= span.to);
  return { ...common, outcome: { kind: "didNotReset", share: highest / before.load.value, gaveWay } };
}
