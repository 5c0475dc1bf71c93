/**
 * Walks a rode from a place on it toward the bow, in the way its weight (and drag) bends it, and notes what it meets on
 * the way: the bottom, the surface, turning points. Two walks that differ a hair at their start but not in what they
 * meet end a hair apart; where they differ in what they meet, the rode touches something there.
 */
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
  /** True when the walk came to the upper end; else it hit the bottom. */
  readonly arrived: boolean;
  readonly end: Cursor;
}

/** Height above the bottom's plane. */
export function aboveBottom(rode: CompiledRode, cursor: Cursor): number {
  return cursor.z - cursor.x * rode.tanSlope;
}

/**
 * @param from where the walk starts; unchanged
 * @param trace records the pieces when given
 * @param stopAt number of events after which the walk ends (its end is then that event's place); 0: before any step
 */
export function walk(
  rode: CompiledRode,
  stepper: Stepper,
  from: Cursor,
  trace: Trace | null = null,
  stopAt = Number.POSITIVE_INFINITY,
): Walk {
  const events: Event[] = [];
  const here = copy(from);
  const next = copy(from);
  const scale = rode.totalLength + rode.rise;
  const note = (what: Meeting): boolean => {
    events.push({ what, part: here.part, cursor: copy(here) });
    return events.length >= stopAt;
  };
  if (stopAt === 0) return { events, arrived: false, end: here };
  while (here.part < rode.count) {
    if (rode.isLine[here.part] === 0) {
      const w = weightAt(rode, here);
      if (note(here.inAir || here.part >= rode.tail ? "pointInAir" : "pointInWater"))
        return { events, arrived: false, end: here };
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
      if (leavesWater || leavesAir) {
        length = lengthTo(stepper, here, length, (c) => c.z - rode.surface);
        stepper.at(here, length, next);
        next.z = rode.surface;
        crossing = leavesWater ? "emerges" : "submerges";
      }
      const low = aboveBottom(rode, next);
      if (low < 0 && low < aboveBottom(rode, here) && next.part + 1 <= rode.count) {
        // Rounding may dip a rode that leaves the bottom tangent to it; a true hit goes deeper.
        if (low < -1e-13 * scale) {
          events.push({ what: "hit", part: here.part, cursor: copy(next) });
          return { events, arrived: false, end: here };
        }
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
        if (note(crossing)) return { events, arrived: false, end: here };
      } else {
        if (slopeBefore < -blur && slopeAfter >= -blur && note("trough")) return { events, arrived: false, end: here };
        if (turning && note("crest")) return { events, arrived: false, end: here };
      }
      if (!(here.x < 1e12 && here.z < 1e12)) return { events, arrived: false, end: here };
    }
    here.part++;
    here.offset = 0;
  }
  return { events, arrived: true, end: here };
}

/** Length within [0, most] at which a monotone height passes zero: bisection shortened by secants. */
function lengthTo(stepper: Stepper, from: Cursor, most: number, height: (cursor: Cursor) => number): number {
  const probe = copy(from);
  let a = 0;
  let fa = height(from);
  let b = most;
  stepper.at(from, b, probe);
  let fb = height(probe);
  // A walk that starts in the surface has already come to it.
  if (fa === 0 || fa < 0 === fb < 0) return 0;
  for (let i = 0; i < 100; i++) {
    let l = i % 3 === 2 ? 0.5 * (a + b) : a - (fa * (b - a)) / (fb - fa);
    if (!(l > a && l < b)) l = 0.5 * (a + b);
    if (l <= a || l >= b) break;
    stepper.at(from, l, probe);
    const f = height(probe);
    if (f === 0) return l;
    if (f < 0 === fa < 0) {
      a = l;
      fa = f;
    } else {
      b = l;
      fb = f;
    }
    if (b - a <= 1e-15 * most) break;
  }
  return 0.5 * (a + b);
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
    0.5 * (here.H + next.H),
    here.V,
    w,
    bandAt(rode, here.part, T, true),
    here.offset,
  );
}
