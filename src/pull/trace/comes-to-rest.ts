import { likelyMean, notNegative } from "../../statistics/index.ts";
import { meanOfGrains } from "./scatter.ts";
import type { Measured } from "./trace.ts";

/**
 * How a rode lets go its last load: dF/dt ∝ −F^p. With p = 1 it dies away, as on a spring; a catenary is the softer and a
 * boat falls back the slower the slacker it is, so that p = 2 is as likely.
 */
const POWERS = [1, 1.25, 1.5, 1.75, 2, 2.5];
/** Times in which the load at first falls to about a third, s: from the shortest a log can show to what a large boat takes. */
const TIMES = Array.from({ length: 21 }, (_, k) => 0.8 * 1.22 ** k);
/** A way and a pace of falling: its power, and its time, s. */
interface Shape {
  readonly power: number;
  readonly time: number;
}
const SHAPES: readonly Shape[] = POWERS.flatMap((power) => TIMES.map((time) => ({ power, time })));
/** Fewer grains show no fall. */
const FEWEST = 6;
/** A scatter smaller than this share of what is read is none: that of a display, or of arithmetic. */
const NONE = 1e-9;

/**
 * What a load comes to that is falling to rest, N: the level that its fall tends to, over all the ways and paces that a
 * rode may fall by, each as far as it makes the readings likely (Gaussian readings, level and fall worked out, not drawn).
 * A load that is level already comes to its mean.
 *
 * @param values even grains without gaps, N
 * @param grain s
 * @param fell how far it fell until now, N: about so much may be left to fall, with that as its standard deviation
 */
export function comesToRest(values: Float64Array, grain: number, fell: number): Measured {
  const n = values.length;
  const level = meanOfGrains(values, 0, n);
  if (n < FEWEST || !(level.scatter > NONE * (Math.abs(level.mean) + fell))) return { value: level.mean, u: level.u };
  const fall = new Float64Array(n);
  // What the readings scatter by is what the best of them leaves; neighbours are not independent.
  let best = fitOf(values, fallInto(fall, SHAPES[0]!, grain), 0);
  let shape = SHAPES[0]!;
  for (const other of SHAPES) {
    const fit = fitOf(values, fallInto(fall, other, grain), 0);
    if (fit.misfit < best.misfit) [best, shape] = [fit, other];
  }
  fallInto(fall, shape, grain);
  const rest = values.map((y, k) => y - best.level - best.left * fall[k]!);
  const variance = n * meanOfGrains(rest, 0, n).u ** 2;
  const ridge = variance / (fell ** 2 + level.u ** 2);
  const answers = SHAPES.map((other) => answerOf(fitOf(values, fallInto(fall, other, grain), ridge), variance));
  const likely = likelyMean(answers.map(({ value, u, log }) => ({ at: value - level.mean, u, log })))!;
  return { value: level.mean + likely.mean, u: Math.sqrt(likely.variance) };
}

/** Writes the share that is left of a fall, grain by grain, from 1 on. */
function fallInto(out: Float64Array, { power, time }: Shape, grain: number): Float64Array {
  const pace = grain / time;
  for (let k = 0; k < out.length; k++)
    out[k] = power === 1 ? Math.exp(-k * pace) : (1 + (power - 1) * k * pace) ** (-1 / (power - 1));
  return out;
}

/** Least squares of a level and a fall, what was left to fall being held near none by a ridge. */
interface Fit {
  readonly level: number;
  readonly left: number;
  /** Sum of squares, the ridge's in it. */
  readonly misfit: number;
  /** Of the normal equations: n, Σg and their determinant. */
  readonly n: number;
  readonly g: number;
  readonly det: number;
}

function fitOf(values: Float64Array, fall: Float64Array, ridge: number): Fit {
  const n = values.length;
  const base = values[0]!;
  let [g, gg, y, gy, yy] = [0, ridge, 0, 0, 0];
  for (let k = 0; k < n; k++) {
    const [f, v] = [fall[k]!, values[k]! - base];
    g += f;
    gg += f * f;
    y += v;
    gy += f * v;
    yy += v * v;
  }
  const det = n * gg - g * g;
  const left = (n * gy - g * y) / det;
  const level = (y - g * left) / n;
  return { level: base + level, left, misfit: yy - level * y - left * gy, n, g, det };
}

/** ln of how likely a fall makes the readings, and the level it tends to; a rode that comes to rest lets go and never takes up. */
function answerOf({ level, left, misfit, n, g, det }: Fit, variance: number): Measured & { readonly log: number } {
  const still = notNegative(left, Math.sqrt((variance * n) / det));
  return {
    log: still.logShare - misfit / (2 * variance) - Math.log(det) / 2,
    value: level - (g / n) * (still.mean - left),
    u: Math.sqrt(variance / n + ((g / n) * still.sd) ** 2),
  };
}
