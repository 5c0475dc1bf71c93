import { type Factored, norm, solveUpperTransposed } from "../numeric/index.ts";

/**
 * (AᵀA)⁻¹ = R⁻¹R⁻ᵀ with the columns of A scaled by `scale`, brought back to the parameters' own units.
 * Parameters past the rank have no bound: their variance is Infinity, their covariances 0, and the others' are those
 * that hold when they are kept where they are.
 */
export function inverseNormal(factored: Factored, scale: Float64Array): number[][] {
  const { r, order, rank } = factored;
  const p = order.length;
  const covariance = Array.from({ length: p }, () => new Array<number>(p).fill(0));
  // R⁻ᵀ·(unit a) is row a of R⁻¹, and belongs to parameter order[a]; an entry of (AᵀA)⁻¹ is the product of two rows.
  const rowsOfInverse: Float64Array[] = [];
  for (let a = 0; a < rank; a++) {
    const unit = new Float64Array(rank);
    unit[a] = 1;
    solveUpperTransposed(r, p, rank, unit, unit);
    rowsOfInverse.push(unit);
  }
  for (let a = 0; a < p; a++) {
    const j = order[a]!;
    if (a >= rank) {
      covariance[j]![j] = Number.POSITIVE_INFINITY;
      continue;
    }
    for (let b = 0; b <= a; b++) {
      const k = order[b]!;
      let sum = 0;
      for (let i = a; i < rank; i++) sum += rowsOfInverse[a]![i]! * rowsOfInverse[b]![i]!;
      const value = sum / (scale[j]! * scale[k]!);
      covariance[j]![k] = value;
      covariance[k]![j] = value;
    }
  }
  return covariance;
}

/** Leverage of each row of A: how far a datum pulls its own fitted value, 0 … 1; the sum is the number of parameters. */
export function leverages(factored: Factored, scaled: Float64Array, rows: number): Float64Array {
  const { r, order, rank } = factored;
  const p = order.length;
  const out = new Float64Array(rows);
  const row = new Float64Array(p);
  for (let i = 0; i < rows; i++) {
    for (let k = 0; k < p; k++) row[k] = scaled[i * p + order[k]!]!;
    solveUpperTransposed(r, p, rank, row, row);
    out[i] = Math.min(1, norm(row, rank) ** 2);
  }
  return out;
}
