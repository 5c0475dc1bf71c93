/** Two answers to one question, side by side: whether they can be told apart, and by how much. */
import { type Dimension, formatQuantity, type UnitSystem } from "../quantity/index.ts";

/** A number with its standard uncertainty, as a side of the comparison. */
export interface Stated {
  /** SI. */
  readonly value: number;
  /** Standard uncertainty, SI. */
  readonly u: number;
}

/**
 * How the second lies to the first, without a full stop: `the same within their ±`, `110 ± 22 N more`.
 * Apart are two that differ by more than twice the uncertainty of their difference, taken as independent (GUM 5.1.2): for
 * two that share a cause that is on the careful side.
 */
export function besideWords(
  first: Stated,
  second: Stated,
  dimension: Dimension,
  shown: { readonly system: UnitSystem; readonly unit?: string },
): string {
  const by = second.value - first.value;
  const u = Math.hypot(first.u, second.u);
  if (!(Math.abs(by) > 2 * u)) return "the same within their ±";
  return `${formatQuantity(Math.abs(by), dimension, { ...shown, u })} ${by > 0 ? "more" : "less"}`;
}
