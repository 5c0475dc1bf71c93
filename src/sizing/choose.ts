/** Gear side by side: every candidate of a plan under its load, the ones no other beats, and all of them over the winds. */
import { settle } from "../rode/index.ts";
import { type NotWeighed, type Weighed, weigh } from "./candidate.ts";
import { type DesignLoad, designLoad } from "./design-load.ts";
import { givePerLoad } from "./fade.ts";
import { notBeaten } from "./pareto.ts";
import { type Criterion, MORE_IS_BETTER, type Plan } from "./plan.ts";
import { withSnubber } from "./snubber.ts";

export interface Choice {
  readonly load: DesignLoad;
  readonly criteria: readonly Criterion[];
  readonly candidates: readonly (Weighed | NotWeighed)[];
  /** Candidates within every limit that no other such is better than in one criterion and as good in all; by place. */
  readonly notBeaten: readonly number[];
  readonly table: readonly ChoiceRow[];
}

/** All candidates at one wind, or at one load. */
export interface ChoiceRow {
  /** m/s; absent for a load as stated. */
  readonly wind?: number;
  /** N, where the plan's load is read. */
  readonly load: number;
  readonly cells: readonly (ChoiceCell | null)[];
}

export interface ChoiceCell {
  /** rad, above the horizontal */
  readonly anchorAngle: number;
  /** m */
  readonly grounded: number;
  readonly span: number;
  /** Give per load, m/N: of weight raised, and of all. */
  readonly weight: number;
  readonly whole: number;
}

export function choose(plan: Plan): Choice {
  const load = designLoad(plan.load);
  const candidates = plan.candidates.map((candidate) => weigh(candidate, load, plan.surge, plan.limits));
  const criteria = plan.criteria ?? usualCriteria(plan);
  const standing = candidates.flatMap((one, i) => (one.kind === "weighed" && one.passed.length === 0 ? [i] : []));
  const scores = standing.map((i) => criteria.map((criterion) => score(candidates[i] as Weighed, criterion)));
  return {
    load,
    criteria,
    candidates,
    notBeaten: notBeaten(scores).map((i) => standing[i]!),
    table: tableOf(plan),
  };
}

/** Weight, angle and strength; the peak where a surge makes each rode its own; the price where all state one. */
function usualCriteria(plan: Plan): readonly Criterion[] {
  return [
    "weight",
    "anchorAngle",
    "workingLoad",
    ...(plan.surge === undefined ? [] : ["peak" as const]),
    ...(plan.candidates.every(({ price }) => price !== undefined) ? ["price" as const] : []),
  ];
}

/** A candidate in one criterion, turned so that less is better; what is not known is the worst. */
function score(one: Weighed, criterion: Criterion): number {
  const values: Readonly<Record<Criterion, number | null>> = {
    weight: one.aboard.weight,
    volume: one.aboard.volume.value,
    anchorAngle: one.peak.anchor.angleToBottom,
    workingLoad: one.workingLoad,
    breakingLoad: one.breakingLoad,
    peak: one.peak.bow.tension,
    span: one.peak.span,
    price: one.price,
    energy: one.give?.work ?? 0,
    movement: one.give?.movement ?? 0,
    grounded: one.mean.grounded,
  };
  const value = values[criterion];
  if (value === null) return Number.POSITIVE_INFINITY;
  return MORE_IS_BETTER.includes(criterion) ? -value : value;
}

function tableOf(plan: Plan): readonly ChoiceRow[] {
  const winds = plan.winds.map((wind) => ({ wind, ...designLoad(plan.load, wind) }));
  const own = designLoad(plan.load);
  const loads = plan.loads.map((newtons) => ({ at: own.at, mean: { value: newtons, u: 0 } }));
  const rigs = plan.candidates.map(({ rig, snubber }) => {
    const snubbed = snubber === undefined ? { rig } : withSnubber(rig, snubber);
    return "kind" in snubbed ? null : snubbed.rig;
  });
  const rows: readonly { wind?: number; at: DesignLoad["at"]; mean: DesignLoad["mean"] }[] = [...winds, ...loads];
  return rows.map(({ wind, at, mean }) => ({
    ...(wind === undefined ? {} : { wind }),
    load: mean.value,
    cells: rigs.map((rig): ChoiceCell | null => {
      if (rig === null) return null;
      const settled = settle(rig, { at, newtons: mean.value });
      if (settled.kind === "noEquilibrium") return null;
      const per = givePerLoad(rig, settled.horizontal, at);
      return per === null
        ? null
        : {
            anchorAngle: settled.anchor.angle,
            grounded: settled.grounded,
            span: settled.span,
            weight: per.weight,
            whole: per.whole,
          };
    }),
  }));
}
