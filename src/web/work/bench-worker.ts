/** What takes longer than a frame, off the page's own thread. Plain data in, plain data out. */
import { expose } from "comlink";
import { type Certainty, certaintyOf, type Pull, type Rig } from "../../rode/index.ts";
import { reduceLog } from "../days/log/reduce-log.ts";
import { drawMatchMap } from "../match/map.ts";
import { judgeRun } from "../readings/judge-run.ts";
import { giveOverWind } from "../weather/give-work.ts";

const work = {
  /** Standard uncertainties of an equilibrium; null when the rig states none. */
  certainty: (rig: Rig, pull: Pull): Certainty | null => certaintyOf(rig, pull),
  /** The same along a curve. */
  certainties: (rig: Rig, pulls: readonly Pull[]): (Certainty | null)[] => pulls.map((pull) => certaintyOf(rig, pull)),
  /** A run against theory, with its figures drawn. */
  judged: judgeRun,
  /** The log of a pull reduced, with its marks as corrected. */
  reducedLog: reduceLog,
  /** Two setups over depth, drawn. */
  matchMap: drawMatchMap,
  /** Give of a rode over the loads of many winds, and where catenary ends. */
  giveOverWind,
};

export type BenchWork = typeof work;

expose(work);
