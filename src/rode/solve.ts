/**
 * Finds the horizontal force H and the anchor's lift at which a rode heavier than its water meets the bow roller under a
 * stated load: two equations,
 *
 *     z(H, lift) = rise,     g(H, lift) = target,    g one of: H, tension at the bow, tension at the anchor, span,
 *
 * by Newton on the march's own derivatives. Both z in lift (for fixed H) and g in H (along z = rise) are monotone, so
 * where Newton leaves the way a nested search inside shrinking brackets takes over: it cannot fail, only be slower.
 */
import type { CompiledRode } from "./compile.ts";
import {
  ANCHOR,
  DANCHOR_DH,
  DANCHOR_DLIFT,
  DV_DH,
  DV_DLIFT,
  DX_DH,
  DX_DLIFT,
  DZ_DH,
  DZ_DLIFT,
  MARCH_SLOTS,
  march,
  V,
  X,
  Z,
} from "./march.ts";

/** What is stated: horizontal force, tension at the bow, tension at the anchor (N), or span (m). */
export const GIVEN_HORIZONTAL = 0;
export const GIVEN_BOW = 1;
export const GIVEN_ANCHOR = 2;
export const GIVEN_SPAN = 3;

/** How a solve ended. */
export const SOLVED = 0;
/** Not even the least horizontal force leaves so little of what was stated. */
export const TOO_LITTLE = 1;
/** No horizontal force, however large, gives so much. */
export const TOO_MUCH = 2;
/** A point weight lies just in the water surface: its weight there is between its two. */
export const AT_SURFACE = 3;
/** The rode lies on a bottom that rises past the bow roller. */
export const AGROUND = 4;

/** The last march: its slots are those of march.ts. Overwritten by every solve. */
export const state = new Float64Array(MARCH_SLOTS);
/** The solution: H, lift. */
export const solution = new Float64Array(2);
/** Value and both derivatives of the stated quantity. */
const given = new Float64Array(3);

const MOST_NEWTON = 24;
/** z closes to this share of the rode's and the rise's length: some tens of roundings of the march's sums. */
const CLOSED = 2e-14;
/** Past this closeness one more Newton step lands at rounding: quadratic convergence squares it. */
const NEAR = 1e-8;

/**
 * @param kind one of the GIVEN_ values
 * @param target N or m, > 0
 * @returns SOLVED with `solution` and `state` filled, or why there is no such state
 */
export function solve(rode: CompiledRode, kind: number, target: number): number {
  const scale = rode.rise + rode.totalLength;
  const closed = CLOSED * scale;
  let H = guessH(rode, kind, target);
  let lift = guessLift(rode, H);
  let last = false;
  for (let i = 0; i < MOST_NEWTON; i++) {
    march(rode, H, lift, state, null);
    evaluate(kind, H);
    const f = state[Z]! - rode.rise;
    const g = given[0]! - target;
    const off = Math.abs(g) / target;
    const miss = f < 0 ? -f : f;
    if (last || (miss <= closed && off <= CLOSED)) {
      if (miss <= 1e3 * closed && off <= 1e3 * CLOSED) {
        solution[0] = H;
        solution[1] = lift;
        return SOLVED;
      }
      break;
    }
    last = miss <= NEAR * scale && off <= NEAR;
    const fH = state[DZ_DH]!;
    const fL = state[DZ_DLIFT]!;
    const det = fL * given[1]! - fH * given[2]!;
    const dH = (fH === 0 && kind === GIVEN_HORIZONTAL) || det === 0 ? -g : (f * given[2]! - g * fL) / det;
    const nextH = H + dH;
    const dL = fL > 0 ? -(f + fH * dH) / fL : 0;
    if (Number.isNaN(dH) || Number.isNaN(dL) || nextH > 1e3 * H || fL <= 0) break;
    // Steps that would leave H > 0 are cut; lift may not pass below the weight of all that can rest.
    H = Math.max(nextH, 0.1 * H);
    lift += dL;
    if (lift < -rode.totalLow) lift = -rode.totalLow * (1 - 1e-3);
  }
  return nested(rode, kind, target);
}

/** The stated quantity at the last march into given[0], its derivatives by H and lift into given[1], given[2]. */
function evaluate(kind: number, H: number): void {
  if (kind === GIVEN_HORIZONTAL) {
    given[0] = H;
    given[1] = 1;
    given[2] = 0;
  } else if (kind === GIVEN_BOW) {
    const v = state[V]!;
    const T = Math.sqrt(H * H + v * v);
    given[0] = T;
    given[1] = (H + v * state[DV_DH]!) / T;
    given[2] = (v * state[DV_DLIFT]!) / T;
  } else if (kind === GIVEN_ANCHOR) {
    given[0] = state[ANCHOR]!;
    given[1] = state[DANCHOR_DH]!;
    given[2] = state[DANCHOR_DLIFT]!;
  } else {
    given[0] = state[X]!;
    given[1] = state[DX_DH]!;
    given[2] = state[DX_DLIFT]!;
  }
}

/** A first guess of H: the rode hangs from the rise, or is nearly straight. */
function guessH(rode: CompiledRode, kind: number, target: number): number {
  const w = rode.totalLow / rode.totalLength;
  const hang = w * rode.rise;
  if (kind === GIVEN_HORIZONTAL) return target;
  const reach = Math.sqrt(Math.max(rode.totalLength ** 2 - rode.rise ** 2, 1e-12 * rode.totalLength ** 2));
  if (kind === GIVEN_BOW) {
    const straight = (target * reach) / rode.totalLength;
    return target - hang > 0.2 * target ? Math.min(target - hang, straight) : 0.2 * target;
  }
  if (kind === GIVEN_ANCHOR) return Math.max(target * (reach / rode.totalLength), 0.3 * target);
  const chord = Math.hypot(target, rode.rise);
  const slack = Math.max(rode.totalLength / chord - 1, 1e-6);
  return Math.max((w * target * target) / (chord * Math.sqrt(24 * slack)), 1e-3 * hang, 1e-9);
}

