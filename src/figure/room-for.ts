/** Finds a place for a label among those that would do: the first that covers nothing, or the one that covers least. */

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export function boxAround(x: number, y: number, half: number): Box {
  return { left: x - half, top: y - half, right: x + half, bottom: y + half };
}

/** The box of a line of text by its baseline. */
export function textBox(x: number, y: number, width: number, size: number, anchor: "start" | "middle" | "end"): Box {
  const left = anchor === "start" ? x : anchor === "end" ? x - width : x - width / 2;
  return { left, top: y - 0.8 * size, right: left + width, bottom: y + 0.25 * size };
}

export function overlap(a: Box, b: Box): number {
  const width = Math.min(a.right, b.right) - Math.max(a.left, b.left);
  const height = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
  return width > 0 && height > 0 ? width * height : 0;
}

/**
 * @param candidates in order of liking; what a leader crosses counts as well
 * @param within where the label has to stay; what hangs over counts ten times what is covered
 */
export function roomFor<T extends { readonly box: Box; readonly leader?: readonly Box[] }>(
  candidates: readonly T[],
  taken: readonly Box[],
  within: Box,
): T | null {
  let best: T | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    const { box } = candidate;
    const area = (box.right - box.left) * (box.bottom - box.top);
    let cost = 10 * (area - overlap(box, within));
    for (const other of taken) {
      cost += overlap(box, other);
      for (const piece of candidate.leader ?? []) cost += overlap(piece, other);
      if (cost >= least) break;
    }
    if (cost < least - 1e-9) {
      best = candidate;
      least = cost;
      if (cost < 1e-9) break;
    }
  }
  return best;
}
