/** Pulls of a book as setups of a page: of each rig as it lay, the pull that held most. */
import type { PullEvidence } from "../../study/index.ts";
import type { Setup } from "./content.ts";

/**
 * @param evidence of the pulls chosen, in any order
 * @param nameOf how a pull is called; empty: by its rig alone
 * @returns one setup a rig file, the hardest pull first; none of pulls without a rig or a load
 */
export function setupsOfPulls(evidence: readonly PullEvidence[], nameOf: (pull: string) => string = () => ""): Setup[] {
  const best = new Map<string, { readonly setup: Setup; readonly bow: number }>();
  for (const { pull, deployment, heldTo, gaveWayBy, readAt } of evidence) {
    const carried = heldTo ?? gaveWayBy;
    if (deployment === null || carried?.kind !== "carried") continue;
    const { rig } = deployment;
    const bow = carried.bow.value;
    if (bow <= (best.get(rig.name)?.bow ?? 0)) continue;
    const name = nameOf(pull);
    best.set(rig.name, {
      bow,
      setup: { name: name === "" ? rig.name : `${rig.name}, ${name}`, rig, load: carried[readAt].value, at: readAt },
    });
  }
  return [...best.values()].sort((a, b) => b.bow - a.bow).map(({ setup }) => setup);
}
