/**
 * What is summed along a settled rode: sag, stretch, energies. In still water and air all are closed forms of the pieces
 * recorded; in a current, where drag bends a piece besides its weight, they are Gauss–Legendre sums over each step of the
 * march, from states that the step itself gives.
 */
import { brent, gaussLegendre } from "../numeric/index.ts";
import type { CompiledRode } from "./compile.ts";
import type { Cursor } from "./contact/cursor.ts";
import type { Stepper } from "./contact/stepper.ts";
import { advance, atanhOverQ, DX, DZ, piece, T_1, T_2 } from "./piece.ts";
import { bandEnergy, strainAtRest, unevenAtRest } from "./rest-energy.ts";
import {
  AFLOAT,
  POINT,
  R_BAND,
  R_H,
  R_KIND,
  R_LENGTH,
  R_OFFSET,
  R_OWN,
  R_PART,
  R_RUN,
  R_V1,
  R_W,
  R_X,
  R_Z,
  RESTING,
  TRACE_COLUMNS,
  type Trace,
} from "./trace.ts";

/** What is summed along a settled rode: lengths, lift, stretch, energies. */
export interface RodeIntegrals {
  /** Largest distance below the straight line between the ends, square to it, m. */
  readonly sag: number;
  /** Stretched minus unstretched length, m. */
  readonly stretch: number;
  /** Energy against weight, the rode lying at the anchor's level being zero, J. */
  readonly lift: number;
  /** Energy in stretch, J. */
  readonly strain: number;
  /** The same two, and stretch, by part of the rode. */
  readonly byPart: { readonly lift: Float64Array; readonly strain: Float64Array; readonly stretch: Float64Array };
}

/** Sums while they grow. */
interface Sums {
  sag: number;
  readonly lift: Float64Array;
  readonly strain: Float64Array;
  readonly stretch: Float64Array;
}

/**
 * Sums along a recorded march whose upper end lies at (span, rise).
 * @param dragged the stepper of a march in a current; null where the pieces are closed forms
 */
export function integrateAlong(
  rode: CompiledRode,
  trace: Trace,
  span: number,
  dragged: Stepper | null = null,
): RodeIntegrals {
  const sums: Sums = {
    sag: 0,
    lift: new Float64Array(rode.count),
    strain: new Float64Array(rode.count),
    stretch: new Float64Array(rode.count),
  };
  const below = depthBelowChord(rode, span);
  for (let row = 0; row < trace.rows; row++) {
    const d = trace.data.subarray(row * TRACE_COLUMNS, (row + 1) * TRACE_COLUMNS);
    const part = d[R_PART]!;
    const kind = d[R_KIND]!;
    sums.sag = Math.max(sums.sag, below(d[R_X]!, d[R_Z]!));
    if (kind === POINT) sums.lift[part]! += heightEnergy(rode, part, d[R_Z]!);
    else if (kind === RESTING || kind === AFLOAT) addResting(rode, d, sums);
    else if (dragged === null) addHanging(rode, d, span, below, sums);
    else addDragged(rode, d, span, below, dragged, sums);
  }
  const total = (parts: Float64Array): number => parts.reduce((a, b) => a + b, 0);
  const { sag, ...byPart } = sums;
  return { sag, stretch: total(sums.stretch), lift: total(sums.lift), strain: total(sums.strain), byPart };
}

type Below = (x: number, z: number) => number;

function depthBelowChord({ rise }: CompiledRode, span: number): Below {
  const chord = Math.hypot(span, rise);
  return (x, z) => (rise * x - span * z) / chord;
}

/** On the bottom, or on the surface. */
function addResting(rode: CompiledRode, d: Float64Array, sums: Sums): void {
  const part = d[R_PART]!;
  const l = d[R_LENGTH]!;
  const run = d[R_RUN]!;
  const [T1, T2] = [d[R_V1]!, d[R_W]!];
  const afloat = d[R_KIND] === AFLOAT;
  // A resting piece without tension has no stretch, whatever it covers.
  if (afloat || T1 > 0 || T2 > 0) sums.stretch[part]! += run - l;
  // The height of a resting piece runs along the slope.
  const along = afloat ? 0 : 0.5 * run * l + unevenAtRest(rode, part, l, T1, T2);
  sums.lift[part]! += rode.low[part]! * (d[R_Z]! * l + rode.sinSlope * along);
  sums.strain[part]! += strainAtRest(rode, part, l, T1, T2);
}

