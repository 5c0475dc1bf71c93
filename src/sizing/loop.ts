/**
 * The loop of chain that hangs slack between the hook of a snubber and the bow. It is longer than the snubber by its slack;
 * as the snubber stretches, the loop is drawn out, and where it comes straight it takes the load: the snubber has bottomed out.
 *
 * A chain of length L and weight w per length, hung between two points at distance c, pulls along that distance with H where
 *
 *     c = (2H/w) asinh(wL/2H) + H L/EA
 *
 * (both ends at one height; a loop between hook and bow hangs a little askew, which shifts H by less than its sag).
 */
import { brent } from "../numeric/index.ts";

/** A loop of chain beside a snubber. */
export interface Loop {
  /** Unloaded length, m. */
  readonly length: number;
  /** N/m, where it hangs. */
  readonly weight: number;
  /** EA, N; Infinity for none. */
  readonly stiffness: number;
}

/** Distance between the ends at a pull along it, m. */
export function loopDistance(loop: Loop, pull: number): number {
  const { length, weight, stiffness } = loop;
  if (!(pull > 0)) return 0;
  const q = (weight * length) / (2 * pull);
  // asinh(q)/q by its series where q is small: the loop is all but straight there and the quotient would lose digits.
  const share = q < 1e-3 ? 1 - (q * q) / 6 + (3 * q ** 4) / 40 : Math.asinh(q) / q;
  return length * share + (pull * length) / stiffness;
}

/** Pull of a loop whose ends are a distance apart, N; Infinity for an unstretching loop drawn beyond its length. */
export function loopPull(loop: Loop, distance: number): number {
  if (!(distance > 0)) return 0;
  if (loop.stiffness === Number.POSITIVE_INFINITY && distance >= loop.length) return Number.POSITIVE_INFINITY;
  if (!(loop.weight > 0))
    return distance <= loop.length ? 0 : (loop.stiffness * (distance - loop.length)) / loop.length;
  const weigh = loop.weight * loop.length;
  const low = 1e-6 * weigh;
  if (loopDistance(loop, low) >= distance) return low;
  let high = weigh;
  while (loopDistance(loop, high) < distance && high < 1e15 * weigh) high *= 4;
  return Math.exp(brent((u) => loopDistance(loop, Math.exp(u)) - distance, Math.log(low), Math.log(high), 1e-14));
}
