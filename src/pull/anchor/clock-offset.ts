import { likelyMean, logSum, type Tried } from "../../statistics/index.ts";
import { sums } from "../trace/even.ts";
import type { Loaded } from "../trace/loaded.ts";
import type { TraceSettings } from "../trace/settings.ts";
import type { Measured, Span, Track } from "../trace/trace.ts";
import type { AnchorPath } from "./anchor-path.ts";
import { fixErrors } from "./fix-error.ts";
import { type FixGrid, fixGrid } from "./fix-grid.ts";
import type { Ramp, Stretch } from "./ramp.ts";
import { rodeGive } from "./rode-give.ts";
import { StretchModel } from "./stretch.ts";
import { stretchesOf } from "./stretches.ts";

/** What is to be added to the times of the track to be on the clock of the load, as the two signals themselves tell it. */
export type ClockOffset =
  | { readonly kind: "told"; readonly offset: Measured }
  /** The load's steps and the boat's movement do not meet anywhere clearly enough. */
  | { readonly kind: "notTold" };

/** Offsets tried to either side, s: first coarsely, then about the likeliest. */
const COARSE = { reach: 12, step: 1 };
const FINE = { reach: 5, step: 0.5 };
/** Nearer to the end of what is tried a likeliest one is none, s. */
const FARTHEST = 9;
/** Fewer fixes under load at every offset tell nothing. */
const FEWEST = 20;
/** The likeliest must stand out against the others in the median by so much, ln of chance. */
const CLEAR = 6;
/** An offset far from the likeliest must be less likely by so much, ln of chance. */
const OTHER = 5;
/** ln of how many movements were tried for each that was found, about. */
const TRIED = Math.log(300);
/** No surer than that, s, a fix standing for a second of a boat that surges and a receiver that lags. */
const LEAST = 0.5;
/** The model's errors are not the receiver's: u is made so much larger. */
const WIDER = 1.3;

/**
 * The offset of the track's clock, by the law of the boat on her rode: she goes back as the load rises. The fixes are set
 * against what the rode gives at the load so many seconds later, on both axes, with the same kinds of error as where the
 * anchor is sought; how likely each offset makes them is its chance.
 */
export function clockOffset(
  track: Track,
  loaded: Loaded,
  settings: TraceSettings,
  path: AnchorPath,
  give?: (newtons: number) => number,
): ClockOffset {
  const { even } = loaded;
  const around = (centre: number, { reach, step }: typeof FINE): Tried[] => {
    const grains = Math.max(1, Math.round(step / even.grain));
    const many = Math.max(1, Math.round(reach / (grains * even.grain)));
    const middle = Math.round(centre / even.grain);
    const shifts = Array.from({ length: 2 * many + 1 }, (_, i) => middle + (i - many) * grains);
    const grids = shifts.map((by) => fixGrid(track, shifted(loaded, by), settings));
    // One set of fixes for all: those that are under load at every offset.
    const tight = grids[0]!.tight.map((_, k) => (grids.every((grid) => grid.tight[k] === 1) ? 1 : 0));
    if (tight.reduce((n, one) => n + one, 0) < FEWEST) return [];
    return shifts.map((by, i) => ({
      at: by * even.grain,
      log: evidence({ ...grids[i]!, tight }, path, loaded.top, give),
    }));
  };
  const coarse = around(0, COARSE);
  if (coarse.length === 0) return { kind: "notTold" };
  const logs = coarse.map(({ log }) => log).sort((a, b) => a - b);
  const best = coarse.reduce((a, b) => (b.log > a.log ? b : a));
  const edge = Math.abs(best.at) > FARTHEST;
  if (edge || best.log - logs[logs.length >> 1]! < CLEAR) return { kind: "notTold" };
  // Another offset far away that is nearly as likely leaves it open.
  if (coarse.some(({ at, log }) => Math.abs(at - best.at) > FINE.reach && log > best.log - OTHER))
    return { kind: "notTold" };
  const likely = likelyMean(around(best.at, FINE));
  if (likely === null) return { kind: "notTold" };
  const u = WIDER * Math.hypot(Math.sqrt(likely.variance), LEAST);
  if (u > FINE.reach / 2) return { kind: "notTold" };
  return { kind: "told", offset: { value: likely.mean, u } };
}

/** The load so many grains later. */
function shifted(loaded: Loaded, by: number): Loaded {
  const { even } = loaded;
  const value = even.value.map((_, k) => even.value[k + by] ?? Number.NaN);
  return { ...loaded, even: { ...even, value }, sums: sums(value) };
}

/** ln of how likely the fixes are: each stretch by its likeliest kinds of error, its movements left free. */
function evidence(grid: FixGrid, path: AnchorPath, top: number, give?: (newtons: number) => number): number {
  const rode = rodeGive(top, give);
  const stepOf = (t: number): number => (t - grid.start) / grid.step;
  const rampOf = (span: Span): Ramp => ({ from: stepOf(span.from), to: stepOf(span.to) });
  let total = 0;
  // A clock that is off may hide the line of the pull: then all that is under load is looked at.
  const stretches: Stretch[] =
    path.stretches.length === 0
      ? stretchesOf(grid)
      : path.stretches.map(({ from, to }) => ({
          from: Math.max(0, Math.round(stepOf(from))),
          to: Math.min(grid.tight.length, Math.round(stepOf(to))),
        }));
  for (const stretch of stretches) {
    const model = new StretchModel(grid, stretch, rode);
    if (model.fixes < FEWEST) continue;
    const column = model.giveColumn();
    const ramps = path.movements.map(rampOf).filter((r) => r.from < stretch.to && r.to > stretch.from);
    const [east, north] = [model.along(Math.PI / 2), model.along(0)];
    // A clock that is off makes movements of its own: with none of them, or with all, each of which had to be looked for.
    const logs = [[], ...(ramps.length === 0 ? [] : [ramps])].flatMap((some) =>
      fixErrors.map(
        (_, e) =>
          model.slope(e, east, column, some, false).evidence +
          model.slope(e, north, column, some, false).evidence -
          TRIED * some.length,
      ),
    );
    total += logSum(logs);
  }
  return total;
}
