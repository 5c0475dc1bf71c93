/** Seeded chance for another maker of pulls: nothing here is shared with the simulator the older settings were chosen on. */
export interface Chance {
  /** Even in [0, 1). */
  next(): number;
  between(low: number, high: number): number;
  normal(): number;
  coin(share: number): boolean;
}

/** A counter hashed by the finaliser of SplitMix64 in 32 bits: far apart for neighbouring seeds. */
export function chanceOf(seed: number): Chance {
  let state = Math.imul(seed + 1, 0x9e3779b9) >>> 0;
  const next = (): number => {
    state = (state + 0x9e3779b9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
    z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
    return ((z ^ (z >>> 16)) >>> 0) / 2 ** 32;
  };
  return {
    next,
    between: (low, high) => low + (high - low) * next(),
    normal: () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
    coin: (share) => next() < share,
  };
}

/** A stationary first-order Gauss–Markov series of unit variance, a value every `step` s. */
export function wander(chance: Chance, count: number, step: number, time: number): Float64Array {
  const keep = Math.exp(-step / time);
  const fresh = Math.sqrt(1 - keep * keep);
  const out = new Float64Array(count);
  let x = chance.normal();
  for (let k = 0; k < count; k++) {
    out[k] = x;
    x = keep * x + fresh * chance.normal();
  }
  return out;
}

/** The same passed once more through its own lag, and made of unit variance: without corners, as receivers that smooth are. */
export function smoothWander(chance: Chance, count: number, step: number, time: number): Float64Array {
  const lead = Math.ceil((6 * time) / step);
  const rough = wander(chance, count + lead, step, time);
  const keep = Math.exp(-step / time);
  const out = new Float64Array(count);
  let x = 0;
  for (let k = 0; k < count + lead; k++) {
    x = keep * x + (1 - keep) * rough[k]!;
    // A lag of its own time constant leaves half of the variance of a first-order series.
    if (k >= lead) out[k - lead] = x * Math.SQRT2;
  }
  return out;
}

/** Swell of unit variance in groups: waves of neighbouring periods, s, that beat. */
export function groups(chance: Chance, shortest: number, longest: number): (t: number) => number {
  const parts = Array.from({ length: 7 }, () => ({
    w: (2 * Math.PI) / chance.between(shortest, longest),
    phase: chance.between(0, 2 * Math.PI),
  }));
  return (t) => parts.reduce((sum, p) => sum + Math.sin(p.w * t + p.phase), 0) * Math.sqrt(2 / parts.length);
}
