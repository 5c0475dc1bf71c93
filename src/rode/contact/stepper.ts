import type { CompiledRode } from "../compile.ts";
import { advance, DX, DZ, piece } from "../piece.ts";
import type { Cursor } from "./cursor.ts";

/**
 * Advances along one part of a rode under the equations of piece.ts or with drag added. A step stays in one medium and
 * one band of the stretch law, and the vertical force does not pass 0 or H tan(slope) inside it, so that height above the
 * anchor and above the bottom are monotone over a step.
 */
export interface Stepper {
  /** How closely a walk's end can be steered, as a share of the lengths: past this its steps' own errors show. */
  readonly accuracy: number;
  /** The least horizontal force worth looking at, as a share of the rode's weight. */
  readonly least: number;
  /** State after `length` m, without regard to what lies between; `into` may be `from`. */
  at(from: Cursor, length: number, into: Cursor): void;
  /** A step's length, at most `most` m, that keeps the promises above. */
  reach(from: Cursor, most: number): number;
}

/** Vertical forces that differ by no more than this are the same: rounding makes as much, N. */
export function blurOf(rode: CompiledRode, tension: number): number {
  return 1e-12 * tension + 2e-15 * rode.heft;
}

/** Weight per unstretched metre where the cursor is, N/m. */
export function weightAt(rode: CompiledRode, cursor: Cursor): number {
  return (cursor.inAir || cursor.part >= rode.tail ? rode.high : rode.low)[cursor.part]!;
}

/** Band of a part's stretch law at a tension; `rising` decides at a corner. */
export function bandAt(rode: CompiledRode, part: number, tension: number, rising: boolean): number {
  const first = rode.firstBand[part]!;
  let band = rode.firstBand[part + 1]! - 1;
  const edge = rising ? tension * (1 + 2e-12) : tension * (1 - 2e-12);
  while (band > first && edge < rode.bandLoad[band]!) band--;
  return band;
}

/** Steps in still water and air: closed forms. */
export function closedFormStepper(rode: CompiledRode): Stepper {
  const bandOf = (from: Cursor, w: number): number => {
    const T = Math.hypot(from.H, from.V);
    return bandAt(rode, from.part, T, from.V * w >= 0);
  };
  return {
    accuracy: 1e-13,
    least: 1e-12,
    at(from, length, into) {
      const w = weightAt(rode, from);
      const band = bandOf(from, w);
      advance(from.H, from.V, w, length, rode.bandStrain[band]!, rode.bandCompliance[band]!);
      into.x = from.x + piece[DX]!;
      into.z = from.z + piece[DZ]!;
      into.H = from.H;
      into.V = from.V + w * length;
      into.part = from.part;
      into.offset = from.offset + length;
      into.inAir = from.inAir;
    },
    reach(from, most) {
      const w = weightAt(rode, from);
      if (w === 0) return most;
      const { H, V } = from;
      let length = most;
      const still = blurOf(rode, Math.hypot(H, V));
      const stopAt = (target: number): void => {
        // A step that only rounds to the mark it starts at is no step.
        if (Math.abs(target - V) <= still) return;
        const l = (target - V) / w;
        if (l > 0 && l < length) length = l;
      };
      stopAt(0);
      if (rode.tanSlope !== 0) stopAt(H * rode.tanSlope);
      const band = bandOf(from, w);
      const lower = rode.bandLoad[band]!;
      const last = rode.firstBand[from.part + 1]! - 1;
      if (V * w < 0 && lower > H) stopAt(-Math.sign(w) * Math.sqrt(lower * lower - H * H));
      if (band < last) {
        const upper = rode.bandLoad[band + 1]!;
        if (upper > H) stopAt(Math.sign(w) * Math.sqrt(upper * upper - H * H));
      }
      return length;
    },
  };
}
