/** How sure an equilibrium is: first order by one Jacobian, and by draws. */
import {
  type Bounds,
  boundsOf,
  combined,
  drawResults,
  type Jacobian,
  jacobian,
  type NoJacobian,
  rng,
  type UncertainInput,
  type VectorModel,
} from "../statistics/index.ts";
import { compile } from "./compile.ts";
import type { Near } from "./contact/close-legs.ts";
import type { Pull, Rig, Settled } from "./model.ts";
import { inStillWater } from "./model.ts";
import { movedRig, rigInputs } from "./moved-rig.ts";
import { settleTraced } from "./settle.ts";

/** The quantities of an equilibrium that carry an uncertainty. */
export const UNCERTAIN = {
  anchorTension: (s: Settled) => s.anchor.tension,
  anchorAngle: (s: Settled) => s.anchor.angle,
  angleToBottom: (s: Settled) => s.anchor.angleToBottom,
  bowTension: (s: Settled) => s.bow.tension,
  bowAngle: (s: Settled) => s.bow.angle,
  horizontal: (s: Settled) => s.horizontal,
  span: (s: Settled) => s.span,
  grounded: (s: Settled) => s.grounded,
  sag: (s: Settled) => s.sag,
} as const;

type Name = keyof typeof UNCERTAIN;
/** The quantities of an equilibrium that carry a ±, in the order of their numbers. */
export const UNCERTAIN_NAMES = Object.keys(UNCERTAIN) as Name[];

/** Standard uncertainties, first order, SI and radians. */
export type Certainty = Readonly<Record<Name, number>>;

/** What draws of the inputs say of one equilibrium. */
export interface Spread {
  readonly draws: number;
  /** Draws without an equilibrium. */
  readonly without: number;
  /** Draws in which the anchor is lifted. */
  readonly lifted: number;
  /** Where 95 of 100 draws lie; a bound that the draws do not have is null. */
  readonly bounds: Readonly<Record<Name, Bounds>>;
}

/** How sure an equilibrium is: first order, and what draws say. */
export interface SettledUncertainty {
  /** null where the model ends on both sides of an input: then `cannotMove` names it. */
  readonly firstOrder: Certainty | null;
  readonly cannotMove: string | null;
  /** null where no draws were asked for, or first order has none either. */
  readonly spread: Spread | null;
}

/** Enough for the ends of an interval to a twentieth of u; of a rode that is stepped along, to a tenth. */
const DRAWS = 4000;
const DRAWS_STEPPED = 1000;

/** How many draws of a rig are made where nothing else is asked. */
export function drawsOf(rig: Rig): number {
  return settlesFast(rig) ? DRAWS : DRAWS_STEPPED;
}
/** An angle below this is rounding, rad. */
const LEVEL = 1e-9;

/** A pull with what is not known of it (N, or m of a span) as an input after those of a rig. */
export function pullInput(pull: Pull, u: number): UncertainInput[] {
  const value = pull.at === "span" ? pull.metres : pull.newtons;
  return u > 0 ? [{ name: pull.at === "span" ? "span" : "load", value, u }] : [];
}

/**
 * The pull at another load or span, stated where it was.
 * @param value N of a load, m of a span
 */
export function pullAt(pull: Pull, value: number): Pull {
  return pull.at === "span" ? { at: "span", metres: value } : { at: pull.at, newtons: value };
}

/**
 * Reads inputs drawn or moved, first a rig's own and then the pull's.
 * @returns null where they leave nothing of the rig or of the pull
 */
export function moveBoth(
  rig: Rig,
  pull: Pull,
  inputs: readonly { readonly input: keyof Rig["uncertainty"] }[],
  x: ArrayLike<number>,
): { readonly rig: Rig; readonly pull: Pull } | null {
  const moved = movedRig(rig, Object.fromEntries(inputs.map(({ input }, i) => [input, x[i]!])));
  const load = x.length > inputs.length ? x[inputs.length]! : null;
  if (moved === null || (load !== null && !(load > 0))) return null;
  return { rig: moved, pull: load === null ? pull : pullAt(pull, load) };
}

