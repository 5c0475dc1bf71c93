// Correlation coefficients between inputs: checked, factored for drawing, and grouped.

import { InputError, quoted } from "../quantity/index.ts";

/** Row by row, 1 on the diagonal. */
export type Correlation = readonly (readonly number[])[];

/**
 * L with L·Lᵀ = the matrix, by Cholesky; rank-deficient matrices (a coefficient of ±1) are allowed.
 * @throws InputError when it is no correlation matrix: not square, not symmetric, a coefficient beyond ±1, or
 *   coefficients that cannot all hold at once.
 */
export function factorCorrelation(correlation: Correlation, size: number): number[][] {
  if (correlation.length !== size || correlation.some((row) => row.length !== size)) {
    throw new InputError("correlation", `${correlation.length} rows`, `a square of ${size} by ${size} is expected`);
  }
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      const r = correlation[i]![j]!;
      const place = `correlation[${i}][${j}]`;
      if (i === j && r !== 1) throw new InputError(place, quoted(r), "1 is expected on the diagonal");
      if (!(r >= -1 && r <= 1)) throw new InputError(place, quoted(r), "a number from -1 to 1 is expected");
      if (r !== correlation[j]![i])
        throw new InputError(place, quoted(r), "the same as across the diagonal is expected");
    }
  }
  const l = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  for (let j = 0; j < size; j++) {
    let left = 1;
    for (let k = 0; k < j; k++) left -= l[j]![k]! ** 2;
    // Coefficients are given to a few digits, so a matrix meant to be singular may miss by that much.
    if (left < -1e-6) throw new InputError("correlation", "", "coefficients that can all hold at once are expected");
    const pivot = Math.sqrt(Math.max(0, left));
    l[j]![j] = pivot;
    for (let i = j + 1; i < size; i++) {
      let sum = correlation[i]![j]!;
      for (let k = 0; k < j; k++) sum -= l[i]![k]! * l[j]![k]!;
      l[i]![j] = pivot > 1e-7 ? sum / pivot : 0;
      if (pivot <= 1e-7 && Math.abs(sum) > 1e-4) {
        throw new InputError("correlation", "", "coefficients that can all hold at once are expected");
      }
    }
  }
  return l;
}

/** Inputs that hang together, directly or through others: lists of their places. */
export function groups(correlation: Correlation | undefined, size: number): number[][] {
  const seen = new Array<boolean>(size).fill(false);
  const found: number[][] = [];
  for (let first = 0; first < size; first++) {
    if (seen[first]) continue;
    seen[first] = true;
    const group = [first];
    for (let k = 0; k < group.length; k++) {
      for (let j = 0; j < size; j++) {
        if (!seen[j] && correlation !== undefined && correlation[group[k]!]![j] !== 0) {
          seen[j] = true;
          group.push(j);
        }
      }
    }
    found.push(group);
  }
  return found;
}
