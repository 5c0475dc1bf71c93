/**
 * Where catenary stops helping: the load past which the raising of weight gives less than is asked.
 * Catenary is the give that comes of weight (chain, wire, rope, kellets raised); stretch is not in it.
 */

import { brent } from "../numeric/index.ts";
import { inStillWater, type NoEquilibrium, type Rig, type Settled, settle } from "../rode/index.ts";
import { stateAt } from "./give.ts";
import { movementOver } from "./give-curve.ts";

/** The end a load is read at. */
export type LoadEnd = "anchor" | "bow" | "horizontal";

/** What is asked of catenary: its share of the give, or a give per load. */
export type CatenaryEndQuestion =
  /** At least so much movement per load, m/N, the load being read at `at`. */
  | { readonly ask: "perLoad"; readonly give: number; readonly at: LoadEnd }
  /** From that load up to `upTo` (N, read at `at`) catenary still gives this share of `need`, m. */
  | {
      readonly ask: "ofNeed";
      readonly need: number;
      readonly share: number;
      readonly upTo: number;
      readonly at: LoadEnd;
    };

/** Where catenary begins to give less than asked, or that it always or never does. */
export type CatenaryEnd =
  | { readonly kind: "fades"; readonly settled: Settled }
  /** Over all loads looked at, given as horizontal forces, N. */
  | { readonly kind: "neverEnough"; readonly from: number; readonly to: number }
  | { readonly kind: "alwaysEnough"; readonly from: number; readonly to: number }
  | NoEquilibrium;

/** The give per load at one load, m/N, split into what weight and what stretch (and friction) give. */
export interface GivePerLoad {
  readonly weight: number;
  readonly stretch: number;
  readonly whole: number;
}

const HALF = 1e-3;
const HALF_IN_CURRENT = 3e-2;

/**
 * Give per load at a horizontal force, by central differences in its logarithm.
 * @param at where the load is read by which it is divided
 */
export function givePerLoad(rig: Rig, horizontal: number, at: LoadEnd): GivePerLoad | null {
  const half = inStillWater(rig.setting) ? HALF : HALF_IN_CURRENT;
  const less = stateAt(rig, horizontal * Math.exp(-half));
  const more = stateAt(rig, horizontal * Math.exp(half));
  if (!("energies" in less && "energies" in more)) return null;
  const count = rig.rode.length;
  let raised = 0;
  for (let i = 0; i < count; i++) raised += more.energies[i]! - less.energies[i]!;
  const load = readAt(more.settled, at) - readAt(less.settled, at);
  const weight = raised / horizontal / load;
  const whole = (more.settled.span - less.settled.span) / load;
  return { weight, stretch: whole - weight, whole };
}

/** The load read at one end, N. */
export function readAt(settled: Settled, at: LoadEnd): number {
  return at === "horizontal" ? settled.horizontal : settled[at].tension;
}

/** The highest load at which catenary still gives what is asked: past it, it gives less. */
export function catenaryEnd(rig: Rig, question: CatenaryEndQuestion): CatenaryEnd {
  return question.ask === "perLoad" ? fadePerLoad(rig, question) : fadeOfNeed(rig, question);
}

const RUNGS = 96;

function fadePerLoad(rig: Rig, { give, at }: Extract<CatenaryEndQuestion, { ask: "perLoad" }>): CatenaryEnd {
  const [from, to] = rangeOf(rig);
  const short = (u: number): number => {
    const seen = givePerLoad(rig, Math.exp(u), at);
    return seen === null ? Number.NaN : Math.log(give) - Math.log(Math.max(seen.weight, 1e-300));
  };
  const [a, b] = [Math.log(from), Math.log(to)];
  let above = short(b);
  if (above < 0) return { kind: "alwaysEnough", from, to };
  for (let i = RUNGS - 1; i >= 0; i--) {
    const u = a + ((b - a) * i) / RUNGS;
    const below = short(u);
    if (Number.isNaN(below)) continue;
    if (below < 0 && above >= 0) {
      const root = brent(short, u, a + ((b - a) * (i + 1)) / RUNGS, 1e-13, below, above);
      return settledAs(settle(rig, { at: "horizontal", newtons: Math.exp(root) }));
    }
    above = below;
  }
  return { kind: "neverEnough", from, to };
}

function fadeOfNeed(rig: Rig, { need, share, upTo, at }: Extract<CatenaryEndQuestion, { ask: "ofNeed" }>): CatenaryEnd {
  const top = settle(rig, { at, newtons: upTo });
  if (top.kind === "noEquilibrium") return top;
  const [low] = rangeOf(rig);
  const to = top.horizontal;
  const from = Math.min(low, 0.01 * to);
  const [a, b] = [Math.log(from), Math.log(to)];
  const count = rig.rode.length;
  const lifted = (u: number): number => {
    const state = stateAt(rig, Math.exp(u));
    return "energies" in state ? state.energies.subarray(0, count).reduce((sum, one) => sum + one, 0) : Number.NaN;
  };
  // Downward from the top, step by step.
  const stepped = (u0: number, u1: number, U0: number, U1: number): number =>
    movementOver(u0, u1, U0, lifted(0.5 * (u0 + u1)), U1);
  const wanted = share * need;
  let given = 0;
  let u1 = b;
  let U1 = lifted(b);
  for (let i = RUNGS - 1; i >= 0; i--) {
    const u0 = a + ((b - a) * i) / RUNGS;
    const U0 = lifted(u0);
    if (Number.isNaN(U0)) break;
    const more = stepped(u0, u1, U0, U1);
    if (given + more >= wanted) {
      const before = given;
      const [top1, topU] = [u1, U1];
      const root = brent(
        (u) => wanted - before - stepped(u, top1, lifted(u), topU),
        u0,
        u1,
        1e-13,
        wanted - given - more,
        wanted - given,
      );
      return settledAs(settle(rig, { at: "horizontal", newtons: Math.exp(root) }));
    }
    given += more;
    [u1, U1] = [u0, U0];
  }
  return { kind: "neverEnough", from, to };
}

function settledAs(answer: ReturnType<typeof settle>): CatenaryEnd {
  return answer.kind === "noEquilibrium" ? answer : { kind: "fades", settled: answer };
}

/** Horizontal forces worth looking at: from a slack rode to one drawn straight. */
function rangeOf(rig: Rig): [from: number, to: number] {
  const weight = rig.rode.reduce(
    (sum, part) => sum + 9.81 * (part.kind === "line" ? part.massPerLength * part.length : part.mass),
    0,
  );
  return [0.02 * weight, 200 * weight];
}
