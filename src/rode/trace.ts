/** A march's own record of its pieces, kept when an answer is to be described or drawn: one row of numbers a piece. */
import type { CompiledRode } from "./compile.ts";

export interface Trace {
  rows: number;
  data: Float64Array;
}

/** Columns of a row: part of the rode, kind, position of the lower end, unstretched length. */
export const R_PART = 0;
export const R_KIND = 1;
export const R_X = 2;
export const R_Z = 3;
export const R_LENGTH = 4;
/** Horizontal force at the lower end, N. */
export const R_H = 5;
/** Lifted: vertical force at the lower end, N. Resting: tension there, N (negative: slack, none). */
export const R_V1 = 6;
/** Lifted: weight per unstretched length, N/m; point: what of its weight the rode bears, N. Resting: tension at the upper end, N. */
export const R_W = 7;
/** Lifted: band of the stretch law. Resting: the length along the bottom it covers, m: stretched, or less where it lies slack. */
export const R_BAND = 8;
export const R_RUN = 8;
/** Unstretched distance of the lower end from the part's own lower end, m. */
export const R_OFFSET = 9;
/** Lifted, in a current: how much more the horizontal force is at the upper end, N. */
export const R_DH = 10;
/** Lifted: weight alone per unstretched length, N/m, where R_W holds what drag adds to it as well. */
export const R_OWN = 11;
export const TRACE_COLUMNS = 12;

/** Kinds of a row: a piece hanging free, a piece at rest on the bottom, a point, a floating line at rest on the surface. */
export const LIFTED = 0;
export const RESTING = 1;
export const POINT = 2;
export const AFLOAT = 3;

export function makeTrace(rode: CompiledRode): Trace {
  return { rows: 0, data: new Float64Array(rode.mostPieces * TRACE_COLUMNS) };
}

/** Adds a row; grows the record when a rode with floats needs more pieces than foreseen. */
export function record(
  trace: Trace,
  part: number,
  kind: number,
  x: number,
  z: number,
  length: number,
  H: number,
  v: number,
  w: number,
  band: number,
  offset: number,
  dH = 0,
  own = w,
): void {
  const at = trace.rows * TRACE_COLUMNS;
  if (at + TRACE_COLUMNS > trace.data.length) {
    const larger = new Float64Array(2 * trace.data.length + TRACE_COLUMNS);
    larger.set(trace.data);
    trace.data = larger;
  }
  const d = trace.data;
  d[at + R_PART] = part;
  d[at + R_KIND] = kind;
  d[at + R_X] = x;
  d[at + R_Z] = z;
  d[at + R_LENGTH] = length;
  d[at + R_H] = H;
  d[at + R_V1] = v;
  d[at + R_W] = w;
  d[at + R_BAND] = band;
  d[at + R_OFFSET] = offset;
  d[at + R_DH] = dH;
  d[at + R_OWN] = own;
  trace.rows++;
}
