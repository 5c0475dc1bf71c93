import { formatQuantity, type UnitSystem } from "../quantity/index.ts";
import type { NoEquilibrium, Rig } from "../rode/index.ts";

/** Why there is no equilibrium, and the nearest change that would give one. */
export interface NoEquilibriumWords {
  readonly why: string;
  readonly nearest: string;
}

/** What the rode lies on: a bottom under water, the ground on land. */
export function groundWord(medium: Rig["setting"]["medium"]): "bottom" | "ground" {
  return medium === "air" ? "ground" : "bottom";
}

/** In one line. @param medium what the rode hangs in, which names what it lies on */
export function noEquilibriumLine(
  none: Pick<NoEquilibrium, "cause" | "given" | "limit">,
  system: UnitSystem,
  medium: Rig["setting"]["medium"] = "water",
): string {
  const { why, nearest } = noEquilibriumWords(none, system, medium);
  return `${why}; ${nearest}`;
}

/** Why there is no equilibrium, and the nearest change that would give one. */
export function noEquilibriumWords(
  { cause, given, limit }: Pick<NoEquilibrium, "cause" | "given" | "limit">,
  system: UnitSystem,
  medium: Rig["setting"]["medium"] = "water",
): NoEquilibriumWords {
  const ground = groundWord(medium);
  const metres = (value: number) => formatQuantity(value, "length", { system, digits: 4 });
  const newtons = (value: number) => formatQuantity(value, "force", { system, digits: 4 });
  const degrees = (value: number) => formatQuantity(value, "angle", { system, digits: 4 });
  switch (cause) {
    case "shorterThanRise":
      return {
        why: `the rode, ${metres(given)} long, is not longer than the rise of ${metres(limit)}`,
        nearest: `a rode of more than ${metres(limit)} would reach`,
      };
    case "shortUntilStretched":
      return {
        why: `the rode is not longer than the rise, and a pull of ${newtons(given)} does not stretch it so far`,
        nearest: `a longer rode would reach, or a pull of more than ${newtons(limit)}`,
      };
    case "lighterThanHanging":
      return {
        why: `a pull of ${newtons(given)} at the bow is less than the ${newtons(limit)} of rode that hangs from it`,
        nearest: `a pull of more than ${newtons(limit)} would hold it`,
      };
    case "beyondReach":
      return {
        why: `the rode does not reach a span of ${metres(given)}`,
        nearest: `a span of less than ${metres(limit)} would do, or a longer rode`,
      };
    case "aground":
      return {
        why: `the ${ground} rises to the boat within the rode's reach, ${metres(limit)} from the anchor`,
        nearest: `a shorter rode, ${given > 0 ? "a lighter pull " : ""}or a gentler slope would leave the boat afloat`,
      };
    case "lighterThanResting":
      return {
        why: `a pull of ${newtons(given)} there is less than the ${newtons(limit)} that the rode's own weight or the current makes`,
        nearest: `a pull of more than ${newtons(limit)} would settle`,
      };
    case "tooNear":
      return {
        why: `at a span of ${metres(given)} the rode is slack`,
        nearest: `it comes under load from a span of ${metres(limit)} on`,
      };
    case "unknownState":
      return {
        why: "the rode touches the bottom or the surface in a way that is not modelled",
        nearest: "a heavier pull, or floats and weights farther apart, would settle",
      };
    case "angleOutOfReach":
      return {
        why: `no value gives an angle of ${degrees(given)} at the anchor`,
        nearest: `the nearest angle that can be had is ${degrees(limit)}`,
      };
    case "angleToBottomOutOfReach":
      return {
        why: `no value gives an angle of ${degrees(given)} to the ${ground} at the anchor`,
        nearest: `the nearest angle to the ${ground} that can be had is ${degrees(limit)}`,
      };
    case "noSuchValue":
      return {
        why: "no value within reach answers the question",
        nearest: "another pull or another unknown may have an answer",
      };
  }
}
