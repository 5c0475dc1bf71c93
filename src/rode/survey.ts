/** What a march's record says beyond forces: sag, stretch, energies. All sums are closed forms of the same pieces. */
import type { CompiledRode } from "./compile.ts";
import { advance, atanhOverQ, DX, DZ, piece, T_1, T_2 } from "./piece.ts";
import { bandEnergy, strainAtRest, unevenAtRest } from "./rest-energy.ts";
import {
  AFLOAT,
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
  type Trace,
} from "./trace.ts";

export interface Survey {
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

/**
 * Surveys a recorded march whose upper end lies at (span, rise).
 * @source ∫T ds = ½[V T + H² asinh(V/H)]/w, here in the form without division by w of piece.ts
 */
export function survey(rode: CompiledRode, trace: Trace, span: number, rise: number): Survey {
  const chord = Math.hypot(span, rise);
  const slope = rise / span;
  const byPart = {
    lift: new Float64Array(rode.count),
    strain: new Float64Array(rode.count),
    stretch: new Float64Array(rode.count),
  };
  let sag = 0;
  const below = (x: number, z: number): void => {
    const d = (rise * x - span * z) / chord;
    if (d > sag) sag = d;
  };
  const d = trace.data;
  for (let row = 0; row < trace.rows; row++) {
    const at = row * TRACE_COLUMNS;
    const part = d[at + R_PART]!;
    const kind = d[at + R_KIND]!;
    const x = d[at + R_X]!;
    const z = d[at + R_Z]!;
    const l = d[at + R_LENGTH]!;
    const H = d[at + R_H]!;
    below(x, z);
    if (kind === POINT) {
      byPart.lift[part]! += heightEnergy(rode, part, z);
      continue;
    }
    if (kind === RESTING || kind === AFLOAT) {
      const run = d[at + R_RUN]!;
      // A resting piece without tension has no stretch, whatever it covers.
      if (kind === AFLOAT || d[at + R_V1]! > 0 || d[at + R_W]! > 0) byPart.stretch[part]! += run - l;
      const [T1, T2] = [d[at + R_V1]!, d[at + R_W]!];
      // The height of a resting piece runs along the slope.
      const along = kind === RESTING ? 0.5 * run * l + unevenAtRest(rode, part, l, T1, T2) : 0;
      byPart.lift[part]! += rode.low[part]! * (z * l + rode.sinSlope * along);
      byPart.strain[part]! += strainAtRest(rode, part, l, T1, T2);
      continue;
    }
    const v = d[at + R_V1]!;
    const w = d[at + R_W]!;
    const band = d[at + R_BAND]!;
    const c = rode.bandStrain[band]!;
    const k = rode.bandCompliance[band]!;
    advance(H, v, w, l, c, k);
    const T1 = piece[T_1]!;
    const T2 = piece[T_2]!;
    const v2 = v + w * l;
    below(x + piece[DX]!, z + piece[DZ]!);
    const sum = T1 + T2;
    if (sum > 0) {
      const gap = (2 * (H * H + together(H, v, v2, T1, T2))) / (sum * sum);
      const tds =
        0.25 * l * (sum + ((v + v2) * (v + v2)) / sum) +
        (gap > 0 ? (H * H * l * atanhOverQ((w * l) / sum, gap)) / sum : 0);
      byPart.stretch[part]! += c * l + k * tds;
      byPart.strain[part]! += bandEnergy(rode, part, band) * l + 0.5 * k * l * (H * H + (v * v + v * v2 + v2 * v2) / 3);
      const climb = (1 + c) * (tds - T1 * l) + 0.5 * k * w * l * l * (v + (w * l) / 3);
      byPart.lift[part]! +=
        z >= rode.surface
          ? l * (rode.low[part]! * rode.surface + rode.high[part]! * (z - rode.surface)) + climb
          : w * z * l + climb;
    }
    const vParallel = H * slope;
    if (w !== 0 && (vParallel - v) / w > 0 && (vParallel - v) / w < l) {
      advance(H, v, w, (vParallel - v) / w, c, k);
      below(x + piece[DX]!, z + piece[DZ]!);
    }
  }
  const total = (parts: Float64Array): number => parts.reduce((a, b) => a + b, 0);
  return { sag, stretch: total(byPart.stretch), lift: total(byPart.lift), strain: total(byPart.strain), byPart };
}

function together(H: number, v1: number, v2: number, T1: number, T2: number): number {
  const vv = v1 * v2;
  return vv >= 0 ? T1 * T2 + vv : (H * H * (H * H + v1 * v1 + v2 * v2)) / (T1 * T2 - vv);
}

/** Energy of a point's weight at height z: its weight in water up to the surface, in air above, J. */
function heightEnergy(rode: CompiledRode, part: number, z: number): number {
  const low = rode.low[part]!;
  return z <= rode.surface ? low * z : low * rode.surface + rode.high[part]! * (z - rode.surface);
}
