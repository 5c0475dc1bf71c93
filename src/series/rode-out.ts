/** How much of a rode aboard is out, and what it does then. The rode comes aboard from its end. */
import { find, lengthOf, type Part, type Pull, type Rig, type Settled, settle } from "../rode/index.ts";
import type { AboardRode, PullingBoat, SeriesSite } from "./series.ts";

/** A rode at a site with so many metres of it out. @param length between 0 and all of it, m */
export function rodeOut(rode: AboardRode, boat: PullingBoat, site: SeriesSite, depth: number, length: number): Rig {
  const out: Part[] = [];
  let left = length;
  for (const part of rode.parts) {
    if (!(left > 0)) break;
    out.push(part.kind === "line" && part.length > left ? { ...part, length: left } : part);
    left -= lengthOf(part);
  }
  return {
    name: rode.name,
    setting: {
      medium: "water",
      depth,
      rollerHeight: boat.rollerHeight,
      waterDensity: site.waterDensity,
      bottomSlope: site.bottomSlope,
      bottomFriction: site.bottomFriction,
      current: 0,
    },
    rode: out,
    uncertainty: {},
  };
}

/** All of a rode, m. */
export function lengthAboard({ parts }: AboardRode): number {
  return parts.reduce((sum, part) => sum + lengthOf(part), 0);
}

/** How much must be out for an angle, or why there is no such length. */
export type LengthFor =
  | { readonly kind: "length"; readonly length: number; readonly rig: Rig; readonly settled: Settled }
  /** Longer than what is aboard; what would be enough, were its last line longer, m. */
  | { readonly kind: "tooShort"; readonly needed: number | null }
  /** The angle is steeper than any length gives. */
  | { readonly kind: "none" };

/**
 * The length at which a rode pulls its anchor at an angle above the bottom under a load at the anchor: less out pulls it
 * steeper, so the line in which that length ends is the first whose whole length is enough.
 *
 * @param angle rad above the bottom; 0 is lift-off
 */
export function lengthFor(
  rode: AboardRode,
  boat: PullingBoat,
  site: SeriesSite,
  depth: number,
  angle: number,
  load: number,
): LengthFor {
  const pull: Pull = { at: "anchor", newtons: load };
  let before = 0;
  let last: Rig | null = null;
  let lastPart = 0;
  for (const [i, part] of rode.parts.entries()) {
    if (part.kind === "point") continue;
    const through = before + part.length;
    const rig = rodeOut(rode, boat, site, depth, through);
    last = rig;
    lastPart = i + 1;
    const settled = settle(rig, pull);
    if (settled.kind === "settled" && settled.anchor.angleToBottom <= angle + 1e-12) {
      const found = find(rig, { unknown: { what: "length", part: i + 1 }, goal: goalOf(angle), pull });
      if (found.kind !== "found" || found.value > part.length * (1 + 1e-9)) return { kind: "none" };
      return { kind: "length", length: before + found.value, rig: found.rig, settled: found.settled };
    }
    before = through;
  }
  if (last === null) return { kind: "none" };
  const more = find(last, { unknown: { what: "length", part: lastPart }, goal: goalOf(angle), pull });
  const was = rode.parts[lastPart - 1]!;
  return { kind: "tooShort", needed: more.kind === "found" ? before - lengthOf(was) + more.value : null };
}

function goalOf(angle: number) {
  return angle <= 0 ? ({ goal: "liftoff" } as const) : ({ goal: "angleToBottom", angle } as const);
}
