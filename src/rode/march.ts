/**
 * Marches a rode from the anchor up to the bow for a given horizontal force at the bow and vertical excess at the anchor,
 * and differentiates the result by both: the one routine behind every settled answer for a rode heavier than its water.
 *
 * The unknown `excess`, N, covers both regimes without a seam. With t = tan(slope of the bottom) and W(s) the weight of
 * the first s metres, the vertical force at a lifted point is V(s) = H t + excess + W(s):
 *  - excess ≥ 0: the whole rode is off the bottom and the anchor feels the vertical force H t + excess;
 *  - excess < 0: the rode rests where W(s) < −excess and leaves the bottom, tangent to it, where W(s) = −excess. A point
 *    weight there may be borne in part by the bottom.
 * z at the bow rises with excess and is continuously differentiable by it through the change of regime (the touchdown
 * moves along the bottom, where the rode lies, so its moving changes nothing to first order).
 *
 * Resting rode: dT/ds = w (sin slope + friction cos slope), so with φ that factor the tension at the anchor is
 * H/cos slope + φ · excess, felt where that is above zero.
 */
import type { CompiledRode } from "./compile.ts";
import {
  ASK_C,
  ASK_CLIMB,
  ASK_H,
  ASK_K,
  ASK_L,
  ASK_V,
  ASK_W,
  climbOfPiece,
  DX,
  DZ,
  piece,
  REACH,
  riseOfPiece,
  runOfPiece,
  T_1,
  T_2,
  X_H,
  X_V,
  Z_V,
} from "./piece.ts";
import { GIVE, REST_L, REST_T1, REST_T2, RUN, rest, stretchAsked } from "./rest.ts";
import { LIFTED, POINT, RESTING, record, type Trace } from "./trace.ts";

/** Slots of a march's answer. */
export const X = 0;
export const Z = 1;
export const V = 2;
export const DX_DH = 3;
export const DX_DEXCESS = 4;
export const DZ_DH = 5;
export const DZ_DEXCESS = 6;
export const DV_DH = 7;
export const DV_DEXCESS = 8;
/** Tension at the anchor, N, and its derivatives; below zero: slack there, and so much short of being felt. */
export const ANCHOR = 9;
export const DANCHOR_DH = 10;
export const DANCHOR_DEXCESS = 11;
/** Unstretched resting length, m. */
export const GROUNDED = 12;
/** Slots of what is asked: horizontal force at the bow and the anchor's vertical excess, N. */
export const ASKED_H = 13;
export const ASKED_EXCESS = 14;
export const MARCH_SLOTS = 15;

/**
 * @param H horizontal force at the bow, N, > 0
 * @param excess see above, N, ≥ −(weight of the rode)
 * @param out MARCH_SLOTS numbers
 * @param trace filled with a row a piece when given
 */
export function march(rode: CompiledRode, H: number, excess: number, out: Float64Array, trace: Trace | null): void {
  out[ASKED_H] = H;
  out[ASKED_EXCESS] = excess;
  marchAsked(rode, out, trace, true);
}

/**
 * As `march`, for what stands in the slots ASKED_H and ASKED_EXCESS of `out`: nothing is put on the heap.
 *
 * @param runs whether X and its derivatives are wanted: a search for a load does without, and saves the logarithms
 */
