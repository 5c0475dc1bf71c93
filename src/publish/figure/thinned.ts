/** Pieces of time a long series is drawn in, each by its lowest and highest value: no peak is lost. */
const PIECES = 700;

/** Places of the lowest and highest value of each piece of time, in order. */
export function peaksKept(values: ArrayLike<number>): number[] {
  const count = values.length;
  if (count <= 2 * PIECES) return Array.from({ length: count }, (_, i) => i);
  const kept: number[] = [];
  for (let piece = 0; piece < PIECES; piece++) {
    const [from, until] = [Math.floor((piece * count) / PIECES), Math.floor(((piece + 1) * count) / PIECES)];
    let [low, high] = [from, from];
    for (let i = from; i < until; i++) {
      if (values[i]! < values[low]!) low = i;
      if (values[i]! > values[high]!) high = i;
    }
    kept.push(...(low === high ? [low] : [Math.min(low, high), Math.max(low, high)]));
  }
  return kept;
}
