/** What stands around the sites of a map: lines of latitude and longitude at round minutes, and a bar of a round length. */
import { roundBelow, ticks } from "../../numeric/index.ts";
import { formatQuantity, NAUTICAL_MILE, type UnitSystem } from "../../quantity/index.ts";
import { type Plane, placeText } from "./plane.ts";

/** What is seen of a map: the middle, m east and north, and how many metres a pixel is. */
export interface MapSight {
  readonly east: number;
  readonly north: number;
  readonly metre: number;
}

/** A line across the map: where, px, and its degrees and minutes. */
export interface GraticuleLine {
  readonly at: number;
  readonly text: string;
}

/** Pixels between two lines, about. */
const APART = 130;

/** Lines of latitude, px from the top, and of longitude, px from the left. */
export function graticuleOf(
  plane: Plane,
  sight: MapSight,
  width: number,
  height: number,
): { readonly parallels: readonly GraticuleLine[]; readonly meridians: readonly GraticuleLine[] } {
  const [w, h] = [(width / 2) * sight.metre, (height / 2) * sight.metre];
  const south = plane.latitude(sight.north - h) * 60;
  const north = plane.latitude(sight.north + h) * 60;
  // Degrees a metre east, the same all over the plane.
  const perMetre = 1 / Math.max(1e-9, plane.east({ latitude: 0, longitude: plane.middle.longitude + 1 }));
  const middle = plane.middle.longitude;
  const west = (middle + (sight.east - w) * perMetre) * 60;
  const east = (middle + (sight.east + w) * perMetre) * 60;
  const about = (span: number): number => Math.max(1, span / APART);
  return {
    parallels: ticks(south, north, about(height)).map((minutes) => ({
      at: height / 2 - (plane.north({ latitude: minutes / 60, longitude: middle }) - sight.north) / sight.metre,
      text: minuteText(minutes, "latitude"),
    })),
    meridians: ticks(west, east, about(width)).map((minutes) => ({
      at: width / 2 + ((minutes / 60 - middle) / perMetre - sight.east) / sight.metre,
      text: minuteText(minutes - 21_600 * Math.round(minutes / 21_600), "longitude"),
    })),
  };
}

/** Minutes as degrees and minutes, no sharper than the line stands. */
const minuteText = (minutes: number, axis: "latitude" | "longitude"): string =>
  placeText(minutes / 60, axis).replace(/\.?0+′/, "′");

/** A bar of a round length no longer than `most` px, with what it says. @param metre metres a pixel is */
export function scaleBarOf(
  metre: number,
  most: number,
  system: UnitSystem,
): { readonly long: number; readonly text: string } {
  const foot = system === "us" ? 0.3048 : 1;
  const metres = roundBelow((most * metre) / foot) * foot;
  return { long: metres / metre, text: scaleText(metres, system) };
}

function scaleText(metres: number, system: UnitSystem): string {
  if (system === "us") {
    const miles = metres / NAUTICAL_MILE;
    return miles >= 1 ? `${Number(miles.toPrecision(2))} nmi` : `${Math.round(metres / 0.3048)} ft`;
  }
  return formatQuantity(metres, "length", { unit: metres >= 1000 ? "km" : "m", digits: 2 });
}
