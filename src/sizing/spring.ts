/**
 * A rode as the spring a boat hangs on: span over horizontal force at the bow, and the energy it takes beyond what a steady
 * force does,
 *
 *     E(H) = ∫ (H′ − H₀) dx = ∫ (x(H) − x(H′)) dH′   from H₀ to H,
 *
 * the second form by adaptive Simpson in ln H′, since x is what settling answers. What friction takes is in it.
 */
import { brent, integrateAdaptively } from "../numeric/index.ts";
import { endForcesOf, inStillWater, type Rig } from "../rode/index.ts";

/** A rope as a spring: load over stretch. */
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

/** A length of rope as a spring. */
export function springOf(rig: Rig): Spring {
  const endForces = endForcesOf(rig);
  const still = inStillWater(rig.setting);
  const spanAt = (horizontal: number): number =>
    endForces({ at: "horizontal", newtons: horizontal })?.span ?? Number.NaN;
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
    return (
      (H2 - mean) * (x2 - x1) -
      integrateAdaptively(over, Math.log(H1), Math.log(H2), tolerance, still ? 30 : 6, 0, atEnd)
    );
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
        return brent(
          (to) => (to === H ? 0 : taken(mean, H, x, to, spanAt(to), tolerance)) - left,
          H,
          next,
          1e-13 * next,
          -left,
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
    const answer = endForces({ at: "span", metres: spanAt(mean) + distance });
    return answer === null ? Number.POSITIVE_INFINITY : answer.horizontal;
  };
  return { spanAt, forceTaking, forceMoved };
}
