/**
 * The load under which a rode pulls its anchor at a stated angle to the bottom: one equation in one unknown,
 *
 *     z(H, excess) = rise,   excess = H (tan(slope + angle) − tan slope),
 *
 * monotone in H, so it is closed by Newton inside a bracket. Used where the general search of find.ts would be asked a
 * hundred thousand times; it answers for rodes heavier than their water, without current.
 */
import type { CompiledRode } from "./compile.ts";
import { ANCHOR, DZ_DEXCESS, DZ_DH, MARCH_SLOTS, march, V, X, Z } from "./march.ts";

const out = new Float64Array(MARCH_SLOTS);
const CLOSED = 1e-14;

/** The loads at both ends, and the horizontal force, at which an anchor is pulled at an angle, N. */
export interface PulledAt {
  /** N */
  readonly horizontal: number;
  readonly anchor: number;
  readonly bow: number;
  /** m */
  readonly span: number;
}

/**
 * @param angle at the anchor, above the bottom, rad; 0 is lift-off
 * @returns null when no load pulls at that angle (steeper than any, below the bottom, or flatter than the rode can be drawn)
 */
export function pullForAngle(rode: CompiledRode, angle: number): PulledAt | null {
  if (!(angle >= 0)) return null;
  // tan(slope + angle) − tan slope, without their difference.
  const up = Math.sin(angle) / (rode.cosSlope * Math.cos(Math.atan(rode.tanSlope) + angle));
  if (!(up >= 0)) return null;
  const over = (H: number): number => {
    march(rode, H, H * up, out, null);
    return out[Z]! - rode.rise;
  };
  const weigh = rode.totalLow + 1e-9;
  let lo = 0;
  let hi = Number.POSITIVE_INFINITY;
  let H = weigh;
  const closed = CLOSED * (rode.rise + rode.totalLength);
  for (let i = 0; i < 200; i++) {
    const f = over(H);
    if (Math.abs(f) <= closed) return pulled(H);
    // A heavier pull at one angle draws the rode straighter and lowers its end towards the chord.
    if (f > 0) lo = H;
    else hi = H;
    const slope = out[DZ_DH]! + up * out[DZ_DEXCESS]!;
    let next = slope < 0 ? H - f / slope : Number.NaN;
    if (hi === Number.POSITIVE_INFINITY) {
      if (!(next > H)) next = 8 * H;
      if (next > 1e3 * H) next = 1e3 * H;
      if (H > 1e12 * weigh) return null;
    } else if (lo === 0) {
      if (!(next > 0 && next < hi)) next = hi / 16;
      if (hi < 1e-14 * weigh) return null;
    } else if (!(next > lo && next < hi) || i % 7 === 6) next = Math.sqrt(lo * hi);
    if (next === H || (Number.isFinite(hi) && hi - lo <= 1e-15 * hi))
      return Math.abs(f) <= 1e4 * closed ? pulled(H) : null;
    H = next;
  }
  return null;
}

function pulled(H: number): PulledAt {
  return { horizontal: H, anchor: Math.max(0, out[ANCHOR]!), bow: Math.hypot(H, out[V]!), span: out[X]! };
}
