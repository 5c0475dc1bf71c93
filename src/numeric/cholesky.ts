/**
 * Symmetric positive definite systems, A = L Lᵀ, row by row in flat arrays (element (i, j) at i·n + j); nothing is
 * allocated, so that a Newton step inside a hot loop costs arithmetic only.
 */

/**
 * Writes L over the lower triangle of `a` (the upper one is left alone).
 *
 * @returns false where a pivot is not above `floor` times the diagonal it began as: A is not positive definite, or as
 *   good as singular; `a` is then part-way and worth nothing.
 */
export function choleskyInPlace(a: Float64Array, n: number, floor = 0): boolean {
  for (let j = 0; j < n; j++) {
    const whole = a[j * n + j]!;
    let pivot = whole;
    for (let k = 0; k < j; k++) pivot -= a[j * n + k]! * a[j * n + k]!;
    if (!(pivot > floor * Math.abs(whole)) || !(pivot > 0) || pivot === Number.POSITIVE_INFINITY) return false;
    const root = Math.sqrt(pivot);
    a[j * n + j] = root;
    for (let i = j + 1; i < n; i++) {
      let sum = a[i * n + j]!;
      for (let k = 0; k < j; k++) sum -= a[i * n + k]! * a[j * n + k]!;
      a[i * n + j] = sum / root;
    }
  }
  return true;
}

/**
 * Solves A x = b by forward and back substitution (Golub & Van Loan, Matrix Computations, 3.1, recalled).
 *
 * @param l the factor `choleskyInPlace` left, n × n, row by row; its upper triangle is not read
 * @param b n numbers; x is written over them
 */
export function choleskySolve(l: Float64Array, n: number, b: Float64Array): void {
  for (let i = 0; i < n; i++) {
    let sum = b[i]!;
    for (let k = 0; k < i; k++) sum -= l[i * n + k]! * b[k]!;
    b[i] = sum / l[i * n + i]!;
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[i]!;
    for (let k = i + 1; k < n; k++) sum -= l[k * n + i]! * b[k]!;
    b[i] = sum / l[i * n + i]!;
  }
}

/**
 * A⁻¹, column by column from `choleskySolve`.
 *
 * @param l the factor `choleskyInPlace` left, n × n, row by row
 * @returns n × n numbers, row by row, in a new array
 */
export function choleskyInverse(l: Float64Array, n: number): Float64Array {
  const inverse = new Float64Array(n * n);
  const column = new Float64Array(n);
  for (let j = 0; j < n; j++) {
    column.fill(0);
    column[j] = 1;
    choleskySolve(l, n, column);
    for (let i = 0; i < n; i++) inverse[i * n + j] = column[i]!;
  }
  return inverse;
}
