// Propagation of distributions by Monte Carlo, in blocks until the answer stands still: JCGM 101:2008, 7.9.
// After each block of trials the averages of estimate, standard uncertainty and both ends of the interval over the blocks
// have standard deviations s; when twice the largest is within the tolerance (half a unit of the last of so many digits
// of u) the work is done. The standard lets this stop after two blocks, where s has one degree of freedom and is often
// small by luck; here ten are the least.

import { InputError, quoted } from "../quantity/index.ts";
import type { Model } from "./budget.ts";
import { mean, standardDeviation } from "./centre.ts";
import type { Correlation } from "./correlation.ts";
import { type Interval, shortestInterval, symmetricInterval } from "./coverage-interval.ts";
import { drawer } from "./draw.ts";
import type { Rng } from "./rng.ts";
import { checkInputs, type UncertainInput } from "./uncertain-input.ts";

/** How draws are made: random numbers, correlation, coverage, digits asked, most trials. */
export interface PropagateOptions {
  readonly rng: Rng;
  readonly correlation?: Correlation;
  /** 0.95 without. */
  readonly coverage?: number;
  /** Which interval has to stand still and is given as `interval`; `symmetric` without. */
  readonly intervalKind?: "symmetric" | "shortest";
  /** Significant digits of u that have to stand still; 2 without. */
  readonly digits?: number;
  /** Part of the numerical tolerance that is allowed; 1 without, 0.2 when the result is to judge a budget (8.2). */
  readonly part?: number;
  /** Most trials, after which the answer is given as it stands; 5 million without, two blocks (20 000) at the least. */
  readonly mostTrials?: number;
}

/** Whether the draws settled to the accuracy asked. */
export type PropagateOutcome =
  | { readonly kind: "stable" }
  /** The most trials are used up; twice the `standardErrors` still exceed the tolerance. */
  | { readonly kind: "cutShort" };

/** What draws say of a result: mean, deviation, interval. */
export interface Propagation {
  readonly outcome: PropagateOutcome;
  readonly mean: number;
  readonly u: number;
  readonly coverage: number;
  /** The interval asked for. */
  readonly interval: Interval;
  readonly symmetric: Interval;
  readonly shortest: Interval;
  readonly trials: number;
  /** Trials for which the model has no value; they are left out, and the answer holds for the others only. */
  readonly undefinedTrials: number;
  /** Half a unit of the last digit of u that was asked for. */
  readonly tolerance: number;
  /** Of the mean, u and the ends of `interval`: what a repeat with another seed would move them by. */
  readonly standardErrors: { readonly mean: number; readonly u: number; readonly low: number; readonly high: number };
  /** Every value of the result, in order. */
  readonly sorted: Float64Array;
}

const leastBlocks = 10;

/**
 * Distribution of `model` over what is known of `inputs`.
 *
 * Accuracy: `standardErrors`. Tested against JCGM 101:2008, 9.2 and 9.3 (test/published/jcgm-101.test.ts).
 * @throws InputError for inputs that make no sense, or when the model has a value for none of a whole block.
 */
export function propagate(model: Model, inputs: readonly UncertainInput[], options: PropagateOptions): Propagation {
  checkInputs(inputs);
  const coverage = options.coverage ?? 0.95;
  if (!(coverage > 0 && coverage < 1)) {
    throw new InputError("coverage", quoted(coverage), "a share between 0 and 1 is expected");
  }
  const digits = options.digits ?? 2;
  const part = options.part ?? 1;
  const most = options.mostTrials ?? 5_000_000;
  const block = Math.max(Math.ceil(100 / (1 - coverage)), 10_000);
  const intervalOf = options.intervalKind === "shortest" ? shortestInterval : symmetricInterval;
  const draw = drawer(inputs, options.correlation, options.rng);

  const x = new Float64Array(inputs.length);
  let all = new Float64Array(16 * block);
  let used = 0;
  let missing = 0;
  // A row a block: mean, u, low, high.
  const rows: [number[], number[], number[], number[]] = [[], [], [], []];
  let errors = [0, 0, 0, 0];
  let tolerance = 0;
  let centre = 0;
  let squares = 0;
  let outcome: PropagateOutcome = { kind: "cutShort" };

  for (let trials = 0; trials + block <= Math.max(most, 2 * block); trials += block) {
    if (used + block > all.length) {
      const larger = new Float64Array(2 * all.length);
      larger.set(all);
      all = larger;
    }
    const from = used;
    for (let k = 0; k < block; k++) {
      draw(x);
      const value = model(x);
      if (Number.isFinite(value)) all[used++] = value;
      else missing++;
    }
    if (used - from < 2) {
      throw new InputError("model", "no value", `a model with a value for most draws of its inputs is expected`);
    }
    const own = all.slice(from, used).sort();
    const { low, high } = intervalOf(own, coverage);
    const middle = mean(own);
    const spread = standardDeviation(own);
    // Chan, Golub & LeVeque 1983: squares about the common mean from those about each block's.
    const gap = middle - centre;
    squares += spread ** 2 * (own.length - 1) + gap ** 2 * ((from * own.length) / used);
    centre += gap * (own.length / used);
    rows[0].push(middle);
    rows[1].push(spread);
    rows[2].push(low);
    rows[3].push(high);
    const h = rows[0].length;
    if (h < 2) continue;
    errors = rows.map((row) => standardDeviation(row) / Math.sqrt(h));
    tolerance = numericalTolerance(Math.sqrt(squares / (used - 1)), digits);
    if (h >= leastBlocks && errors.every((s) => 2 * s <= part * tolerance)) {
      outcome = { kind: "stable" };
      break;
    }
  }

  const sorted = all.slice(0, used).sort();
  const symmetric = symmetricInterval(sorted, coverage);
  const shortest = shortestInterval(sorted, coverage);
  const u = standardDeviation(sorted);
  return {
    outcome,
    mean: mean(sorted),
    u,
    coverage,
    interval: options.intervalKind === "shortest" ? shortest : symmetric,
    symmetric,
    shortest,
    trials: used + missing,
    undefinedTrials: missing,
    tolerance: numericalTolerance(u, digits),
    standardErrors: { mean: errors[0]!, u: errors[1]!, low: errors[2]!, high: errors[3]! },
    sorted,
  };
}

/** Half a unit of the last of `digits` significant digits of u (7.9.2). */
export function numericalTolerance(u: number, digits: number): number {
  if (u === 0) return 0;
  const exponent = Number(u.toExponential(digits - 1).split("e")[1]);
  return 0.5 * 10 ** (exponent - (digits - 1));
}
