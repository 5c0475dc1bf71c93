import { type Rig, settle } from "../../rode/index.ts";
import type { ReadAt } from "./held.ts";

/** No rode of any boat is pulled by more than this, N. */
const MOST = 1e7;
/** Halvings of the search for the least load at which the rode hangs as a rode. */
const HALVINGS = 60;

/**
 * How far the rode itself lets the boat go back at a load, m from where it lies at the least load that has an
 * equilibrium; lower loads, slack among them, count as that one. Null when no load has one.
 */
export function giveOf(rig: Rig, readAt: ReadAt): ((newtons: number) => number) | null {
  const spanAt = (newtons: number): number | null => {
    const answer = settle(rig, { at: readAt, newtons });
    return answer.kind === "settled" ? answer.span : null;
  };
  if (spanAt(MOST) === null) return null;
  let low = Math.log(1e-3);
  let high = Math.log(MOST);
  for (let k = 0; k < HALVINGS; k++) {
    const middle = (low + high) / 2;
    if (spanAt(Math.exp(middle)) === null) low = middle;
    else high = middle;
  }
  const least = Math.exp(high);
  const slackest = spanAt(least)!;
  return (newtons) => (newtons <= least ? 0 : (spanAt(Math.min(MOST, newtons)) ?? slackest) - slackest);
}
