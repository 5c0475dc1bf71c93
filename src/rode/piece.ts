/**
 * One piece of a rode: unstretched length l under constant weight w per unstretched length, inside one band of its
 * stretch law, where strain is ε(T) = c + T·κ (c: the strain at which the band's line would meet zero load; κ = 1/k).
 *
 * With horizontal force H constant and vertical force V(s) = V₁ + w s, T = √(H² + V²), the equations
 *
 *     dx/ds = (1 + ε) H/T,   dz/ds = (1 + ε) V/T
 *
 * integrate in closed form (Irvine, Cable Structures, 1981, ch. 1, for the linear law; a band of a curve differs
 * from it only by the constant c). The textbook form holds differences of asinh and of square roots divided by w,
 * which cancel for a nearly taut, a nearly weightless or a short piece. With T₁, T₂ at the ends and q = w l/(T₁+T₂),
 * where −1 < q < 1, the same integrals are
 *
 *     ∫ ds/T   = 2l/(T₁+T₂) · atanh(q)/q          (since tanh(Δu/2) = q when V = H sinh u)
 *     ∫ V/T ds = l (V₁+V₂)/(T₁+T₂)
 *
 * in which nothing cancels and nothing is divided by w, so w = 0 needs no case of its own.
 *
 * Signs: V is the vertical part of the tension with which the upper neighbour pulls, positive upward.
 */

/** Slots of what `advance` leaves in `piece`. */
export const DX = 0;
export const DZ = 1;
/** ∂x/∂H at fixed l, with V shifted by nothing. */
export const X_H = 2;
/** ∂x/∂V = ∂z/∂H: how a shift of V along the whole piece moves x (the two are equal: forces derive from an energy). */
export const X_V = 3;
/** ∂z/∂V */
export const Z_V = 4;
/** Tensions at both ends, N. */
export const T_1 = 5;
export const T_2 = 6;

/** Slots of what is asked: H, V at the lower side, w, l, c, κ, and a height to climb. */
export const ASK_H = 7;
export const ASK_V = 8;
export const ASK_W = 9;
export const ASK_L = 10;
export const ASK_C = 11;
export const ASK_K = 12;
export const ASK_CLIMB = 13;
/** The length that climbs it, m. */
export const REACH = 14;
/** What `riseOfPiece` leaves for `runOfPiece`: 1 − q², l/(T₁+T₂), and (1+c)∫H²/T³ ds. */
const GAP = 15;
const EVEN = 16;
const STIFF = 17;

/**
 * Scratch in which questions and answers pass: a number handed to a function that is not inlined is put on the heap, and
 * a hot loop is to settle a million rodes and allocate nothing.
 */
export const piece = new Float64Array(18);

/**
 * atanh(q)/q, to 1e-16 relative for |q| < 1: by series near zero, where the quotient would lose its digits.
 * For q near 1 the caller gives 1−q² itself (`gap`), which it knows without cancellation.
 */
export function atanhOverQ(q: number, gap: number): number {
  const p = Math.abs(q);
  // ½ ln((1+q)/(1−q)) with 1−q = gap/(1+q).
  return p < SERIES ? series(q * q) : (0.5 * Math.log(((1 + p) * (1 + p)) / gap)) / p;
}

/** Below this the series of atanh(q)/q to q¹⁴ is exact to rounding (the next term is below 1e-17). */
const SERIES = 0.1;

function series(q2: number): number {
  return 1 + q2 * (1 / 3 + q2 * (1 / 5 + q2 * (1 / 7 + q2 * (1 / 9 + q2 * (1 / 11 + q2 * (1 / 13 + q2 * (1 / 15)))))));
}

/**
 * Integrates one piece upward from vertical force `V1` and leaves its answers in `piece`.
 *
 * @param H horizontal force, N, ≥ 0
 * @param V1 vertical force at the lower (anchor) side, N
 * @param w weight per unstretched length, N/m, of either sign
 * @param l unstretched length, m
 * @param c strain intercept of the band, 1
 * @param compliance 1/k of the band, 1/N; 0 for a line that does not stretch
 * @source closed form above; tested against a Dormand–Prince integration to 1e-12
 */
export function advance(H: number, V1: number, w: number, l: number, c: number, compliance: number): void {
  piece[ASK_H] = H;
  piece[ASK_V] = V1;
  piece[ASK_W] = w;
  piece[ASK_L] = l;
  piece[ASK_C] = c;
  piece[ASK_K] = compliance;
  piece[T_1] = Math.sqrt(H * H + V1 * V1);
  riseOfPiece();
  runOfPiece();
}

