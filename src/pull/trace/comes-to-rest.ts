import { notNegative } from "../../statistics/index.ts";
import { meanOfGrains } from "./scatter.ts";
import type { Measured } from "./trace.ts";

/**
 * How a rode lets go its last load: dF/dt ∝ −F^p. With p = 1 it dies away, as on a spring; a catenary is the softer and a
 * boat falls back the slower the slacker it is, so that p = 2 is as likely.
 */
const POWERS = [1, 1.25, 1.5, 1.75, 2, 2.5];
/** Times in which the load at first falls to about a third, s: from the shortest a log can show to what a large boat takes. */
const TIMES = Array.from({ length: 21 }, (_, k) => 0.8 * 1.22 ** k);
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
  const falls = POWERS.flatMap((power) => TIMES.map((time) => fallOf(power, time / grain, n)));
  // What the readings scatter by is what the best of them leaves; neighbours are not independent.
  const best = falls.map((fall) => fitOf(values, fall, 0)).reduce((a, b) => (b.misfit < a.misfit ? b : a));
  const rest = values.map((y, k) => y - best.level - best.left * best.fall[k]!);
  const variance = n * meanOfGrains(rest, 0, n).u ** 2;
  const most = Math.hypot(fell, level.u);
  const answers = falls.map((fall) => answerOf(fitOf(values, fall, variance / most ** 2), variance));
  const top = Math.max(...answers.map(({ log }) => log));
  let [all, mean, square] = [0, 0, 0];
  for (const { log, value, u } of answers) {
    const weight = Math.exp(log - top);
    all += weight;
    mean += weight * (value - level.mean);
    square += weight * (u ** 2 + (value - level.mean) ** 2);
  }
  mean /= all;
  return { value: level.mean + mean, u: Math.sqrt(Math.max(0, square / all - mean ** 2)) };
}

/** The share that is left of a fall, grain by grain, from 1 on. */
function fallOf(power: number, grains: number, n: number): Float64Array {
  return Float64Array.from({ length: n }, (_, k) =>
    power === 1 ? Math.exp(-k / grains) : (1 + ((power - 1) * k) / grains) ** (-1 / (power - 1)),
  );
}

/** Least squares of a level and a fall, what was left to fall being held near none by a ridge. */
interface Fit {
  readonly fall: Float64Array;
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
  return { fall, level: base + level, left, misfit: yy - level * y - left * gy, n, g, det };
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
