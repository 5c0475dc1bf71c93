/** Whether an angle at a load can be had with a rode at a depth, by this boat; and if not, everything that stands against it. */
import { type Rig, settle, settleTraced, strengthOf } from "../rode/index.ts";
import { lengthAboard, lengthFor, rodeOut } from "./rode-out.ts";
import type { AboardRode, Series, SeriesSite } from "./series.ts";
import { mostThrust } from "./thrust.ts";

/** What stands against a pull. */
export type Against =
  /** The engine pulls less than the horizontal load at the bow, N. */
  | { readonly kind: "engineTooSmall"; readonly needed: number; readonly most: number }
  /** m; null where no length of that line would do. */
  | { readonly kind: "rodeTooShort"; readonly needed: number | null; readonly aboard: number }
  /** m from the anchor to the boat's far end. */
  | { readonly kind: "noRoom"; readonly needed: number; readonly room: number }
  /** N in a part, and what it may carry. */
  | { readonly kind: "pastWorkingLoad"; readonly part: string; readonly load: number; readonly limit: number }
  /** The angle is steeper than this rode gives at any length. */
  | { readonly kind: "tooSteep" }
  /** The boat would take the ground: water there is, and water she needs, m. */
  | { readonly kind: "tooShallow"; readonly depth: number; readonly needed: number };

/** How an angle at a load is had. */
export interface Had {
  readonly kind: "had";
  readonly rode: string;
  /** Water at the anchor, m. */
  readonly depth: number;
  /** Rode out, m, and that over the height of the roller. */
  readonly length: number;
  readonly scope: number;
  /** m */
  readonly span: number;
  /** At the bow, N; the horizontal part is what the engine pulls. */
  readonly bow: number;
  readonly horizontal: number;
  /** rad above the horizontal */
  readonly bowAngle: number;
  readonly angleToBottom: number;
  /** How the angle moves with the depth, nothing else being changed, rad/m. */
  readonly angleByDepth: number;
  /** The part nearest its working load limit; null where no limit is known. */
  readonly weakest: { readonly part: string; readonly load: number; readonly limit: number } | null;
  readonly rig: Rig;
}

/** An angle at a load, had or not. */
export type CanBeHad = Had | { readonly kind: "notHad"; readonly against: readonly Against[] };

/** By how much the depth is moved to see what the angle does, m. */
const STEP = 0.05;

/** @param angle rad above the bottom @param load N at the anchor @param depth m of water at the anchor */
export function canBeHad(
  series: Series,
  rode: AboardRode,
  site: SeriesSite,
  depth: number,
  angle: number,
  load: number,
): CanBeHad {
  const { boat } = series;
  const against: Against[] = [];
  const needed = boat.draught + series.underKeel;
  if (depth < needed) return { kind: "notHad", against: [{ kind: "tooShallow", depth, needed }] };
  const found = lengthFor(rode, boat, site, depth, angle, load);
  if (found.kind === "none") return { kind: "notHad", against: [{ kind: "tooSteep" }] };
  if (found.kind === "tooShort") {
    against.push({ kind: "rodeTooShort", needed: found.needed, aboard: lengthAboard(rode) });
    // What the engine cannot pull at all, no rode mends: with the flattest pull the bow carries at least the load's level part.
    const level = load * Math.cos(angle + site.bottomSlope);
    if (level > mostThrust(boat)) against.push({ kind: "engineTooSmall", needed: level, most: mostThrust(boat) });
    return { kind: "notHad", against };
  }
  const { length, rig, settled } = found;
  if (settled.horizontal > mostThrust(boat))
    against.push({ kind: "engineTooSmall", needed: settled.horizontal, most: mostThrust(boat) });
  const traced = settleTraced(rig, { at: "anchor", newtons: load });
  const strengths = "settled" in traced ? strengthOf(rig, traced) : [];
  for (const { name, load: carried, workingLoad } of strengths)
    if (workingLoad !== null && carried > workingLoad * series.workingLoadShare)
      against.push({
        kind: "pastWorkingLoad",
        part: name,
        load: carried,
        limit: workingLoad * series.workingLoadShare,
      });
  const reach = settled.span + boat.length;
  if (site.room !== undefined && reach > site.room) against.push({ kind: "noRoom", needed: reach, room: site.room });
  if (against.length > 0) return { kind: "notHad", against };
  const angleAt = (water: number): number => {
    const moved = settle(rodeOut(rode, boat, site, water, length), { at: "anchor", newtons: load });
    return moved.kind === "settled" ? moved.anchor.angleToBottom : settled.anchor.angleToBottom;
  };
  let weakest: Had["weakest"] = null;
  for (const { name, load: carried, workingLoad } of strengths)
    if (workingLoad !== null && (weakest === null || carried / workingLoad > weakest.load / weakest.limit))
      weakest = { part: name, load: carried, limit: workingLoad };
  return {
    kind: "had",
    rode: rode.name,
    depth,
    length,
    scope: length / (depth + boat.rollerHeight),
    span: settled.span,
    bow: settled.bow.tension,
    horizontal: settled.horizontal,
    bowAngle: settled.bow.angle,
    angleToBottom: settled.anchor.angleToBottom,
    angleByDepth: (angleAt(depth + STEP) - angleAt(depth - STEP)) / (2 * STEP),
    weakest,
    rig,
  };
}
