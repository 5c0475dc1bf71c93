/** The surge that is asked of the rode: typed, or what the sea around the boat makes. */
import { type Boat, inertiaOf, type Surge as SeaSurge } from "../../sea/index.ts";
import type { Surge } from "../../sizing/index.ts";
import type { WeatherState } from "./desk.ts";

/** What moves with the boat, kg, and how it was come by. */
export const movingMass = (boat: Boat): { readonly value: number; readonly how: string } => inertiaOf(boat).surge;

/** Null when the sea that should make it is not there. */
export function surgeAsked({ surge, boat }: Pick<WeatherState, "surge" | "boat">, sea: SeaSurge | null): Surge | null {
  const mass = movingMass(boat).value;
  if (surge.by === "distance") return { kind: "distance", distance: surge.distance };
  if (surge.by === "speed") return { kind: "speed", speed: surge.speed, mass };
  return sea === null ? null : { kind: "speed", speed: sea.largestSpeed, mass };
}
