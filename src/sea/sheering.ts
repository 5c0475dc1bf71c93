/**
 * A boat that swings from side to side, ψ(t) = A sin(2πt/P): what its changing windage does to the load.
 * The force is taken as steady at each angle; how fast the boat swings is stated beside it, because a fast swing
 * throws its weight on the rode as well, which only a calculation in time can say.
 */
import type { Boat, Veering } from "./boat.ts";
import { USUAL_AIR, type WindSetting, windForce } from "./wind-force.ts";

/** Mean and largest load of a boat that sheers about. */
export interface SheeringLoad {
  /** Mean over a whole swing, and the largest, N. */
  readonly mean: number;
  readonly largest: number;
  /** Angle off the bow at which the largest stands, rad. */
  readonly at: number;
  /** Largest rate of turn, rad/s, and speed of the bow across the wind when the boat turns about its middle, m/s. */
  readonly turnRate: number;
  readonly bowSpeed: number;
}

const steps = 128;

/** Load in a wind of `speed` (m/s at 10 m) about a mean angle `yaw` (rad) off the bow; the mean to 1e-6 (even steps of a whole period). */
export function sheeringLoad(
  boat: Boat,
  speed: number,
  yaw: number,
  veering: Veering,
  setting: WindSetting = USUAL_AIR,
): SheeringLoad {
  let sum = 0;
  let largest = -1;
  let at = yaw;
  for (let i = 0; i < steps; i++) {
    const angle = yaw + veering.amplitude * Math.sin((2 * Math.PI * i) / steps);
    const load = windForce(boat, speed, angle, setting).resultant;
    sum += load;
    if (load > largest) {
      largest = load;
      at = angle;
    }
  }
  const turnRate = (2 * Math.PI * veering.amplitude) / veering.period;
  return { mean: sum / steps, largest, at, turnRate, bowSpeed: (turnRate * boat.length) / 2 };
}
