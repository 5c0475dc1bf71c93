import type { Near } from "./contact/close-legs.ts";
import { find } from "./find.ts";
import type { NoEquilibrium, Pull, Rig, Settled } from "./model.ts";
import { riseOf } from "./model.ts";
import { settleTraced } from "./settle.ts";
import { lengthOf, longestLine, type Unknown } from "./unknown.ts";

/** The length at which another rode pulls its anchor at the same angle. */
export interface Matched {
  readonly kind: "matched";
  /** Angle of the pull at both anchors above their bottoms, rad: what an anchor feels. */
  readonly angleToBottom: number;
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
  /** How both lie, where others much like them are to be matched from there. */
  readonly lies: { readonly rig: Near | undefined; readonly other: Near | undefined };
}

/**
 * What one setup stands for in another's water: the length of one part of `other`, and the scope that means, at which its
 * anchor is pulled at the angle to its bottom at which `rig`'s is, under the same load.
 *
 * @param part the part of `other` whose length is found; by default its longest line, which is what one pays out
 * @throws never for checked rigs
 */
export function match(rig: Rig, other: Rig, pull: Pull, part = longestLine(other)): Matched | NoEquilibrium {
  return matchFrom(rig, other, pull, part, null);
}

/** As `match`, of two rigs much like those of an answer: its length is where the search begins. */
export function matchNear(
  rig: Rig,
  other: Rig,
  pull: Pull,
  matched: Matched,
  tolerance?: number,
): Matched | NoEquilibrium {
  return matchFrom(rig, other, pull, matched.part, matched, tolerance);
}

function matchFrom(
  rig: Rig,
  other: Rig,
  pull: Pull,
  part: number,
  near: Matched | null,
  tolerance?: number,
): Matched | NoEquilibrium {
  const traced = settleTraced(rig, pull, near?.lies.rig);
  if (!("settled" in traced)) return traced;
  const atLiftoff = traced.excess <= 0;
  const unknown: Unknown = { what: "length", part };
  const goal = atLiftoff
    ? ({ goal: "liftoff" } as const)
    : ({ goal: "angleToBottom", angle: traced.settled.anchor.angleToBottom } as const);
  const found = find(other, {
    unknown,
    goal,
    pull,
    ...(tolerance === undefined ? {} : { tolerance }),
    ...(near === null ? {} : { near: near.partLength, ...(near.lies.other && { from: near.lies.other }) }),
  });
  if (found.kind === "noEquilibrium") return found;
  const length = found.rig.rode.reduce((sum, each) => sum + lengthOf(each), 0);
  return {
    kind: "matched",
    angleToBottom: traced.settled.anchor.angleToBottom,
    length,
    scope: length / riseOf(other.setting),
    part,
    partLength: found.value,
    atLiftoff,
    rig: traced.settled,
    other: found.settled,
    otherRig: found.rig,
    lies: { rig: traced.near, other: found.lies },
  };
}
