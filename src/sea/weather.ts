/**
 * Wind, current and sea on a boat at anchor as loads, and loads as the wind they are worth, each with its uncertainty.
 *
 * Two roads lead to a load and are kept apart: windage (areas, drag, profile) and the same boat's measured points.
 * Published tables stand beside both. None is blended with another.
 */
import { type BeaufortForce, beaufort } from "./beaufort.ts";
import type { Boat, LoadEnd, Veering } from "./boat.ts";
import { type Calibration, calibrate } from "./calibrate.ts";
import { type CurrentForce, currentForce, DEEP_SEA_WATER, type WaterSetting } from "./current-force.ts";
import { type DesignLoads, type DesignLoadTable, designLoadsFor } from "./design-loads.ts";
import { type Estimate, type Measured, type Shared, shared } from "./estimate.ts";
import { type Gust, type GustModel, gust } from "./gust.ts";
import { type Prediction, predictLoad, windWorth } from "./load-law.ts";
import { bowSurge, type Surge } from "./surge.ts";
import { type VeeredLoad, veeredLoad } from "./veer.ts";
import type { WaveSpectrum } from "./wave-spectrum.ts";
import { USUAL_AIR, type WindForce, type WindSetting, windForce } from "./wind-force.ts";
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

export const CALM_SURROUNDINGS: Conditions = { air: USUAL_AIR, yaw: 0, water: DEEP_SEA_WATER };

/** Loads by windage, N, horizontal at the bow; current included where there is one. */
export interface WindageLoads {
  readonly steady: Shared;
  readonly gust?: Shared;
  readonly force: WindForce;
  /** Of the gust where one is asked for, of the mean otherwise. */
  readonly veered?: VeeredLoad;
}

/** Loads by the measured points of one end, N. */
export interface MeasuredLoads {
  readonly at: LoadEnd;
  readonly calibration: Calibration;
  readonly mean: Prediction;
  readonly peak?: Prediction;
}

export interface Weather {
  /** m/s at 10 m. */
  readonly wind: Measured;
  readonly beaufort: BeaufortForce;
  readonly gust?: Gust;
  readonly windage?: WindageLoads;
  readonly measured: readonly MeasuredLoads[];
  readonly current?: CurrentForce;
  readonly surge?: Surge;
  readonly tables: readonly DesignLoads[];
}

/** The loads of a mean wind (m/s at 10 m) on a boat. */
export function weather(
  boat: Boat,
  wind: Measured,
  conditions: Conditions = CALM_SURROUNDINGS,
  tables: readonly DesignLoadTable[] = [],
): Weather {
  const gusting = conditions.gust === undefined ? undefined : gustOf(conditions.gust, wind.value);
  const measured = calibrate(boat, conditions.air.profile).map(
    (calibration): MeasuredLoads => ({
      at: calibration.at,
      calibration,
      mean: predictLoad(calibration.mean, wind),
      ...(calibration.peak === undefined ? {} : { peak: predictLoad(calibration.peak, wind) }),
    }),
  );
  const { current, sea, water } = conditions;
  return {
    wind,
    beaufort: beaufort(wind.value),
    ...(gusting === undefined ? {} : { gust: gusting }),
    ...(boat.windage === undefined ? {} : { windage: windageLoads(boat, wind, conditions, gusting?.factor) }),
    measured,
    ...(current === undefined ? {} : { current: currentForce(boat, current.speed.value, current.angle, water) }),
    ...(sea === undefined ? {} : { surge: bowSurge(boat, sea, water.depth) }),
    tables: designLoadsFor(boat, tables),
  };
}

function gustOf(asked: NonNullable<Conditions["gust"]>, wind: number): Gust {
  const { model, averaging, duration } = asked;
  return gust(model, { wind, height: REFERENCE_HEIGHT, averaging, duration });
}

function windageLoads(
  boat: Boat,
  wind: Measured,
  conditions: Conditions,
  gustFactor: number | undefined,
): WindageLoads {
  const { air, yaw, veering } = conditions;
  const strongest = wind.value * (gustFactor ?? 1);
  return {
    steady: steadyLoad(boat, wind, conditions),
    ...(gustFactor === undefined
      ? {}
      : { gust: steadyLoad(boat, { value: wind.value * gustFactor, u: wind.u * gustFactor }, conditions) }),
    force: windForce(boat, wind.value, yaw, air),
    ...(veering === undefined ? {} : { veered: veeredLoad(boat, strongest, yaw, veering, air) }),
  };
}

/** Horizontal load of a steady wind and current by windage, N, with the share of each input in its variance (JCGM 100). */
export function steadyLoad(boat: Boat, wind: Measured, conditions: Conditions): Shared {
  const unit = unitForces(boat, conditions);
  const { current } = conditions;
  const speed = current?.speed.value ?? 0;
  return shared(
    [
      { name: "wind", ...wind },
      ...windageInputs(boat),
      { name: "current speed", value: speed, u: current?.speed.u ?? 0 },
      { name: "current drag", value: 1, u: speed === 0 ? 0 : (boat.uncertainty.current ?? ASSUMED.current) },
    ],
    ([v, area, drag, density, flow, flowDrag]) => {
      const press = v! * v! * area! * drag! * density!;
      const water = current === undefined ? NO_FLOW : currentForce(boat, flow!, current.angle, conditions.water);
      return Math.hypot(press * unit.along + flowDrag! * water.along, press * unit.across + flowDrag! * water.across);
    },
  );
}

