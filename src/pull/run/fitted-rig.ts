import type { Rig } from "../../rode/index.ts";
import type { Reduction } from "./reduce.ts";

/**
 * The rig with the mass per length and rise that its readings gave, and their ± as the rig's own: what was fitted is then
 * what a later run knows beforehand. What was not fitted stays as it was stated.
 */
export function fittedRig({ rig, fitted: { massPerLength, rise } }: Reduction): Rig {
  return {
    ...rig,
    uncertainty: {
      ...rig.uncertainty,
      ...(massPerLength === null ? {} : { massPerLength: massPerLength.u / massPerLength.value }),
      ...(rise === null ? {} : { rise: rise.u }),
    },
  };
}
