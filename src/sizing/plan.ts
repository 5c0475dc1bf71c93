/** A plan: the load a rode is chosen for, where it lies, what must not be passed, and the rodes to choose among. SI. */
import type { Rig } from "../rode/index.ts";
import type { Boat, Conditions, Measured } from "../sea/index.ts";
import type { LoadEnd } from "./catenary-end.ts";
import type { RopeEnds } from "./limits.ts";
import type { Surge } from "./snatch.ts";
import type { Snubber } from "./snubber.ts";

/** Format of a plan file. */
export const PLAN_FORMAT = "rodebench/plan@1";

/** The load of the plan: stated, or a wind on a boat. */
export type PlanLoad =
  | { readonly kind: "stated"; readonly at: LoadEnd; readonly mean: Measured; readonly peak?: Measured }
  | {
      readonly kind: "wind";
      readonly boat: Boat;
      /** m/s at 10 m */
      readonly wind: Measured;
      readonly by: "measured" | "windage";
      readonly conditions: Conditions;
    };

/** One rode of a plan, with what it costs. */
export interface Candidate {
  readonly name: string;
  readonly rig: Rig;
  readonly price?: number;
  readonly snubber?: Snubber;
  readonly ends: RopeEnds;
}

/** Limits a candidate is held against; one left out is not looked at. */
export interface PlanLimits {
  /** Share of working load limits, and of minimum breaking loads, at the peak. */
  readonly workingLoad?: number;
  readonly breakingLoad?: number;
  /** Share of strength in use, one measure for chain, rope and snubber, at the peak. */
  readonly strength?: number;
  /** Share of a snubber's strength in use, at the peak. */
  readonly ropeShare?: number;
  /** Angle of the pull at the anchor above the bottom, at the peak, rad. */
  readonly anchorAngle?: number;
  /** At the bow at the peak, N. */
  readonly peak?: number;
  /** kg, m³, m */
  readonly weight?: number;
  readonly volume?: number;
  readonly span?: number;
  readonly price?: number;
}

/** What candidates are compared by; less is better, but for those of MORE_IS_BETTER. */
export const CRITERIA = [
  "weight",
  "volume",
  "anchorAngle",
  "workingLoad",
  "breakingLoad",
  "strength",
  "peak",
  "span",
  "price",
  "energy",
  "movement",
  "grounded",
] as const;
/** What candidates are compared by. */
export type Criterion = (typeof CRITERIA)[number];
export const MORE_IS_BETTER: readonly Criterion[] = ["energy", "movement", "grounded"];

/** Rodes to be set side by side, the load and the limits. */
export interface Plan {
  readonly name: string;
  readonly load: PlanLoad;
  readonly surge?: Surge;
  /** Standard uncertainty of its speed, m/s, or distance, m; 0: not stated. */
  readonly surgeU?: number;
  readonly limits: PlanLimits;
  readonly criteria?: readonly Criterion[];
  /** Winds of the table, m/s; or loads, N, where no boat is given. */
  readonly winds: readonly number[];
  readonly loads: readonly number[];
  readonly candidates: readonly Candidate[];
  readonly currency?: string;
}