/** @source ∫T ds = ½[V T + H² asinh(V/H)]/w, here in the form without division by w of piece.ts */
function addHanging(rode: CompiledRode, d: Float64Array, span: number, below: Below, sums: Sums): void {
  const part = d[R_PART]!;
  const [x, z, l, H, v, w] = [d[R_X]!, d[R_Z]!, d[R_LENGTH]!, d[R_H]!, d[R_V1]!, d[R_W]!];
  const band = d[R_BAND]!;
  const c = rode.bandStrain[band]!;
  const k = rode.bandCompliance[band]!;
  advance(H, v, w, l, c, k);
  const T1 = piece[T_1]!;
  const T2 = piece[T_2]!;
  const v2 = v + w * l;
  sums.sag = Math.max(sums.sag, below(x + piece[DX]!, z + piece[DZ]!));
  const sum = T1 + T2;
  if (sum > 0) {
    const gap = (2 * (H * H + together(H, v, v2, T1, T2))) / (sum * sum);
    const tds =
      0.25 * l * (sum + ((v + v2) * (v + v2)) / sum) +
      (gap > 0 ? (H * H * l * atanhOverQ((w * l) / sum, gap)) / sum : 0);
    sums.stretch[part]! += c * l + k * tds;
    sums.strain[part]! += bandEnergy(rode, part, band) * l + 0.5 * k * l * (H * H + (v * v + v * v2 + v2 * v2) / 3);
    const climb = (1 + c) * (tds - T1 * l) + 0.5 * k * w * l * l * (v + (w * l) / 3);
    sums.lift[part]! +=
      z >= rode.surface
        ? l * (rode.low[part]! * rode.surface + rode.high[part]! * (z - rode.surface)) + climb
        : w * z * l + climb;
  }
  const parallel = (H * rode.rise) / span;
  if (w !== 0 && (parallel - v) / w > 0 && (parallel - v) / w < l) {
    advance(H, v, w, (parallel - v) / w, c, k);
    sums.sag = Math.max(sums.sag, below(x + piece[DX]!, z + piece[DZ]!));
  }
}

/** Eight places a step: a step keeps its end to 1e-12, and what is smooth over it so far is summed closer than that. */
const PLACES = gaussLegendre(8);

function addDragged(
  rode: CompiledRode,
  d: Float64Array,
  span: number,
  below: Below,
  stepper: Stepper,
  sums: Sums,
): void {
  const part = d[R_PART]!;
  const l = d[R_LENGTH]!;
  const from: Cursor = {
    part,
    offset: d[R_OFFSET]!,
    x: d[R_X]!,
    z: d[R_Z]!,
    H: d[R_H]!,
    V: d[R_V1]!,
    inAir: d[R_OWN] === rode.high[part] && rode.high[part] !== rode.low[part],
  };
  const here = { ...from };
  const band = d[R_BAND]!;
  const c = rode.bandStrain[band]!;
  const k = rode.bandCompliance[band]!;
  const rest = bandEnergy(rode, part, band);
  for (const { node, weight } of PLACES) {
    stepper.at(from, l * node, here);
    const T = Math.hypot(here.H, here.V);
    sums.lift[part]! += l * weight * heightEnergy(rode, part, here.z);
    sums.stretch[part]! += l * weight * (c + k * T);
    sums.strain[part]! += l * weight * (rest + 0.5 * k * T * T);
  }
  // Farthest from the chord where the rode runs along it.
  const off = (at: number): number => {
    stepper.at(from, at, here);
    return here.V * span - here.H * rode.rise;
  };
  const [first, last] = [off(0), off(l)];
  sums.sag = Math.max(sums.sag, below(here.x, here.z));
  if (first * last >= 0) return;
  // The depth is flat there: a millionth of the step is past rounding in it.
  stepper.at(from, brent(off, 0, l, 1e-7 * l, first, last), here);
  sums.sag = Math.max(sums.sag, below(here.x, here.z));
}

function together(H: number, v1: number, v2: number, T1: number, T2: number): number {
  const vv = v1 * v2;
  return vv >= 0 ? T1 * T2 + vv : (H * H * (H * H + v1 * v1 + v2 * v2)) / (T1 * T2 - vv);
}

/** Energy of a weight at height z: its weight in water up to the surface, in air above, J (a metre of line likewise). */
function heightEnergy(rode: CompiledRode, part: number, z: number): number {
  const low = rode.low[part]!;
  return z <= rode.surface ? low * z : low * rode.surface + rode.high[part]! * (z - rode.surface);
}
