import type { Measured } from "../trace/trace.ts";
import { chanceMoved } from "./chance-moved.ts";
import type { Known } from "./known-stretch.ts";
import type { Ramp } from "./ramp.ts";

/** How far the anchor moved in some time, m, and the chance that it was more than a distance. */
export interface Moved extends Measured {
  readonly chance: (over: number) => number;
}

/** The direction is known to a value, and to √3 standard uncertainties either side: Gauss–Hermite in three points. */
const POINTS = [
  [-Math.sqrt(3), 1 / 6],
  [0, 2 / 3],
  [Math.sqrt(3), 1 / 6],
] as const;
/** A direction no better known than this is not followed farther, rad. */
const VAGUE = 0.5;

/** The movement in one window: over all kinds of error and over what the direction may be. */
export function movedIn({ model, direction, weights, ramps }: Known, asked: Ramp): Moved {
  const others = ramps.flatMap((r) => outside(r, asked));
  const parts: (Measured & { weight: number })[] = [];
  for (const [at, share] of POINTS) {
    const y = model.along(direction.value + at * Math.min(VAGUE, direction.u));
    weights.forEach((weight, e) => {
      if (!(weight > 1e-2)) return;
      const { value, u } = model.ramp(e, y, [asked, ...others]);
      parts.push({ value, u, weight: weight * share });
    });
  }
  const total = parts.reduce((sum, p) => sum + p.weight, 0);
  const mean = parts.reduce((sum, p) => sum + p.weight * p.value, 0) / total;
  const square = parts.reduce((sum, p) => sum + p.weight * ((p.value - mean) ** 2 + p.u ** 2), 0) / total;
  return {
    value: mean,
    u: Math.sqrt(square),
    chance: (over) => parts.reduce((sum, p) => sum + p.weight * chanceMoved(p, over), 0) / total,
  };
}

/** What of a movement lies before and after another. */
function outside(r: Ramp, asked: Ramp): Ramp[] {
  const out: Ramp[] = [];
  if (r.from < asked.from - 0.5) out.push({ from: r.from, to: Math.min(r.to, asked.from) });
  if (r.to > asked.to + 0.5) out.push({ from: Math.max(r.from, asked.to), to: r.to });
  return out;
}
