import { advance, DX, DZ, piece } from "./piece.ts";
import type { SettledTrace } from "./settled-trace.ts";
import {
  AFLOAT,
  LIFTED,
  POINT,
  R_BAND,
  R_DH,
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
export interface RodeShape {
  /** m, from the anchor; one entry a vertex. */
  readonly x: Float64Array;
  readonly z: Float64Array;
  /** Unstretched length of rode from the anchor to each vertex, m. */
  readonly along: Float64Array;
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
export function shapeOf(traced: SettledTrace, perPiece = 24): RodeShape {
  const { trace, rode } = traced;
  const d = trace.data;
  const x: number[] = [0];
  const z: number[] = [0];
  const along: number[] = [0];
  // The record runs from the lower end, which is the bow where the rode was turned.
  const tension: number[] = [(traced.turned ? traced.settled.bow : traced.settled.anchor).tension];
  const part: number[] = [0];
  const resting: number[] = [0];
  const points: { part: number; x: number; z: number }[] = [];
  const push = (px: number, pz: number, s: number, T: number, i: number, rests: boolean): void => {
    x.push(px);
    z.push(pz);
    along.push(s);
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
    const s = along.at(-1)!;
    if (kind === POINT) {
      points.push({ part: i, x: x0, z: z0 });
    } else if (kind === RESTING) {
      const run = d[at + R_RUN]!;
      push(x0 + rode.cosSlope * run, z0 + rode.sinSlope * run, s + l, Math.max(0, d[at + R_W]!), i, true);
    } else if (kind === AFLOAT) {
      push(x0 + d[at + R_RUN]!, z0, s + l, d[at + R_H]!, i, false);
    } else if (kind === LIFTED && l > 0) {
      const band = d[at + R_BAND]!;
      const H = d[at + R_H]!;
      const v = d[at + R_V1]!;
      const w = d[at + R_W]!;
      const next = at + TRACE_COLUMNS;
      const ends = row + 1 < trace.rows ? [d[next + R_X]!, d[next + R_Z]!] : [traced.settled.span, rode.rise];
      for (let n = 1; n <= perPiece; n++) {
        const part = (l * n) / perPiece;
        if (d[at + R_DH] !== 0) {
          const here = inFlow(traced, at, n / perPiece, ends as [number, number]);
          push(here.x, here.z, s + part, here.tension, i, false);
          continue;
        }
        advance(H, v, w, part, rode.bandStrain[band]!, rode.bandCompliance[band]!);
        push(x0 + piece[DX]!, z0 + piece[DZ]!, s + part, Math.hypot(H, v + w * part), i, false);
      }
    }
  }
  if (traced.turned) turn(traced, x, z, along, tension, part, resting, points);
  return {
    x: Float64Array.from(x),
    z: Float64Array.from(z),
    along: Float64Array.from(along),
    tension: Float64Array.from(tension),
    part: Int32Array.from(part),
    resting: Uint8Array.from(resting),
    points,
  };
}

/**
 * A place on a piece in a current, a share of its length from its lower end: the cubic through both its ends along the
 * tensions there (Hermite's). A piece turns by less than half a radian, over which that is good to 2e-4 of its length.
 */
function inFlow(
  { trace, rode }: SettledTrace,
  at: number,
  share: number,
  [x1, z1]: readonly [number, number],
): { readonly x: number; readonly z: number; readonly tension: number } {
  const d = trace.data;
  const l = d[at + R_LENGTH]!;
  const band = d[at + R_BAND]!;
  const [H0, V0] = [d[at + R_H]!, d[at + R_V1]!];
  const [H1, V1] = [H0 + d[at + R_DH]!, V0 + d[at + R_W]! * l];
  const perTension = (T: number): number => (l * (1 + rode.bandStrain[band]! + rode.bandCompliance[band]! * T)) / T;
  const [k0, k1] = [perTension(Math.hypot(H0, V0)), perTension(Math.hypot(H1, V1))];
  const [t, u] = [share, 1 - share];
  const along = (from: number, to: number, slope: number, last: number): number =>
    u * u * ((1 + 2 * t) * from + t * slope) + t * t * ((1 + 2 * u) * to - u * last);
  return {
    x: along(d[at + R_X]!, x1, k0 * H0, k1 * H1),
    z: along(d[at + R_Z]!, z1, k0 * V0, k1 * V1),
    tension: Math.hypot(u * H0 + t * H1, u * V0 + t * V1),
  };
}

/** A record that runs from the upper end, which is the lower, put the way a rode is drawn: from the anchor. */
function turn(
  { settled, rode }: SettledTrace,
  x: number[],
  z: number[],
  along: number[],
  tension: number[],
  part: number[],
  resting: number[],
  points: { part: number; x: number; z: number }[],
): void {
  const last = rode.count - 1;
  // The stroke that led to a vertex now leads away from it.
  part.push(part.shift()!);
  resting.push(resting.shift()!);
  const whole = along.at(-1)!;
  for (const list of [x, z, along, tension, part, resting]) list.reverse();
  for (let i = 0; i < x.length; i++) {
    x[i] = settled.span - x[i]!;
    z[i] = z[i]! - rode.rise;
    along[i] = whole - along[i]!;
    part[i] = last - part[i]!;
  }
  points.reverse();
  points.forEach((point, i) => {
    points[i] = { part: last - point.part, x: settled.span - point.x, z: point.z - rode.rise };
  });
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
        ? Math.max(Math.hypot(H, v), Math.hypot(H + d[at + R_DH]!, v + w * d[at + R_LENGTH]!))
        : kind === POINT
          ? Math.max(Math.hypot(H, v), Math.hypot(H, v + w))
          : Math.max(0, v, w);
    if (most > loads[i]!) loads[i] = most;
  }
  if (traced.turned) loads.reverse();
  return loads;
}
