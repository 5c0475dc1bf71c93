/** The fields of NMEA 0183 sentences: numbers, angles, places, times, with their sides and units. */
import { DEGREE, KNOT } from "../quantity/index.ts";
import { daysIn, daysSince1970 } from "./calendar.ts";
import type { ChannelReading } from "./sparse-rows.ts";

const FOOT = 0.3048;
const FATHOM = 6 * FOOT;

/** A plain decimal number, blanks around it passed over; NaN for an empty field or anything else. */
export function number(field: string): number {
  return /^ *[+-]?(\d+\.?\d*|\.\d+) *$/.test(field) ? Number(field) : Number.NaN;
}

export function some(kind: ChannelReading["kind"], value: number): ChannelReading[] {
  return Number.isNaN(value) ? [] : [{ kind, value }];
}

export function angle(kind: ChannelReading["kind"], degrees: string): ChannelReading[] {
  return some(kind, number(degrees) * DEGREE);
}

export function around(kind: ChannelReading["kind"], degrees: number): ChannelReading[] {
  return some(kind, (((degrees % 360) + 360) % 360) * DEGREE);
}

/** East is added to a compass reading, west taken off. */
export function signed(degrees: string, side: string): number {
  return side === "E" ? number(degrees) : side === "W" ? -number(degrees) : Number.NaN;
}

/** Port of the bow (L) and starboard of it (R), 0 to 180 degrees each, as one angle clockwise from the bow. */
export function ofTheBow(kind: ChannelReading["kind"], degrees: string, side: string): ChannelReading[] {
  const value = number(degrees);
  if (!(value >= 0 && value <= 180) || (side !== "L" && side !== "R")) return [];
  return around(kind, side === "R" ? value : -value);
}

/** The first of knots, m/s and km/h that is not left empty, m/s. */
export function speedOf(knots: string, metres: string, kilometres: string): number {
  if (knots.trim() !== "") return number(knots) * KNOT;
  return metres.trim() !== "" ? number(metres) : number(kilometres) / 3.6;
}

export function depth(feet: string, metres: string, fathoms: string): number {
  if (metres.trim() !== "") return number(metres);
  return feet.trim() === "" ? number(fathoms) * FATHOM : number(feet) * FOOT;
}

/** ddmm.mmm and dddmm.mmm with their halves of the globe, as decimal degrees. */
export function position(latitude: string, north: string, longitude: string, east: string): ChannelReading[] {
  const lat = degreesMinutes(latitude, 90) * ({ N: 1, S: -1 }[north] ?? Number.NaN);
  const lon = degreesMinutes(longitude, 180) * ({ E: 1, W: -1 }[east] ?? Number.NaN);
  // 0° N 0° E is where receivers without a fix say they are.
  if (Number.isNaN(lat) || Number.isNaN(lon) || (lat === 0 && lon === 0)) return [];
  return [
    { kind: "latitude", value: lat },
    { kind: "longitude", value: lon },
  ];
}

function degreesMinutes(field: string, most: number): number {
  const parts = /^(\d{1,3})(\d\d(?:\.\d*)?)$/.exec(field);
  if (!parts) return Number.NaN;
  const minutes = Number(parts[2]);
  const value = Number(parts[1]) + minutes / 60;
  return minutes < 60 && value <= most ? value : Number.NaN;
}

export function timeOfDay(field: string): number | null {
  const parts = /^(\d\d)(\d\d)(\d\d(?:\.\d*)?)$/.exec(field);
  if (!parts) return null;
  const [h, m, s] = [Number(parts[1]), Number(parts[2]), Number(parts[3])];
  return h < 24 && m < 60 && s < 61 ? h * 3600 + m * 60 + s : null;
}

export function date(field: string): number | null {
  const parts = /^(\d\d)(\d\d)(\d\d)$/.exec(field);
  if (!parts) return null;
  const year = Number(parts[3]);
  // The sentence has two digits for the year; satellite navigation began in 1980.
  return dateOf(year < 80 ? 2000 + year : 1900 + year, Number(parts[2]), Number(parts[1]));
}

export function dateOf(year: number, month: number, day: number): number | null {
  if (!(year >= 1900 && year < 2200) || !(month >= 1 && month <= 12) || !(day >= 1 && day <= daysIn(year, month)))
    return null;
  return daysSince1970(year, month, day);
}
