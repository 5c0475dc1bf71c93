/** Latitudes and longitudes as people and instruments write them beside signed decimal degrees. */
import type { DecimalMark } from "./marks.ts";

const NUMBER = String.raw`\d+(?:[.,]\d+)?`;
const PARTS = new RegExp(
  String.raw`^([NSEW])?\s*([+-])?\s*(${NUMBER})\s*(?:[°ºd:\s-]\s*(?:(${NUMBER})\s*(?:['′’m:\s]\s*(?:(${NUMBER})\s*(?:["″”s]|'')?)?)?)?)?\s*([NSEW])?$`,
  "i",
);

/**
 * Decimal degrees of a place in words: `50°12.345'N`, `N 50 12.345`, `50-12.3S`, `50:12:34`, `50.1234 W`; or of ddmm.mmm
 * in one number, as sentences of NMEA 0183 have it. NaN for what is none, or beyond `most` degrees.
 * @param side a letter of another cell, N, S, E or W, or ""
 */
export function readPlaceText(
  text: string,
  form: "degreesMinutes" | "text",
  side: string,
  decimal: DecimalMark,
  most: number,
): number {
  const plain = decimal === "," ? text.replaceAll(",", ".") : text;
  const parts = PARTS.exec(plain.trim());
  if (parts === null) return Number.NaN;
  const [, before, sign, first, second, third, after] = parts;
  let degrees = Number(first);
  let minutes = Number(second ?? 0);
  if (form === "degreesMinutes" && second === undefined) {
    minutes = degrees % 100;
    degrees = Math.floor(degrees / 100);
  }
  const seconds = Number(third ?? 0);
  if (minutes >= 60 || seconds >= 60) return Number.NaN;
  // Whole degrees before minutes, whole minutes before seconds: else the fields are no such thing.
  if ((second !== undefined && degrees % 1 !== 0) || (third !== undefined && minutes % 1 !== 0)) return Number.NaN;
  const letter = (before ?? after ?? side).toUpperCase();
  if (letter !== "" && !(most === 90 ? /^[NS]$/ : /^[EW]$/).test(letter)) return Number.NaN;
  const value = degrees + minutes / 60 + seconds / 3600;
  const negative = letter === "S" || letter === "W" || sign === "-";
  return value > most ? Number.NaN : negative ? -value : value;
}