export function marchAsked(rode: CompiledRode, out: Float64Array, trace: Trace | null, runs: boolean): void {
  const H = out[ASKED_H]!;
  const excess = out[ASKED_EXCESS]!;
  const { isLine, length, low, high, firstBand, bandLoad, bandStrain, bandCompliance, surface } = rode;
  const went = piece;
  went[ASK_H] = H;
  const t = rode.tanSlope;
  const phi = rode.restDrag;
  const count = rode.count;
  let x = 0;
  let z = 0;
  let xH = 0;
  let xL = 0;
  let zH = 0;
  let zL = 0;
  let v = H * t + excess;
  let vH = t;
  let vL = 1;
  let part = 0;
  let offset = 0;
  let grounded = 0;
  if (trace !== null) trace.rows = 0;

  // What rests.
  const anchorFriction = H / rode.cosSlope + phi * excess;
  if (excess < 0) {
    let left = -excess;
    let tension = anchorFriction;
    v = H * t;
    while (part < count && left > 0) {
      const w = low[part]!;
      if (isLine[part] === 1) {
        const all = w * length[part]!;
        const l = all > left ? left / w : length[part]!;
        const next = tension + phi * Math.min(all, left);
        if (runs || t !== 0) {
          rest[REST_L] = l;
          rest[REST_T1] = tension;
          rest[REST_T2] = next;
          stretchAsked(rode, part);
          const run = rest[RUN]!;
          const give = rest[GIVE]!;
          if (trace !== null) record(trace, part, RESTING, x, z, l, H, tension, next, run, 0);
          x += rode.cosSlope * run;
          z += rode.sinSlope * run;
          xH += give;
          xL += rode.cosSlope * phi * give;
          zH += t * give;
          zL += rode.sinSlope * phi * give;
        }
        grounded += l;
        tension = next;
        if (all > left) {
          offset = l;
          break;
        }
        left -= all;
        part++;
      } else {
        const borne = Math.min(w, left);
        tension += phi * borne;
        // The bottom bears its weight: what pulls at it is the rode beyond, and what of the weight is lifted.
        if (trace !== null)
          record(
            trace,
            part,
            POINT,
            x,
            z,
            0,
            rode.cosSlope * Math.max(0, tension),
            rode.sinSlope * Math.max(0, tension),
            w - borne,
            0,
            0,
          );
        part++;
        if (w > left) {
          v += w - left;
          break;
        }
        left -= w;
      }
    }
  }

  // What is lifted. T is the tension at the lower side of what comes next; a point changes it.
  let T = Math.sqrt(H * H + v * v);
  for (; part < count; part++) {
    if (isLine[part] === 0) {
      const w = z < surface && part < rode.tail ? low[part]! : high[part]!;
      if (trace !== null) record(trace, part, POINT, x, z, 0, H, v, w, 0, 0);
      v += w;
      T = Math.sqrt(H * H + v * v);
      continue;
    }
    const first = firstBand[part]!;
    const last = firstBand[part + 1]! - 1;
    let left = length[part]! - offset;
    let band = first;
    if (last > first) {
      while (band < last && T >= bandLoad[band + 1]!) band++;
    }
    while (left > 0) {
      const under = z < surface;
      const w = under ? low[part]! : high[part]!;
      let l = left;
      let step = 0;
      if (last > first) {
        // Where T next meets a corner of the stretch law: T falls while V and w differ in sign, else it rises.
        const falling = v * w < 0;
        const corner = falling && bandLoad[band]! > H ? bandLoad[band]! : band < last ? bandLoad[band + 1]! : 0;
        if (corner > H && w !== 0) {
          const vAt = Math.sqrt(corner * corner - H * H);
          const down = falling && corner === bandLoad[band]!;
          const target = w > 0 === down ? -vAt : vAt;
          const reach = (target - v) / w;
          if (reach < l) {
            l = Math.max(reach, 0);
            step = down ? -1 : 1;
          }
        }
      }
      const c = bandStrain[band]!;
      const k = bandCompliance[band]!;
      went[ASK_V] = v;
      went[ASK_W] = w;
      went[ASK_L] = l;
      went[ASK_C] = c;
      went[ASK_K] = k;
      went[T_1] = T;
      let crosses = false;
      // Where it comes up through the surface it is gone through again, as far as that. (One call, not two: so the engine
      // finds room to put the routine in place of it.)
      for (;;) {
        riseOfPiece();
        if (crosses || !under || z + went[DZ]! <= surface) break;
        went[ASK_CLIMB] = surface - z;
        climbOfPiece();
        const reach = went[REACH]!;
        if (!(reach <= l)) break;
        l = reach;
        step = 0;
        crosses = true;
        went[ASK_L] = l;
      }
      if (trace !== null) record(trace, part, LIFTED, x, z, l, H, v, w, band, offset);
      const xV = went[X_V]!;
      const zV = went[Z_V]!;
      if (runs) {
        runOfPiece();
        x += went[DX]!;
        xH += went[X_H]! + xV * vH;
        xL += xV * vL;
      }
      z += went[DZ]!;
      zH += xV + zV * vH;
      zL += zV * vL;
      T = went[T_2]!;
      v += w * l;
      offset += l;
      left -= l;
      if (crosses) {
        z = surface;
        // The crossing moves along the rode with both unknowns, and with it what weighs its weight in air.
        const perLength = ((1 + c + k * T) * v) / T;
        const heavier = perLength > 0 ? (high[part]! - w) / perLength : 0;
        vH += heavier * zH;
        vL += heavier * zL;
      }
      band += step;
      if (left < 1e-15 * length[part]!) left = 0;
    }
    offset = 0;
  }

  out[X] = x;
  out[Z] = z;
  out[V] = v;
  out[DX_DH] = xH;
  out[DX_DEXCESS] = xL;
  out[DZ_DH] = zH;
  out[DZ_DEXCESS] = zL;
  out[DV_DH] = vH;
  out[DV_DEXCESS] = vL;
  out[GROUNDED] = grounded;
  if (excess >= 0) {
    const v0 = H * t + excess;
    const T0 = Math.sqrt(H * H + v0 * v0);
    out[ANCHOR] = T0;
    out[DANCHOR_DH] = T0 > 0 ? (H + v0 * t) / T0 : 0;
    out[DANCHOR_DEXCESS] = T0 > 0 ? v0 / T0 : 0;
  } else {
    out[ANCHOR] = anchorFriction;
    out[DANCHOR_DH] = 1 / rode.cosSlope;
    out[DANCHOR_DEXCESS] = phi;
  }
}
