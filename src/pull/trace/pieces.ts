import { JoiningHeap } from "./joining-heap.ts";
import type { Piece } from "./line-fit.ts";
import { settledCuts, withoutSlivers } from "./settled-cuts.ts";

/**
 * Cuts an even series into straight pieces: the cut that makes Σ (y − line)²/σ² + β · pieces small, found from the bottom up
 * by joining, again and again, the two neighbours whose joining costs least, until the cheapest costs more than β.
 * Then each cut is moved to where the two lines beside it fit best, and cuts that have become needless go.
 * O(n log n).
 *
 * β = 3 ln n is Schwarz's criterion: a further piece has a level, a slope and a place.
 * @source Schwarz, Ann. Statist. 6 (1978) 461; joining from the bottom: Keogh et al., ICDM 2001 (both recalled)
 * @param weight 1/σ² of each value; alike everywhere (1) when the penalty is in squared units of the series
 */
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
  const heap = new JoiningHeap(first);
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
