import { fetchStretch } from "./stretches.ts";
import type { Window } from "./window.ts";

/** Readings a reduction takes at once: more would fill a phone. */
export const MOST_READINGS = 400_000;
const PIECE = 20_000;

/** Every reading of one channel in a window, in the order of time; fetched piece by piece. */
export async function readingsOf(
  log: string,
  channel: string,
  window: Window,
  expected: number,
  signal: AbortSignal,
): Promise<{ time: Float64Array; load: Float64Array }> {
  const times: Float64Array[] = [];
  const loads: Float64Array[] = [];
  let rows = 0;
  const take = async (piece: Window, depth: number): Promise<void> => {
    const bands = await fetchStretch(log, piece, PIECE, [channel], signal);
    if (!bands.readings && depth < 24) {
      const middle = (piece.from + piece.to) / 2;
      await take({ from: piece.from, to: middle }, depth + 1);
      await take({ from: middle, to: piece.to }, depth + 1);
      return;
    }
    // A reading on the seam of two pieces belongs to both: it is taken once.
    const last = times.at(-1)?.at(-1) ?? Number.NEGATIVE_INFINITY;
    let begin = 0;
    while (begin < bands.from.length && bands.from[begin]! === last && last === piece.from) begin++;
    times.push(bands.from.subarray(begin));
    loads.push(bands.columns.get(channel)!.min.subarray(begin));
    rows += bands.from.length - begin;
  };
  const pieces = Math.max(1, Math.ceil((1.2 * expected) / PIECE));
  const width = (window.to - window.from) / pieces;
  for (let k = 0; k < pieces; k++)
    await take({ from: window.from + k * width, to: k === pieces - 1 ? window.to : window.from + (k + 1) * width }, 0);
  const out = { time: new Float64Array(rows), load: new Float64Array(rows) };
  let at = 0;
  times.forEach((part, i) => {
    out.time.set(part, at);
    out.load.set(loads[i]!, at);
    at += part.length;
  });
  return out;
}
