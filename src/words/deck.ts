/** What is told while a pull is under way. */
import { formatQuantity, type UnitSystem } from "../quantity/index.ts";
import type { Drift } from "../study/index.ts";

/** How far the boat has come, along the pull where its direction is known; null: not to be told yet. */
export function driftLine(drift: Drift | null, system: UnitSystem): string {
  if (drift === null) return "Drift: counted from the first ten seconds of positions";
  const { along, across, distance, u } = drift;
  const told = (value: number) => formatQuantity(value, "length", { system, u });
  if (along === null || across === null) return `Drift: ${told(distance)} over the ground`;
  const sideways =
    Math.abs(across) < 2 * u ? "" : `, ${told(Math.abs(across))} to the ${across > 0 ? "right" : "left"}`;
  return `Drift: ${told(along)} along the pull${sideways}`;
}
