/**
 * Cuts an even series into straight pieces: the cut that makes Σ (y − line)²/σ² + β · pieces small, found from the bottom up
 * by joining, again and again, the two neighbours whose joining costs least, until the cheapest costs more than β.
 * Then each cut is moved to where the two lines beside it fit best, and cuts that have become needless go.
 * O(n log n).
 *
 * β = 3 ln n is Schwarz's criterion: a further piece has a level, a slope and a place.
 * @source Schwarz, Ann. Statist. 6 (1978) 461; joining from the bottom: Keogh et al., ICDM 2001 (both recalled)
 */
export interface Piece {
  /** Grains [from, to). */
  readonly from: number;
  readonly to: number;
  readonly mean: number;
  /** Change per grain. */
  readonly slope: number;
}

/** @param weight 1/σ² of each value; alike everywhere (1) when the penalty is in squared units of the series */
export function straightPieces(y: Float64Array, penalty: number, weight: Float64Array): Piece[] {
  const n = y.length;
  if (n === 0) return [];
  const first = Math.max(1, Math.floor(n / 2));
  const start = new Int32Array(first + 1);
  for (let j = 0; j < first; j++) start[j] = 2 * j;
  start[first] = n;
  const size = new Float64Array(first);
  const mx = new Float64Array(first);
  const my = new Float64Array(first);
  const sxx = new Float64Array(first);
  const sxy = new Float64Array(first);
  const syy = new Float64Array(first);
  const next = new Int32Array(first);
  const prev = new Int32Array(first);
  const version = new Int32Array(first);
  const alive = new Uint8Array(first).fill(1);
  for (let j = 0; j < first; j++) {
    next[j] = j + 1 < first ? j + 1 : -1;
    prev[j] = j - 1;
    measure(j, start[j]!, start[j + 1]!);
  }
  const heap = new Heap(first);
  for (let j = 0; j + 1 < first; j++) heap.push(costOfJoining(j, j + 1), j, 0);
  while (heap.size > 0) {
    const { cost, key, stamp } = heap.pop();
    if (alive[key] === 0 || version[key] !== stamp) continue;
    if (cost > penalty) break;
    const b = next[key]!;
    join(key, b);
    alive[b] = 0;
    next[key] = next[b]!;
    if (next[b]! >= 0) prev[next[b]!] = key;
    version[key]!++;
    if (next[key]! >= 0) heap.push(costOfJoining(key, next[key]!), key, version[key]!);
    const p = prev[key]!;
    if (p >= 0) {
      version[p]!++;
      heap.push(costOfJoining(p, key), p, version[p]!);
    }
  }
  const cuts: number[] = [0];
  for (let j = next[0]!; j >= 0; j = next[j]!) cuts.push(start[j]!);
  cuts.push(n);
  return withoutSlivers(y, settledCuts(y, cuts, weight), penalty, weight);

  function measure(j: number, from: number, to: number): void {
    let sx = 0;
    let sy = 0;
    let m = 0;
    for (let k = from; k < to; k++) {
      sx += weight[k]! * k;
      sy += weight[k]! * y[k]!;
      m += weight[k]!;
    }
    size[j] = m;
    mx[j] = sx / m;
    my[j] = sy / m;
    for (let k = from; k < to; k++) {
      const dx = k - mx[j]!;
      const dy = y[k]! - my[j]!;
      sxx[j]! += weight[k]! * dx * dx;
      sxy[j]! += weight[k]! * dx * dy;
      syy[j]! += weight[k]! * dy * dy;
    }
  }

  function rss(j: number): number {
    return sxx[j]! > 0 ? Math.max(0, syy[j]! - (sxy[j]! * sxy[j]!) / sxx[j]!) : syy[j]!;
  }

  function costOfJoining(a: number, b: number): number {
    const w = (size[a]! * size[b]!) / (size[a]! + size[b]!);
    const dx = mx[b]! - mx[a]!;
    const dy = my[b]! - my[a]!;
    const cxx = sxx[a]! + sxx[b]! + w * dx * dx;
    const cxy = sxy[a]! + sxy[b]! + w * dx * dy;
    const cyy = syy[a]! + syy[b]! + w * dy * dy;
    return Math.max(0, cyy - (cxy * cxy) / cxx) - rss(a) - rss(b);
  }

  function join(a: number, b: number): void {
    const m = size[a]! + size[b]!;
    const w = (size[a]! * size[b]!) / m;
    const dx = mx[b]! - mx[a]!;
    const dy = my[b]! - my[a]!;
    sxx[a]! += sxx[b]! + w * dx * dx;
    sxy[a]! += sxy[b]! + w * dx * dy;
    syy[a]! += syy[b]! + w * dy * dy;
    mx[a] = (size[a]! * mx[a]! + size[b]! * mx[b]!) / m;
    my[a] = (size[a]! * my[a]! + size[b]! * my[b]!) / m;
    size[a] = m;
  }
}

/** How far a cut is moved, and the longest sliver, grains. */
const REACH = 24;