const NO_FLOW = { along: 0, across: 0 };

/** All areas are taken as wrong together, and all drag coefficients: the cautious side of not knowing better. */
function windageInputs(boat: Boat): readonly { name: string; value: number; u: number }[] {
  const { area = ASSUMED.area, drag = ASSUMED.drag } = boat.uncertainty;
  return [
    { name: "area", value: 1, u: area },
    { name: "drag coefficient", value: 1, u: drag },
    { name: "air density", value: 1, u: ASSUMED.airDensity },
  ];
}

/** Wind force at 1 m/s: every profile here keeps its shape, so force goes with the square of the speed. */
function unitForces(boat: Boat, conditions: Conditions): WindForce {
  return windForce(boat, 1, conditions.yaw, conditions.air);
}

/** The mean wind a load is worth. */
export type WindWorth =
  | { readonly kind: "wind"; readonly wind: Shared; readonly beaufort: BeaufortForce }
  /** The current alone pulls more than the load. */
  | { readonly kind: "currentAlone"; readonly load: number };

/**
 * Mean wind (m/s at 10 m) whose steady load by windage, together with the current, is `load`; with a gust asked for and
 * `felt` "gust", the mean wind whose gust is.
 * |F_w V² + F_c| = F is a square equation in V²: its larger root, where the wind adds to what the current leaves.
 */
export function windWorthByWindage(
  boat: Boat,
  load: Measured,
  conditions: Conditions,
  felt: "steady" | "gust" = "steady",
): WindWorth {
  const unit = unitForces(boat, conditions);
  const { current } = conditions;
  const drift =
    current === undefined ? NO_FLOW : currentForce(boat, current.speed.value, current.angle, conditions.water);
  const alone = Math.hypot(drift.along, drift.across);
  if (alone >= load.value) return { kind: "currentAlone", load: alone };
  const speedOf = (force: number, scale: number, flow: number, flowDrag: number): number => {
    const c = current === undefined ? NO_FLOW : currentForce(boat, flow, current.angle, conditions.water);
    const [x, y] = [unit.along * scale, unit.across * scale];
    const [cx, cy] = [c.along * flowDrag, c.across * flowDrag];
    const a = x * x + y * y;
    const b = x * cx + y * cy;
    const rest = force * force - cx * cx - cy * cy;
    // (√(b² + a·rest) − b)/a, written so that a current from ahead does not cancel.
    const root = Math.sqrt(b * b + a * rest);
    return Math.sqrt(b > 0 ? rest / (b + root) : (root - b) / a);
  };
  const strongest = shared(
    [
      { name: "load", ...load },
      ...windageInputs(boat),
      { name: "current speed", value: current?.speed.value ?? 0, u: current?.speed.u ?? 0 },
      { name: "current drag", value: 1, u: current === undefined ? 0 : (boat.uncertainty.current ?? ASSUMED.current) },
    ],
    ([force, area, drag, density, flow, flowDrag]) => speedOf(force!, area! * drag! * density!, flow!, flowDrag!),
  );
  const wind = felt === "gust" && conditions.gust !== undefined ? meanOfGust(strongest, conditions.gust) : strongest;
  return { kind: "wind", wind, beaufort: beaufort(wind.value) };
}

/** The mean wind whose gust is `strongest`: the gust grows with the mean, so bisection; the factor carries no u of its own. */
function meanOfGust(strongest: Shared, asked: NonNullable<Conditions["gust"]>): Shared {
  let low = 0;
  let high = strongest.value;
  for (let step = 0; step < 100 && high - low > 1e-12 * high; step++) {
    const middle = (low + high) / 2;
    if (gustOf(asked, middle).speed < strongest.value) low = middle;
    else high = middle;
  }
  const value = (low + high) / 2;
  const ratio = value / strongest.value;
  return { ...strongest, value, u: strongest.u * ratio, low: strongest.low * ratio, high: strongest.high * ratio };
}

/** What a load is worth in wind by each road. */
export interface LoadWorth {
  readonly load: Measured;
  readonly windage?: WindWorth;
  readonly windageInGust?: WindWorth;
  readonly measured: readonly {
    readonly at: LoadEnd;
    readonly calibration: Calibration;
    /** Mean wind whose mean load this is, and the one whose brief peaks reach it. */
    readonly mean: Estimate;
    readonly peak?: Estimate;
  }[];
}

/** The mean wind (m/s at 10 m) a load (N) is worth by each road the boat's file allows. */
export function worthInWind(boat: Boat, load: Measured, conditions: Conditions = CALM_SURROUNDINGS): LoadWorth {
  return {
    load,
    ...(boat.windage === undefined ? {} : { windage: windWorthByWindage(boat, load, conditions) }),
    ...(boat.windage === undefined || conditions.gust === undefined
      ? {}
      : { windageInGust: windWorthByWindage(boat, load, conditions, "gust") }),
    measured: calibrate(boat, conditions.air.profile).map((calibration) => ({
      at: calibration.at,
      calibration,
      mean: windWorth(calibration.mean, load),
      ...(calibration.peak === undefined ? {} : { peak: windWorth(calibration.peak, load) }),
    })),
  };
}

/** The engine's full thrust with its stated or assumed uncertainty, N. */
export function engineThrustOf(boat: Boat): Measured | undefined {
  if (boat.engineThrust === undefined) return undefined;
  return { value: boat.engineThrust, u: boat.uncertainty.engineThrust ?? ASSUMED.engineThrust * boat.engineThrust };
}
