/** The steady load of wind and current by windage, with its uncertainty: what both directions, load and wind, are asked of. */
import type { UncertainInput } from "../statistics/index.ts";
import type { Boat, Veering } from "./boat.ts";
import { currentForce, DEEP_SEA_WATER, type WaterSetting } from "./current-force.ts";
import { type Measured, type Shared, shared } from "./estimate.ts";
import { type Gust, type GustModel, gust } from "./gust.ts";
import type { WaveSpectrum } from "./wave-spectrum.ts";
import { USUAL_AIR, type WindSetting, windForce } from "./wind-force.ts";
import { REFERENCE_HEIGHT } from "./wind-profile.ts";

/** Relative standard uncertainties where no file states them: assumed, no source, and said so in the answer. */
export const ASSUMED = { area: 0.05, drag: 0.2, current: 0.3, airDensity: 0.02, engineThrust: 0.15 } as const;

/** What surrounds the boat, but for the mean wind's speed. */
export interface Conditions {
  readonly air: WindSetting;
  /** Angle of the wind off the bow, rad. */
  readonly yaw: number;
  /** Mean over `averaging` s to a gust of `duration` s. */
  readonly gust?: { readonly model: GustModel; readonly averaging: number; readonly duration: number };
  /** m/s, and the angle off the bow it comes from, rad. */
  readonly current?: { readonly speed: Measured; readonly angle: number };
  readonly water: WaterSetting;
  readonly veering?: Veering;
  readonly sea?: WaveSpectrum;
}

/** No current, no sea, no gust, no swing. */
export const CALM_SURROUNDINGS: Conditions = { air: USUAL_AIR, yaw: 0, water: DEEP_SEA_WATER };

/** Horizontal load of a steady wind and current by windage, N, with the share of each input in its variance (JCGM 100). */
export function steadyLoad(boat: Boat, wind: Measured, conditions: Conditions): Shared {
  const load = loadModel(boat, conditions);
  return shared([{ name: "wind", ...wind }, ...otherInputs(boat, conditions)], (inputs) => load(inputs));
}

/**
 * Load from wind, area, drag, air density, current speed and current drag, in this order; speeds in m/s, the others as
 * logarithms of a factor: what is known to 20 % may as well be 1.2 times as large as 1.2 times as small.
 */
export function loadModel(boat: Boat, conditions: Conditions): (inputs: ArrayLike<number>) => number {
  // At 1 m/s: every profile here keeps its shape, so the force goes with the square of the speed.
  const unit = windForce(boat, 1, conditions.yaw, conditions.air);
  const { current, water } = conditions;
  return (inputs) => {
    const press = inputs[0]! ** 2 * Math.exp(inputs[1]! + inputs[2]! + inputs[3]!);
    const flow = current === undefined ? NO_FLOW : currentForce(boat, inputs[4]!, current.angle, water);
    const hold = Math.exp(inputs[5]!);
    return Math.hypot(press * unit.along + hold * flow.along, press * unit.across + hold * flow.across);
  };
}

export const NO_FLOW = { along: 0, across: 0 };

/** All areas are taken as wrong together, and all drag coefficients: the cautious side of not knowing better. */
export function otherInputs(boat: Boat, { current }: Conditions): readonly UncertainInput[] {
  const { area = ASSUMED.area, drag = ASSUMED.drag, current: flowDrag = ASSUMED.current } = boat.uncertainty;
  return [
    { name: "area", value: 0, u: area },
    { name: "drag coefficient", value: 0, u: drag },
    { name: "air density", value: 0, u: ASSUMED.airDensity },
    { name: "current speed", value: current?.speed.value ?? 0, u: current?.speed.u ?? 0 },
    { name: "current drag", value: 0, u: current === undefined ? 0 : flowDrag },
  ];
}

/** The gust asked of a mean wind at 10 m, m/s. */
export function gustOf(asked: NonNullable<Conditions["gust"]>, wind: number): Gust {
  const { model, averaging, duration } = asked;
  return gust(model, { wind, height: REFERENCE_HEIGHT, averaging, duration });
}
