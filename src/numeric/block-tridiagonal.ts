/**
 * Symmetric linear systems of 3 × 3 blocks on three diagonals, C_{i−1}ᵀ x_{i−1} + B_i x_i + C_i x_{i+1} = d_i with B_i
 * symmetric, by block elimination (the Thomas algorithm on blocks; Golub & Van Loan, Matrix Computations, 4.5.1).
 *
 * No pivoting between blocks: stable where the diagonal blocks dominate or the matrix is positive definite, as a mass matrix
 * with stiffness added is. Time grows with the number of blocks; nothing is allocated. What one block hands to the next is
 * kept in local names: an array is looked up, and its bounds are, at every use.
 */

/** Rows of blocks. Of a symmetric block stand xx, xy, xz, yy, yz, zz; of one beside the diagonal all 9 numbers, row by row. */
export interface BlockTridiagonal {
  readonly count: number;
  readonly diagonal: Float64Array;
  /** Right of the diagonal, and transposed below it; the last block is not used. */
  readonly beside: Float64Array;
}

/** Numbers of a symmetric block, and of one beside the diagonal. */
export const SYMMETRIC_BLOCK = 6;
/** Numbers of a block beside the diagonal. */
export const FULL_BLOCK = 9;

/** Room for a block-tridiagonal system of so many blocks, made once and used again. */
export function blockTridiagonal(count: number): BlockTridiagonal {
  return { count, diagonal: new Float64Array(SYMMETRIC_BLOCK * count), beside: new Float64Array(FULL_BLOCK * count) };
}

/**
 * Solves in place: `right` (3 × count numbers) receives x; `beside` is used up.
 * @returns false when a diagonal block is singular to rounding; `right` is then of no use
 */
export function solveBlockTridiagonal(system: BlockTridiagonal, right: Float64Array): boolean {
  const { count, diagonal, beside } = system;
  // What the block before takes off this one: Cᵀ B⁻¹ C, and Cᵀ B⁻¹ d.
  let sxx = 0;
  let sxy = 0;
  let sxz = 0;
  let syy = 0;
  let syz = 0;
  let szz = 0;
  let sx = 0;
  let sy = 0;
  let sz = 0;
  const last = 3 * (count - 1);
  for (let d = 0, a = 0, b = 0; d <= last; d += 3, a += SYMMETRIC_BLOCK, b += FULL_BLOCK) {
    const xx = diagonal[a]! - sxx;
    const xy = diagonal[a + 1]! - sxy;
    const xz = diagonal[a + 2]! - sxz;
    const yy = diagonal[a + 3]! - syy;
    const yz = diagonal[a + 4]! - syz;
    const zz = diagonal[a + 5]! - szz;
    // B⁻¹ by its adjugate.
    let vxx = yy * zz - yz * yz;
    let vxy = xz * yz - xy * zz;
    let vxz = xy * yz - yy * xz;
    const det = xx * vxx + xy * vxy + xz * vxz;
    if (!(Math.abs(det) > 1e-300)) return false;
    const k = 1 / det;
    vxx *= k;
    vxy *= k;
    vxz *= k;
    const vyy = (xx * zz - xz * xz) * k;
    const vyz = (xy * xz - xx * yz) * k;
    const vzz = (xx * yy - xy * xy) * k;
    const dx = right[d]! - sx;
    const dy = right[d + 1]! - sy;
    const dz = right[d + 2]! - sz;
    const x = vxx * dx + vxy * dy + vxz * dz;
    const y = vxy * dx + vyy * dy + vyz * dz;
    const z = vxz * dx + vyz * dy + vzz * dz;
    right[d] = x;
    right[d + 1] = y;
    right[d + 2] = z;
    if (d === last) break;
    const c0 = beside[b]!;
    const c1 = beside[b + 1]!;
    const c2 = beside[b + 2]!;
    const c3 = beside[b + 3]!;
    const c4 = beside[b + 4]!;
    const c5 = beside[b + 5]!;
    const c6 = beside[b + 6]!;
    const c7 = beside[b + 7]!;
    const c8 = beside[b + 8]!;
    const u0 = vxx * c0 + vxy * c3 + vxz * c6;
    const u3 = vxy * c0 + vyy * c3 + vyz * c6;
    const u6 = vxz * c0 + vyz * c3 + vzz * c6;
    beside[b] = u0;
    beside[b + 3] = u3;
    beside[b + 6] = u6;
    sxx = c0 * u0 + c3 * u3 + c6 * u6;
    const u1 = vxx * c1 + vxy * c4 + vxz * c7;
    const u4 = vxy * c1 + vyy * c4 + vyz * c7;
    const u7 = vxz * c1 + vyz * c4 + vzz * c7;
    beside[b + 1] = u1;
    beside[b + 4] = u4;
    beside[b + 7] = u7;
    sxy = c0 * u1 + c3 * u4 + c6 * u7;
    syy = c1 * u1 + c4 * u4 + c7 * u7;
    const u2 = vxx * c2 + vxy * c5 + vxz * c8;
    const u5 = vxy * c2 + vyy * c5 + vyz * c8;
    const u8 = vxz * c2 + vyz * c5 + vzz * c8;
    beside[b + 2] = u2;
    beside[b + 5] = u5;
    beside[b + 8] = u8;
    sxz = c0 * u2 + c3 * u5 + c6 * u8;
    syz = c1 * u2 + c4 * u5 + c7 * u8;
    szz = c2 * u2 + c5 * u5 + c8 * u8;
    sx = c0 * x + c3 * y + c6 * z;
    sy = c1 * x + c4 * y + c7 * z;
    sz = c2 * x + c5 * y + c8 * z;
  }
  if (count === 0) return true;
  let x = right[last]!;
  let y = right[last + 1]!;
  let z = right[last + 2]!;
  for (let d = last - 3, b = FULL_BLOCK * (count - 2); d >= 0; d -= 3, b -= FULL_BLOCK) {
    const nextX = right[d]! - (beside[b]! * x + beside[b + 1]! * y + beside[b + 2]! * z);
    const nextY = right[d + 1]! - (beside[b + 3]! * x + beside[b + 4]! * y + beside[b + 5]! * z);
    z = right[d + 2]! - (beside[b + 6]! * x + beside[b + 7]! * y + beside[b + 8]! * z);
    x = nextX;
    y = nextY;
    right[d] = x;
    right[d + 1] = y;
    right[d + 2] = z;
  }
  return true;
}
