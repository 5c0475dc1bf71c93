/**
 * The model of a rode in its setting. All values are SI and radians.
 *
 * Axes: x runs horizontally from the anchor toward the boat, z upward; the anchor is the origin.
 * Parts stand in order from the anchor to the bow. Angles are above the horizontal.
 */
import type { LineLoop, StretchLaw } from "../gear/index.ts";

export type { StretchLaw };

/** Chain, rope, wire or any line of a rode. */
export interface LinePart {
  readonly kind: "line";
  /** What it is, for people: "chain 10 mm grade 30". */
  readonly name: string;
  /** Unloaded length, m. */
  readonly length: number;
  /** Mass per unloaded length, kg/m. */
  readonly massPerLength: number;
  /** kg/m³; the displaced volume is mass / density and does not change with stretch. */
  readonly density: number;
  readonly stretch: StretchLaw;
  /** What its stretch loses over a cycle; statics asks for the stretch alone. */
  readonly loop?: LineLoop;
  /** Nominal diameter, m (bar diameter for chain); absent: the circle of the displaced volume. */
  readonly diameter?: number;
  /** Drag coefficients across and along the line on `diameter`; absent: by material of the line. */
  readonly drag?: { readonly across: number; readonly along: number };
  /** Working load limit, N, where the gear row states one. */
  readonly workingLoad?: number;
  /** Minimum breaking load, N, where the gear row states one. */
  readonly breakingLoad?: number;
  /** What sort of line, for drawing and drag. */
  readonly material?: "chain" | "rope" | "wire" | "line";
}

/** A shackle, swivel or kellet; less dense than the water: a float. */
export interface PointPart {
  readonly kind: "point";
  readonly name: string;
  /** kg */
  readonly mass: number;
  /** kg/m³ */
  readonly density: number;
  readonly workingLoad?: number;
  readonly breakingLoad?: number;
}

/** A part of a rode, told apart by its kind. */
export type Part = LinePart | PointPart;

/** A rig on land: the whole rode hangs in air. */
export interface AirSetting {
  readonly medium: "air";
  /** Height of the upper end above the anchor end, m. */
  readonly rise: number;
  /** Slope of the ground under the rig, rad; positive: the ground rises from the anchor end toward the other. */
  readonly bottomSlope: number;
  /** Coulomb friction of resting rode, 1. */
  readonly bottomFriction: number;
}

/** A rode afloat: depth, roller, water, bottom, current. */
export interface WaterSetting {
  readonly medium: "water";
  /** Surface above the anchor, m. */
  readonly depth: number;
  /** Bow roller above the surface, m. */
  readonly rollerHeight: number;
  /** kg/m³ */
  readonly waterDensity: number;
  readonly bottomSlope: number;
  readonly bottomFriction: number;
  /** Speed of the water, m/s, toward the boat positive. */
  readonly current: number;
}

/** What surrounds a rode, told apart by its medium. */
export type Setting = AirSetting | WaterSetting;

/** Standard uncertainties a rig may state. */
export interface RigUncertainty {
  /** Of every line alike, as a share of itself. */
  readonly massPerLength?: number;
  readonly length?: number;
  /** Of every rope's stretch under a load, as a share of itself. */
  readonly stretch?: number;
  /** Of the upper end above the anchor, m; afloat the depth moves with it. */
  readonly rise?: number;
  /** m */
  readonly depth?: number;
  /** 1 */
  readonly friction?: number;
  /** rad */
  readonly bottomSlope?: number;
  /** kg/m³ */
  readonly waterDensity?: number;
  /** m/s */
  readonly current?: number;
}

/** A rode in its setting, with what is not known of it. */
export interface Rig {
  readonly name: string;
  readonly setting: Setting;
  readonly rode: readonly Part[];
  readonly uncertainty: RigUncertainty;
}

/** One end at which a load is stated: at the anchor, at the bow, or the horizontal force at the bow; or the span instead. */
export type Pull =
  | { readonly at: "anchor" | "bow" | "horizontal"; readonly newtons: number }
  | { readonly at: "span"; readonly metres: number };

/** An equilibrium, SI and radians. */
export interface Settled {
  readonly kind: "settled";
  readonly anchor: {
    /** N */
    readonly tension: number;
    /** above the horizontal, rad */
    readonly angle: number;
    /** above the seabed, rad */
    readonly angleToBottom: number;
  };
  readonly bow: { readonly tension: number; readonly angle: number };
  /** Horizontal force at the bow, N. */
  readonly horizontal: number;
  /** Horizontal distance from anchor to bow, m. */
  readonly span: number;
  /** Unstretched length at rest on the bottom, and the rest of the rode, m. */
  readonly grounded: number;
  readonly lifted: number;
  /** Stretched minus unstretched length, m. */
  readonly stretch: number;
  /** Largest distance of the rode below the straight line between its ends, square to it, m. */
  readonly sag: number;
  /** Rode length over height of the upper end above the anchor. */
  readonly scope: number;
  /** Work stored against weight and in stretch, J. */
  readonly energy: { readonly lift: number; readonly stretch: number };
}

/** Why no equilibrium exists, with the numbers that tell it. */
export type NoCause =
  /** given: length of the rode, m; limit: rise, m */
  | "shorterThanRise"
  /** a rode no longer than its rise; given: pull there, N; limit: the pull that stretches it to the rise, N */
  | "shortUntilStretched"
  /** given: pull at the bow, N; limit: weight that hangs from the bow, N */
  | "lighterThanHanging"
  /** given: span, m; limit: the farthest the rode reaches, m */
  | "beyondReach"
  /** given: span, m, 0 where unknown; limit: span at which the bottom meets the roller or the surface, m */
  | "aground"
  /** given: pull at the anchor, N; limit: what the rode at rest or in the current pulls there by itself, N */
  | "lighterThanResting"
  /** given: span, m; limit: the span of the slack rode, m */
  | "tooNear"
  /** the rode touches the bottom or the surface in a way that is not modelled */
  | "unknownState"
  /** given: angle, rad; limit: nearest angle that can be had, rad */
  | "angleOutOfReach"
  /** the same, the angles above the bottom */
  | "angleToBottomOutOfReach"
  /** given and limit unused: the question has no root between the bounds looked at */
  | "noSuchValue";

/** No equilibrium exists: why, and what the nearest change that would give one turns on. */
export interface NoEquilibrium {
  readonly kind: "noEquilibrium";
  readonly cause: NoCause;
  readonly given: number;
  readonly limit: number;
}

/** An equilibrium, or why there is none. */
export type Answer = Settled | NoEquilibrium;

/** Standard acceleration of gravity, m/s² (exact by definition, CGPM 1901). */
export const GRAVITY = 9.80665;

/** Whether nothing but weight bends a rode: in air, or in water that stands. */
export function inStillWater(setting: Setting): boolean {
  return setting.medium === "air" || setting.current === 0;
}

/** Height of the upper end above the anchor, m. */
export function riseOf(setting: Setting): number {
  return setting.medium === "air" ? setting.rise : setting.depth + setting.rollerHeight;
}