function modelOf(rig: Rig, pull: Pull, u: number): { inputs: UncertainInput[]; model: VectorModel } {
  const own = rigInputs(rig);
  // The first answer, that at the estimates, is where the others begin.
  let near: Near | undefined;
  const model: VectorModel = (x, out) => {
    const moved = moveBoth(rig, pull, own, x);
    const traced = moved === null ? null : settleTraced(moved.rig, moved.pull, near);
    const settled = traced !== null && "settled" in traced ? traced.settled : null;
    if (traced !== null && "settled" in traced) near ??= traced.near;
    UNCERTAIN_NAMES.forEach((name, k) => {
      out[k] = settled === null ? Number.NaN : UNCERTAIN[name](settled);
    });
  };
  return { inputs: [...own, ...pullInput(pull, u)], model };
}

function named<T>(of: (k: number) => T): Readonly<Record<Name, T>> {
  return Object.fromEntries(UNCERTAIN_NAMES.map((name, k) => [name, of(k)])) as Record<Name, T>;
}

function firstOrderOf(found: Jacobian | NoJacobian): Certainty | null {
  if (found.kind !== "jacobian") return null;
  const { u } = combined(found);
  return named((k) => u[k]!);
}

/**
 * Standard uncertainties of an equilibrium; null when nothing is uncertain, or beside an input there is no equilibrium.
 * @param pullU of the load, N, or of the span, m
 * @source JCGM 100:2008, eq. 10, with sensitivities by central differences
 */
export function certaintyOf(rig: Rig, pull: Pull, pullU = 0): Certainty | null {
  const { inputs, model } = modelOf(rig, pull, pullU);
  return inputs.length === 0 ? null : firstOrderOf(jacobian(model, UNCERTAIN_NAMES.length, inputs));
}

/**
 * As `certaintyOf`, with draws: what first order cannot tell near lift-off and near straight.
 * @param seed the same seed gives the same answer
 * @source JCGM 101:2008
 */
export function uncertaintyOf(
  rig: Rig,
  pull: Pull,
  {
    pullU = 0,
    draws = drawsOf(rig),
    seed = 1,
    onDraw,
  }: {
    readonly pullU?: number;
    readonly draws?: number;
    readonly seed?: number;
    readonly onDraw?: ((made: number, of: number) => void) | undefined;
  } = {},
): SettledUncertainty | null {
  const { inputs, model } = modelOf(rig, pull, pullU);
  if (inputs.length === 0) return null;
  const found = jacobian(model, UNCERTAIN_NAMES.length, inputs);
  const firstOrder = firstOrderOf(found);
  if (found.kind !== "jacobian")
    return { firstOrder, cannotMove: found.kind === "cannotMove" ? found.input : null, spread: null };
  if (draws === 0) return { firstOrder, cannotMove: null, spread: null };
  const drawn = drawResults(model, inputs, found, {
    rng: rng(seed),
    draws,
    onDraw: onDraw && ((made) => onDraw(made, draws)),
  });
  const angles = drawn.sorted[UNCERTAIN_NAMES.indexOf("angleToBottom")]!;
  return {
    firstOrder,
    cannotMove: null,
    spread: {
      draws,
      without: drawn.without,
      lifted: angles.filter((angle) => angle > LEVEL && Number.isFinite(angle)).length,
      bounds: named((k) => boundsOf(drawn, k)),
    },
  };
}

/** Whether closed forms alone settle a rig: no floats, no current. */
export function settlesFast(rig: Rig): boolean {
  return inStillWater(rig.setting) && rig.uncertainty.current === undefined && !compile(rig).hasBuoyant;
}

/**
 * Whether what draws say of a result is not what value ± u says: an end of the 95 % interval is off by more than a tenth
 * of its half-width, or missing.
 */
export function isUneven(value: number, u: number, { low, high }: Bounds): boolean {
  if (low === null || high === null) return true;
  const half = 1.96 * u;
  const least = 0.1 * Math.max(half, 0.5 * (high - low)) + 1e-9 * Math.abs(value);
  return Math.abs(low - (value - half)) > least || Math.abs(high - (value + half)) > least;
}
