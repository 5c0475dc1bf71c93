import { type Even, meanOver, type Sums, sums, unbroken } from "./even.ts";
import { slowVariance } from "./scatter.ts";
import type { TraceSettings } from "./settings.ts";
import type { Span } from "./trace.ts";
import { below, rangeOf } from "./zero.ts";

/** The load with its zero taken off, in grains, and what was learnt of it as a whole. */
export interface Loaded {
  readonly even: Even;
  readonly sums: Sums;
  /** Highest load kept for some seconds, N. */
  readonly top: number;
  /** Below this the rode counts as slack, N. */
  readonly slackLimit: number;
  readonly slack: readonly Span[];
  /** Load around each grain, averaged over some seconds, N. */
  readonly level: Float64Array;
  /** Stretches under load, between the slack ones. */
  readonly pulls: readonly Span[];
  /**
   * Variance per grain that white noise would need to move slow means as these move, N²: a part that is there
   * without load, and one that grows with its square (surge).
   */
  readonly variance: { readonly slack: number; readonly perLoad: number };
  /** Of the log itself: standard deviation of one reading about its neighbours, N, and the time between two, s. */
  readonly reading: Reading;
}

/** What one reading of a log tells. */
export interface Reading {
  readonly noise: number;
  readonly interval: number;
}

/** Variance per grain at a load, N². */
export function varianceAt(loaded: Loaded, load: number): number {
  return loaded.variance.slack + loaded.variance.perLoad * load * load;
}

export function loadedOf(even: Even, settings: TraceSettings, reading: Reading): Loaded {
  const top = Math.max(0, rangeOf(even, settings.slack.shortest).high);
  const slackLimit = settings.slack.below * top;
  const slack = below(even, slackLimit, settings.slack.shortest);
  const end = even.start + even.grain * even.value.length;
  const pulls: Span[] = [];
  let at = even.start;
  for (const s of [...slack, { from: end, to: end }]) {
    if (s.from - at > 1e-9) pulls.push({ from: at, to: s.from });
    at = s.to;
  }
  const longest = Math.max(1, Math.round(settings.plateau.shortest / 2 / even.grain));
  const level = levels(even, settings.plateau.shortest / 2);
  const runsOf = (value: Float64Array): Float64Array[] => unbroken(value).map(([a, b]) => value.subarray(a, b));
  const relative = slowVariance(
    runsOf(even.value.map((v, k) => (v > slackLimit ? v / level[k]! : Number.NaN))),
    longest,
  );
  const quiet = slowVariance(runsOf(even.value.map((v) => (v <= slackLimit ? v : Number.NaN))), longest);
  return {
    even,
    sums: sums(even.value),
    top,
    slackLimit,
    slack,
    pulls,
    level,
    variance: { slack: quiet, perLoad: relative },
    reading,
  };
}

/** Running mean of the load over some seconds, for each grain. */
function levels(even: Even, seconds: number): Float64Array {
  const s = sums(even.value);
  const half = Math.max(1, Math.round(seconds / 2 / even.grain));
  return even.value.map((v, k) => {
    const m = meanOver(s, k - half, k + half + 1);
    return Number.isNaN(m) ? v : m;
  });
}

export function grainAt(even: Even, t: number): number {
  return Math.max(0, Math.min(even.value.length, Math.round((t - even.start) / even.grain)));
}
