/** Lays rode on the bottom (or floating line on the surface) from a place on it, and says how far it can lie. */
import type { CompiledRode } from "../compile.ts";
import { rest, stretchAtRest } from "../rest.ts";
import { AFLOAT, POINT, RESTING, record, type Trace } from "../trace.ts";
import { type Cursor, copy } from "./cursor.ts";

/**
 * How much can rest from a place on, as one coordinate: a metre of heavy line counts 1, a heavy point counts 1 (the share
 * of its weight that the bottom bears). What is buoyant cannot rest on the bottom.
 */
export function restableFrom(rode: CompiledRode, from: Cursor): number {
  let sum = 0;
  for (let part = from.part; part < rode.count; part++) {
    if (rode.low[part]! < 0) break;
    sum += rode.isLine[part] === 1 ? rode.length[part]! - (part === from.part ? from.offset : 0) : 1;
  }
  return sum;
}

/**
 * Rests `amount` of that coordinate on the bottom. The tension along the slope grows by φ times the weight passed; it may
 * start negative, meaning slack.
 *
 * @param tension at the start, N
 * @returns the place where the rode leaves the bottom; V there is H tan(slope), or more above a point borne in part
 */
export function restOnBottom(
  rode: CompiledRode,
  from: Cursor,
  tension: number,
  amount: number,
  trace: Trace | null,
): { cursor: Cursor; tension: number; grounded: number } {
  const phi = rode.restDrag;
  const here = copy(from);
  let left = amount;
  let grounded = 0;
  let T = tension;
  let borne = 0;
  while (here.part < rode.count && left > 0) {
    const w = rode.low[here.part]!;
    if (w < 0) break;
    if (rode.isLine[here.part] === 1) {
      const available = rode.length[here.part]! - here.offset;
      const l = Math.min(left, available);
      const next = T + phi * w * l;
      stretchAtRest(rode, here.part, l, T, next);
      const run = rest[0]!;
      if (trace !== null)
        record(trace, here.part, RESTING, here.x, here.z, l, Math.max(0, T) * rode.cosSlope, T, next, run, here.offset);
      here.x += rode.cosSlope * run;
      here.z += rode.sinSlope * run;
      T = next;
      grounded += l;
      left -= l;
      if (l < available) {
        here.offset += l;
        break;
      }
    } else {
      // The bottom bears the share `left` of the point; the rest of its weight the rode above carries.
      const share = Math.min(1, left);
      T += phi * w * share;
      left -= share;
      borne = share < 1 ? (1 - share) * w : 0;
      const pull = Math.max(0, T);
      if (trace !== null)
        record(trace, here.part, POINT, here.x, here.z, 0, pull * rode.cosSlope, pull * rode.sinSlope, borne, 0, 0);
    }
    here.part++;
    here.offset = 0;
  }
  const pull = Math.max(0, T);
  here.H = pull * rode.cosSlope;
  here.V = pull * rode.sinSlope + borne;
  return { cursor: here, tension: T, grounded };
}

/**
 * How much can lie on the surface from a place on, as one coordinate: a metre of floating line counts 1, a float counts 1
 * (the share of what it could lift, or of what it weighs in air, that the water bears). What sinks ends it.
 */
export function floatableFrom(rode: CompiledRode, from: Cursor): number {
  let sum = 0;
  for (let part = from.part; part < rode.tail; part++) {
    if (rode.low[part]! >= 0) break;
    sum += rode.isLine[part] === 1 ? rode.length[part]! - (part === from.part ? from.offset : 0) : 1;
  }
  return sum;
}

/**
 * Lays `amount` of that coordinate on the surface: the tension is H all along.
 * @param rises whether the rode leaves the surface upward; a float borne in part then hangs its weight on it, and else
 *   lifts it by what is left of its buoyancy
 */
export function restOnSurface(
  rode: CompiledRode,
  from: Cursor,
  amount: number,
  rises: boolean,
  trace: Trace | null,
): Cursor {
  const here = copy(from);
  let left = amount;
  here.V = 0;
  while (here.part < rode.tail && left > 0 && rode.low[here.part]! < 0) {
    if (rode.isLine[here.part] === 1) {
      const available = rode.length[here.part]! - here.offset;
      const l = Math.min(left, available);
      stretchAtRest(rode, here.part, l, here.H, here.H);
      if (trace !== null)
        record(trace, here.part, AFLOAT, here.x, here.z, l, here.H, here.H, here.H, rest[0]!, here.offset);
      here.x += rest[0]!;
      left -= l;
      if (l < available) {
        here.offset += l;
        break;
      }
    } else {
      const free = (1 - Math.min(1, left)) * (rises ? rode.high[here.part]! : rode.low[here.part]!);
      if (trace !== null) record(trace, here.part, POINT, here.x, here.z, 0, here.H, 0, free, 0, 0);
      here.V = free;
      left -= 1;
    }
    here.part++;
    here.offset = 0;
  }
  return here;
}
