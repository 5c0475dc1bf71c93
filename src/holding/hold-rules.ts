/** The hold rules that pulls were judged by: a longer hold, or a lesser movement, lets an anchor hold less. */
import type { Pull } from "./pull.ts";

/** One of them, and of how many pulls. */
export interface HoldRuleOfPulls {
  /** s */
  readonly heldFor: number;
  /** m */
  readonly heldWithin: number;
  readonly pulls: number;
}

/** Rules that pulls state, that of most pulls first; pulls that state none are not among them. */
export function holdRulesOf(pulls: readonly Pick<Pull, "holdRule">[]): HoldRuleOfPulls[] {
  const found = new Map<string, HoldRuleOfPulls>();
  for (const { holdRule } of pulls) {
    if (holdRule === undefined) continue;
    const key = `${holdRule.heldFor} ${holdRule.heldWithin}`;
    found.set(key, { ...holdRule, pulls: (found.get(key)?.pulls ?? 0) + 1 });
  }
  return [...found.values()].sort((a, b) => b.pulls - a.pulls);
}
