// A·P = Q·R by Householder reflections with column pivoting (Businger & Golub 1965; Golub & Van Loan, Matrix
// Computations, 5.4.2). Least squares through R keeps the condition of A; the normal equations would square it.
// Matrices are row by row in a Float64Array.

/** What is left of `A·P = Q·R` when Q itself is not needed. */
export interface Factored {
  /** R, columns × columns, row by row, zero below the diagonal. */
  readonly r: Float64Array;
  /** Column `order[k]` of A stands at place k in R. */
  readonly order: Int32Array;
  /** Number of pivots that stand above the noise of A. */
  readonly rank: number;
}

/**
 * Factors `a` (rows × columns, rows ≥ columns) and turns `rhs` into Qᵀ·rhs. Overwrites both.
 *
 * The pivots fall in size, so the rank is read off the diagonal: a pivot no larger than `noise` times the first is noise.
 */
export function factorise(
  a: Float64Array,
  rows: number,
  columns: number,
  rhs: Float64Array,
  noise: number = rows * Number.EPSILON,
): Factored {
  const order = new Int32Array(columns);
  const left = new Float64Array(columns);
  for (let j = 0; j < columns; j++) {
    order[j] = j;
    left[j] = columnNorm(a, rows, columns, 0, j);
  }
  for (let k = 0; k < columns; k++) {
    let best = k;
    for (let j = k + 1; j < columns; j++) if (left[j]! > left[best]!) best = j;
    if (best !== k) swapColumns(a, rows, columns, k, best, order);
    // Norms of the remaining columns are recomputed, not downdated: downdating cancels, and there are few columns.
    const norm = columnNorm(a, rows, columns, k, k);
    if (norm > 0) reflect(a, rows, columns, k, norm, rhs);
    for (let j = k + 1; j < columns; j++) left[j] = columnNorm(a, rows, columns, k + 1, j);
  }
  const r = new Float64Array(columns * columns);
  for (let i = 0; i < columns; i++) for (let j = i; j < columns; j++) r[i * columns + j] = a[i * columns + j]!;
  const floor = Math.abs(r[0] ?? 0) * noise;
  let rank = 0;
  while (rank < columns && Math.abs(r[rank * columns + rank]!) > floor) rank++;
  return { r, order, rank };
}

/** One reflection: zeroes column k below the diagonal, in `a` and in `rhs`. */
function reflect(a: Float64Array, rows: number, columns: number, k: number, norm: number, rhs: Float64Array): void {
  const head = a[k * columns + k]!;
  // The sign that adds, never cancels. The reflection is 1 − tau·v·vᵀ with v's first place 1, so that nothing overflows.
  const alpha = head > 0 ? -norm : norm;
  const first = head - alpha;
  const tau = -first / alpha;
  for (let i = k + 1; i < rows; i++) a[i * columns + k]! /= first;
  for (let j = k + 1; j < columns; j++) {
    let dot = a[k * columns + j]!;
    for (let i = k + 1; i < rows; i++) dot += a[i * columns + k]! * a[i * columns + j]!;
    dot *= tau;
    a[k * columns + j]! -= dot;
    for (let i = k + 1; i < rows; i++) a[i * columns + j]! -= dot * a[i * columns + k]!;
  }
  let dot = rhs[k]!;
  for (let i = k + 1; i < rows; i++) dot += a[i * columns + k]! * rhs[i]!;
  dot *= tau;
  rhs[k]! -= dot;
  for (let i = k + 1; i < rows; i++) {
    rhs[i]! -= dot * a[i * columns + k]!;
    a[i * columns + k] = 0;
  }
  a[k * columns + k] = alpha;
}

/**
 * Solves R·x = b for the leading `size` places by back substitution. A zero on the diagonal makes x infinite or NaN: take
 * `size` no larger than the rank.
 *
 * @param r upper triangle, row by row, `columns` numbers a row
 * @param x `size` places are written; may be b itself
 */
export function solveUpper(r: Float64Array, columns: number, size: number, b: Float64Array, x: Float64Array): void {
  for (let i = size - 1; i >= 0; i--) {
    let sum = b[i]!;
    for (let j = i + 1; j < size; j++) sum -= r[i * columns + j]! * x[j]!;
    x[i] = sum / r[i * columns + i]!;
  }
}

/** Solves Rᵀ·x = b for the leading `size` places by forward substitution; shapes as `solveUpper`, x may be b itself. */
export function solveUpperTransposed(
  r: Float64Array,
  columns: number,
  size: number,
  b: Float64Array,
  x: Float64Array,
): void {
  for (let i = 0; i < size; i++) {
    let sum = b[i]!;
    for (let j = 0; j < i; j++) sum -= r[j * columns + i]! * x[j]!;
    x[i] = sum / r[i * columns + i]!;
  }
}

/** √Σ xᵢ² over the places `from` to `size`, in the unit of x, scaled so that no square over- or underflows on the way. */
export function norm(x: Float64Array, size: number = x.length, from = 0): number {
  let largest = 0;
  for (let i = from; i < size; i++) largest = Math.max(largest, Math.abs(x[i]!));
  if (largest === 0 || !Number.isFinite(largest)) return largest;
  let sum = 0;
  for (let i = from; i < size; i++) sum += (x[i]! / largest) ** 2;
  return largest * Math.sqrt(sum);
}

function columnNorm(a: Float64Array, rows: number, columns: number, from: number, j: number): number {
  let largest = 0;
  for (let i = from; i < rows; i++) largest = Math.max(largest, Math.abs(a[i * columns + j]!));
  if (largest === 0) return 0;
  let sum = 0;
  for (let i = from; i < rows; i++) sum += (a[i * columns + j]! / largest) ** 2;
  return largest * Math.sqrt(sum);
}

function swapColumns(a: Float64Array, rows: number, columns: number, k: number, j: number, order: Int32Array): void {
  for (let i = 0; i < rows; i++) {
    const at = i * columns;
    const kept = a[at + k]!;
    a[at + k] = a[at + j]!;
    a[at + j] = kept;
  }
  const kept = order[k]!;
  order[k] = order[j]!;
  order[j] = kept;
}
