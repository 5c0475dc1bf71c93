/**
 * A pull under way on this device: what was asked for when it began, then everything that happened, in order. Nothing is
 * ever taken out of it; what a touch took back is told by an event of its own. What is shown is folded from it.
 */
import type { DeploymentRecord } from "../../study/index.ts";
import type { LiveSource } from "./live/reading.ts";

/** What happened; times are ms since 1970 by this device's clock. */
export type Happened =
  /** A load read at the bow, N. */
  | { readonly kind: "load"; readonly newtons: number }
  /** The rode's angle above the level, read with the device, rad, with its ±. */
  | { readonly kind: "angle"; readonly angle: number; readonly u: number }
  /** The protocol went on to this step. */
  | { readonly kind: "step"; readonly step: number }
  | { readonly kind: "gaveWay" }
  | { readonly kind: "moved" }
  | { readonly kind: "stop" }
  /** What was done with this id is taken back. */
  | { readonly kind: "takenBack"; readonly of: number };

/** One of them, with its place from 0 and its time. */
export type DeckEvent = Happened & { readonly n: number; readonly at: number };

/** A step of the protocol. */
export interface DeckStep {
  readonly kind: "set" | "hold" | "veer" | "reset";
  /** N at the anchor; of setting, a veer and a reset none. */
  readonly load: number | null;
  /** s it is held */
  readonly hold: number;
  /** Of a veer: what is out after it, m. */
  readonly paidOut?: number;
}

/** How a pull ended. */
export interface DeckEnd {
  readonly kind: "gaveWay" | "heldTo" | "neverSet" | "none";
  /** N at the bow, where one is told. */
  readonly load: number | null;
  readonly at: number;
  /** What was out when that load was read, m, where it is not what was out at first. */
  readonly paidOut?: number;
  /** Each step with the middle load read in it and how long, readings of instruments among them. */
  readonly steps?: readonly HeldStep[];
}

/** A step as it was pulled. */
export interface HeldStep {
  readonly load_N: number;
  readonly duration_s: number;
  /** What was out, m, where it is not what was out at first. */
  readonly paidOut_m?: number;
}

/** Ids in the book, made once when the pull began. */
export interface DeckIds {
  readonly begin: string;
  readonly end: string;
  readonly pull: string;
  readonly log: string;
  readonly day: string;
  readonly rig: string;
  readonly rigVersion: string;
  readonly anchor: string;
}

/** A pull as this device keeps it. */
export interface DeckPull {
  readonly ids: DeckIds;
  /** The id of the book it goes to; none from a device that had seen no book. */
  readonly book?: string;
  readonly begunAt: number;
  readonly anchor: string;
  /** Records that are in the book already and are only pointed to. */
  readonly known: { readonly day: boolean; readonly anchor: boolean };
  /** The text of the rig file, and how it lies in this water. */
  readonly rig: { readonly name: string; readonly file: string };
  readonly deployed: DeploymentRecord;
  /** Standard uncertainty of a load read, N. */
  readonly loadU: number;
  /** The hold rule, s and m, where one is stated. */
  readonly heldFor?: number;
  readonly heldWithin?: number;
  /** The way the boat is pulled, rad from true north. */
  readonly direction?: number;
  readonly steps: readonly DeckStep[];
  /** Code of the plan, where there is one. */
  readonly code: string | null;
  readonly events: readonly DeckEvent[];
  /** Instruments that are followed; what they read is kept beside it. */
  readonly live?: readonly LiveSource[];
  /** Another device runs the pull: this one adds readings and marks. */
  readonly helps?: true;
  readonly ended: DeckEnd | null;
}

/** Events that stand: none that was taken back. */
export function standing({ events }: Pick<DeckPull, "events">): readonly DeckEvent[] {
  const back = new Set(events.flatMap((one) => (one.kind === "takenBack" ? [one.of] : [])));
  return events.filter((one) => one.kind !== "takenBack" && !back.has(one.n));
}

/** Loads that stand, in order. */
export function loadsOf(pull: Pick<DeckPull, "events">): readonly (DeckEvent & { readonly kind: "load" })[] {
  return standing(pull).filter((one) => one.kind === "load");
}

/**
 * Loads that go to the book now: all when the pull has ended; before that all but the newest ever read, which a touch may
 * still take back. A row that went is never taken back, so rows keep their places.
 */
