/** From a load back to the mean wind it is worth, by windage and by the boat's own points, each with its uncertainty. */
import { brent } from "../numeric/index.ts";
import { type BeaufortForce, beaufort } from "./beaufort.ts";
import type { Boat, LoadEnd } from "./boat.ts";
import { type Calibration, calibrate } from "./calibrate.ts";
import { currentForce } from "./current-force.ts";
import { type Estimate, type Measured, type Shared, sharedRoot } from "./estimate.ts";
import { windForLoad } from "./load-law.ts";
import { windForce } from "./wind-force.ts";
import {
  ASSUMED,
  CALM_SURROUNDINGS,
  type Conditions,
  gustOf,
  loadModel,
  NO_FLOW,
  otherInputs,
} from "./windage-load.ts";

/** The mean wind a load is worth. */
export type WindForLoad =
  | { readonly kind: "wind"; readonly wind: Shared; readonly beaufort: BeaufortForce }
  /** The current alone pulls more than the load. */
  | { readonly kind: "currentAlone"; readonly load: number }
  /** The windage stated meets no wind from this angle. */
  | { readonly kind: "noWindage" };

/**
 * Mean wind (m/s at 10 m) whose steady load by windage, together with the current, is `load`; with a gust asked for and
 * `felt` "gust", the mean wind whose gust is.
 * |F_w V² + F_c| = F is a square equation in V²: its larger root, where the wind adds to what the current leaves.
 */
export function windForLoadByWindage(
  boat: Boat,
  load: Measured,
  conditions: Conditions,
  felt: "steady" | "gust" = "steady",
): WindForLoad {
  const { current } = conditions;
  const unit = windForce(boat, 1, conditions.yaw, conditions.air);
  const flow =
    current === undefined ? NO_FLOW : currentForce(boat, current.speed.value, current.angle, conditions.water);
  const alone = Math.hypot(flow.along, flow.across);
  if (alone >= load.value) return { kind: "currentAlone", load: alone };
  const a = unit.along ** 2 + unit.across ** 2;
  if (a === 0) return { kind: "noWindage" };
  const b = unit.along * flow.along + unit.across * flow.across;
  const rest = load.value ** 2 - alone ** 2;
  const root = Math.sqrt(b * b + a * rest);
  // (√(b² + a·rest) − b)/a, written so that a current from ahead does not cancel.
  const speed = Math.sqrt(b > 0 ? rest / (b + root) : (root - b) / a);
  const model = loadModel(boat, conditions);
  const inputs = [{ name: "wind", value: speed, u: 0 }, ...otherInputs(boat, conditions), { name: "load", ...load }];
  const strongest = sharedRoot("wind", inputs, (values) => model(values) - values[6]!);
  const wind = felt === "gust" && conditions.gust !== undefined ? meanOfGust(strongest, conditions.gust) : strongest;
  return { kind: "wind", wind, beaufort: beaufort(wind.value) };
}

/** Share of a gust below which its mean wind is as good as none; models divide by the mean. */
const CALM = 1e-6;

/** The mean wind whose gust is `strongest`: the gust grows with the mean; the factor carries no u of its own. */
function meanOfGust(strongest: Shared, asked: NonNullable<Conditions["gust"]>): Shared {
  const over = (mean: number): number => gustOf(asked, mean).speed - strongest.value;
  // A model that has gusts in no wind at all takes every light one for a gust of calm.
  const calm = CALM * strongest.value;
  const value = over(calm) >= 0 ? calm : brent(over, calm, strongest.value, 1e-12 * strongest.value);
  const ratio = value / strongest.value;
  return { ...strongest, value, u: strongest.u * ratio, low: strongest.low * ratio, high: strongest.high * ratio };
}

/** What a load is worth in wind by each road. */
export interface WindsForLoad {
  readonly load: Measured;
  readonly windage?: WindForLoad;
  readonly windageInGust?: WindForLoad;
  readonly measured: readonly {
    readonly at: LoadEnd;
    readonly calibration: Calibration;
    /** Mean wind whose mean load this is, and the one whose brief peaks reach it. */
    readonly mean: Estimate;
    readonly peak?: Estimate;
  }[];
}

/** The mean wind (m/s at 10 m) a load (N) is worth by each road the boat's file allows. */
export function windsForLoad(boat: Boat, load: Measured, conditions: Conditions = CALM_SURROUNDINGS): WindsForLoad {
  return {
    load,
    ...(boat.windage === undefined ? {} : { windage: windForLoadByWindage(boat, load, conditions) }),
    ...(boat.windage === undefined || conditions.gust === undefined
      ? {}
      : { windageInGust: windForLoadByWindage(boat, load, conditions, "gust") }),
    measured: calibrate(boat, conditions.air.profile).map((calibration) => ({
      at: calibration.at,
      calibration,
      mean: windForLoad(calibration.mean, load),
      ...(calibration.peak === undefined ? {} : { peak: windForLoad(calibration.peak, load) }),
    })),
  };
}

/** The engine's full thrust with its stated or assumed uncertainty, N. */
export function engineThrustOf(boat: Boat): Measured | undefined {
  if (boat.engineThrust === undefined) return undefined;
  return { value: boat.engineThrust, u: boat.uncertainty.engineThrust ?? ASSUMED.engineThrust * boat.engineThrust };
}
