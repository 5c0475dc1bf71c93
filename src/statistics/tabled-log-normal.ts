/**
 * ln Φ(x) and its slope φ(x)/Φ(x) for loops of millions, column by column: a Taylor series about the nearest of 289 places
 * of a table, without exponentials, logarithms or divisions. The slope is that of the same polynomial, so that value and
 * gradient belong together.
 *
 * The series follow from the law's own equation: with h = (ln Φ)′, h′ = −h (x + h), term by term. Between −10 and 8 the
 * value is within 2e-15 of the one of `logNormalBelow`, the slope within 1e-13 (of themselves or of 1, whichever is
 * larger); beyond, it is `logNormalBelowWithSlope` itself.
 */
import { logNormalBelowWithSlope } from "./normal.ts";

const FROM = -10;
const TO = 8;
const PER_UNIT = 16;
const DEGREE = 7;
const STRIDE = DEGREE + 1;

const series = tableOf();

function tableOf(): Float64Array {
  const places = (TO - FROM) * PER_UNIT + 1;
  const table = new Float64Array(places * STRIDE);
  const start = new Float64Array(2);
  const h = new Float64Array(STRIDE);
  for (let k = 0; k < places; k++) {
    const x = FROM + k / PER_UNIT;
    logNormalBelowWithSlope(x, start);
    table[k * STRIDE] = start[0]!;
    h[0] = start[1]!;
    for (let n = 0; n < DEGREE; n++) {
      table[k * STRIDE + n + 1] = h[n]! / (n + 1);
      let sum = 0;
      for (let j = 0; j <= n; j++) {
        const m = n - j;
        sum += h[j]! * ((m === 0 ? x : m === 1 ? 1 : 0) + h[m]!);
      }
      h[n + 1] = -sum / (n + 1);
    }
  }
  return table;
}

const beyond = new Float64Array(2);

/** Σ ln Φ(x) over `x[from]` to `x[to − 1]`; the slope φ(x)/Φ(x) of each is put into `slopes`, which may be `x` itself. */
export function sumLogNormalBelow(x: Float64Array, slopes: Float64Array, from: number, to: number): number {
  const table = series;
  let sum = 0;
  for (let i = from; i < to; i++) {
    const at = x[i]!;
    if (!(at >= FROM && at <= TO)) {
      logNormalBelowWithSlope(at, beyond);
      sum += beyond[0]!;
      slopes[i] = beyond[1]!;
      continue;
    }
    const place = (at - FROM) * PER_UNIT + 0.5;
    const node = place | 0;
    const t = at - FROM - node / PER_UNIT;
    const k = node * STRIDE;
    const c2 = table[k + 2]!;
    const c3 = table[k + 3]!;
    const c4 = table[k + 4]!;
    const c5 = table[k + 5]!;
    const c6 = table[k + 6]!;
    const c7 = table[k + 7]!;
    const c1 = table[k + 1]!;
    sum += table[k]! + t * (c1 + t * (c2 + t * (c3 + t * (c4 + t * (c5 + t * (c6 + t * c7))))));
    slopes[i] = c1 + t * (2 * c2 + t * (3 * c3 + t * (4 * c4 + t * (5 * c5 + t * (6 * c6 + t * (7 * c7))))));
  }
  return sum;
}

/** [0] ln Φ(x), [1] its slope: one value by the same table. */
export function tabledLogNormalBelow(x: number, out: Float64Array): void {
  if (!(x >= FROM && x <= TO)) {
    logNormalBelowWithSlope(x, out);
    return;
  }
  one[0] = x;
  out[0] = sumLogNormalBelow(one, one, 0, 1);
  out[1] = one[0]!;
}
const one = new Float64Array(1);
