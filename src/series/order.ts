/**
 * The order of pulls: a block is a day at a site, and holds whole rounds (each anchor at each angle once) as far as its
 * hours go, each round shuffled on its own, so that what changes from day to day, site to site and hour to hour falls on
 * all alike. The same seed gives the same order.
 */
import { type Rng, rng } from "../statistics/index.ts";
import type { Series, SeriesDay } from "./series.ts";

/** A pull in its place, before it is known how it is had. */
export interface Placed {
  readonly day: SeriesDay;
  /** Block, from 1, and round within the series, from 1. */
  readonly block: number;
  readonly round: number;
  readonly anchor: string;
  /** rad */
  readonly angle: number;
  /** s since 1970 */
  readonly at: number;
}

/** Pulls placed, and how many of those asked found no hour. */
export interface Order {
  readonly placed: readonly Placed[];
  readonly withoutHour: number;
}

interface Wanted {
  readonly round: number;
  readonly anchor: string;
  readonly angle: number;
}

/** Pulls of a series in their order. */
export function orderOf(series: Series): Order {
  const random = rng(series.seed);
  const waiting: Wanted[] = [];
  for (let round = 1; round <= series.repeats; round++) waiting.push(...roundOf(series, round, random));
  const placed: Placed[] = [];
  let next = 0;
  let before: string | null = null;
  for (const [b, day] of series.days.entries()) {
    let at = day.from;
    // What lies ready on deck in the morning is the tester's choice: the first anchor of a day costs no change.
    before = null;
    while (next < waiting.length) {
      const one = waiting[next]!;
      const start: number = at + (before !== null && before !== one.anchor ? series.changeTime : 0);
      if (start + series.pullTime > day.to) break;
      placed.push({ day, block: b + 1, ...one, at: start });
      at = start + series.pullTime;
      before = one.anchor;
      next++;
    }
  }
  return { placed, withoutHour: waiting.length - next };
}

function roundOf({ anchors, angles, changes }: Series, round: number, random: Rng): Wanted[] {
  const names = anchors.map(({ name }) => name);
  if (changes === "free")
    return shuffled(
      names.flatMap((anchor) => angles.map((angle) => ({ round, anchor, angle }))),
      random,
    );
  return shuffled(names, random).flatMap((anchor) =>
    shuffled(angles, random).map((angle) => ({ round, anchor, angle })),
  );
}

/** @source Fisher & Yates by Durstenfeld, Commun. ACM 7 (1964) 420 (recalled) */
function shuffled<T>(list: readonly T[], random: Rng): T[] {
  const out = [...list];
  for (let i = out.length - 1; i > 0; i--) {
    const j = random.integer(i + 1);
    [out[i], out[j]] = [out[j]!, out[i]!];
  }
  return out;
}
