/** Rode at rest on the bottom: its tension runs straight along it, so its stretch is exact band by band. */
import type { CompiledRode } from "./compile.ts";

/** Slots of the answer: stretched length, m; the sum of compliance over the taut part, m/N. */
export const RUN = 0;
export const GIVE = 1;
/** Slots of what is asked: unstretched length, m, and the tensions at its lower and upper end, N. */
export const REST_L = 2;
export const REST_T1 = 3;
export const REST_T2 = 4;

/** Scratch in which questions and answers pass, as in piece.ts. */
export const rest = new Float64Array(5);

/**
 * Stretches a resting piece whose tension runs straight from T1 to T2 (zero where that is negative), into rest[RUN] and
 * rest[GIVE]. Exact: strain is straight in T inside a band.
 */
export function stretchAtRest(rode: CompiledRode, i: number, l: number, T1: number, T2: number): void {
  rest[REST_L] = l;
  rest[REST_T1] = T1;
  rest[REST_T2] = T2;
  stretchAsked(rode, i);
}

/** As `stretchAtRest`, for what stands in the slots. */
export function stretchAsked(rode: CompiledRode, i: number): void {
  const l = rest[REST_L]!;
  const T1 = rest[REST_T1]!;
  const T2 = rest[REST_T2]!;
  const first = rode.firstBand[i]!;
  const last = rode.firstBand[i + 1]! - 1;
  let a = Math.min(T1, T2);
  const b = Math.max(T1, T2);
  let stretched = l;
  let give = 0;
  const perNewton = b > a ? l / (b - a) : 0;
  if (a < 0) a = 0;
  for (let j = first; j <= last && b > 0; j++) {
    const top = j < last ? rode.bandLoad[j + 1]! : Number.POSITIVE_INFINITY;
    if (a >= top) continue;
    const c = rode.bandStrain[j]!;
    const k = rode.bandCompliance[j]!;
    const end = Math.min(b, top);
    const part = perNewton > 0 ? (end - a) * perNewton : l;
    stretched += part * (c + 0.5 * k * (a + end));
    give += part * k;
    a = end;
    if (end >= b) break;
  }
  rest[RUN] = stretched;
  rest[GIVE] = give;
}
