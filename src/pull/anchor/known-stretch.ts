import type { Measured } from "../trace/trace.ts";
import { apart, type Direction, mostLikely, type PlaneFit, softmax } from "./direction.ts";
import { fixErrors } from "./fix-error.ts";
import type { Ramp } from "./ramp.ts";
import { type StretchModel, windows } from "./stretch.ts";

/** A movement found by looking everywhere must stand out by so many times its ±; and be no less than so far, m. */
const STANDS_OUT = 4.2;
const LEAST = 1;
/** One that is over in a few seconds, s, while the load is changing too, must be larger, m. */
const SHORT = { seconds: 6, least: 2 };
/** No boat drags her anchor faster than she goes, m/s: what seems to is a glitch of the fix. */
const FASTEST = 4;
/** Movements looked for in one stretch. */
const MOST_MOVEMENTS = 6;

/** A stretch whose direction, error of the fix and movements are known as well as the track tells them. */
export interface Known {
  readonly model: StretchModel;
  readonly direction: Direction;
  readonly weights: Float64Array;
  readonly ramps: readonly Ramp[];
  /** ln of how likely the places are so, but for a constant; each movement had to be found among many. */
  readonly evidence: number;
}

/** ln of how many movements were tried for each that is found, about. */
export const TRIED = Math.log(300);

/** Movements found, errors weighed and the direction made better by them, in turns. */
export function settled(model: StretchModel, plane: PlaneFit, begun: Direction): Known {
  let direction = begun;
  let { weights } = plane;
  let ramps: Ramp[] = [];
  let evidence = 0;
  for (let round = 0; round < 2; round++) {
    const y = model.along(direction.value);
    ramps = foundRamps(model, y, weights);
    const logs = fixErrors.map((_, e) => model.fit(e, y, ramps).evidence + model.acrossEvidence(e, direction.value));
    weights = softmax(logs);
    evidence = Math.max(...logs) - TRIED * ramps.length;
    if (direction.by !== "track") continue;
    const way = model.wayOf(mostLikely(weights), y, ramps);
    const better = sloped(model, way, weights);
    // It may turn a little with what was found, not round.
    if (better && better.u < direction.u && Math.abs(apart(better.value, begun.value)) < Math.PI / 2)
      direction = { ...better, by: "track" };
  }
  return { model, direction, weights, ramps, evidence };
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

function foundRamps(model: StretchModel, y: Float64Array, weights: Float64Array): Ramp[] {
  const best = mostLikely(weights);
  const found: Ramp[] = [];
  while (found.length < MOST_MOVEMENTS) {
    const rest = model.residual(best, y, found);
    let most = 0.5 * STANDS_OUT ** 2;
    let next: Ramp | null = null;
    for (const ramp of windows(model)) {
      const one = rest(ramp);
      const seconds = (ramp.to - ramp.from) * model.grid.step;
      const least = seconds < SHORT.seconds ? SHORT.least : LEAST;
      if (one.value > least && one.value < FASTEST * seconds && one.evidence > most) {
        most = one.evidence;
        next = ramp;
      }
    }
    if (!next) break;
    const { value, u } = byErrors(model, y, [next, ...found], weights);
    if (!(value > STANDS_OUT * u)) break;
    found.push(next);
  }
  return found.sort((a, b) => a.from - b.from);
}

function byErrors(model: StretchModel, y: Float64Array, ramps: readonly Ramp[], weights: Float64Array): Measured {
  let [mean, square] = [0, 0];
  let total = 0;
  weights.forEach((weight, e) => {
    if (!(weight > 1e-3)) return;
    const one = model.ramp(e, y, ramps);
    total += weight;
    mean += weight * one.value;
    square += weight * (one.value ** 2 + one.u ** 2);
  });
  mean /= total;
  return { value: mean, u: Math.sqrt(Math.max(1e-12, square / total - mean ** 2)) };
}
