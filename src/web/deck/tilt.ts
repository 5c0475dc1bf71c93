/**
 * The device as an angle gauge. Laid along the rode, its long side reads the rode's angle and its own zero together; turned
 * end for end it reads the angle the other way and the same zero, so half the difference is the angle and half the sum the
 * zero. The sea moves the rode, so readings of one moment are not free of each other: the ± of a mean is taken from means of
 * stretches long against its motion (batch means; Conway 1963, recalled).
 */
import { DEGREE } from "../../quantity/index.ts";

/** A mean angle with its standard uncertainty, rad. */
export interface Tilt {
  readonly angle: number;
  readonly u: number;
}

/** Stretches a record is cut into. */
const STRETCHES = 8;
/** No device of this sort reads closer, rad: a tenth of a degree (assumed). */
const FINEST = 0.1 * DEGREE;

/** @param degrees readings at even times, at least two a stretch; null for fewer */
export function meanTilt(degrees: readonly number[]): Tilt | null {
  if (degrees.length < 2 * STRETCHES) return null;
  const size = Math.floor(degrees.length / STRETCHES);
  const means = Array.from({ length: STRETCHES }, (_, i) => mean(degrees.slice(i * size, (i + 1) * size)));
  const middle = mean(means);
  const squares = means.reduce((sum, value) => sum + (value - middle) ** 2, 0) / (STRETCHES - 1);
  return { angle: middle * DEGREE, u: Math.hypot(Math.sqrt(squares / STRETCHES) * DEGREE, FINEST) };
}

/** The angle and the zero from a reading and the one turned end for end, rad. */
export function turned(first: Tilt, second: Tilt): { readonly angle: Tilt; readonly zero: Tilt } {
  const u = Math.hypot(first.u, second.u) / 2;
  return {
    angle: { angle: (first.angle - second.angle) / 2, u },
    zero: { angle: (first.angle + second.angle) / 2, u },
  };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
