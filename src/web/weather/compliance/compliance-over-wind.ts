/** In the worker: the give of a rode over the loads of a ladder of winds, and the load past which catenary gives too little. */
import { type Rig, settle } from "../../../rode/index.ts";
import {
  type CatenaryEndQuestion,
  catenaryEnd,
  catenaryEndCertainty,
  givePerLoad,
  readAt,
} from "../../../sizing/index.ts";
import { pullAlong } from "../loads.ts";
import type { Road } from "../state.ts";
import type { CatenaryEndFound } from "../wind/catenary-end.ts";

export interface ComplianceAsked {
  readonly rig: Rig;
  readonly road: Road;
  /** Loads along the road, N, one a wind. */
  readonly loads: readonly number[];
  /** m/N */
  readonly give: number;
}

export interface ComplianceOverWind extends CatenaryEndFound {
  /** Give per load, m/N, of raised weight and of stretch, one a wind; NaN where there is no equilibrium. */
  readonly weight: Float64Array;
  readonly stretch: Float64Array;
}

export function complianceOverWind({ rig, road, loads, give }: ComplianceAsked): ComplianceOverWind {
  const weight = new Float64Array(loads.length).fill(Number.NaN);
  const stretch = new Float64Array(loads.length).fill(Number.NaN);
  const at = pullAlong(road, 1).at;
  loads.forEach((load, i) => {
    const settled = load > 0 ? settle(rig, pullAlong(road, load)) : null;
    const seen = settled?.kind === "settled" ? givePerLoad(rig, settled.horizontal, at) : null;
    if (seen === null) return;
    weight[i] = Math.max(0, seen.weight);
    stretch[i] = Math.max(0, seen.stretch);
  });
  const question: CatenaryEndQuestion = { ask: "perLoad", give, at };
  const fade = catenaryEnd(rig, question);
  if (fade.kind !== "fades") return { weight, stretch, fade, load: null, u: 0 };
  const load = readAt(fade.settled, at);
  return { weight, stretch, fade, load, u: catenaryEndCertainty(rig, question, load)?.u ?? 0 };
}
