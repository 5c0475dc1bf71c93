/**
 * Sites on a plane of their own: metres east and north of the middle of them all. Distances near the middle are true;
 * one degree of longitude counts as at the middle's latitude, which over 100 km is off by less than the map can show.
 */

import { DEGREE } from "../../quantity/index.ts";

/** Mean radius of the earth, m. @source IUGG 1980, 6371008.8 m (recalled) */
const EARTH = 6_371_008.8;

/** Degrees. */
export interface Place {
  readonly latitude: number;
  readonly longitude: number;
}

/** Places as metres about a middle, and back. */
export interface Plane {
  readonly middle: Place;
  /** m east and north of the middle. */
  east(place: Place): number;
  north(place: Place): number;
  /** Degrees back from metres. */
  latitude(north: number): number;
  longitude(east: number): number;
}

/** The plane of some places, degrees; also across the line where longitude jumps. */
export function planeOf(places: readonly Place[]): Plane {
  const first = places[0]?.longitude ?? 0;
  const turns = places.map((place) => first + turned(place.longitude - first));
  const longitude = turns.length === 0 ? 0 : (Math.min(...turns) + Math.max(...turns)) / 2;
  const latitudes = places.map((place) => place.latitude);
  const latitude = latitudes.length === 0 ? 0 : (Math.min(...latitudes) + Math.max(...latitudes)) / 2;
  const along = EARTH * DEGREE;
  // At a pole all longitudes meet: a plane there still needs a width.
  const across = along * Math.max(0.01, Math.cos(latitude * DEGREE));
  return {
    middle: { latitude, longitude: turned(longitude) },
    east: (place) => turned(place.longitude - longitude) * across,
    north: (place) => (place.latitude - latitude) * along,
    latitude: (north) => latitude + north / along,
    longitude: (east) => turned(longitude + east / across),
  };
}

/** Degrees brought between -180 and 180. */
function turned(degrees: number): number {
  return degrees - 360 * Math.round(degrees / 360);
}

/** `10° 30.252′ N`: degrees and minutes to a thousandth. @param degrees north and east above zero */
export function placeText(degrees: number, axis: "latitude" | "longitude"): string {
  const side = axis === "latitude" ? (degrees < 0 ? "S" : "N") : degrees < 0 ? "W" : "E";
  const thousandths = Math.round(Math.abs(degrees) * 60_000);
  const whole = Math.floor(thousandths / 60_000);
  return `${whole}° ${((thousandths - 60_000 * whole) / 1000).toFixed(3).padStart(6, "0")}′ ${side}`;
}
