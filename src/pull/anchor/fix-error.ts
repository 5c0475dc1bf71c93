/**
 * What a satellite fix does when nothing moves: a slow error of first order (Gauss–Markov) or one smoothed once more
 * (the same process through its own lag, Matérn 3/2), with white noise on top. Each is a small linear state-space
 * model, so that its Kalman filter turns a series of fixes into independent ones of unit variance.
 *
 * @source Kalman filter of a stationary process begun at its own spread: Jazwinski, Stochastic Processes and Filtering
 * Theory (1970), ch. 7; transition of the second kind: Särkkä, Solin, Applied Stochastic Differential Equations (2019),
 * ch. 12 (both recalled).
 */
export interface FixError {
  readonly smooth: boolean;
  /** Standard deviation of the slow error on one axis, m, and its time constant, s. */
  readonly size: number;
  readonly time: number;
}

const SIZES = [0.4, 0.8, 1.3, 2, 3];
const TIMES = [40, 110, 260];

/** Kinds of error looked at; how likely each is comes from the track itself. */
export const fixErrors: readonly FixError[] = [false, true].flatMap((smooth) =>
  SIZES.flatMap((size) => TIMES.map((time) => ({ smooth, size, time }))),
);

/** Turns series of one axis into independent values of unit variance, 0 where nothing was read. */
export interface Whitener {
  readonly whiten: (values: Float64Array) => Float64Array;
  /** The transpose of whitening: the product of a whitened series with `values` is that of the series with this. */
  readonly transposed: (values: Float64Array) => Float64Array;
  /** Sum of squares of a series whitened, which is nothing before step `first`. */
  readonly power: (values: Float64Array, first: number) => number;
  /** ln of the determinant of the series' covariance. */
  readonly logDeterminant: number;
}

/** A quick error beside the slow one, of first order: the boat's own sway across the pull. */
export interface Sway {
  readonly size: number;
  readonly time: number;
}

/**
 * @param there 1 where there is a fix
 * @param step s between fixes
 * @param white standard deviation of the white part, m
 */
export function whitenerOf(error: FixError, there: Uint8Array, step: number, white: number, sway?: Sway): Whitener {
  const rate = 1 / error.time;
  const fade = Math.exp(-step * rate);
  // Slow state and its speed; a first-order one has no speed of its own.
  const [a, b, c, d] = error.smooth
    ? [fade * (1 + rate * step), fade * step, -fade * rate * rate * step, fade * (1 - rate * step)]
    : [fade, 0, 0, 0];
  const s2 = error.size ** 2;
  const v2 = error.smooth ? rate * rate * s2 : 0;
  const [q11, q12, q22] = [s2 - (a * a * s2 + b * b * v2), -(a * c * s2 + b * d * v2), v2 - (c * c * s2 + d * d * v2)];
  const f = sway ? Math.exp(-step / sway.time) : 0;
  const w2 = sway ? sway.size ** 2 : 0;
  const n = there.length;
  const gain = new Float64Array(3 * n);
  const scale = new Float64Array(n);
  let logDeterminant = 0;
  // Covariance of (slow, its speed, sway), symmetric: p11 p12 p22 and, with the sway, p13 p23 p33.
  let [p11, p12, p22, p13, p23, p33] = [s2, 0, v2, 0, 0, w2];
  for (let k = 0; k < n; k++) {
    if (k > 0) {
      const [n11, n12, n22] = [
        a * a * p11 + 2 * a * b * p12 + b * b * p22 + q11,
        a * c * p11 + (a * d + b * c) * p12 + b * d * p22 + q12,
        c * c * p11 + 2 * c * d * p12 + d * d * p22 + q22,
      ];
      [p13, p23] = [f * (a * p13 + b * p23), f * (c * p13 + d * p23)];
      [p11, p12, p22] = [n11, n12, n22];
      p33 = f * f * p33 + (1 - f * f) * w2;
    }
    if (there[k] !== 1) continue;
    const [h1, h2, h3] = [p11 + p13, p12 + p23, p13 + p33];
    const s = h1 + h3 + white * white;
    const [k1, k2, k3] = [h1 / s, h2 / s, h3 / s];
    gain[3 * k] = k1;
    gain[3 * k + 1] = k2;
    gain[3 * k + 2] = k3;
    scale[k] = 1 / Math.sqrt(s);
    logDeterminant += Math.log(s);
    p11 -= k1 * h1;
    p12 -= k1 * h2;
    p13 -= k1 * h3;
    p22 -= k2 * h2;
    p23 -= k2 * h3;
    p33 -= k3 * h3;
  }
  /** Whitens from step `first` on, before which the series is nothing. @param out takes the values, if any @returns their sum of squares */
  const filter = (values: Float64Array, first: number, out: Float64Array | null): number => {
    let sum = 0;
    let [x, v, y] = [0, 0, 0];
    for (let k = first; k < n; k++) {
      // Before the first step all three are nothing, and stay so.
      const was = x;
      x = a * was + b * v;
      v = c * was + d * v;
      y *= f;
      if (there[k] !== 1) continue;
      const off = values[k]! - x - y;
      x += gain[3 * k]! * off;
      v += gain[3 * k + 1]! * off;
      y += gain[3 * k + 2]! * off;
      const white = off * scale[k]!;
      if (out !== null) out[k] = white;
      sum += white ** 2;
    }
    return sum;
  };
  return {
    logDeterminant,
    whiten(values) {
      const out = new Float64Array(n);
      filter(values, 0, out);
      return out;
    },
    power: (values, first) => filter(values, first, null),
    transposed(values) {
      const out = new Float64Array(n);
      // What each state of the filter still does to what comes after it, from the end backward.
      let [x, v, y] = [0, 0, 0];
      for (let k = n - 1; k >= 0; k--) {
        if (there[k] === 1) {
          const off = values[k]! * scale[k]! + gain[3 * k]! * x + gain[3 * k + 1]! * v + gain[3 * k + 2]! * y;
          x -= off;
          y -= off;
          out[k] = off;
        }
        const was = x;
        x = a * was + c * v;
        v = b * was + d * v;
        y *= f;
      }
      return out;
    },
  };
}
