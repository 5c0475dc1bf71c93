/**
 * A hold while it lasts: since when the load is kept, what ended the last one, and how far the anchor went meanwhile, by how
 * far the boat came along the pull, the rode's own give taken off.
 *
 *   way = along(now) − along(then) − (give(load now) − give(load then)),  u that of the drift
 */
import type { Measured } from "../pull/index.ts";
import { normalBelow } from "../statistics/index.ts";
import { driftOf, FIRST, type Fix, LAST } from "./drift.ts";
import type { HoldRule } from "./hold-rule.ts";

/** What happened in a pull under way, in order of time, s. */
export type HoldEvent = { readonly at: number } & (
  | { readonly kind: "load"; readonly newtons: number }
  /** Where the boat was, on the same clock. */
  | { readonly kind: "place"; readonly fix: Fix }
  | { readonly kind: "step" | "gaveWay" | "moved" }
);

/** What a hold is judged by. */
export interface HoldQuestion {
  /** N, where the loads are read. */
  readonly asked: number;
  readonly rule: HoldRule;
  /** The way the boat is pulled, rad from true north; null: nobody says, so no way is told. */
  readonly direction: number | null;
  /** How far the rode lets the boat go back at a load, m; null where it has no equilibrium. */
  readonly give: ((newtons: number) => number) | null;
}

/** Why a hold ended. */
export type HoldEnd =
  /** The load fell to so much, N. */
  | { readonly kind: "fell"; readonly newtons: number }
  /** By touch. */
  | { readonly kind: "gaveWay" | "moved" }
  /** The boat came so far that the anchor surely moved by more than the rule lets it, m. */
  | { readonly kind: "went"; readonly way: Measured };

/** A hold so far. */
export interface HoldSoFar {
  /** The least load at which one is held, N. */
  readonly least: number;
  /** s, by the events' clock; null while nothing is held. */
  readonly since: number | null;
  /** m meanwhile; null where it is not told. */
  readonly way: Measured | null;
  /** Whether the way is surely less than the rule lets it be. */
  readonly still: boolean;
  /** The last hold of this step that ended, and how long it was, s. */
  readonly ended: { readonly why: HoldEnd; readonly seconds: number } | null;
}

/** How far a load may lie below the one asked and still be it, as a share. */
const HELD = 0.93;
/** What is told of the anchor holds with this chance. */
const SURE = 0.95;
/** The way is looked at so often, s. */
const OFTEN = 1;

interface Running {
  readonly since: number;
  readonly firstLoads: number[];
  readonly firstFixes: Fix[];
  readonly loads: { readonly time: number; readonly newtons: number }[];
  readonly fixes: Fix[];
  looked: number;
}

/** The hold of the step under way: from the first load within 7 % of the one asked, until something ends it. */
export function holdSoFar(events: readonly HoldEvent[], question: HoldQuestion): HoldSoFar {
  const least = HELD * question.asked;
  let hold: Running | null = null;
  let ended: HoldSoFar["ended"] = null;
  const end = (at: number, why: HoldEnd): void => {
    if (hold !== null) ended = { why, seconds: at - hold.since };
    hold = null;
  };
  for (const one of events) {
    if (one.kind === "step") [hold, ended] = [null, null];
    else if (one.kind === "load") {
      if (one.newtons < least) end(one.at, { kind: "fell", newtons: one.newtons });
      else {
        hold ??= begun(one.at);
        addLoad(hold, one.at, one.newtons);
      }
    } else if (one.kind !== "place") end(one.at, { kind: one.kind });
    else if (hold !== null) {
      addFix(hold, one.fix);
      if (one.at - hold.looked < OFTEN) continue;
      hold.looked = one.at;
      const way = wayOf(hold, question);
      if (way !== null && 1 - below(question.rule.heldWithin, way) >= SURE) end(one.at, { kind: "went", way });
    }
  }
  const way = hold === null ? null : wayOf(hold, question);
  return {
    least,
    since: (hold as Running | null)?.since ?? null,
    way,
    still: way !== null && below(question.rule.heldWithin, way) >= SURE,
    ended,
  };
}

const begun = (since: number): Running => ({
  ...{ since, firstLoads: [], firstFixes: [], loads: [], fixes: [], looked: Number.NEGATIVE_INFINITY },
});

function addLoad(hold: Running, at: number, newtons: number): void {
  if (at - hold.since <= FIRST) hold.firstLoads.push(newtons);
  addLast(hold.loads, { time: at, newtons });
}

function addFix(hold: Running, fix: Fix): void {
  const [first = fix] = hold.firstFixes;
  if (fix.time - first.time <= FIRST) hold.firstFixes.push(fix);
  addLast(hold.fixes, fix);
}

/** Keeps the last seconds of a list. */
function addLast<T extends { readonly time: number }>(list: T[], one: T): void {
  list.push(one);
  while (one.time - list[0]!.time > LAST) list.shift();
}

/** How far the anchor went since the hold began; null before it can be told. */
function wayOf({ firstLoads, firstFixes, loads, fixes }: Running, { direction, give }: HoldQuestion): Measured | null {
  const begun = firstFixes.at(-1)?.time ?? 0;
  const drift = driftOf([...firstFixes, ...fixes.filter(({ time }) => time > begun)], direction);
  if (drift === null || drift.along === null || give === null) return null;
  const given = give(mean(loads.map(({ newtons }) => newtons))) - give(mean(firstLoads));
  return { value: drift.along - given, u: drift.u };
}

const below = (most: number, { value, u }: Measured): number => normalBelow((most - value) / u);
const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
