/** A latitude or longitude as people write it. */

/** `10° 30.252′ N`: degrees and minutes to a thousandth. @param degrees north and east above zero */
export function placeText(degrees: number, axis: "latitude" | "longitude"): string {
  const side = axis === "latitude" ? (degrees < 0 ? "S" : "N") : degrees < 0 ? "W" : "E";
  const thousandths = Math.round(Math.abs(degrees) * 60_000);
  const whole = Math.floor(thousandths / 60_000);
  return `${whole}° ${((thousandths - 60_000 * whole) / 1000).toFixed(3).padStart(6, "0")}′ ${side}`;
}
