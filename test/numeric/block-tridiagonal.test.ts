import { describe, expect, it } from "vitest";
import {
  type BlockTridiagonal,
  blockTridiagonal,
  FULL_BLOCK,
  SYMMETRIC_BLOCK,
  solveBlockTridiagonal,
} from "../../src/numeric/index.ts";
import { rng } from "../../src/statistics/index.ts";

/** The whole matrix of a system, row by row. */
function dense({ count, diagonal, beside }: BlockTridiagonal): number[][] {
  const n = 3 * count;
  const rows = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  const place = [
    [0, 1, 2],
    [1, 3, 4],
    [2, 4, 5],
  ];
  for (let i = 0; i < count; i++)
    for (let r = 0; r < 3; r++)
      for (let k = 0; k < 3; k++) {
        rows[3 * i + r]![3 * i + k] = diagonal[SYMMETRIC_BLOCK * i + place[r]![k]!]!;
        if (i + 1 === count) continue;
        rows[3 * i + r]![3 * (i + 1) + k] = beside[FULL_BLOCK * i + 3 * r + k]!;
        rows[3 * (i + 1) + k]![3 * i + r] = beside[FULL_BLOCK * i + 3 * r + k]!;
      }
  return rows;
}

/** Largest |x − x found| where the right side was made from x. */
function missed(system: BlockTridiagonal, x: readonly number[]): number {
  const right = Float64Array.from(dense(system).map((row) => row.reduce((sum, a, k) => sum + a * x[k]!, 0)));
  expect(solveBlockTridiagonal(system, right)).toBe(true);
  return Math.max(...x.map((value, i) => Math.abs(right[i]! - value)));
}

describe("a symmetric block-tridiagonal system", () => {
  it("gives back the x its right side was made from", () => {
    const random = rng(3);
    const count = 60;
    const system = blockTridiagonal(count);
    for (let i = 0; i < system.beside.length; i++) system.beside[i] = random.normal();
    for (let i = 0; i < system.diagonal.length; i++)
      system.diagonal[i] = random.normal() + ([0, 3, 5].includes(i % SYMMETRIC_BLOCK) ? 12 : 0);
    // Diagonal dominance keeps the growth of rounding to the number of blocks.
    expect(
      missed(
        system,
        Array.from({ length: 3 * count }, () => random.normal()),
      ),
    ).toBeLessThan(1e-12);
  });

  it("of one block is that block's own", () => {
    const system = blockTridiagonal(1);
    system.diagonal.set([4, 1, 0, 3, 1, 5]);
    expect(missed(system, [1, -2, 3])).toBeLessThan(1e-14);
  });

  it("says when a block is singular", () => {
    const system = blockTridiagonal(1);
    system.diagonal.set([1, 2, 0, 4, 0, 1]);
    expect(solveBlockTridiagonal(system, new Float64Array(3))).toBe(false);
  });

  it.each([0, 1, 2])("is solved alike where blocks beside the diagonal have column %i alone filled", (column) => {
    const count = 4;
    const system = blockTridiagonal(count);
    for (let i = 0; i < count; i++) {
      system.diagonal.set([5 + i, 0.1, 0.2, 5 + i, -0.1, 5 + i], SYMMETRIC_BLOCK * i);
      for (let r = 0; r < 3; r++) system.beside[FULL_BLOCK * i + 3 * r + column] = 1 + r / 2;
    }
    const x = Array.from({ length: 3 * count }, (_, i) => Math.sin(i + 1));
    expect(missed(system, x)).toBeLessThan(1e-12);
  });
});
