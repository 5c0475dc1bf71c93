/**
 * Do anchors differ? The log-rank test (Mantel 1966; Peto & Peto 1972), in strata where asked, and the same by permutation.
 *
 * With loads known exactly or from below it is the usual one: over every load at which one gave way, observed less
 * expected of each anchor with the hypergeometric covariance (R's survdiff to rounding). With loads known between two,
 * each pull has the score it has under one common curve (Turnbull's), and the covariance is that of scores dealt out at
 * random (Finkelstein 1986; Fay & Shih 1998). By permutation: the same scores, the anchors' names dealt out anew within
 * each stratum; it leans on no large number of pulls.
 */
import { choleskyInPlace, choleskySolve } from "../numeric/index.ts";
import { chiSquaredAbove, type Rng } from "../statistics/index.ts";
import { allExactOrHeldOn } from "./kaplan-meier.ts";
import { boundsOf, type Hold } from "./pull.ts";
import { turnbull } from "./turnbull.ts";

/** The log-rank test: statistic, degrees of freedom, p by theory and by permutation. */
export interface LogRank {
  readonly chi2: number;
  readonly df: number;
  readonly p: number;
  /** Share of permutations (the one seen among them) that differ as much or more; none when none were asked for. */
  readonly pPermuted?: number;
  /** Observed and expected numbers that gave way, a group each (with exact loads), or scores about zero. */
  readonly observed: readonly number[];
  readonly expected: readonly number[];
  /** `counts` with exact loads, `scores` with loads between two. */
  readonly by: "counts" | "scores";
}

/** Loads and endings by anchor, as the test takes them. */
export interface LogRankInput {
  readonly holds: readonly Hold[];
  /** Group of each pull, 0 … groups − 1. */
  readonly group: readonly number[];
  /** Stratum of each pull; all in one when left out. */
  readonly stratum?: readonly number[];
}

/** @returns undefined where there is nothing to compare: one group, or nothing gave way. */
export function logRank(input: LogRankInput, permutations = 0, rng?: Rng): LogRank | undefined {
  const groups = input.group.reduce((most, g) => Math.max(most, g), -1) + 1;
  if (groups < 2) return undefined;
  const strata = indicesByStratum(input);
  const exact = allExactOrHeldOn(input.holds);
  const scores = new Float64Array(input.holds.length);
  for (const members of strata) scoresOf(input.holds, members, exact, scores);
  const observed = new Float64Array(groups);
  const expected = new Float64Array(groups);
  const covariance = new Float64Array(groups * groups);
  const dealt = dealing(scores, input.group, strata, groups);
  if (exact) {
    for (const members of strata) count(input, members, groups, observed, expected, covariance);
  } else {
    observed.set(dealt.sums(input.group));
    covariance.set(dealt.covariance);
  }
  const excess = observed.map((seen, g) => seen - expected[g]!);
  const test = quadratic(excess, covariance, groups);
  if (test === undefined) return undefined;
  const answer = {
    ...test,
    p: chiSquaredAbove(test.chi2, test.df),
    observed: [...observed],
    expected: [...expected],
    by: exact ? ("counts" as const) : ("scores" as const),
  };
  if (permutations === 0 || rng === undefined) return answer;
  return { ...answer, pPermuted: permute(input.group, strata, dealt, permutations, rng) };
}

function indicesByStratum({ holds, stratum }: LogRankInput): number[][] {
  const members = new Map<number, number[]>();
  for (let i = 0; i < holds.length; i++) {
    const key = stratum?.[i] ?? 0;
    const list = members.get(key);
    if (list === undefined) members.set(key, [i]);
    else list.push(i);
  }
  return [...members.values()];
}

/** Observed, expected and hypergeometric covariance of one stratum, added to what is there. */
function count(
  { holds, group }: LogRankInput,
  members: readonly number[],
  groups: number,
  observed: Float64Array,
  expected: Float64Array,
  covariance: Float64Array,
): void {
  const load = (i: number): number => boundsOf(holds[i]!).low;
  const order = [...members].sort((a, b) => load(b) - load(a));
  const atRisk = new Float64Array(groups);
  const gone = new Float64Array(groups);
  let all = 0;
  // From the highest load down, those at risk only join.
  for (let at = 0; at < order.length; ) {
    const here = load(order[at]!);
    gone.fill(0);
    let d = 0;
    for (; at < order.length && load(order[at]!) === here; at++) {
      const g = group[order[at]!]!;
      atRisk[g] = atRisk[g]! + 1;
      all++;
      if (holds[order[at]!]!.kind === "gaveWay") {
        gone[g] = gone[g]! + 1;
        d++;
      }
    }
    if (d === 0) continue;
    const v = all > 1 ? (d * (all - d)) / (all - 1) : 0;
    for (let g = 0; g < groups; g++) {
      const share = atRisk[g]! / all;
      observed[g] = observed[g]! + gone[g]!;
      expected[g] = expected[g]! + d * share;
      for (let h = 0; h < groups; h++) {
        const other = atRisk[h]! / all;
        covariance[g * groups + h] = covariance[g * groups + h]! + v * share * ((g === h ? 1 : 0) - other);
      }
    }
  }
}

