/**
 * The Beaufort scale, WMO code 1100: the speeds stand in whole knots and in tenths of a metre a second, 10 min mean at
 * 10 m. The two columns are rounded separately, so a speed between their steps can fall into different forces; each
 * function keeps to its own column.
 */
/** Lowest whole knots of each force. @source WMO code table 1100 as printed by a ship inspection site (seen). */
const fromKnots = [0, 1, 4, 7, 11, 17, 22, 28, 34, 41, 48, 56, 64];
/** Lowest tenths of m/s of each force. @source WMO code table 1100 as printed by a weather site (seen). */
const fromTenths = [0, 3, 16, 34, 55, 80, 108, 139, 172, 208, 245, 285, 327];
const names = [
  "calm",
  "light air",
  "light breeze",
  "gentle breeze",
  "moderate breeze",
  "fresh breeze",
  "strong breeze",
  "near gale",
  "gale",
  "strong gale",
  "storm",
  "violent storm",
  "hurricane",
];

/** A force of the Beaufort scale, with the winds it spans. */
export interface BeaufortForce {
  /** 0 to 12. */
  readonly force: number;
  readonly name: string;
}

/** Force of a mean wind in m/s by the scale's metric column (speed first rounded to 0.1 m/s, as the column is). */
export function beaufort(speed: number): BeaufortForce {
  return forceFrom(fromTenths, Math.round(speed * 10));
}

/** Force of a mean wind in knots by the scale's knots column (speed first rounded to whole knots, as the column is). */
export function beaufortFromKnots(knots: number): BeaufortForce {
  return forceFrom(fromKnots, Math.round(knots));
}

/** Speed of a force by the smooth law the table follows, v = 0.836 B^1.5 m/s (recalled). */
export function beaufortSpeed(force: number): number {
  return 0.836 * force ** 1.5;
}

function forceFrom(column: readonly number[], rounded: number): BeaufortForce {
  const above = column.findIndex((lowest) => lowest > rounded);
  const force = above === -1 ? 12 : Math.max(0, above - 1);
  return { force, name: names[force]! };
}