/** A first guess of the lift at a horizontal force: a uniform rode of the same mean weight. */
function guessLift(rode: CompiledRode, H: number): number {
  const W = rode.totalLow;
  const w = W / rode.totalLength;
  const { rise, totalLength: L, tanSlope: t } = rode;
  const hanging = Math.sqrt(Math.max(w * rise * (2 * H + w * rise), 0));
  if (hanging < W) return hanging - W;
  const reach = Math.sqrt(Math.max(L * L - rise * rise, 1e-12 * L * L));
  return Math.max((H * rise) / reach - 0.5 * W - H * t, -0.5 * W);
}

/**
 * The lift that closes z at a fixed H, by Newton inside a bracket that only shrinks. Leaves the last march in `state`.
 * @returns SOLVED, AGROUND or AT_SURFACE; the lift in solution[1]
 */
export function closeRise(rode: CompiledRode, H: number, start: number): number {
  const closed = CLOSED * (rode.rise + rode.totalLength);
  let lo = -rode.totalLow;
  march(rode, H, lo, state, null);
  if (state[Z]! >= rode.rise) return AGROUND;
  let hi = Number.POSITIVE_INFINITY;
  let lift = start > lo ? start : lo * 0.5;
  let width = Math.max(rode.totalLow, H, Math.abs(lift));
  for (let i = 0; i < 400; i++) {
    march(rode, H, lift, state, null);
    const f = state[Z]! - rode.rise;
    if (Math.abs(f) <= closed) break;
    if (f < 0) lo = lift;
    else hi = lift;
    const slope = state[DZ_DLIFT]!;
    let next = slope > 0 ? lift - f / slope : Number.NaN;
    if (hi === Number.POSITIVE_INFINITY) {
      if (!(next > lift)) next = lift + width;
      if (next > lift + 8 * width) next = lift + 8 * width;
      width *= 4;
    } else if (!(next > lo && next < hi) || i % 6 === 5) {
      next = 0.5 * (lo + hi);
    }
    if (next === lift || next === lo || next === hi) {
      // The bracket is two neighbouring numbers: either rounding closes it, or z jumps there.
      if (Math.abs(f) > 1e5 * closed && hi - lo <= 4e-16 * Math.max(Math.abs(lo), Math.abs(hi))) {
        solution[1] = lift;
        return AT_SURFACE;
      }
      if (!(hi - lo > 4e-16 * Math.max(Math.abs(lo), Math.abs(hi)))) break;
      next = 0.5 * (lo + hi);
      if (next === lo || next === hi) break;
    }
    lift = next;
  }
  solution[1] = lift;
  return SOLVED;
}

function nested(rode: CompiledRode, kind: number, target: number): number {
  if (kind === GIVEN_HORIZONTAL) {
    const how = closeRise(rode, target, guessLift(rode, target));
    solution[0] = target;
    return how;
  }
  let H = guessH(rode, kind, target);
  let lo = 0;
  let hi = Number.POSITIVE_INFINITY;
  let groundedAbove = false;
  let g = Number.NaN;
  let lift = guessLift(rode, H);
  for (let i = 0; i < 600; i++) {
    const how = closeRise(rode, H, lift);
    lift = solution[1]!;
    if (how === AGROUND) {
      // A pull so light cannot happen on a flat bottom; on a rising one a heavier pull lays the rode along it.
      hi = H;
      groundedAbove = true;
      H = lo > 0 ? Math.sqrt(lo * H) : H / 4;
      if (hi < 1e-12 * (target + rode.totalLow) || !(H > lo && H < hi)) return AGROUND;
      continue;
    }
    if (how !== SOLVED) {
      solution[0] = H;
      return how;
    }
    evaluate(kind, H);
    g = given[0]! - target;
    if (Math.abs(g) <= CLOSED * target) break;
    if (g < 0) lo = H;
    else {
      hi = H;
      groundedAbove = false;
    }
    // Along z = rise: dg/dH = g_H − g_lift z_H / z_lift.
    const along = given[1]! - (given[2]! * state[DZ_DH]!) / state[DZ_DLIFT]!;
    let next = along > 0 ? H - g / along : Number.NaN;
    if (hi === Number.POSITIVE_INFINITY) {
      if (!(next > H)) next = 4 * H;
      if (next > 64 * H) next = 64 * H;
      if (H > 1e18 * (target + rode.totalLow + 1)) return TOO_MUCH;
    } else if (lo === 0) {
      if (!(next > 0 && next < hi)) next = hi / 16;
      if (hi < 1e-13 * (rode.totalLow + (kind === GIVEN_SPAN ? 0 : target))) {
        solution[0] = H;
        return TOO_LITTLE;
      }
    } else if (!(next > lo && next < hi) || i % 6 === 5) {
      next = Math.sqrt(lo * hi);
    }
    if (next === H || next === lo || next === hi) {
      if (!(hi - lo > 1e-15 * hi)) break;
      next = Math.sqrt(lo * hi);
      if (next === lo || next === hi) break;
    }
    lift += (-state[DZ_DH]! / state[DZ_DLIFT]!) * (next - H);
    H = next;
  }
  solution[0] = H;
  solution[1] = lift;
  return groundedAbove && Math.abs(g) > 1e3 * CLOSED * target ? AGROUND : SOLVED;
}
