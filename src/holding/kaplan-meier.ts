/**
 * The product-limit estimate (Kaplan & Meier 1958) of the chance to hold more than a load, from pulls that gave way at
 * a known load and pulls that were ended while the anchor held. An anchor that was let go at the same load at which
 * another gave way counts as still pulled there.
 *
 * Equals R's survfit (conf.type "log-log") to rounding (test/holding, test/published).
 */
import type { Hold } from "./pull.ts";
import { type Step, stepsOf } from "./survival-curve.ts";

/** Whether the pulls hold no load that is known only between two. */
export function allExactOrHeldOn(holds: readonly Hold[]): boolean {
  return holds.every(({ kind }) => kind === "gaveWay" || kind === "heldTo");
}

/** @param holds pulls that gave way at a load, or held to one: others belong to `turnbull`. */
export function kaplanMeier(holds: readonly Hold[], coverage = 0.95): Step[] {
  const gave: number[] = [];
  const held: number[] = [];
  for (const hold of holds) {
    if (hold.kind === "gaveWay") gave.push(hold.newtons);
    else if (hold.kind === "heldTo") held.push(hold.newtons);
    else throw new RangeError("a load between two is not for Kaplan–Meier");
  }
  const byLoad = Float64Array.from(gave).sort();
  const letGo = Float64Array.from(held).sort();
  const counts: { load: number; atRisk: number; gaveWay: number }[] = [];
  let ended = 0;
  for (let i = 0; i < byLoad.length; ) {
    const load = byLoad[i]!;
    let next = i;
    while (next < byLoad.length && byLoad[next] === load) next++;
    while (ended < letGo.length && letGo[ended]! < load) ended++;
    counts.push({ load, atRisk: holds.length - i - ended, gaveWay: next - i });
    i = next;
  }
  return stepsOf(counts, coverage);
}
