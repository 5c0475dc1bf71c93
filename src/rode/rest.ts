/** Rode at rest on the bottom: its tension runs straight along it, so its stretch is exact band by band. */
import type { CompiledRode } from "./compile.ts";

/** Stretched length and its compliance left by `stretchAtRest`. */
export const rest = new Float64Array(2);

/**
 * Stretched length of a resting piece whose tension runs straight from T1 to T2 (zero where that is negative), m, into
 * rest[0]; the sum of compliance over the taut part, m/N, into rest[1]. Exact: strain is straight in T inside a band.
 */
export function stretchAtRest(rode: CompiledRode, i: number, l: number, T1: number, T2: number): void {
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
  rest[0] = stretched;
  rest[1] = give;
}
