// The x > 0 at which a share reaches a given one. In ln x the logarithms of the shares below and above are concave for
// the distributions here, so the secant through the last two points runs to the root without care for scale: tails of
// 1e-300 and quantiles of 1e100 are as near as others. A bracket catches what the secant throws far.

// Room is left at both ends of the doubles for what shares do with x.
const LEAST = Math.log(1e-307);
const MOST = 690;

/**
 * @param share a share that only rises or only falls with x, as exact as the answer is wanted.
 * @param wanted the share to be reached. @param guess where to begin.
 * @returns x as exact as the share's own rounding lets it be; 0 or Infinity when it is below 1e-307 or beyond 1e299.
 */
export function whereShareIs(share: (x: number) => number, wanted: number, rising: boolean, guess: number): number {
  const missAt = (x: number) => {
    const log = logRatio(share(x), wanted);
    return rising ? log : -log;
  };
  let low = LEAST;
  let high = MOST;
  let x = Math.log(guess) > LEAST && Math.log(guess) < MOST ? guess : 1;
  let last = Number.NaN;
  let lastMiss = Number.NaN;
  for (let turn = 0; turn < 200; turn++) {
    const miss = missAt(x);
    if (miss === 0) return x;
    // Once the miss is rounding and no longer shrinks, there is no more to learn.
    if (Math.abs(miss) < 1e-14 && Math.abs(miss) >= Math.abs(lastMiss)) return last;
    const u = Math.log(x);
    if (miss < 0) low = Math.max(low, u);
    else high = Math.min(high, u);
    // The first step is a short one towards the root, only to learn the slope.
    const step = Number.isFinite(lastMiss)
      ? (-miss * logRatio(x, last)) / (miss - lastMiss)
      : -Math.sign(miss) * Math.min(0.1, 0.01 * Math.abs(miss));
    const inside = u + step > low - 1e-12 && u + step < high + 1e-12 && Number.isFinite(miss);
    if (!inside && high - low < 1e-12) break;
    last = x;
    lastMiss = miss;
    // The step is put on x itself: through ln x it would lose the digits of a large logarithm.
    x = inside ? x + x * Math.expm1(step) : Math.exp((low + high) / 2);
    if (x === last || x === 0 || x === Number.POSITIVE_INFINITY) break;
  }
  const end = Math.log(x);
  return end > MOST - 1e-6 ? Number.POSITIVE_INFINITY : end < LEAST + 1e-6 ? 0 : x;
}

/** ln(a/b), to its last digits also where a and b are nearly the same. */
function logRatio(a: number, b: number): number {
  return Math.abs(a - b) < 0.5 * b ? Math.log1p((a - b) / b) : Math.log(a / b);
}