/**
 * The vertical half of `advance`, which is all a search for the bow roller's height asks: DZ, X_V, Z_V and T_2, from the
 * slots ASK_H to ASK_K and the tension at the lower side, which stands in T_1. It needs no logarithm.
 */
export function riseOfPiece(): void {
  // A local name: a module's own is looked up at every use, which this loop feels.
  const out = piece;
  const H = out[ASK_H]!;
  const V1 = out[ASK_V]!;
  const l = out[ASK_L]!;
  const one = 1 + out[ASK_C]!;
  const T1 = out[T_1]!;
  const V2 = V1 + out[ASK_W]! * l;
  const H2 = H * H;
  const T2 = Math.sqrt(H2 + V2 * V2);
  const sum = T1 + T2;
  out[T_2] = T2;
  const product = T1 * T2;
  // (T₁T₂ + V₁V₂) cancels when the piece passes a deep low point; H²(sum)²/… then is the safe form of the same number.
  const vv = V1 * V2;
  const together = vv >= 0 ? product + vv : (H2 * (H2 + V1 * V1 + V2 * V2)) / (product - vv);
  const lower = H2 + together;
  const below = lower * product;
  const share = below > 0 ? 1 / below : 0;
  const per = sum > 0 ? 1 / sum : 0;
  const even = l * per;
  // 1 − q² = ((T₁+T₂)² − (V₂−V₁)²)/(T₁+T₂)² = 2(H² + T₁T₂ + V₁V₂)/(T₁+T₂)²
  const gap = 2 * lower * per * per;
  const give = l * out[ASK_K]!;
  const tilt = one * even * (V1 + V2);
  // ∫H²/T³ ds = H² l (T₁+T₂)/((H²+T₁T₂+V₁V₂) T₁T₂);  ∫V/T³ ds = l (V₁+V₂)/((T₁+T₂) T₁T₂)
  const stiff = one * H2 * l * sum * share;
  out[DZ] = tilt + 0.5 * (V1 + V2) * give;
  out[X_V] = 0 - H * tilt * lower * share;
  out[Z_V] = stiff + give;
  out[GAP] = gap;
  out[EVEN] = even;
  out[STIFF] = stiff;
}

/** The horizontal half of `advance`, DX and X_H, after `riseOfPiece` of the same piece. */
export function runOfPiece(): void {
  const out = piece;
  const gap = out[GAP]!;
  if (!(gap > 0)) {
    // Straight up or down, or no tension at all: nothing runs but what a band gives along.
    const give = out[ASK_L]! * out[ASK_K]!;
    out[DX] = out[ASK_H]! * give;
    out[X_H] = give;
    return;
  }
  const w = out[ASK_W]!;
  const even = out[EVEN]!;
  const q = Math.abs(w * even);
  // ∫ ds/T: atanhOverQ written out (a call would put its answer on the heap); 2·even/q = 2/|w|.
  const overT = q < SERIES ? 2 * even * series(q * q) : Math.log(((1 + q) * (1 + q)) / gap) / Math.abs(w);
  const give = out[ASK_L]! * out[ASK_K]!;
  const along = (1 + out[ASK_C]!) * overT;
  out[DX] = out[ASK_H]! * (along + give);
  out[X_H] = along - out[STIFF]! + give;
}

/**
 * Unstretched length after which a piece rising from vertical force V₁ has climbed a height > 0.
 * Where the rode first dips (V₁ < 0) it is the crossing on the way up that counts.
 *
 * From z = (1+c)(T₂−T₁)/w + (T₂²−T₁²)κ/(2w): with τ = T₂−T₁, τ/w = 2·climb/(A + √(A² + 2κ w climb)), A = 1+c+κT₁,
 * which has no difference of near numbers for w climb ≥ 0 and no division by w.
 *
 * Answers the slots ASK_V, ASK_W, ASK_C, ASK_K, ASK_CLIMB and T_1 in REACH: m, NaN where that height is never reached.
 */
export function climbOfPiece(): void {
  const out = piece;
  const V1 = out[ASK_V]!;
  const w = out[ASK_W]!;
  const compliance = out[ASK_K]!;
  const climb = out[ASK_CLIMB]!;
  const T1 = out[T_1]!;
  const A = 1 + out[ASK_C]! + compliance * T1;
  const perWeight = (2 * climb) / (A + Math.sqrt(A * A + 2 * compliance * w * climb));
  const rise = w * perWeight;
  const square = V1 * V1 + rise * (2 * T1 + rise);
  const V2 = Math.sqrt(square);
  out[REACH] = V1 > 0 ? (perWeight * (2 * T1 + rise)) / (V1 + V2) : w > 0 ? (V2 - V1) / w : Number.NaN;
}