export function rowsOf(pull: DeckPull): readonly (DeckEvent & { readonly kind: "load" })[] {
  const loads = loadsOf(pull);
  if (pull.ended !== null) return loads;
  const newest = pull.events.reduce((n, one) => (one.kind === "load" ? one.n : n), -1);
  return loads.filter(({ n }) => n < newest);
}

/** What a touch would take back: the last that stands, unless it is a load that went to the book; null for nothing. */
export function undoable(pull: DeckPull): DeckEvent | null {
  if (pull.ended !== null) return null;
  const last = standing(pull).at(-1);
  if (last === undefined) return null;
  return last.kind === "load" && rowsOf(pull).includes(last) ? null : last;
}

/** The step under way, from 0. */
export function stepOf(pull: Pick<DeckPull, "events">): number {
  return standing(pull).reduce((step, one) => (one.kind === "step" ? one.step : step), 0);
}

/** How the rode lies at a step: with what the last veer up to it left out. */
export function deployedAt({ steps, deployed }: Pick<DeckPull, "steps" | "deployed">, step: number): DeploymentRecord {
  const out = veeredTo(steps, step);
  return out === undefined ? deployed : { ...deployed, paidOut: out };
}

/**
 * The highest load read before the anchor gave way (or at all), N at the bow, and the step it was read in; null before the
 * first. Where it gave way, after the last veer or
 * reset: what it held on another length, or before it was set anew, is not what it gave way at.
 */
function highestWithin(
  pull: Pick<DeckPull, "events">,
  steps: readonly DeckStep[],
): { readonly newtons: number; readonly step: number } | null {
  const ends = standing(pull).some(({ kind }) => kind === "gaveWay");
  let highest: { readonly newtons: number; readonly step: number } | null = null;
  let anew = false;
  let step = 0;
  for (const one of standing(pull)) {
    if (one.kind === "gaveWay") break;
    if (one.kind === "step") {
      step = one.step;
      const kind = steps[step]?.kind;
      if (ends && (kind === "veer" || kind === "reset")) anew = true;
    }
    if (one.kind !== "load") continue;
    if (anew || highest === null || one.newtons > highest.newtons) highest = { newtons: one.newtons, step };
    anew = false;
  }
  return highest;
}

/** What a veer left out at a step, m; undefined before the first. */
const veeredTo = (steps: readonly DeckStep[], step: number): number | undefined =>
  steps.slice(0, step + 1).findLast(({ paidOut }) => paidOut !== undefined)?.paidOut;

/** The end that what happened suggests. */
export function endOf(pull: Pick<DeckPull, "events"> & Partial<Pick<DeckPull, "steps">>, at: number): DeckEnd {
  const highest = highestWithin(pull, pull.steps ?? []);
  const steps = stepsHeld(pull);
  if (highest === null) return { kind: "none", load: null, at, steps };
  const paidOut = veeredTo(pull.steps ?? [], highest.step);
  return {
    kind: standing(pull).some(({ kind }) => kind === "gaveWay") ? "gaveWay" : "heldTo",
    load: highest.newtons,
    ...(paidOut === undefined ? {} : { paidOut }),
    at,
    steps,
  };
}

/** Each step with the middle load read in it, the time from its first to its last reading, and what a veer left out. */
export function stepsHeld(pull: Pick<DeckPull, "events"> & Partial<Pick<DeckPull, "steps">>): HeldStep[] {
  const byStep = new Map<number, { readonly loads: number[]; readonly from: number; to: number }>();
  let step = 0;
  for (const one of standing(pull)) {
    if (one.kind === "step") step = one.step;
    if (one.kind !== "load") continue;
    const own = byStep.get(step) ?? { loads: [], from: one.at, to: one.at };
    own.loads.push(one.newtons);
    own.to = one.at;
    byStep.set(step, own);
  }
  return [...byStep].map(([step, { loads, from, to }]) => {
    const paidOut = veeredTo(pull.steps ?? [], step);
    return {
      load_N: loads.sort((a, b) => a - b)[Math.floor(loads.length / 2)]!,
      duration_s: (to - from) / 1000,
      ...(paidOut === undefined ? {} : { paidOut_m: paidOut }),
    };
  });
}
