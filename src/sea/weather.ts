/**
 * Wind, current and sea on a boat at anchor as loads, each with its uncertainty.
 *
 * Two roads lead to a load and are kept apart: windage (areas, drag, profile) and the same boat's measured points.
 * Published tables stand beside both. None is blended with another.
 */
import { type BeaufortForce, beaufort } from "./beaufort.ts";
import type { Boat, LoadEnd } from "./boat.ts";
import { type Calibration, calibrate } from "./calibrate.ts";
import { type CurrentForce, currentForce } from "./current-force.ts";
import { type DesignLoads, type DesignLoadTable, designLoadsFor } from "./design-loads.ts";
import type { Measured, Shared } from "./estimate.ts";
import type { Gust } from "./gust.ts";
import { type Prediction, predictLoad } from "./load-law.ts";
import { type SheeringLoad, sheeringLoad } from "./sheering.ts";
import { bowSurge, type Surge } from "./surge.ts";
import { type WindForce, windForce } from "./wind-force.ts";
import { CALM_SURROUNDINGS, type Conditions, gustOf, steadyLoad } from "./windage-load.ts";

/** Loads by windage, N, horizontal at the bow; current included where there is one. */
export interface WindageLoads {
  readonly steady: Shared;
  readonly gust?: Shared;
  readonly force: WindForce;
  /** Swinging from side to side in the gust where one is asked for, in the mean otherwise; current left out. */
  readonly veered?: SheeringLoad & {
    /** Standard uncertainty of both its loads, relative. */ readonly relativeU: number;
  };
}

/** Loads by the measured points of one end, N. */
export interface MeasuredLoads {
  readonly at: LoadEnd;
  readonly calibration: Calibration;
  readonly mean: Prediction;
  readonly peak?: Prediction;
}

/** What a wind is worth as load on a boat, by every way there is. */
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

function windageLoads(boat: Boat, wind: Measured, conditions: Conditions, gustFactor = 1): WindageLoads {
  const { air, yaw, veering } = conditions;
  const strongest = { value: wind.value * gustFactor, u: wind.u * gustFactor };
  const { current: _, ...windOnly } = conditions;
  const inWind = steadyLoad(boat, strongest, windOnly);
  return {
    steady: steadyLoad(boat, wind, conditions),
    ...(conditions.gust === undefined ? {} : { gust: steadyLoad(boat, strongest, conditions) }),
    force: windForce(boat, wind.value, yaw, air),
    ...(veering === undefined
      ? {}
      : {
          veered: {
            ...sheeringLoad(boat, strongest.value, yaw, veering, air),
            relativeU: inWind.value === 0 ? 0 : inWind.u / inWind.value,
          },
        }),
  };
}