/** Moves each cut to where its two lines fit best. */
function settledCuts(y: Float64Array, cuts: number[], weight: Float64Array): number[] {
  for (let pass = 0; pass < 2; pass++) {
    for (let c = 1; c + 1 < cuts.length; c++) {
      const a = cuts[c - 1]!;
      const b = cuts[c + 1]!;
      // Far ends of long neighbours say nothing of where the cut lies.
      const low = Math.max(a + 2, cuts[c]! - REACH);
      const high = Math.min(b - 2, cuts[c]! + REACH);
      const left = Math.max(a, cuts[c]! - 4 * REACH);
      const right = Math.min(b, cuts[c]! + 4 * REACH);
      if (high <= low) continue;
      const before = lineCosts(y, left, high, 1, weight);
      const after = lineCosts(y, right - 1, low - 1, -1, weight);
      let best = cuts[c]!;
      let least = Number.POSITIVE_INFINITY;
      for (let k = low; k <= high; k++) {
        const cost = before[k - left - 1]! + after[right - 1 - k]!;
        if (cost < least) {
          least = cost;
          best = k;
        }
      }
      cuts[c] = best;
    }
  }
  return cuts;
}

/**
 * Joining from the bottom may lay a short piece across a step, or leave a cut that moving has made needless: those
 * go whose going costs less than β. Says what each piece left is.
 */
function withoutSlivers(y: Float64Array, cuts: number[], penalty: number, weight: Float64Array): Piece[] {
  const kept = [cuts[0]!];
  for (let c = 1; c < cuts.length; c++) {
    const a = kept.at(-1)!;
    const m = cuts[c]!;
    const b = cuts[c + 1];
    const d = cuts[c + 2];
    if (b === undefined) kept.push(m);
    else if (costOf(y, a, b, weight) - costOf(y, a, m, weight) - costOf(y, m, b, weight) < penalty) continue;
    else if (d === undefined || b - m > REACH) kept.push(m);
    else {
      // One cut within the sliver in place of the two at its ends.
      const before = lineCosts(y, a, b, 1, weight);
      const after = lineCosts(y, d - 1, m - 1, -1, weight);
      let best = m;
      for (let k = m; k <= b; k++)
        if (before[k - a - 1]! + after[d - 1 - k]! < before[best - a - 1]! + after[d - 1 - best]!) best = k;
      const two = before[best - a - 1]! + after[d - 1 - best]!;
      const three = costOf(y, a, m, weight) + costOf(y, m, b, weight) + costOf(y, b, d, weight);
      kept.push(two - three < penalty ? best : m);
      if (two - three < penalty) c++;
    }
  }
  const pieces: Piece[] = [];
  for (let c = 0; c + 1 < kept.length; c++) pieces.push(line(y, kept[c]!, kept[c + 1]!));
  return pieces;
}

/** Weighted residual sum of squares of the line through y[from, to). */
function costOf(y: Float64Array, from: number, to: number, weight: Float64Array): number {
  return lineCosts(y, from, to, 1, weight)[to - from - 1]!;
}

/** Weighted residual sums of squares of lines through y[from..k], k running in the given direction; entry j covers j + 1 grains. */
function lineCosts(y: Float64Array, from: number, to: number, step: 1 | -1, weight: Float64Array): Float64Array {
  const out = new Float64Array(Math.abs(to - from));
  let n = 0;
  let mx = 0;
  let my = 0;
  let sxx = 0;
  let sxy = 0;
  let syy = 0;
  for (let j = 0; j < out.length; j++) {
    const v = y[from + step * j]!;
    const w = weight[from + step * j]!;
    n += w;
    const dx = j - mx;
    const dy = v - my;
    mx += (w * dx) / n;
    my += (w * dy) / n;
    sxx += w * dx * (j - mx);
    sxy += w * dx * (v - my);
    syy += w * dy * (v - my);
    out[j] = sxx > 0 ? Math.max(0, syy - (sxy * sxy) / sxx) : 0;
  }
  return out;
}

/** The straight line through y[from, to). */
export function line(y: Float64Array, from: number, to: number): Piece {
  const n = to - from;
  let mean = 0;
  for (let k = from; k < to; k++) mean += y[k]!;
  mean /= n;
  let sxy = 0;
  const middle = from + (n - 1) / 2;
  for (let k = from; k < to; k++) sxy += (k - middle) * (y[k]! - mean);
  return { from, to, mean, slope: n > 1 ? (12 * sxy) / (n * (n * n - 1)) : 0 };
}

/** A heap of joinings, cheapest first; old entries are told by their stamp. */
class Heap {
  size = 0;
  private cost: Float64Array;
  private key: Int32Array;
  private stamp: Int32Array;

  constructor(room: number) {
    this.cost = new Float64Array(4 * room + 4);
    this.key = new Int32Array(4 * room + 4);
    this.stamp = new Int32Array(4 * room + 4);
  }

  push(cost: number, key: number, stamp: number): void {
    let i = this.size++;
    while (i > 0) {
      const up = (i - 1) >> 1;
      if (this.cost[up]! <= cost) break;
      this.move(up, i);
      i = up;
    }
    this.put(i, cost, key, stamp);
  }

  pop(): { cost: number; key: number; stamp: number } {
    const top = { cost: this.cost[0]!, key: this.key[0]!, stamp: this.stamp[0]! };
    const n = --this.size;
    const cost = this.cost[n]!;
    const key = this.key[n]!;
    const stamp = this.stamp[n]!;
    let i = 0;
    for (;;) {
      let down = 2 * i + 1;
      if (down >= n) break;
      if (down + 1 < n && this.cost[down + 1]! < this.cost[down]!) down++;
      if (this.cost[down]! >= cost) break;
      this.move(down, i);
      i = down;
    }
    if (n > 0) this.put(i, cost, key, stamp);
    return top;
  }

  private move(from: number, to: number): void {
    this.put(to, this.cost[from]!, this.key[from]!, this.stamp[from]!);
  }

  private put(i: number, cost: number, key: number, stamp: number): void {
    this.cost[i] = cost;
    this.key[i] = key;
    this.stamp[i] = stamp;
  }
}
