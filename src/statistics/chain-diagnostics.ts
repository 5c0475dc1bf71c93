/**
 * Whether chains may be believed: R-hat of ranks over split chains, and effective numbers of draws in the bulk and the
 * tails (Vehtari, Gelman, Simpson, Carpenter & Bürkner, Bayesian Analysis 16, 2021, 667).
 */
import { normalQuantile } from "./normal.ts";

/** Whether chains of draws agree, and how many independent draws they are worth. */
export interface ChainDiagnosis {
  /** The larger of the ranks' and the folded ranks'; 1 for chains that agree, to be doubted above 1.01. */
  readonly rHat: number;
  /** Effective draws for the middle. */
  readonly bulk: number;
  /** Effective draws for the 5 % and 95 % quantiles, the fewer of the two. */
  readonly tail: number;
}

/**
 * The three figures of the head of this file for one parameter; of draws that are all alike, R-hat 1 and every draw.
 * @param chains the parameter's draws, chain by chain, of the same length, at least 4
 */
export function diagnoseChains(chains: readonly Float64Array[]): ChainDiagnosis {
  const halves = split(chains);
  const all = concat(halves);
  if (all.every((x) => x === all[0])) return { rHat: 1, bulk: all.length, tail: all.length };
  const middle = quantileOf(all, 0.5);
  const ranked = ranks(halves);
  const folded = ranks(halves.map((half) => half.map((x) => Math.abs(x - middle))));
  const low = quantileOf(all, 0.05);
  const high = quantileOf(all, 0.95);
  return {
    rHat: Math.max(plainRHat(ranked), plainRHat(folded)),
    bulk: effectiveDraws(ranked),
    tail: Math.min(
      effectiveDraws(halves.map((half) => half.map((x) => (x <= low ? 1 : 0)))),
      effectiveDraws(halves.map((half) => half.map((x) => (x <= high ? 1 : 0)))),
    ),
  };
}

function split(chains: readonly Float64Array[]): Float64Array[] {
  return chains.flatMap((chain) => {
    const half = Math.floor(chain.length / 2);
    return [chain.slice(0, half), chain.slice(chain.length - half)];
  });
}

function concat(parts: readonly Float64Array[]): Float64Array {
  const all = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

function quantileOf(values: Float64Array, p: number): number {
  const sorted = values.slice().sort();
  const at = p * (sorted.length - 1);
  const low = Math.floor(at);
  return sorted[low]! + (at - low) * (sorted[Math.min(low + 1, sorted.length - 1)]! - sorted[low]!);
}

/** Normal scores of the ranks among all, ties sharing their mean rank (Blom's 3/8). */
function ranks(halves: readonly Float64Array[]): Float64Array[] {
  const all = concat(halves);
  const order = Uint32Array.from(all, (_, i) => i).sort((a, b) => all[a]! - all[b]!);
  const score = new Float64Array(all.length);
  for (let at = 0; at < order.length; ) {
    let next = at;
    while (next < order.length && all[order[next]!] === all[order[at]!]) next++;
    const rank = (at + 1 + next) / 2;
    const z = normalQuantile((rank - 0.375) / (all.length + 0.25));
    for (; at < next; at++) score[order[at]!] = z;
  }
  let from = 0;
  return halves.map((half) => {
    const part = score.slice(from, from + half.length);
    from += half.length;
    return part;
  });
}

function meanOf(x: Float64Array): number {
  let sum = 0;
  for (const value of x) sum += value;
  return sum / x.length;
}

function plainRHat(chains: readonly Float64Array[]): number {
  const n = chains[0]!.length;
  const means = Float64Array.from(chains, meanOf);
  const within = meanOf(Float64Array.from(chains, (chain, k) => squaresAbout(chain, means[k]!) / (n - 1)));
  const between = (n * squaresAbout(means, meanOf(means))) / (chains.length - 1);
  if (within === 0) return between === 0 ? 1 : Number.POSITIVE_INFINITY;
  return Math.sqrt((((n - 1) / n) * within + between / n) / within);
}

function squaresAbout(x: Float64Array, middle: number): number {
  let sum = 0;
  for (const value of x) sum += (value - middle) ** 2;
  return sum;
}

/** m n / τ, τ = −1 + 2 Σ (ρ₂ₖ + ρ₂ₖ₊₁) over pairs while they are positive and made to fall (Geyer 1992). */
function effectiveDraws(chains: readonly Float64Array[]): number {
  const m = chains.length;
  const n = chains[0]!.length;
  const means = Float64Array.from(chains, meanOf);
  const lagged = (lag: number): number => {
    let sum = 0;
    for (let c = 0; c < m; c++) {
      const chain = chains[c]!;
      const middle = means[c]!;
      let own = 0;
      for (let i = 0; i + lag < n; i++) own += (chain[i]! - middle) * (chain[i + lag]! - middle);
      sum += own / n;
    }
    return sum / m;
  };
  const within = (lagged(0) * n) / (n - 1);
  const plus = ((n - 1) / n) * within + squaresAbout(means, meanOf(means)) / (m - 1);
  if (!(plus > 0)) return m * n;
  const rho = (lag: number): number => 1 - (within - (lagged(lag) * n) / (n - 1)) / plus;
  let sum = 0;
  let before = Number.POSITIVE_INFINITY;
  for (let lag = 0; lag + 1 < n; lag += 2) {
    const pair = (lag === 0 ? 1 : rho(lag)) + rho(lag + 1);
    if (pair < 0) break;
    before = Math.min(before, pair);
    sum += before;
  }
  const tau = Math.max(-1 + 2 * sum, 1 / Math.log10(m * n));
  return (m * n) / tau;
}
