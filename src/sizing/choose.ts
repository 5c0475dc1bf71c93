/** Gear side by side: every candidate of a plan under its load, the ones no other beats, and all of them over the winds. */
import { settle } from "../rode/index.ts";
import { type NotWeighed, type Weighed, weigh } from "./candidate.ts";
import { givePerLoad } from "./catenary-end.ts";
import { type DesignLoad, designLoad } from "./design-load.ts";
import { notBeaten } from "./pareto.ts";
import { type Criterion, MORE_IS_BETTER, type Plan } from "./plan.ts";
import { withSnubber } from "./snubber.ts";

/** A plan's candidates side by side, and those none beats. */
export interface Choice {
  readonly load: DesignLoad;
  readonly criteria: readonly Criterion[];
  readonly candidates: readonly (Weighed | NotWeighed)[];
  /** Candidates within every limit that no other such is better than in one criterion and as good in all; by place. */
  readonly notBeaten: readonly number[];
  readonly table: readonly ChoiceRow[];
  /** By candidate, the mean wind in which it first passes a limit; empty where the load is not that of a wind. */
  readonly limitWinds: readonly LimitWind[];
}

/** m/s at 10 m, to a hundredth; or beyond the strongest looked at, or passed in the lightest. */
export type LimitWind =
  | { readonly kind: "reached"; readonly wind: number }
  | { readonly kind: "beyond" | "always"; readonly wind: number };

/** All candidates at one wind, or at one load. */
export interface ChoiceRow {
  /** m/s; absent for a load as stated. */
  readonly wind?: number;
  /** N, where the plan's load is read. */
  readonly load: number;
  readonly cells: readonly (ChoiceCell | null)[];
}

/** One candidate at one load of the table. */
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

/** Sets the candidates of a plan side by side under its load. */
export function choose(plan: Plan): Choice {
  const load = designLoad(plan.load);
  const candidates = plan.candidates.map((candidate) => weigh(candidate, load, plan, plan.limits));
  const criteria = plan.criteria ?? usualCriteria(plan);
  const standing = candidates.flatMap((one, i) => (one.kind === "weighed" && one.passed.length === 0 ? [i] : []));
  const scores = standing.map((i) => criteria.map((criterion) => score(candidates[i] as Weighed, criterion)));
  return {
    load,
    criteria,
    candidates,
    notBeaten: notBeaten(scores).map((i) => standing[i]!),
    table: tableOf(plan),
    limitWinds: plan.load.kind === "wind" ? plan.candidates.map((candidate) => limitWind(plan, candidate)) : [],
  };
}

const LIGHTEST = 1;
const STRONGEST = 60;
/** Halvings of the winds between, in the logarithm: to less than a hundredth. */
const HALVINGS = 9;

/** The wind in which a candidate passes its first limit, the surge of the plan staying what it is; loads rise with the wind. */
function limitWind(plan: Plan, candidate: Plan["candidates"][number]): LimitWind {
  const holds = (wind: number): boolean => {
    const one = weigh(candidate, designLoad(plan.load, wind), plan, plan.limits, false);
    return one.kind === "weighed" && one.passed.length === 0;
  };
  if (!holds(LIGHTEST)) return { kind: "always", wind: LIGHTEST };
  if (holds(STRONGEST)) return { kind: "beyond", wind: STRONGEST };
  let [low, high] = [LIGHTEST, STRONGEST];
  for (let n = 0; n < HALVINGS; n++) {
    const middle = Math.sqrt(low * high);
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return { kind: "reached", wind: Math.sqrt(low * high) };
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
    weight: one.stowed.weight,
    volume: one.stowed.volume.value,
    anchorAngle: one.peak.anchor.angleToBottom,
    workingLoad: one.workingLoad,
    breakingLoad: one.breakingLoad,
    strength: one.inUse?.share ?? null,
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
            anchorAngle: settled.anchor.angleToBottom,
            grounded: settled.grounded,
            span: settled.span,
            weight: per.weight,
            whole: per.whole,
          };
    }),
  }));
}
