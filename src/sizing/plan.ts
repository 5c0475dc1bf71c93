/** A plan: the load a rode is chosen for, where it lies, what must not be passed, and the rodes to choose among. SI. */
import type { Rig } from "../rode/index.ts";
import type { Boat, Conditions, Measured } from "../sea/index.ts";
import type { LoadEnd } from "./fade.ts";
import type { RopeEnds } from "./limits.ts";
import type { Surge } from "./snatch.ts";
import type { Snubber } from "./snubber.ts";

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
  "peak",
  "span",
  "price",
  "energy",
  "movement",
  "grounded",
] as const;
export type Criterion = (typeof CRITERIA)[number];
export const MORE_IS_BETTER: readonly Criterion[] = ["energy", "movement", "grounded"];

export interface Plan {
  readonly name: string;
  readonly load: PlanLoad;
  readonly surge?: Surge;
  readonly limits: PlanLimits;
  readonly criteria?: readonly Criterion[];
  /** Winds of the table, m/s; or loads, N, where no boat is given. */
  readonly winds: readonly number[];
  readonly loads: readonly number[];
  readonly candidates: readonly Candidate[];
  readonly currency?: string;
}
