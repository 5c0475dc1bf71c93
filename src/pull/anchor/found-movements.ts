import { logAdd, logSum } from "../../statistics/index.ts";
import { logMovedOverStayed, MOVES } from "./chance-moved.ts";
import { type Direction, softmax } from "./direction.ts";
import { fixErrors } from "./fix-error.ts";
import type { Ramp } from "./ramp.ts";
import type { StretchModel } from "./stretch.ts";

/** A stretch whose direction, error of the fix and movements are known as well as the track tells them. */
export interface Known {
  readonly model: StretchModel;
  readonly direction: Direction;
  /** ln of how likely each kind of error makes the places across the pull; weights of the kinds by all places. */
  readonly across: readonly number[];
  readonly weights: Float64Array;
  readonly ramps: readonly Ramp[];
  /** ln of how likely the places are in this direction, but for a constant. */
  readonly evidence: number;
}

/** A movement is found when it is so likely that there is one. */
const SURE = 0.95;
/** What makes it so: ln of how much likelier it makes the fixes. */
const NEEDED = Math.log((SURE / (1 - SURE)) * ((1 - MOVES) / MOVES));
/** A movement is one from so far, m. */
const LEAST = 1;
/** One that is over in a few seconds, s, while the load is changing too, must be larger, m. */
const SHORT = { seconds: 6, least: 2 };
/** No boat drags her anchor faster than she goes, m/s: what seems to is a glitch of the fix. */
const FASTEST = 4;
/** Movements looked for in one stretch. */
const MOST_MOVEMENTS = 6;

/**
 * Movements found one after another: that the anchor stayed, but for those found before, against that it went besides in
 * any one window, over all windows and all kinds of error at once. Beforehand it is taken to have gone with three chances
 * in ten, here as in a stretch that is asked about.
 */
export function foundMovements(model: StretchModel, direction: Direction): Known {
  const y = model.along(direction.value);
  const across = fixErrors.map((_, e) => model.acrossEvidence(e, direction.value));
  const ramps: Ramp[] = [];
  let evidence = Number.NaN;
  for (;;) {
    const logs = across.map((log, e) => log + model.fit(e, y, ramps).evidence);
    if (ramps.length === 0) evidence = logSum(logs);
    const next = likeliest(model, y, ramps, logs);
    // Whatever moved, or did not: what one more movement would make of the places is in it.
    evidence += logSum([Math.log(1 - MOVES), Math.log(MOVES) + next.log]);
    if (next.log > NEEDED && ramps.length < MOST_MOVEMENTS) {
      ramps.push(next.ramp);
      continue;
    }
    ramps.sort((a, b) => a.from - b.from);
    return { model, direction, across, weights: softmax(logs), ramps, evidence };
  }
}

/** The likeliest window of one more movement, and ln of how much likelier than none any window makes the fixes. */
function likeliest(
  model: StretchModel,
  y: Float64Array,
  found: readonly Ramp[],
  logs: readonly number[],
): { readonly ramp: Ramp; readonly log: number } {
  const { windows, shares } = model;
  const ofNone = logSum(logs);
  const byWindow = new Float64Array(windows.length).fill(Number.NEGATIVE_INFINITY);
  logs.forEach((log, e) => {
    const rest = model.residual(e, y, found);
    const powers = model.powers(e);
    for (let k = 0; k < windows.length; k++) {
      const one = rest(windows[k]!, powers[k]);
      const seconds = (windows[k]!.to - windows[k]!.from) * model.grid.step;
      if (!(one.value > one.u && one.value < FASTEST * seconds)) continue;
      const least = seconds < SHORT.seconds ? SHORT.least : LEAST;
      byWindow[k] = logAdd(byWindow[k]!, log - ofNone + logMovedOverStayed(one, least));
    }
  });
  let [best, all] = [-1, Number.NEGATIVE_INFINITY];
  for (let k = 0; k < windows.length; k++) {
    byWindow[k]! += shares[k]!;
    all = logAdd(all, byWindow[k]!);
    if (best < 0 || byWindow[k]! > byWindow[best]!) best = k;
  }
  return { ramp: windows[best]!, log: all };
}
