/**
 * How hard a rode is loaded by one measure for all it is made of: load over strength as it is used. Working load limits are
 * not that: of chain they are a third or a quarter of what breaks it, of rope often a twelfth. Strength in use is the minimum
 * breaking load, of rope wet and with what its ends leave of it, whether it is the rode or a snubber.
 */
import { catalogue } from "../gear/index.ts";
import type { LinePart, Part, Rig } from "../rode/index.ts";
import { facts } from "./facts.gen.ts";
import type { RopeEnds } from "./limits.ts";

/** The part that is loaded hardest, and by what share of its strength in use. */
export interface InUse {
  /** Counted from the anchor, 1 first. */
  readonly part: number;
  readonly share: number;
}

/** @param snubber its line's place in the rig, and its share, which is that of its harder pulled leg */
export function hardestInUse(
  rig: Rig,
  loads: Float64Array,
  ends: RopeEnds,
  snubber: { readonly line: number; readonly share: number } | null,
): InUse | null {
  let hardest: InUse | null = null;
  rig.rode.forEach((part, i) => {
    const strength = strengthOf(part, ends);
    const share = snubber?.line === i ? snubber.share : strength === undefined ? undefined : loads[i]! / strength;
    if (share !== undefined && share > (hardest?.share ?? 0)) hardest = { part: i + 1, share };
  });
  return hardest;
}

function strengthOf(part: Part, ends: RopeEnds): number | undefined {
  if (part.breakingLoad === undefined || part.kind !== "line" || part.material !== "rope") return part.breakingLoad;
  return part.breakingLoad * wetShare(part) * facts.rope.ends[ends].value;
}

/** What water leaves of a rope's strength, by the catalogue's rows of the fibre it is named for; all of it where none is. */
function wetShare({ name }: LinePart): number {
  for (const row of catalogue.rows)
    if (row.kind === "rope" && name.includes(row.fibre) && row.breakingLoad !== undefined)
      return (row.wetBreakingLoad ?? row.breakingLoad) / row.breakingLoad;
  return 1;
}
