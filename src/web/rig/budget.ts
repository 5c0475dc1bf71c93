/**
 * What of the ± of an answer comes of which input: each input's own part with the others known, the parts added in
 * squares (JCGM 100:2008, 5.1.2, inputs independent).
 */
import { type Certainty, certaintyOf, type Pull, type Rig } from "../../rode/index.ts";

export type Budgeted = "anchorAngle" | "angleToBottom" | "anchorTension" | "span";

/** One input with its share of the square of each ±, 0 to 1. */
export interface BudgetRow {
  readonly input: keyof Rig["uncertainty"];
  readonly shares: Readonly<Record<Budgeted, number>>;
}

const budgeted: readonly Budgeted[] = ["anchorAngle", "angleToBottom", "anchorTension", "span"];

/** Empty where nothing is uncertain, or the model ends beside one of the inputs. */
export function budgetOf(rig: Rig, pull: Pull): readonly BudgetRow[] {
  const inputs = Object.entries(rig.uncertainty).filter(([, u]) => u > 0) as [keyof Rig["uncertainty"], number][];
  const alone = inputs.map(([input, u]) => ({
    input,
    sure: certaintyOf({ ...rig, uncertainty: { [input]: u } }, pull),
  }));
  const known = alone.filter((one): one is { input: keyof Rig["uncertainty"]; sure: Certainty } => one.sure !== null);
  if (known.length < alone.length) return [];
  const whole = (of: Budgeted): number => known.reduce((sum, { sure }) => sum + sure[of] ** 2, 0);
  return known.map(({ input, sure }) => ({
    input,
    shares: Object.fromEntries(
      budgeted.map((of) => [of, whole(of) > 0 ? sure[of] ** 2 / whole(of) : 0]),
    ) as BudgetRow["shares"],
  }));
}