/** Log-rank scores of the members of a stratum under their common curve; high when it gave way early. */
function scoresOf(holds: readonly Hold[], members: readonly number[], exact: boolean, out: Float64Array): void {
  const own = members.map((i) => holds[i]!);
  if (exact) {
    // gave way less the cumulated hazard (Nelson–Aalen) at its load: observed less expected, pull by pull.
    const loads = own.map((hold) => boundsOf(hold).low);
    const order = own.map((_, k) => k).sort((a, b) => loads[a]! - loads[b]!);
    let hazard = 0;
    for (let at = 0; at < order.length; ) {
      let next = at;
      let d = 0;
      while (next < order.length && loads[order[next]!] === loads[order[at]!]) {
        if (own[order[next]!]!.kind === "gaveWay") d++;
        next++;
      }
      hazard += d / (order.length - at);
      for (; at < next; at++) out[members[order[at]!]!] = (own[order[at]!]!.kind === "gaveWay" ? 1 : 0) - hazard;
    }
    return;
  }
  const { intervals } = turnbull(own);
  const left = new Float64Array(intervals.length + 1).fill(1);
  for (const [j, { mass }] of intervals.entries()) left[j + 1] = Math.max(0, left[j]! - mass);
  /** Share still held where `passed` intervals lie below. */
  const heldWhere = (isBelow: (to: number) => boolean): number => {
    let low = 0;
    let high = intervals.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (isBelow(intervals[middle]!.to)) low = middle + 1;
      else high = middle;
    }
    return left[low]!;
  };
  const sLnS = (s: number): number => (s > 0 ? s * Math.log(s) : 0);
  for (const [k, hold] of own.entries()) {
    const { low, high } = boundsOf(hold);
    const before = heldWhere((to) => (low === high ? to < low : to <= low));
    const after = heldWhere((to) => to <= high);
    // derivative of ln(S(L) − S(R)) with respect to a common power of S
    const gap = before - after;
    out[members[k]!] = gap > 1e-12 ? (sLnS(before) - sLnS(after)) / gap : 1 + Math.log(Math.max(before, 1e-300));
  }
}

/** Sums of scores by group, and their covariance when names are dealt out at random within strata. */
function dealing(scores: Float64Array, group: readonly number[], strata: readonly number[][], groups: number) {
  const covariance = new Float64Array(groups * groups);
  const expected = new Float64Array(groups);
  for (const members of strata) {
    const n = members.length;
    const sizes = new Float64Array(groups);
    let sum = 0;
    for (const i of members) {
      sum += scores[i]!;
      sizes[group[i]!] = sizes[group[i]!]! + 1;
    }
    let squares = 0;
    for (const i of members) squares += (scores[i]! - sum / n) ** 2;
    for (let g = 0; g < groups; g++) {
      expected[g] = expected[g]! + (sizes[g]! * sum) / n;
      for (let h = 0; h < groups && n > 1; h++) {
        const both = (sizes[g]! / n) * ((g === h ? 1 : 0) - sizes[h]! / n);
        covariance[g * groups + h] = covariance[g * groups + h]! + (squares * n * both) / (n - 1);
      }
    }
  }
  const sums = (dealtTo: ArrayLike<number>): Float64Array => {
    const out = expected.map((value) => -value);
    for (let i = 0; i < scores.length; i++) out[dealtTo[i]!] = out[dealtTo[i]!]! + scores[i]!;
    return out;
  };
  return { covariance, sums };
}

/** xᵀ V⁻ x over the groups that vary; one of them follows from the others. */
function quadratic(x: Float64Array, v: Float64Array, groups: number): { chi2: number; df: number } | undefined {
  const kept: number[] = [];
  const scale = Math.max(...x.map((_, g) => v[g * groups + g]!));
  for (let g = 0; g < groups; g++) if (v[g * groups + g]! > 1e-12 * scale) kept.push(g);
  const n = kept.length - 1;
  if (n < 1 || !(scale > 0)) return undefined;
  const inner = new Float64Array(n * n);
  const solved = new Float64Array(n);
  for (let a = 0; a < n; a++) {
    solved[a] = x[kept[a]!]!;
    for (let b = 0; b < n; b++) inner[a * n + b] = v[kept[a]! * groups + kept[b]!]!;
  }
  if (!choleskyInPlace(inner, n, 1e-12)) return undefined;
  choleskySolve(inner, n, solved);
  let chi2 = 0;
  for (let a = 0; a < n; a++) chi2 += solved[a]! * x[kept[a]!]!;
  return { chi2, df: n };
}

function permute(
  group: readonly number[],
  strata: readonly number[][],
  dealt: ReturnType<typeof dealing>,
  permutations: number,
  rng: Rng,
): number {
  const groups = group.reduce((most, g) => Math.max(most, g), -1) + 1;
  const names = Int32Array.from(group);
  const seen = quadratic(dealt.sums(names), dealt.covariance, groups)?.chi2 ?? 0;
  let asMuch = 1;
  for (let turn = 0; turn < permutations; turn++) {
    for (const members of strata) {
      for (let k = members.length - 1; k > 0; k--) {
        const other = members[rng.integer(k + 1)]!;
        const here = members[k]!;
        const name = names[here]!;
        names[here] = names[other]!;
        names[other] = name;
      }
    }
    const chi2 = quadratic(dealt.sums(names), dealt.covariance, groups)?.chi2 ?? 0;
    // What differs by rounding alone is the same deal.
    if (chi2 >= seen * (1 - 1e-9)) asMuch++;
  }
  return asMuch / (permutations + 1);
}
