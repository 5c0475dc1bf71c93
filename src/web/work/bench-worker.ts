/**
 * What takes longer than a frame, off the page's own thread. Plain data in, plain data out. The work of one place comes
 * when it is first asked for, so that the first ± need not wait for the fitting of runs.
 */
import { expose } from "comlink";
import { type Certainty, certaintyOf, type Pull, type Rig } from "../../rode/index.ts";
import { curveOf } from "../rig/curve-points.ts";

/** A function of a module that is fetched when the function is first called. */
function later<A extends unknown[], R>(load: () => Promise<(...given: A) => R>): (...given: A) => Promise<R> {
  return async (...given) => (await load())(...given);
}

const work = {
  /** Standard uncertainties of an equilibrium; null when the rig states none. */
  certainty: (rig: Rig, pull: Pull): Certainty | null => certaintyOf(rig, pull),
  /** The same along a curve. */
  certainties: (rig: Rig, pulls: readonly Pull[]): (Certainty | null)[] => pulls.map((pull) => certaintyOf(rig, pull)),
  /** A rode over the load, where that takes more than a frame. */
  curveOf,
  /** A run against theory, with its figures drawn. */
  judged: later(async () => (await import("../readings/judge-run.ts")).judgeRun),
  /** The log of a pull reduced, with its marks as corrected. */
  reducedLog: later(async () => (await import("../days/log/reduce-log.ts")).reduceLog),
  /** Two setups over depth, drawn. */
  matchMap: later(async () => (await import("../match/map.ts")).drawMatchMap),
  /** Give of a rode over the loads of many winds, and where catenary ends. */
  giveOverWind: later(async () => (await import("../weather/give-work.ts")).giveOverWind),
  /** A surge on a rode; snubbers over length and diameter; one of them exactly. */
  snatchOn: later(async () => (await import("../weather/snubber-work.ts")).snatchOn),
  mapOfSnubbers: later(async () => (await import("../weather/snubber-work.ts")).mapOfSnubbers),
  oneSnubber: later(async () => (await import("../weather/snubber-work.ts")).oneSnubber),
  /** Rodes side by side under one load. */
  gearSideBySide: later(async () => (await import("../weather/gear-work.ts")).gearSideBySide),
};

export type BenchWork = typeof work;

expose(work);
