/** What lies around a moving rode: water, its surface, the bottom. SI and radians; axes as in rode/model.ts, y to the left. */
import { GRAVITY, type Rig } from "../rode/index.ts";

/** Water, air and bottom as the motion meets them. */
export interface Surroundings {
  /** Surface above the anchor, m; infinite in air (nothing is ever above it: `low` is the weight in air). */
  readonly surface: number;
  /** Speed of the water along x, m/s. */
  readonly current: number;
  /** False: there is none, and rode may hang below the anchor. */
  readonly bottom: boolean;
  /** Bottom: a plane through the anchor that rises along x. */
  readonly sinSlope: number;
  readonly cosSlope: number;
  /** Coulomb friction of rode on the bottom, 1. */
  readonly friction: number;
  readonly gravity: number;
}

/** What surrounds the rode of a rig. */
export function surroundingsOf(rig: Rig): Surroundings {
  const { setting } = rig;
  return {
    surface: setting.medium === "water" ? setting.depth : Number.POSITIVE_INFINITY,
    current: setting.medium === "water" ? setting.current : 0,
    bottom: true,
    sinSlope: Math.sin(setting.bottomSlope),
    cosSlope: Math.cos(setting.bottomSlope),
    friction: setting.bottomFriction,
    gravity: GRAVITY,
  };
}
