/** In the worker: the give of a rode over the loads of a ladder of winds, and the load past which catenary gives too little. */
import type { Rig } from "../../../rode/index.ts";
import {
  type CatenaryEndQuestion,
  catenaryEnd,
  catenaryEndCertainty,
  type GiveOverLoads,
  giveOverLoads,
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

/** One a wind. */
export interface ComplianceOverWind extends CatenaryEndFound, GiveOverLoads {}

export function complianceOverWind({ rig, road, loads, give }: ComplianceAsked): ComplianceOverWind {
  const at = pullAlong(road, 1).at;
  const { weight, stretch } = giveOverLoads(rig, at, loads);
  const question: CatenaryEndQuestion = { ask: "perLoad", give, at };
  const fade = catenaryEnd(rig, question);
  if (fade.kind !== "fades") return { weight, stretch, fade, load: null, u: 0 };
  const load = readAt(fade.settled, at);
  return { weight, stretch, fade, load, u: catenaryEndCertainty(rig, question, load)?.u ?? 0 };
}
