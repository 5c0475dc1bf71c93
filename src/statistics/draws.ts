// What becomes of several results over draws of their inputs (JCGM 101:2008), where some draws may have no answer. Such a
// draw lies beyond where the model ends: it counts as endless on the side to which the slopes at the estimates say it
// goes, so that a bound which the draws do not have is not made up from those that do.

import type { Correlation } from "./correlation.ts";
import { drawer } from "./draw.ts";
import type { Jacobian, VectorModel } from "./jacobian.ts";
import type { Rng } from "./rng.ts";
import type { UncertainInput } from "./uncertain-input.ts";

/** The interval that holds 95 of 100 draws, ends of like chance; null for a bound that does not exist. */
export interface Bounds {
  readonly low: number | null;
  readonly high: number | null;
}

/** Results of draws, sorted, and how many had none. */
export interface Drawn {
  readonly draws: number;
  /** Draws without an answer. */
  readonly without: number;
  /** By result, in order; ±∞ where a draw has no answer. */
  readonly sorted: readonly Float64Array[];
}

export interface DrawOptions {
  readonly rng: Rng;
  readonly draws: number;
  readonly correlation?: Correlation | undefined;
  /** Told now and then how many draws are made: a model may take its time. */
  readonly onDraw?: ((made: number) => void) | undefined;
}

/** Draws between two words of progress. */
const WORD = 16;

/**
 * @param first the slopes at the estimates, for the side to which a draw without an answer goes
 */
export function drawResults(
  model: VectorModel,
  inputs: readonly UncertainInput[],
  first: Jacobian,
  { rng, draws, correlation, onDraw }: DrawOptions,
): Drawn {
  const size = first.values.length;
  const sorted = first.values.length === 0 ? [] : Array.from({ length: size }, () => new Float64Array(draws));
  const draw = drawer(inputs, correlation, rng);
  const x = new Float64Array(inputs.length);
  const out = new Float64Array(size);
  let without = 0;
  for (let n = 0; n < draws; n++) {
    if (onDraw !== undefined && n % WORD === 0) onDraw(n);
    draw(x);
    model(x, out);
    const none = out.some(Number.isNaN);
    if (none) without++;
    for (let k = 0; k < size; k++) {
      sorted[k]![n] = none
        ? goesUp(first, inputs, x, k)
          ? Number.POSITIVE_INFINITY
          : Number.NEGATIVE_INFINITY
        : out[k]!;
    }
  }
  for (const column of sorted) column.sort();
  return { draws, without, sorted };
}

function goesUp({ contributions }: Jacobian, inputs: readonly UncertainInput[], x: Float64Array, k: number): boolean {
  let rise = 0;
  for (const [i, { value, u }] of inputs.entries()) if (u > 0) rise += (contributions[i]![k]! * (x[i]! - value)) / u;
  return rise >= 0;
}

/** The interval of a result that holds that share of the draws, as much left out below as above. */
export function boundsOf(drawn: Drawn, result: number, coverage = 0.95): Bounds {
  const values = drawn.sorted[result]!;
  const out = (1 - coverage) / 2;
  const at = (share: number): number | null => {
    const value = values[Math.min(values.length - 1, Math.max(0, Math.round(share * (values.length - 1))))]!;
    return Number.isFinite(value) ? value : null;
  };
  return { low: at(out), high: at(1 - out) };
}
