/** What rodes side by side are held against, and compared by. */
import type { UnitSystem } from "../quantity/index.ts";
import type { Criterion, NotWeighedCause, PlanLimits } from "../sizing/index.ts";
import { noEquilibriumLine } from "./no-equilibrium.ts";
import { cannotBeRigged } from "./snubber.ts";

/** The limit a rode is past. */
export const planLimitWords: Readonly<Record<keyof PlanLimits, string>> = {
  workingLoad: "working load",
  breakingLoad: "breaking load",
  strength: "strength in use",
  ropeShare: "strength of the snubber",
  anchorAngle: "angle at the anchor",
  peak: "peak at the bow",
  weight: "weight",
  volume: "room in the locker",
  span: "span",
  price: "price",
};

/** What candidates are compared by, in words. */
export const criterionWords: Readonly<Record<Criterion, string>> = {
  weight: "weight",
  volume: "room in the locker",
  anchorAngle: "angle at the anchor",
  workingLoad: "share of working load limit",
  breakingLoad: "share of breaking load",
  strength: "share of strength in use",
  peak: "peak at the bow",
  span: "span",
  price: "price",
  energy: "energy taken up",
  movement: "movement to the peak",
  grounded: "length on the bottom",
};

/** Why a rode cannot be weighed beside the others. */
export function notWeighedLine(why: NotWeighedCause, system: UnitSystem): string {
  switch (why.kind) {
    case "notSnubbed":
      return `its snubber cannot be rigged on it: ${cannotBeRigged[why.why]}`;
    case "noEquilibrium":
      return noEquilibriumLine(why, system);
    case "surgeNotTaken":
      return "the surge is more than the rode ever takes up";
  }
}
