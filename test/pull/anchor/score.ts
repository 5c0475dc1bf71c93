import { reduceTrace, type TraceReduction } from "../../../src/pull/index.ts";
import { zeroAt } from "../../../src/pull/trace/zero.ts";
import { type MadePull, makePull } from "./make-pull.ts";
import type { Regime } from "./regimes.ts";

/** How many of how many. */
export interface Count {
  there: number;
  so: number;
}

/** What a reduction said of pulls of one regime, against what is true of them. */
export interface Score {
  readonly regime: string;
  pulls: number;
  /** Verdicts that are wrong; those that say it cannot be told. */
  readonly wrong: Count;
  readonly cannotTell: Count;
  /** Verdicts 'held' that rest on a stretch in which the anchor moved over a metre. */
  readonly heldMoving: Count;
  /** Drags of three metres and more that were found; drags found where nothing moved. */
  readonly drags: Count;
  readonly falseDrags: Count;
  /** Within ± 2 u: direction of the pull, zero, loads of plateaus, set distance. */
  readonly direction: Count;
  readonly zero: Count;
  readonly plateauLoads: Count;
  readonly setDistance: Count;
  /** Steps that the engine held and the anchor with it, that have a plateau; reversals found. */
  readonly plateaus: Count;
  readonly reversals: Count;
}

const empty = (regime: string): Score => {
  const count = (): Count => ({ there: 0, so: 0 });
  return {
    regime,
    pulls: 0,
    wrong: count(),
    cannotTell: count(),
    heldMoving: count(),
    drags: count(),
    falseDrags: count(),
    direction: count(),
    zero: count(),
    plateauLoads: count(),
    setDistance: count(),
    plateaus: count(),
    reversals: count(),
  };
};

/** Nothing that the ground does in so many metres is called a movement. */
const NOTHING = 0.3;
const OVER = 1;
const FAR = 3;

export function scoreOf(regime: Regime, seeds: readonly number[]): Score {
  const score = empty(regime.name);
  for (const seed of seeds) {
    const pull = makePull(regime, seed);
    compare(score, pull, reduceMade(pull));
  }
  return score;
}

export function reduceMade(pull: MadePull): TraceReduction {
  return reduceTrace(pull.trace, {
    readAt: "bow",
    ...(pull.give ? { give: pull.give } : {}),
    settings: {
      pulls: pull.ahead ? "ahead" : "astern",
      ...(pull.hangs ? { slack: pull.hangs } : {}),
    },
  });
}

function add(count: Count, so: boolean): void {
  count.there++;
  if (so) count.so++;
}

function compare(score: Score, { trace, truth }: MadePull, r: TraceReduction): void {
  score.pulls++;
  const at = (t: number): number => Math.max(0, Math.min(trace.time.length - 1, Math.round(t * 10)));
  const moved = (from: number, to: number): number => truth.anchor[at(to)]! - truth.anchor[at(from)]!;
  const meanOf = (values: Float64Array, from: number, to: number): number => {
    const part = values.subarray(at(from), at(to) + 1);
    return part.reduce((sum, v) => sum + v, 0) / part.length;
  };

  const { held } = r;
  // One that says what the load alone leaves open says that it cannot be told.
  const open = held.kind === "notKnown" || held.untold !== null;
  add(score.cannotTell, open);
  if (held.kind !== "notKnown" && !open) {
    const mark = r.corrected.marks.find((m) => m.id === held.mark)!;
    if (held.kind === "heldTo") {
      const gone = moved(mark.from, mark.to) > OVER;
      add(score.heldMoving, gone);
      add(score.wrong, gone);
    } else add(score.wrong, moved(mark.from - 3, mark.to + 3) < NOTHING);
  } else add(score.wrong, false);

  for (const [from, to] of episodes(truth.anchor)) {
    if (moved(from, to) < FAR) continue;
    add(
      score.drags,
      r.drags.some((d) => d.from < to + 2 && d.to > from - 2),
    );
  }
  for (const d of r.drags) add(score.falseDrags, moved(d.from - 3, d.to + 3) < NOTHING);
  score.falseDrags.there = score.pulls;

  for (const p of r.plateaus) {
    const mean = meanOf(truth.load, p.from, p.to);
    add(score.plateauLoads, Math.abs(p.load.value - mean) <= 2 * p.load.u);
  }
  for (const step of truth.steps) {
    const held = meanOf(truth.load, step.from, step.to);
    // A step that gave way or was let off is none.
    if (moved(step.from, step.to) > OVER || Math.abs(held - step.thrust) > 0.1 * step.thrust) continue;
    add(
      score.plateaus,
      r.plateaus.some((p) => Math.min(p.to, step.to) - Math.max(p.from, step.from) >= 0.5 * (step.to - step.from)),
    );
  }
  const middle = trace.time.at(-1)! / 2;
  const zero = zeroAt(r.zero, middle);
  if (r.zero.kind !== "notFound") add(score.zero, Math.abs(zero.value - truth.zero[at(middle)]!) <= 2 * zero.u);
  if (trace.track && r.set.kind === "measured") {
    const { from, to, distance } = r.set;
    add(score.setDistance, Math.abs(distance.value - moved(from, to)) <= 2 * distance.u);
  }
  for (const { from, to, direction } of r.path?.stretches ?? []) {
    const is = truth.directionAt((from + to) / 2);
    const off = Math.abs(Math.atan2(Math.sin(direction.value - is), Math.cos(direction.value - is)));
    add(score.direction, off <= 2 * direction.u);
  }
  if (truth.turned !== null)
    add(
      score.reversals,
      r.reversals.some((v) => v.from <= truth.turned! + 5 && v.to >= truth.turned! - 5),
    );
}

/** Stretches in which the anchor goes, s, a pause of two seconds not counting. */
export function episodes(anchor: Float64Array): [number, number][] {
  const out: [number, number][] = [];
  for (let i = 5; i < anchor.length; i += 5) {
    if (anchor[i]! - anchor[i - 5]! < 0.01) continue;
    const [from, to] = [(i - 5) / 10, i / 10];
    const last = out.at(-1);
    if (last && from - last[1] <= 2) last[1] = to;
    else out.push([from, to]);
  }
  return out;
}
