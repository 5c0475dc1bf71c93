/** Cuts of a series into straight pieces, found from the bottom up, brought to where the lines fit best. */
import { costOf, line, lineCosts, type Piece } from "./line-fit.ts";

/** How far a cut is moved, and the longest sliver, grains. */
const REACH = 24;

/** Moves each cut to where its two lines fit best. */
export function settledCuts(y: Float64Array, cuts: number[], weight: Float64Array): number[] {
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
export function withoutSlivers(y: Float64Array, cuts: number[], penalty: number, weight: Float64Array): Piece[] {
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
