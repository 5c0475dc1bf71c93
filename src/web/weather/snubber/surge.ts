/** The surge that is asked of the rode: typed, or what the sea around the boat makes. */
import { type Boat, type Guess, inertiaOf, jonswap } from "../../../sea/index.ts";
import { type Surge, surgeInWaves } from "../../../sizing/index.ts";
import { depthOf, surgeOf } from "../loads.ts";
import type { WeatherState } from "../state.ts";

/** What moves with the boat, kg, and how it was come by. */
export const movingMass = (boat: Boat): Guess => inertiaOf(boat).surge;

/** Null when the sea that should make it is not there. */
export function surgeAsked(state: Pick<WeatherState, "surge" | "boat" | "around" | "rig">): Surge | null {
  const { surge, boat, around } = state;
  const mass = movingMass(boat).value;
  if (surge.by === "distance") return { kind: "distance", distance: surge.distance };
  if (surge.by === "speed") return { kind: "speed", speed: surge.speed, mass };
  if (surgeOf(state) === null) return null;
  return surgeInWaves(boat, jonswap(around.waves, around.wavePeriod), depthOf(state));
}
