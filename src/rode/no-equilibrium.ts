import { formatQuantity, type UnitSystem } from "../quantity/index.ts";
import type { NoCause, NoEquilibrium } from "./model.ts";

/** Builds the answer that none exists; its sentences are in metric units. */
export function noEquilibrium(cause: NoCause, given: number, limit: number): NoEquilibrium {
  return { kind: "noEquilibrium", cause, given, limit, ...sayWhy(cause, given, limit, "metric") };
}

/** Words a cause in either unit system: why there is no equilibrium, and the nearest change that would give one. */
export function sayWhy(
  cause: NoCause,
  given: number,
  limit: number,
  system: UnitSystem,
): { why: string; nearest: string } {
  const metres = (value: number) => formatQuantity(value, "length", { system, digits: 4 });
  const newtons = (value: number) => formatQuantity(value, "force", { system, digits: 4 });
  const degrees = (value: number) => formatQuantity(value, "angle", { system, digits: 4 });
  switch (cause) {
    case "shorterThanRise":
      return {
        why: `the rode, ${metres(given)} long, is not longer than the rise of ${metres(limit)}`,
        nearest: `a rode of more than ${metres(limit)} would reach`,
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
        why: `the bottom rises to the boat within the rode's reach, ${metres(limit)} from the anchor`,
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
    case "noSuchValue":
      return {
        why: "no value within reach answers the question",
        nearest: "another pull or another unknown may have an answer",
      };
  }
}
