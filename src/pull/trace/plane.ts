import { DEGREE } from "../../quantity/index.ts";
import type { Track } from "./trace.ts";

/** Half the longer axis of WGS 84, m, and its flattening (exact by definition). */
const AXIS = 6_378_137;
const FLATTENING = 1 / 298.257223563;

/**
 * The plane that touches the ellipsoid at a place: metres east and north of it, for places in degrees. Over a kilometre
 * it is off by less than a centimetre.
 * @source radii of curvature of the ellipsoid of WGS 84 (recalled)
 */
export function planeAt(
  latitude: number,
  longitude: number,
): { readonly east: (longitude: number) => number; readonly north: (latitude: number) => number } {
  const e2 = FLATTENING * (2 - FLATTENING);
  const sine = Math.sin(latitude * DEGREE);
  const across = AXIS / Math.sqrt(1 - e2 * sine * sine);
  const along = (across * (1 - e2)) / (1 - e2 * sine * sine);
  return {
    east(to) {
      const turn = to - longitude;
      const least = turn > 180 ? turn - 360 : turn < -180 ? turn + 360 : turn;
      return across * Math.cos(latitude * DEGREE) * DEGREE * least;
    },
    north: (to) => along * DEGREE * (to - latitude),
  };
}

/** A place in degrees on the plane of a track, m; null where it is not known where that plane lies. */
export function onPlaneOf(
  { origin }: Track,
  place: { readonly latitude: number; readonly longitude: number },
): { readonly east: number; readonly north: number } | null {
  if (origin === undefined) return null;
  const plane = planeAt(origin.latitude, origin.longitude);
  return { east: plane.east(place.longitude), north: plane.north(place.latitude) };
}
