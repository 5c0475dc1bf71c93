import { likelyMean, logSum } from "../../statistics/index.ts";
import type { Measured } from "../trace/trace.ts";
import { type ByKind, chanceMoved, logEither, type MayHaveGone } from "./chance-moved.ts";
import type { Known } from "./found-movements.ts";
import type { Ramp } from "./ramp.ts";
import type { StretchModel } from "./stretch.ts";

/** How far the anchor moved in some time, m, and the chance that it was more than a distance. */
export interface Moved extends Measured {
  readonly chance: (over: number) => number;
}

/** The direction is known to a value, and to √3 standard uncertainties either side: Gauss–Hermite in three points. */
const POINTS = [
  [-Math.sqrt(3), 1 / 6],
  [0, 2 / 3],
  [Math.sqrt(3), 1 / 6],
] as const;
/** A direction no better known than this is not followed farther, rad. */
const VAGUE = 0.5;
/** A kind of error that with any movement is so much less likely, in ln, than the likeliest is left out. */
const UNLIKELY = 10;
/** Half of what may have been is a movement over just the time asked about. */
const HALF = Math.log(0.5);

/** The movement in one window: over all kinds of error and over what the direction may be. */
export function movedIn(known: Known, asked: Ramp): Moved {
  const bases = basesOf(known, asked);
  const alone = bases.map(({ stayed, rest }): ByKind => ({ stayed, went: [{ ...rest(asked), inside: 1, share: 0 }] }));
  // Where a movement that was found lies in the time asked about, the kinds of error are known by it as it was found.
  const isFound = reaches(known, asked);
  const weights = isFound ? bases.map(({ found }) => found) : alone.map(logEither);
  const { mean, variance } = likelyMean(
    alone.flatMap(({ went }, i) => went.map(({ value, u }) => ({ at: value, u, log: weights[i]! }))),
  )!;
  let chance: ((over: number) => number) | undefined;
  return {
    value: mean,
    u: Math.sqrt(Math.max(1e-12, variance)),
    chance(over) {
      chance ??= chanceMoved(
        isFound
          ? alone.map(({ went }, i) => ({ stayed: weights[i]! - logEither({ stayed: 0, went }), went }))
          : withReaching(known.model, asked, bases, alone),
      );
      return chance(over);
    },
  };
}

/** What one kind of error, in one direction, makes of the places when the anchor stayed, and of any movement besides. */
interface Basis {
  readonly error: number;
  readonly stayed: number;
  /** ln of its weight when all movements lie as they were found. */
  readonly found: number;
  readonly rest: (ramp: Ramp, power?: number) => Measured;
}

/** Worked out once for all times that no movement found reaches into. */
const worked = new WeakMap<Known, readonly Basis[]>();

/** Whether a movement that was found reaches into a time. */
function reaches({ ramps }: Known, asked: Ramp): boolean {
  return ramps.some((r) => r.to > asked.from && r.from < asked.to);
}

function basesOf(known: Known, asked: Ramp): readonly Basis[] {
  const apart = !reaches(known, asked);
  const before = apart ? worked.get(known) : undefined;
  if (before) return before;
  const { model, direction, across, weights } = known;
  const others = known.ramps.flatMap((r) => outside(r, asked));
  const bases = POINTS.flatMap(([at, chance]) => {
    const y = model.along(direction.value + at * Math.min(VAGUE, direction.u));
    return across.map(
      (log, error): Basis => ({
        error,
        stayed: Math.log(chance) + log + model.fit(error, y, others).evidence,
        found: Math.log(chance * weights[error]!),
        rest: model.residual(error, y, others),
      }),
    );
  });
  if (apart) worked.set(known, bases);
  return bases;
}

/**
 * The same with movements that began before the time asked about, or went on after it: half of what may have been. Those
 * that the fixes speak against, or show less than their ±, are left out.
 */
function withReaching(model: StretchModel, asked: Ramp, bases: readonly Basis[], alone: readonly ByKind[]): ByKind[] {
  const reaching: { at: number; inside: number; share: number }[] = [];
  model.windows.forEach((r, at) => {
    const both = Math.min(r.to, asked.to) - Math.max(r.from, asked.from);
    if (both > 0) reaching.push({ at, inside: both / (r.to - r.from), share: model.shares[at]! });
  });
  const all = logSum(reaching.map(({ share }) => share));
  const kinds = bases.map(({ error, stayed, rest }, i) => {
    const powers = model.powers(error);
    const went: MayHaveGone[] = alone[i]!.went.map((way) => ({ ...way, share: HALF }));
    let most = 0;
    for (const { at, inside, share } of reaching) {
      const one = rest(model.windows[at]!, powers[at]);
      if (one.value < one.u) continue;
      went.push({ value: one.value, u: one.u, inside, share: share - all + HALF });
      most = Math.max(most, 0.5 * (one.value / one.u) ** 2 + share - all);
    }
    return { stayed, went, most: stayed + most };
  });
  const likeliest = Math.max(...kinds.map(({ most }) => most));
  return kinds.filter(({ most }) => most > likeliest - UNLIKELY);
}

/** What of a movement lies before and after another. */
function outside(r: Ramp, asked: Ramp): Ramp[] {
  const out: Ramp[] = [];
  if (r.from < asked.from - 0.5) out.push({ from: r.from, to: Math.min(r.to, asked.from) });
  if (r.to > asked.to + 0.5) out.push({ from: Math.max(r.from, asked.to), to: r.to });
  return out;
}
