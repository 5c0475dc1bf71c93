import { InputError } from "../../quantity/index.ts";
import type { Plateau } from "./plateaus.ts";

/** A step of the protocol: a load to be held for a time. */
export interface PlannedStep {
  /** N */
  readonly load: number;
  /** s */
  readonly hold: number;
}

/** What became of a planned step: held, cut short, or not reached. */
export type StepOutcome =
  | {
      readonly kind: "held";
      readonly plateau: string /** Held minus planned load, as a share of the plan. */;
      readonly off: number;
      readonly held: number;
    }
  | { readonly kind: "cutShort"; readonly plateau: string; readonly off: number; readonly held: number }
  | { readonly kind: "notReached" };

/** A planned step and what became of it. */
export interface MatchedStep {
  readonly planned: PlannedStep;
  readonly outcome: StepOutcome;
}

/** A plateau further than this from a step is not that step (natural logarithm of the ratio of loads). */
const FURTHEST = Math.log(1.25);

/**
 * Matches plateaus to the planned steps in their order: the pairing with the least Σ (ln load / plan)², each step or
 * plateau left alone costing what the furthest pair would. A step that fell twice goes to the nearer plateau.
 */
export function matchSteps(
  plan: readonly PlannedStep[],
  plateaus: readonly Plateau[],
): { steps: MatchedStep[]; unplanned: string[] } {
  plan.forEach((step, i) => {
    if (!(step.load > 0)) throw new InputError(`steps[${i}].load`, String(step.load), "a load above zero is expected");
    if (!(step.hold >= 0))
      throw new InputError(`steps[${i}].hold`, String(step.hold), "a time not below zero is expected");
  });
  const n = plan.length;
  const m = plateaus.length;
  const alone = (FURTHEST * FURTHEST) / 2;
  const width = m + 1;
  const cost = new Float64Array((n + 1) * width);
  const pair = (i: number, j: number): number => {
    const load = plateaus[j]!.load.value;
    const d = load > 0 ? Math.log(load / plan[i]!.load) : Number.POSITIVE_INFINITY;
    return Math.abs(d) <= FURTHEST ? d * d : Number.POSITIVE_INFINITY;
  };
  for (let i = 0; i <= n; i++)
    for (let j = 0; j <= m; j++) {
      if (i === 0 && j === 0) continue;
      let least = Number.POSITIVE_INFINITY;
      if (i > 0) least = Math.min(least, cost[(i - 1) * width + j]! + alone);
      if (j > 0) least = Math.min(least, cost[i * width + j - 1]! + alone);
      if (i > 0 && j > 0) least = Math.min(least, cost[(i - 1) * width + j - 1]! + pair(i - 1, j - 1));
      cost[i * width + j] = least;
    }
  const matched = new Int32Array(n).fill(-1);
  for (let i = n, j = m; i > 0 || j > 0; ) {
    const here = cost[i * width + j]!;
    if (i > 0 && j > 0 && here === cost[(i - 1) * width + j - 1]! + pair(i - 1, j - 1)) matched[--i] = --j;
    else if (i > 0 && here === cost[(i - 1) * width + j]! + alone) i--;
    else j--;
  }
  const steps = plan.map((planned, i): MatchedStep => {
    const p = plateaus[matched[i]!];
    if (!p) return { planned, outcome: { kind: "notReached" } };
    const held = p.to - p.from;
    // A grain at either end belongs to the ramp as much as to the hold.
    const kind = held >= 0.9 * planned.hold ? "held" : "cutShort";
    return { planned, outcome: { kind, plateau: p.id, off: p.load.value / planned.load - 1, held } };
  });
  const used = new Set(matched);
  return { steps, unplanned: plateaus.filter((_, j) => !used.has(j)).map((p) => p.id) };
}
