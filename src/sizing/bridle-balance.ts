/**
 * The balance of a bridle's hook. Legs are straight, pull along themselves, and not at all where slack. The hook at P is in
 * balance where
 *
 *     Σ Tᵢ (P − cᵢ)/|P − cᵢ| = (F, 0),
 *
 * the lowest place of a convex energy: for each y the force along x rises with x, and at that x the force along y rises with
 * y, so two nested brackets close on it whatever the legs are. y lies between the cleats' own.
 */
import { strainUnder } from "../gear/index.ts";
import { brent } from "../numeric/index.ts";
import { type Bridle, bridleReach, cleats, type Place } from "./bridle-shape.ts";
import { loadAt, slopeAt } from "./law.ts";

const CLOSE = 1e-12;

/** Where the hook is in balance, by Newton; null where he leaves the way. @param pull N */
export function balanceByNewton(bridle: Bridle, pull: number): Place | null {
  const ends = cleats(bridle);
  const { legs, stretch } = bridle;
  // Force and stiffness of both legs at a place: along, across, and the three of a symmetric matrix.
  const at = new Float64Array(5);
  const look = (x: number, y: number): number => {
    at.fill(0);
    for (let i = 0; i < 2; i++) {
      const [dx, dy] = [x - ends[i]![0], y - ends[i]![1]];
      const length = Math.hypot(dx, dy);
      const strain = length / legs[i]! - 1;
      const T = loadAt(stretch, strain);
      if (!(T > 0)) continue;
      const [nx, ny, k, t] = [dx / length, dy / length, slopeAt(stretch, strain) / legs[i]!, T / length];
      at[0]! += T * nx;
      at[1]! += T * ny;
      at[2]! += k * nx * nx + t * ny * ny;
      at[3]! += (k - t) * nx * ny;
      at[4]! += k * ny * ny + t * nx * nx;
    }
    at[0]! -= pull;
    return Math.hypot(at[0]!, at[1]!);
  };
  const [reach, aside] = bridleReach(bridle);
  let [x, y] = [reach * (1 + 0.5 * strainUnder(stretch, pull)), aside];
  let off = look(x, y);
  for (let n = 0; n < 60; n++) {
    if (off <= CLOSE * pull) return [x, y];
    const [fx, fy, kxx, kxy, kyy] = at as unknown as [number, number, number, number, number];
    const det = kxx * kyy - kxy * kxy;
    if (!(det > 0)) return null;
    const [dx, dy] = [(fy * kxy - fx * kyy) / det, (fx * kxy - fy * kxx) / det];
    let share = 1;
    let next = look(x + dx, y + dy);
    while (!(next < off) && share > 1e-6) {
      share *= 0.5;
      next = look(x + share * dx, y + share * dy);
    }
    if (!(next < off)) return off <= 1e3 * CLOSE * pull ? [x, y] : null;
    x += share * dx;
    y += share * dy;
    off = next;
  }
  return null;
}

/** The same by one bracket within another, whatever the legs are. @param pull N */
export function balanceByBrackets(bridle: Bridle, pull: number): Place {
  const ends = cleats(bridle);
  const forces = (x: number, y: number): Place => {
    let [along, across] = [0, 0];
    for (let i = 0; i < 2; i++) {
      const [dx, dy] = [x - ends[i]![0], y - ends[i]![1]];
      const length = Math.hypot(dx, dy);
      const T = loadAt(bridle.stretch, length / bridle.legs[i]! - 1);
      if (!(T > 0)) continue;
      along += (T * dx) / length;
      across += (T * dy) / length;
    }
    return [along, across];
  };
  const [reach] = bridleReach(bridle);
  const longest = Math.max(...bridle.legs);
  const alongFor = (y: number): number => {
    const miss = (x: number): number => forces(x, y)[0] - pull;
    let low = reach - longest;
    let high = reach + 0.1 * longest;
    while (miss(low) > 0) low -= longest;
    while (miss(high) < 0) high += longest;
    return brent(miss, low, high, 1e-13 * (Math.abs(low) + Math.abs(high)));
  };
  const widest = 0.5 * bridle.beam * Math.cos(bridle.heading);
  const acrossMiss = (y: number): number => forces(alongFor(y), y)[1];
  const [low, high] = [acrossMiss(-widest), acrossMiss(widest)];
  const across =
    low >= 0 ? -widest : high <= 0 ? widest : brent(acrossMiss, -widest, widest, 1e-13 * widest, low, high);
  return [alongFor(across), across];
}
