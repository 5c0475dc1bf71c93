import type { Measured, Readings, Span } from "./trace.ts";

/** A load that was never fallen below for some time. */
export interface Sustained extends Span {
  /** For how long at least, s. */
  readonly duration: number;
  /** The lowest reading meanwhile, zero taken off, N, with the standard uncertainty of one reading. */
  readonly load: Measured;
}

/**
 * The highest load sustained for each duration, s: among all stretches that last so long, the one whose lowest reading is
 * highest, the first where several are alike. None where no stretch without a gap lasts so long.
 * @param load zero taken off, lone readings bridged, N, one for each reading
 * @param longestGap a longer silence ends a stretch, s
 */
export function sustainedLoads(
  { time }: Pick<Readings, "time">,
  load: Float64Array,
  durations: readonly number[],
  longestGap: number,
  uOf: (i: number) => number,
): Sustained[] {
  const room = { rising: new Int32Array(1024) };
  return durations.flatMap((duration) => {
    const best = highestFor(time, load, duration, longestGap, room);
    return best === null
      ? []
      : [
          {
            duration,
            from: time[best.first]!,
            to: time[best.last]!,
            load: { value: load[best.at]!, u: uOf(best.at) },
          },
        ];
  });
}

/**
 * The stretch of readings, first to last, and where it is lowest; each reading is looked at twice at most.
 * @param room for the places whose load is below all that came after them, in order, round and round: the first is the
 * lowest of the stretch
 */
function highestFor(
  time: Float64Array,
  load: Float64Array,
  duration: number,
  longestGap: number,
  room: { rising: Int32Array },
): { first: number; last: number; at: number } | null {
  let [head, tail, first] = [0, 0, 0];
  let { rising } = room;
  let round = rising.length - 1;
  let best: { first: number; last: number; at: number } | null = null;
  for (let last = 0; last < time.length; last++) {
    if (last > 0 && time[last]! - time[last - 1]! > longestGap) {
      first = last;
      head = tail = 0;
    }
    while (tail > head && load[rising[(tail - 1) & round]!]! >= load[last]!) tail--;
    if (tail - head > round) {
      const wider = new Int32Array(2 * rising.length);
      for (let k = head; k < tail; k++) wider[k & (wider.length - 1)] = rising[k & round]!;
      room.rising = rising = wider;
      round = rising.length - 1;
    }
    rising[tail++ & round] = last;
    // As short a stretch as lasts long enough: a longer one is no higher.
    while (time[last]! - time[first + 1]! >= duration) {
      first++;
      if (rising[head & round]! < first) head++;
    }
    if (time[last]! - time[first]! < duration) continue;
    const at = rising[head & round]!;
    if (best === null || load[at]! > load[best.at]!) best = { first, last, at };
  }
  return best;
}
