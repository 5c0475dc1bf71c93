import { advance, DX, DZ, piece } from "./piece.ts";
import type { SettledTrace } from "./settle.ts";
import {
  AFLOAT,
  LIFTED,
  POINT,
  R_BAND,
  R_H,
  R_KIND,
  R_LENGTH,
  R_PART,
  R_RUN,
  R_V1,
  R_W,
  R_X,
  R_Z,
  RESTING,
  TRACE_COLUMNS,
} from "./trace.ts";

/** A settled rode as a drawing needs it: a line of places from the anchor to the bow, and the points on it. */
export interface Shape {
  /** m, from the anchor; one entry a vertex. */
  readonly x: Float64Array;
  readonly z: Float64Array;
  /** Tension at each vertex, N. */
  readonly tension: Float64Array;
  /** Part of the rode that leads to each vertex from the one before. */
  readonly part: Int32Array;
  /** True where the stretch leading to the vertex lies on the bottom. */
  readonly resting: Uint8Array;
  readonly points: readonly { readonly part: number; readonly x: number; readonly z: number }[];
}

/**
 * The shape of a settled rode.
 * @param perPiece straight strokes a hanging piece is drawn with
 */
export function shapeOf(traced: SettledTrace, perPiece = 24): Shape {
  const { trace, rode } = traced;
  const d = trace.data;
  const x: number[] = [0];
  const z: number[] = [0];
  const tension: number[] = [traced.settled.anchor.tension];
  const part: number[] = [0];
  const resting: number[] = [0];
  const points: { part: number; x: number; z: number }[] = [];
  const push = (px: number, pz: number, T: number, i: number, rests: boolean): void => {
    x.push(px);
    z.push(pz);
    tension.push(T);
    part.push(i);
    resting.push(rests ? 1 : 0);
  };
  for (let row = 0; row < trace.rows; row++) {
    const at = row * TRACE_COLUMNS;
    const i = d[at + R_PART]!;
    const kind = d[at + R_KIND]!;
    const x0 = d[at + R_X]!;
    const z0 = d[at + R_Z]!;
    const l = d[at + R_LENGTH]!;
    if (kind === POINT) {
      points.push({ part: i, x: x0, z: z0 });
    } else if (kind === RESTING) {
      const run = d[at + R_RUN]!;
      push(x0 + rode.cosSlope * run, z0 + rode.sinSlope * run, Math.max(0, d[at + R_W]!), i, true);
    } else if (kind === AFLOAT) {
      push(x0 + d[at + R_RUN]!, z0, d[at + R_H]!, i, false);
    } else if (kind === LIFTED && l > 0) {
      const band = d[at + R_BAND]!;
      const H = d[at + R_H]!;
      const v = d[at + R_V1]!;
      const w = d[at + R_W]!;
      for (let n = 1; n <= perPiece; n++) {
        const part = (l * n) / perPiece;
        advance(H, v, w, part, rode.bandStrain[band]!, rode.bandCompliance[band]!);
        push(x0 + piece[DX]!, z0 + piece[DZ]!, Math.hypot(H, v + w * part), i, false);
      }
    }
  }
  return {
    x: Float64Array.from(x),
    z: Float64Array.from(z),
    tension: Float64Array.from(tension),
    part: Int32Array.from(part),
    resting: Uint8Array.from(resting),
    points,
  };
}

/** The highest tension in each part of a settled rode, N: what its working load limit is held against. */
export function partLoads(traced: SettledTrace): Float64Array {
  const { trace, rode } = traced;
  const d = trace.data;
  const loads = new Float64Array(rode.count);
  for (let row = 0; row < trace.rows; row++) {
    const at = row * TRACE_COLUMNS;
    const i = d[at + R_PART]!;
    const kind = d[at + R_KIND]!;
    const H = d[at + R_H]!;
    const v = d[at + R_V1]!;
    const w = d[at + R_W]!;
    const most =
      kind === LIFTED
        ? Math.max(Math.hypot(H, v), Math.hypot(H, v + w * d[at + R_LENGTH]!))
        : kind === POINT
          ? Math.max(Math.hypot(H, v), Math.hypot(H, v + w))
          : Math.max(0, v, w);
    if (most > loads[i]!) loads[i] = most;
  }
  return loads;
}
