/**
 * What a search for the root of n functions of n unknowns carries from step to step: the inverse of the Jacobian, once by
 * differences, then bent by what each step shows (Broyden 1965, his "good" update by Sherman and Morrison), so that a step
 * costs one look at the functions and not n + 1. Matrices are row by row.
 */

/**
 * Inverse of the Jacobian by forward differences.
 * @param f writes n values; false where it has none
 * @param atX what f is at x
 * @param widths step of each unknown, signed
 * @returns null where f has no values beside x, or the unknowns cannot be told apart
 */
export function inverseJacobian(
  f: (x: Float64Array, out: Float64Array) => boolean,
  x: Float64Array,
  atX: Float64Array,
  widths: Float64Array,
): Float64Array | null {
  const n = x.length;
  const jacobian = new Float64Array(n * n);
  const moved = Float64Array.from(x);
  const out = new Float64Array(n);
  for (let j = 0; j < n; j++) {
    moved[j] = x[j]! + widths[j]!;
    if (!f(moved, out)) return null;
    const width = moved[j]! - x[j]!;
    moved[j] = x[j]!;
    for (let i = 0; i < n; i++) jacobian[i * n + j] = (out[i]! - atX[i]!) / width;
  }
  return inverse(jacobian, n);
}

/** Bends an inverse Jacobian by a step s that changed the functions by y: the update is left out where it says nothing. */
export function broydenUpdate(inverseOfJ: Float64Array, s: Float64Array, y: Float64Array): void {
  const n = s.length;
  const by = product(inverseOfJ, y);
  let along = 0;
  for (let i = 0; i < n; i++) along += s[i]! * by[i]!;
  if (!(Math.abs(along) > 1e-12 * dot(s, s))) return;
  const row = new Float64Array(n);
  for (let j = 0; j < n; j++) for (let i = 0; i < n; i++) row[j]! += s[i]! * inverseOfJ[i * n + j]!;
  for (let i = 0; i < n; i++) {
    const factor = (s[i]! - by[i]!) / along;
    for (let j = 0; j < n; j++) inverseOfJ[i * n + j]! += factor * row[j]!;
  }
}

/** A v, for a square matrix A of n × n, row by row, and n = the length of v; a new array. */
export function product(matrix: Float64Array, v: Float64Array): Float64Array {
  const n = v.length;
  const out = new Float64Array(n);
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) out[i]! += matrix[i * n + j]! * v[j]!;
  return out;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

/** By Gauss and Jordan with the largest pivot of each column, rows scaled alike; null where a column holds none. */
function inverse(matrix: Float64Array, n: number): Float64Array | null {
  const a = Float64Array.from(matrix);
  const out = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    let most = 0;
    for (let j = 0; j < n; j++) most = Math.max(most, Math.abs(a[i * n + j]!));
    if (!(most > 0 && Number.isFinite(most))) return null;
    for (let j = 0; j < n; j++) a[i * n + j]! /= most;
    out[i * n + i] = 1 / most;
  }
  for (let k = 0; k < n; k++) {
    let best = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(a[i * n + k]!) > Math.abs(a[best * n + k]!)) best = i;
    const pivot = a[best * n + k]!;
    if (!(Math.abs(pivot) > 1e-14)) return null;
    for (let j = 0; j < n; j++) {
      swap(a, k * n + j, best * n + j);
      swap(out, k * n + j, best * n + j);
      a[k * n + j]! /= pivot;
      out[k * n + j]! /= pivot;
    }
    for (let i = 0; i < n; i++) {
      const factor = a[i * n + k]!;
      if (i === k || factor === 0) continue;
      for (let j = 0; j < n; j++) {
        a[i * n + j]! -= factor * a[k * n + j]!;
        out[i * n + j]! -= factor * out[k * n + j]!;
      }
    }
  }
  return out;
}

function swap(values: Float64Array, i: number, j: number): void {
  const kept = values[i]!;
  values[i] = values[j]!;
  values[j] = kept;
}
