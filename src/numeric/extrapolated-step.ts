/**
 * One step of dy/ds = f(y) by the midpoint rule over 2, 4, 6 … parts of it, extrapolated to parts of no length (Gragg,
 * Bulirsch and Stoer; Hairer, Nørsett and Wanner, Solving Ordinary Differential Equations I, 2nd ed., section II.9).
 * The error of the rule holds even powers of the parts alone, so k columns give order 2k. No coefficient is typed: what
 * a tableau of this order needs are dozens of fractions. A step puts nothing on the heap.
 */

export interface Stepped {
  /** Advances `from` by `h` into `to`, which may be `from`. */
  step(from: Float64Array, h: number, to: Float64Array): void;
  /** Of the last step, each of y: how far the last two columns are apart, which is the error of the next to last. */
  readonly error: Float64Array;
}

/**
 * @param size how many numbers y holds
 * @param slopes writes f(y)
 * @param columns k, half the order; the error it reports is of order 2k − 2
 * @source tested against closed forms, and for its order
 */
export function extrapolatedStep(
  size: number,
  slopes: (y: Float64Array, out: Float64Array) => void,
  columns: number,
): Stepped {
  const table = Array.from({ length: columns }, () => new Float64Array(size));
  const first = new Float64Array(size);
  const slope = new Float64Array(size);
  const error = new Float64Array(size);
  let behind = new Float64Array(size);
  let here = new Float64Array(size);
  const step = (from: Float64Array, h: number, to: Float64Array): void => {
    slopes(from, first);
    for (let row = 0; row < columns; row++) {
      const parts = 2 * row + 2;
      const part = h / parts;
      for (let i = 0; i < size; i++) {
        behind[i] = from[i]!;
        here[i] = from[i]! + part * first[i]!;
      }
      for (let m = 1; m < parts; m++) {
        slopes(here, slope);
        for (let i = 0; i < size; i++) behind[i]! += 2 * part * slope[i]!;
        const swap = behind;
        behind = here;
        here = swap;
      }
      // Aitken and Neville: the row before stands in the table, its last entry first to go.
      for (let i = 0; i < size; i++) {
        let before = table[0]![i]!;
        table[0]![i] = here[i]!;
        for (let column = 1; column <= row; column++) {
          const ratio = parts / (parts - 2 * column);
          const nearer = table[column - 1]![i]!;
          const next = nearer + (nearer - before) / (ratio * ratio - 1);
          before = column < row ? table[column]![i]! : 0;
          table[column]![i] = next;
        }
      }
    }
    for (let i = 0; i < size; i++) {
      const best = table[columns - 1]![i]!;
      error[i] = Math.abs(best - table[columns - 2]![i]!);
      to[i] = best;
    }
  };
  return { step, error };
}
