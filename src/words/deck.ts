/** What is told while a pull is under way. */
import { formatQuantity, type UnitSystem } from "../quantity/index.ts";
import type { Drift, HoldRule, HoldSoFar } from "../study/index.ts";
import { durationText } from "./counts.ts";

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

/** Why the anchor's way is not told while a load is held. */
const wayUntold = {
  positions: "no positions are followed",
  direction: "it is not stated which way she is pulled",
  time: "positions are too few yet",
} as const;

/**
 * A hold against the hold rule: how long yet, how far the anchor went meanwhile, what ends it or what ended the last one.
 * @param held s, while one lasts
 * @param untold why the anchor's way is not told, where it is not
 */
export function holdLine(
  { least: leastHeld, ended, way, still }: HoldSoFar,
  held: number | null,
  { heldFor, heldWithin }: HoldRule,
  untold: keyof typeof wayUntold,
  system: UnitSystem,
): string {
  const force = (newtons: number) => formatQuantity(newtons, "force", { system, digits: 3 });
  const within = formatQuantity(heldWithin, "length", { system, digits: 2 });
  const went = (one: NonNullable<typeof way>) => formatQuantity(one.value, "length", { system, u: one.u });
  if (held !== null) {
    const left = heldFor - held;
    const kept =
      left > 0
        ? `Counts as held in ${durationText(Math.ceil(left))}, the anchor moving by less than ${within}`
        : `Kept for the ${durationText(heldFor)} of the hold rule, the anchor to move by less than ${within}`;
    if (way === null) return `${kept}: whether it does is not told, ${wayUntold[untold]}.`;
    return `${kept}: it went ${went(way)}${still ? "" : ", too unsure to tell"}.`;
  }
  const least = force(leastHeld);
  if (ended === null)
    return `A hold begins at ${least} at the bow. It ends where the load falls below that, the anchor gives way or moves by ${within}.`;
  const after = `The hold ended after ${durationText(Math.floor(ended.seconds))}: `;
  switch (ended.why.kind) {
    case "fell":
      return `${after}the load fell to ${force(ended.why.newtons)}, below ${least}.`;
    case "gaveWay":
      return `${after}the anchor gave way.`;
    case "moved":
      return `${after}the anchor moved, by touch.`;
    case "went":
      return `${after}the anchor went ${went(ended.why.way)}, more than ${within}.`;
  }
}
