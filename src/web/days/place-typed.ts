/** A latitude or longitude as it is typed. */

/**
 * Degrees from a place as people write it: `-20.25`, `20° 15.3' W`, `20 15 18 S`.
 * @returns null when it is none
 */
export function placeTyped(text: string, axis: "latitude" | "longitude"): number | null {
  const sides = axis === "latitude" ? "NS" : "EW";
  const parts = new RegExp(
    `^\\s*([-+−]?)(\\d+(?:\\.\\d+)?)(?:\\s*[°\\s]\\s*(\\d+(?:\\.\\d+)?)(?:\\s*['′\\s]\\s*(\\d+(?:\\.\\d+)?))?)?\\s*["″'′°]?\\s*([${sides}])?\\s*$`,
    "i",
  ).exec(text);
  if (parts === null) return null;
  const [, sign, degrees, minutes, seconds, side] = parts;
  const [m, s] = [Number(minutes ?? 0), Number(seconds ?? 0)];
  if (m >= 60 || s >= 60 || (sign !== "" && side !== undefined)) return null;
  const value = Number(degrees) + m / 60 + s / 3600;
  const negative = sign === "-" || sign === "−" || side?.toUpperCase() === sides[1];
  return negative ? -value : value;
}
