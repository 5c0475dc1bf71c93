/**
 * What takes longer than a frame, off the page's own thread. Plain data in, plain data out. The work of one place comes
 * when it is first asked for, so that the first ± need not wait for the fitting of runs.
 */
import { expose, transfer } from "comlink";
import {
  type Certainty,
  certaintyOf,
  type Pull,
  type Rig,
  type SettledUncertainty,
  settlesFast,
  uncertaintyOf,
} from "../../rode/index.ts";
import { budgetOf } from "../rig/budget.ts";
import { curveOf } from "../rig/curve-points.ts";

/** A function of a module that is fetched when the function is first called. */
function later<A extends unknown[], R>(load: () => Promise<(...given: A) => R>): (...given: A) => Promise<R> {
  return async (...given) => (await load())(...given);
}

const work = {
  /** How sure an equilibrium is, by fewer draws than a command takes: the hand does not wait; null when the rig states none. */
  uncertainty: (rig: Rig, pull: Pull): SettledUncertainty | null =>
    uncertaintyOf(rig, pull, { draws: settlesFast(rig) ? 1000 : 250 }),
  /** The same along a curve. */
  certainties: (rig: Rig, pulls: readonly Pull[]): (Certainty | null)[] => pulls.map((pull) => certaintyOf(rig, pull)),
  /** What the ± comes of, input by input. */
  budgetOf,
  /** A rode over the load, where that takes more than a frame. */
  curveOf,
  /** A run against theory, with its figures drawn. */
  judged: later(async () => (await import("../readings/judge-run.ts")).judgeRun),
  /** The log of a pull reduced, with its marks as corrected. */
  reducedLog: later(async () => (await import("../../study/index.ts")).reducePullLog),
  wayFigure: later(async () => (await import("../days/log/way-work.ts")).shownWay),
  logVerdict: later(async () => (await import("../../study/index.ts")).logVerdictOf),
  /** What a pull says of its anchor, in its own water. */
  pullEvidence: later(async () => (await import("../../study/index.ts")).pullEvidence),
  /** Two setups over depth, drawn. */
  matchMap: later(async () => (await import("../match/map.ts")).shownMatchMap),
  /** Give of a rode over the loads of many winds, and where catenary ends. */
  complianceOverWind: later(
    async () => (await import("../weather/compliance/compliance-over-wind.ts")).complianceOverWind,
  ),
  /** A surge on a rode; snubbers over length and diameter; one of them exactly. */
  snatchOn: later(async () => (await import("../weather/snubber/snubber-work.ts")).snatchOn),
  mapOfSnubbers: later(async () => (await import("../weather/snubber/snubber-work.ts")).mapOfSnubbers),
  oneSnubber: later(async () => (await import("../weather/snubber/snubber-work.ts")).oneSnubber),
  /** The boat riding in time, piece by piece. */
  beginGale: later(async () => (await import("../weather/gale/gale-work.ts")).beginGale),
  goOnInGale: later(async () => (await import("../weather/gale/gale-work.ts")).goOnInGale),
  answerGale: later(async () => (await import("../weather/gale/gale-work.ts")).answerGale),
  /** Rodes side by side under one load. */
  gearSideBySide: later(async () => (await import("../weather/gear/gear-work.ts")).gearSideBySide),
  /** A series planned; how many pulls would tell; the page to print. */
  seriesWater: later(async () => (await import("../series/series-work.ts")).seriesWater),
  plannedSeries: later(async () => (await import("../series/series-work.ts")).plannedSeries),
  seriesPower: later(async () => (await import("../series/series-work.ts")).seriesPower),
  seriesPosterior: later(async () => (await import("../series/series-work.ts")).seriesPosterior),
  codeFound: later(async () => (await import("../series/series-work.ts")).codeFound),
  seriesSheet: later(async () => (await import("../series/series-work.ts")).seriesSheet),
  /** The book's pulls as anchors are compared by; their figures; what draws conclude. */
  bookPulls: later(async () => (await import("../holding/book-pulls.ts")).bookPulls),
  pullsFigure: later(async () => (await import("../holding/work.ts")).pullsFigure),
  holdingFigures: later(async () => (await import("../holding/work.ts")).holdingFigures),
  holdingCurves: later(async () => (await import("../holding/curves.ts")).holdingCurves),
  /** Page, report and data package of a series. */
  outgoing: later(async () => (await import("../publish/work.ts")).outgoing),
  /** The log of a pull, and the frames of a film over it. */
  openFilm: later(async () => (await import("../publish/film/work.ts")).openFilm),
  filmFrames: later(async () => (await import("../publish/film/work.ts")).filmFrames),
  holdingInquiry: later(async () => (await import("../holding/work.ts")).holdingInquiry),
  drawnChain: later(async () => {
    const { drawnChain } = await import("../holding/work.ts");
    return (...given: Parameters<typeof drawnChain>) => {
      const chain = drawnChain(...given);
      return transfer(chain, [chain.draws.buffer as ArrayBuffer]);
    };
  }),
};

export type BenchWork = typeof work;

expose(work);
