/** Give per load along a ladder of loads, for a plot. */
import { type Rig, settle } from "../rode/index.ts";
import { givePerLoad, type LoadEnd } from "./catenary-end.ts";

/** Give per load, m/N, of raised weight and of stretch, one a load; NaN where there is no equilibrium. */
export interface GiveOverLoads {
  readonly weight: Float64Array;
  readonly stretch: Float64Array;
}

/** @param loads N, read at `at`; none at or below zero has a give */
export function giveOverLoads(rig: Rig, at: LoadEnd, loads: readonly number[]): GiveOverLoads {
  const weight = new Float64Array(loads.length).fill(Number.NaN);
  const stretch = new Float64Array(loads.length).fill(Number.NaN);
  loads.forEach((load, i) => {
    const settled = load > 0 ? settle(rig, { at, newtons: load }) : null;
    const seen = settled?.kind === "settled" ? givePerLoad(rig, settled.horizontal, at) : null;
    if (seen === null) return;
    weight[i] = Math.max(0, seen.weight);
    stretch[i] = Math.max(0, seen.stretch);
  });
  return { weight, stretch };
}
