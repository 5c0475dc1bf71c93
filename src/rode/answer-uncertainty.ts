/** How sure the answers of find and match are: the same question asked of rigs moved by what is not known of them. */
import {
  type Bounds,
  boundsOf,
  type Correlation,
  combined,
  drawResults,
  jacobian,
  rng,
  type UncertainInput,
  type VectorModel,
} from "../statistics/index.ts";
import { moveBoth, pullInput, settlesFast } from "./certainty.ts";
import { type Found, find, type Question } from "./find.ts";
import { type Matched, matchNear } from "./match.ts";
import type { Pull, Rig } from "./model.ts";
import { movedRig, rigInputs } from "./moved-rig.ts";

/** What is known of one number that was found. */
export interface AnswerUncertainty {
  /** Standard uncertainty, first order; null where there is no answer beside the estimate of `cannotMove`. */
  readonly u: number | null;
  readonly cannotMove: string | null;
  /** null where no draws were asked for, or first order has no answer either. */
  readonly spread: { readonly draws: number; readonly without: number; readonly bounds: Bounds } | null;
}

/** With what the uncertainty of a search is looked for. */
export interface UncertaintyAsked {
  /** Standard uncertainty of the load, N, or of the span, m. */
  readonly pullU?: number;
  readonly seed?: number;
  /** How many draws are made in place of the usual number; 0: first order alone. */
  readonly draws?: number;
  readonly onDraw?: ((made: number, of: number) => void) | undefined;
}

/** Each draw is a search: enough for the ends of an interval to a tenth of u; of rodes that are stepped along, to a fifth. */
const DRAWS = 1000;
const DRAWS_STEPPED = 300;
/** How closely a draw's search is closed, of the value: far below what it is not sure of. */
const CLOSE_ENOUGH = 1e-10;

/** Of the value found; null where nothing is uncertain. */
export function foundUncertainty(
  rig: Rig,
  question: Question,
  found: Found,
  { pullU = 0, seed = 1, draws, onDraw }: UncertaintyAsked = {},
): AnswerUncertainty | null {
  const own = rigInputs(rig);
  const inputs = [...own, ...pullInput(question.pull, question.unknown.what === "pull" ? 0 : pullU)];
  const model: VectorModel = (x, out) => {
    const moved = moveBoth(rig, question.pull, own, x);
    const there =
      moved &&
      find(moved.rig, {
        ...question,
        pull: moved.pull,
        near: found.value,
        ...(found.lies && { from: found.lies }),
        tolerance: CLOSE_ENOUGH,
      });
    out[0] = there?.kind === "found" ? there.value : Number.NaN;
  };
  return propagated(model, inputs, draws ?? (settlesFast(rig) ? DRAWS : DRAWS_STEPPED), seed, onDraw);
}

/** Of the length of the part paid out; null where nothing is uncertain. */
export function matchedUncertainty(
  rig: Rig,
  other: Rig,
  pull: Pull,
  matched: Matched,
  { pullU = 0, seed = 1, draws, onDraw }: UncertaintyAsked = {},
): AnswerUncertainty | null {
  const [one, two] = [rigInputs(rig), rigInputs(other)];
  const inputs: UncertainInput[] = [
    ...one.map((input) => ({ ...input, name: `${input.name} of ${rig.name}` })),
    ...pullInput(pull, pullU),
    ...two.map((input) => ({ ...input, name: `${input.name} of ${other.name}` })),
  ];
  const places = inputs.length - two.length;
  const model: VectorModel = (x, out) => {
    const first = moveBoth(rig, pull, one, x.subarray(0, places));
    const second = movedRig(other, Object.fromEntries(two.map(({ input }, i) => [input, x[places + i]!])));
    const there = first && second && matchNear(first.rig, second, first.pull, matched, CLOSE_ENOUGH);
    out[0] = there?.kind === "matched" ? there.partLength : Number.NaN;
  };
  return propagated(
    model,
    inputs,
    draws ?? (settlesFast(rig) && settlesFast(other) ? DRAWS : DRAWS_STEPPED),
    seed,
    onDraw,
    sharedLineCorrelation(rig, other, one, 0, two, places),
  );
}

function propagated(
  model: VectorModel,
  inputs: readonly UncertainInput[],
  draws: number,
  seed: number,
  onDraw: UncertaintyAsked["onDraw"],
  correlation?: Correlation,
): AnswerUncertainty | null {
  if (inputs.length === 0) return null;
  const first = jacobian(model, 1, inputs);
  if (first.kind !== "jacobian")
    return { u: null, cannotMove: first.kind === "cannotMove" ? first.input : null, spread: null };
  const u = combined(first, correlation).u[0]!;
  if (draws === 0) return { u, cannotMove: null, spread: null };
  const drawn = drawResults(model, inputs, first, {
    rng: rng(seed),
    draws,
    correlation,
    onDraw: onDraw && ((made) => onDraw(made, draws)),
  });
  return {
    u,
    cannotMove: null,
    spread: { draws: drawn.draws, without: drawn.without, bounds: boundsOf(drawn, 0) },
  };
}

type Inputs = ReturnType<typeof rigInputs>;

/**
 * Correlation of the inputs of two rigs: what is not known of one line that lies in both is not known in both alike, and
 * the two inputs are one.
 * @param from places at which the inputs of each begin
 */
export function sharedLineCorrelation(
  a: Rig,
  b: Rig,
  own: Inputs,
  from: number,
  others: Inputs,
  othersFrom: number,
): Correlation | undefined {
  if (!sharesLines(a, b)) return undefined;
  const size = Math.max(from + own.length, othersFrom + others.length);
  const rows = Array.from({ length: size }, (_, i) => Array.from({ length: size }, (_, j) => (i === j ? 1 : 0)));
  for (const [i, { input, u }] of own.entries()) {
    if (input !== "massPerLength" && input !== "stretch") continue;
    const j = others.findIndex((other) => other.input === input && other.u === u);
    if (j < 0) continue;
    rows[from + i]![othersFrom + j] = 1;
    rows[othersFrom + j]![from + i] = 1;
  }
  return rows;
}

/** Whether every line of the one rig is in the other too. */
function sharesLines(a: Rig, b: Rig): boolean {
  const key = (rig: Rig) =>
    rig.rode.flatMap((part) => (part.kind === "line" ? [`${part.name} ${part.massPerLength}`] : []));
  const [first, second] = [key(a), key(b)];
  return first.length > 0 && first.every((name) => second.includes(name));
}
