/**
 * A rode as the spring a boat hangs on: span over horizontal force at the bow, and the energy it takes beyond what a steady
 * force does,
 *
 *     E(H) = ∫ (H′ − H₀) dx = ∫ (x(H) − x(H′)) dH′   from H₀ to H,
 *
 * the second form by adaptive Simpson in ln H′, since x is what settling answers. What friction takes is in it.
 */
import { glancer, integrate, type Rig } from "../rode/index.ts";
import { isStill } from "./still.ts";

export interface Spring {
  /** Span at a horizontal force, m; NaN where there is no equilibrium. */
  readonly spanAt: (horizontal: number) => number;
  /**
   * Horizontal force, N, at which the spring has taken `energy`, J, beyond the steady force `mean`; Infinity when it never
   * takes so much.
   */
  readonly forceTaking: (energy: number, mean: number) => number;
  /** Horizontal force, N, at which the bow has moved `distance`, m, from where `mean` holds it; Infinity when it never does. */
  readonly forceMoved: (distance: number, mean: number) => number;
}

/** Beyond this many times the steady force and the rode's weight together, no gear is whole. */
const MOST = 1e5;
const STEP = 1.25;
const CLOSE = 1e-10;
const CLOSE_IN_CURRENT = 1e-5;

export function springOf(rig: Rig): Spring {
  const glance = glancer(rig);
  const still = isStill(rig);
  const spanAt = (horizontal: number): number => glance({ at: "horizontal", newtons: horizontal })?.span ?? Number.NaN;
  const weight = rig.rode.reduce(
    (sum, part) => sum + 9.81 * (part.kind === "line" ? part.massPerLength * part.length : part.mass),
    0,
  );

  /** ∫ (H′ − mean) dx from H₁ to H₂ at spans x₁ and x₂. */
  const taken = (mean: number, H1: number, x1: number, H2: number, x2: number, tolerance: number): number => {
    // [(H′−mean)(x−x₁)] − ∫ (x−x₁) dH′
    const over = (u: number): number => {
      const H = Math.exp(u);
      return (spanAt(H) - x1) * H;
    };
    const atEnd = (x2 - x1) * H2;
    return (H2 - mean) * (x2 - x1) - integrate(over, Math.log(H1), Math.log(H2), tolerance, still ? 30 : 6, 0, atEnd);
  };

  const forceTaking = (energy: number, mean: number): number => {
    if (!(energy > 0)) return mean;
    const tolerance = (still ? CLOSE : CLOSE_IN_CURRENT) * energy;
    const most = MOST * (mean + weight);
    let H = mean;
    let x = spanAt(mean);
    let left = energy;
    while (H < most) {
      const next = H * STEP;
      const xNext = spanAt(next);
      if (Number.isNaN(xNext)) return Number.POSITIVE_INFINITY;
      const more = taken(mean, H, x, next, xNext, tolerance);
      if (more >= left) {
        // d taken / dH = (H − mean) dx/dH is only positive: secants inside a bracket.
        return closeOn(
          (to) => (to === H ? 0 : taken(mean, H, x, to, spanAt(to), tolerance)) - left,
          H,
          -left,
          next,
          more - left,
        );
      }
      left -= more;
      H = next;
      x = xNext;
    }
    return Number.POSITIVE_INFINITY;
  };

  const forceMoved = (distance: number, mean: number): number => {
    const answer = glance({ at: "span", metres: spanAt(mean) + distance });
    return answer === null ? Number.POSITIVE_INFINITY : answer.horizontal;
  };
  return { spanAt, forceTaking, forceMoved };
}

/** Root of a rising function between two ends of either sign, to rounding: regula falsi with halving of the stale end. */
export function closeOn(f: (x: number) => number, a: number, fa: number, b: number, fb: number): number {
  let [lo, flo, hi, fhi] = [a, fa, b, fb];
  let stale = 0;
  for (let i = 0; i < 100; i++) {
    if (!(hi - lo > 1e-13 * Math.abs(hi))) break;
    let x = lo - (flo * (hi - lo)) / (fhi - flo);
    if (!(x > lo && x < hi) || i % 5 === 4) x = 0.5 * (lo + hi);
    const fx = f(x);
    if (fx === 0) return x;
    if (fx < 0) {
      [lo, flo] = [x, fx];
      if (stale === -1) fhi *= 0.5;
      stale = -1;
    } else {
      [hi, fhi] = [x, fx];
      if (stale === 1) flo *= 0.5;
      stale = 1;
    }
  }
  return 0.5 * (lo + hi);
}
