import type { Measured } from "../trace/trace.ts";
import { apart, type Direction, mostLikely } from "./direction.ts";
import { foundMovements, type Known } from "./found-movements.ts";
import type { StretchModel } from "./stretch.ts";

/** How often the direction is made better by what was found, and movements looked for again. */
const ROUNDS = 2;

/** Movements found, errors weighed and the direction made better by them, in turns. */
export function settled(model: StretchModel, begun: Direction): Known {
  let known = foundMovements(model, begun);
  for (let round = 0; round < ROUNDS && begun.by === "track"; round++) {
    const { direction, weights, ramps } = known;
    const way = model.wayOf(mostLikely(weights), model.along(direction.value), ramps);
    const better = sloped(model, way, weights);
    // It may turn a little with what was found, not round.
    if (!better || !(better.u < direction.u) || Math.abs(apart(better.value, begun.value)) >= Math.PI / 2) break;
    known = foundMovements(model, { ...better, by: "track" });
  }
  return known;
}

function sloped(model: StretchModel, way: Float64Array, weights: Float64Array): Measured | null {
  const [east, north] = [model.along(Math.PI / 2), model.along(0)];
  let [e, n, variance] = [0, 0, 0];
  weights.forEach((weight, k) => {
    if (!(weight > 1e-3)) return;
    const [se, sn] = [model.slope(k, east, way, []), model.slope(k, north, way, [])];
    e += weight * se.value;
    n += weight * sn.value;
    variance += weight * se.u ** 2;
  });
  const size = Math.hypot(e, n);
  return size > Math.sqrt(variance) ? { value: Math.atan2(e, n), u: Math.sqrt(variance) / size } : null;
}
