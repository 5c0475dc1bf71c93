/**
 * Walks a rode from a place on it toward the bow, in the way its weight (and drag) bends it, and notes what it meets on
 * the way: the bottom, the surface, turning points. Two walks that differ a hair at their start but not in what they
 * meet end a hair apart; where they differ in what they meet, the rode touches something there.
 */
import { bracketedRoot, type Differentiable } from "../../numeric/index.ts";
import type { CompiledRode } from "../compile.ts";
import { LIFTED, POINT, record, type Trace } from "../trace.ts";
import { type Cursor, copy } from "./cursor.ts";
import { bandAt, blurOf, type Stepper, weightAt } from "./stepper.ts";

/** What a walk meets. `trough`: nearest approach to the bottom; `crest`: turning point under or above the surface. */
export type Meeting = "hit" | "trough" | "crest" | "emerges" | "submerges" | "pointInWater" | "pointInAir";

export interface Event {
  readonly what: Meeting;
  readonly part: number;
  readonly cursor: Cursor;
}

export interface Walk {
  readonly events: Event[];
  /** True when the walk came to the upper end; else it hit the bottom, or was stopped on the way. */
  readonly arrived: boolean;
  /** Whether it came to where it was to stop; on the way to the bow: whether it arrived. */
  readonly stopped: boolean;
  readonly end: Cursor;
  /** The lowest place above the bottom, m: below zero only where the walk was let through it. */
  readonly deepest: number;
}

/**
 * Where a walk ends: at the bow, before any step, at so many-th trough or crest of it, or at a point of the rode. On the way
 * to a trough or a point the bottom is not looked at, on the way to a crest the surface is not: what is met there is
 * about to be steered to touch, from either side.
 */
export type Stop =
  | { readonly at: "bow" | "start" }
  | { readonly at: "trough" | "crest"; readonly nth: number }
  | { readonly at: "point"; readonly part: number };

export const TO_BOW: Stop = { at: "bow" };

/** Height above the bottom's plane. */
export function aboveBottom(rode: CompiledRode, cursor: Cursor): number {
  return cursor.z - cursor.x * rode.tanSlope;
}

/**
 * @param from where the walk starts; unchanged
 * @param trace records the pieces when given
 * @param through whether the bottom is not looked at on the way to the bow either
 */
export function walk(
  rode: CompiledRode,
  stepper: Stepper,
  from: Cursor,
  trace: Trace | null = null,
  stop: Stop = TO_BOW,
  through = false,
): Walk {
  const events: Event[] = [];
  const here = copy(from);
  const next = copy(from);
  const scale = rode.totalLength + rode.rise;
  const passesBottom = through || stop.at === "trough" || stop.at === "point";
  const passesSurface = stop.at === "crest";
  const lastPart = stop.at === "point" ? stop.part : rode.count;
  let left = stop.at === "trough" || stop.at === "crest" ? stop.nth : 0;
  let deepest = Number.POSITIVE_INFINITY;
  const note = (what: Meeting): boolean => {
    events.push({ what, part: here.part, cursor: copy(here) });
    return what === stop.at && --left === 0;
  };
  const ended = (arrived: boolean, stopped: boolean): Walk => ({ events, arrived, stopped, end: here, deepest });
  if (stop.at === "start") return ended(false, true);
  while (here.part < lastPart) {
    if (rode.isLine[here.part] === 0) {
      const w = weightAt(rode, here);
      note(here.inAir || here.part >= rode.tail ? "pointInAir" : "pointInWater");
      if (trace !== null) record(trace, here.part, POINT, here.x, here.z, 0, here.H, here.V, w, 0, 0);
      here.V += w;
      here.part++;
      here.offset = 0;
      continue;
    }
    const total = rode.length[here.part]!;
    while (here.offset < total) {
      const left = total - here.offset;
      if (left <= 1e-15 * total) break;
      let length = stepper.reach(here, left);
      stepper.at(here, length, next);
      let crossing: Meeting | null = null;
      const leavesWater = !here.inAir && next.z > rode.surface && next.V + here.V > 0;
      const leavesAir = here.inAir && next.z < rode.surface && next.V + here.V < 0;
      if ((leavesWater || leavesAir) && !passesSurface) {
        length = lengthToSurface(rode, stepper, here, length, next);
        stepper.at(here, length, next);
        next.z = rode.surface;
        crossing = leavesWater ? "emerges" : "submerges";
      }
      const low = aboveBottom(rode, next);
      if (low < deepest) deepest = low;
      // Rounding may dip a rode that leaves the bottom tangent to it; a true hit goes deeper.
      if (!passesBottom && low < -1e-13 * scale && low < aboveBottom(rode, here)) {
        events.push({ what: "hit", part: here.part, cursor: copy(next) });
        return ended(false, false);
      }
      if (trace !== null) recordPiece(rode, trace, here, next, length);
      const slopeBefore = here.V - here.H * rode.tanSlope;
      const slopeAfter = next.V - next.H * rode.tanSlope;
      // A turning point that might touch the surface: a top under it, a bottom above it.
      const blur = blurOf(rode, Math.max(Math.hypot(here.H, here.V), Math.hypot(next.H, next.V)));
      const turning = (here.inAir ? here.V < -blur : here.V > blur) && Math.abs(next.V) <= blur;
      Object.assign(here, next);
      if (length >= left) here.offset = total;
      if (crossing !== null) {
        here.inAir = crossing === "emerges";
        note(crossing);
      } else {
        if (slopeBefore < -blur && slopeAfter >= -blur && note("trough")) return ended(false, true);
        if (turning && note("crest")) return ended(false, true);
      }
      if (!(here.x < 1e12 && here.z < 1e12)) return ended(false, false);
    }
    here.part++;
    here.offset = 0;
  }
  return ended(stop.at === "bow", stop.at === "bow" || stop.at === "point");
}

/** Length within [0, most] at which the walk comes to the surface; its height runs one way over a step. */
function lengthToSurface(rode: CompiledRode, stepper: Stepper, from: Cursor, most: number, end: Cursor): number {
  const [first, last] = [from.z - rode.surface, end.z - rode.surface];
  // A walk that starts in the surface has already come to it.
  if (first === 0 || first < 0 === last < 0) return 0;
  const probe = copy(from);
  const height: Differentiable = Object.assign(
    (length: number): number => {
      stepper.at(from, length, probe);
      // Stretch is left out of the slope: Newton's step is off by as much, and the next one closes that.
      height.slope = probe.V / Math.sqrt(probe.H * probe.H + probe.V * probe.V);
      return probe.z - rode.surface;
    },
    { slope: Number.NaN },
  );
  return bracketedRoot(height, 0, most, 2e-15 * most, first, last);
}

function recordPiece(rode: CompiledRode, trace: Trace, here: Cursor, next: Cursor, length: number): void {
  const T = 0.5 * (Math.hypot(here.H, here.V) + Math.hypot(next.H, next.V));
  const w = length > 0 ? (next.V - here.V) / length : 0;
  record(
    trace,
    here.part,
    LIFTED,
    here.x,
    here.z,
    length,
    here.H,
    here.V,
    w,
    bandAt(rode, here.part, T, true),
    here.offset,
    next.H - here.H,
    weightAt(rode, here),
  );
}
