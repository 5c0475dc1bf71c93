import { find } from "./find.ts";
import type { NoEquilibrium, Pull, Rig, Settled } from "./model.ts";
import { riseOf } from "./model.ts";
import { settleTraced } from "./settle.ts";
import { lengthOf, type Unknown } from "./unknown.ts";

export interface Matched {
  readonly kind: "matched";
  /** Angle of the pull at both anchors above the horizontal, rad. */
  readonly anchorAngle: number;
  /** Whole length of the other rode, m, and over its rise. */
  readonly length: number;
  readonly scope: number;
  /** The part whose length was the unknown (1 is next to the anchor), and that length, m. */
  readonly part: number;
  readonly partLength: number;
  /** True when the anchor of `rig` is not lifted: the shortest other rode that does not lift its anchor either. */
  readonly atLiftoff: boolean;
  readonly rig: Settled;
  readonly other: Settled;
  readonly otherRig: Rig;
}

/**
 * What one setup stands for in another's water: the length of one part of `other`, and the scope that means, at which its
 * anchor is pulled at the angle at which `rig`'s is, under the same load.
 *
 * @param part the part of `other` whose length is found; by default its longest line, which is what one pays out
 * @throws never for checked rigs
 */
export function match(rig: Rig, other: Rig, pull: Pull, part = longestLine(other)): Matched | NoEquilibrium {
  const traced = settleTraced(rig, pull);
  if (!("settled" in traced)) return traced;
  const atLiftoff = traced.lift <= 0;
  const unknown: Unknown = { what: "length", part };
  const goal = atLiftoff
    ? ({ goal: "liftoff" } as const)
    : ({ goal: "anchorAngle", angle: traced.settled.anchor.angle } as const);
  const found = find(other, { unknown, goal, pull });
  if (found.kind === "noEquilibrium") return found;
  const length = found.rig.rode.reduce((sum, each) => sum + lengthOf(each), 0);
  return {
    kind: "matched",
    anchorAngle: traced.settled.anchor.angle,
    length,
    scope: length / riseOf(other.setting),
    part,
    partLength: found.value,
    atLiftoff,
    rig: traced.settled,
    other: found.settled,
    otherRig: found.rig,
  };
}

/** The longest line of a rode, counted from the anchor, 1 first; of equals the one nearest the bow. */
export function longestLine(rig: Rig): number {
  let longest = 1;
  rig.rode.forEach((part, i) => {
    if (lengthOf(part) > 0 && lengthOf(part) >= lengthOf(rig.rode[longest - 1]!)) longest = i + 1;
  });
  return longest;
}
