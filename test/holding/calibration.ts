/** Truths drawn from the priors, series pulled from them, and the truth's rank among what the series says. */
import {
  type Hold,
  type Law,
  Model,
  type ModelInput,
  type Pull,
  type RandomTerm,
  USUAL_PRIORS,
} from "../../src/holding/index.ts";
import { chiSquaredAbove, rng, sampleChain } from "../../src/statistics/index.ts";

export interface Calibration {
  readonly names: readonly string[];
  /** Of each parameter, its truth's rank in each series, 0 … RANKS. */
  readonly ranks: readonly number[][];
  readonly covered: readonly number[];
  readonly coveredAll: number;
  readonly heldOn: number;
}

/** Draws a truth is ranked among, far enough apart to be as good as independent. */
const RANKS = 199;
const THIN = 8;
const BINS = 20;

/**
 * Degrees a unit of ln load by which the angle of a pull grows, and deviation of the error of ln load, where pulls are read:
 * steep and rough ones of the trade.
 */
const RISE = 3;
const ERROR = 0.1;

/** What one series says of the truths it was pulled from. */
export interface Calibrated {
  readonly names: readonly string[];
  readonly ranks: readonly number[];
  readonly heldOn: number;
}

/**
 * @param read each load has an error, and each angle is the one its own load made
 * @param random what pulls share an unknown by; two testers pull at every site
 */
export function* calibrated(
  series: number,
  law: Law,
  seed: number,
  read = false,
  random: readonly RandomTerm[] = ["site"],
): Generator<Calibrated> {
  const stream = rng(seed);
  const frame: Pull[] = [];
  for (let a = 0; a < 4; a++) {
    for (let k = 0; k < 6; k++) {
      frame.push({
        anchor: `anchor ${a}`,
        site: `site ${k % 3}`,
        tester: `tester ${k % 2}`,
        mass: 15 + 3 * a,
        anchorAngle: ((2 + ((a + 3 * k) % 9)) * Math.PI) / 180,
        hold: { kind: "heldTo", newtons: 1000 },
      });
    }
  }
  const input = (pulls: readonly Pull[]): ModelInput => ({
    pulls,
    law,
    terms: ["anchor", "angle", "mass"],
    random,
    // m alone is drawn narrower, so that limits below can be set by the series: a prior is a prior.
    priors: { ...USUAL_PRIORS, m: 0.7 },
  });
  for (let n = 0; n < series; n++) {
    const own = stream.branch();
    const truth = new Model(input(frame)).drawPrior(own);
    const maker = new Model(input(frame));
    let held = 0;
    const pulls = frame.map((pull, i): Pull => {
      // Where the angle is of the load's making it is the frame's at 5 kN, and the anchor gives way where the load meets
      // what it holds at the angle of that load: ln T − β rise (ln T − ln 5 kN) is what it would hold at the frame's angle.
      const atFrame = Math.log(maker.simulate(truth, i, own));
      const slope = read ? truth[maker.angleAt]! * RISE : 0;
      const middle = Math.log(5000);
      const lnLoad = (atFrame - slope * middle) / (1 - slope);
      // Ended at a load that has nothing to do with the anchor's own: about two thirds hold on.
      const lnLimit = Math.log(30 * 9.80665 * 19) - 0.45 + 0.5 * own.normal();
      const lnRead = Math.min(lnLoad, lnLimit) + (read ? ERROR * own.normal() : 0);
      const newtons = Math.exp(lnRead);
      const hold: Hold = lnLoad <= lnLimit ? { kind: "gaveWay", newtons } : { kind: "heldTo", newtons };
      if (hold.kind === "heldTo") held++;
      if (!read) return { ...pull, hold };
      const anchorAngle = pull.anchorAngle! + (RISE * (lnRead - middle) * Math.PI) / 180;
      return { ...pull, hold, anchorAngle, angleRise: (RISE * Math.PI) / 180, loadError: ERROR };
    });
    const model = new Model(input(pulls));
    // Whether a level is centred depends on the pulls; the truth is drawn non-centred, which six pulls an anchor stay.
    if (model.anchors?.centred === true) throw new Error("centred");
    const chain = sampleChain(model.logDensity, model.start(own), own, {
      warmUp: 600,
      draws: RANKS * THIN,
      acceptance: 0.9,
    });
    const ranks = model.names.map((_, k) => {
      let rank = 0;
      for (let s = 0; s < RANKS; s++) if (chain.draws[s * THIN * model.parameters + k]! < truth[k]!) rank++;
      return rank;
    });
    yield { names: model.names, ranks, heldOn: held / frame.length };
  }
}

/** Puts series together. */
export function gathered(series: readonly Calibrated[]): Calibration {
  const names = series[0]!.names;
  const ranks = names.map((_, k) => series.map((one) => one.ranks[k]!));
  const covered = ranks.map(
    (of) => of.filter((rank) => rank >= 0.025 * (RANKS + 1) && rank < 0.975 * (RANKS + 1)).length / of.length,
  );
  return {
    names,
    ranks,
    covered,
    coveredAll: covered.reduce((sum, share) => sum + share, 0) / covered.length,
    heldOn: series.reduce((sum, one) => sum + one.heldOn, 0) / series.length,
  };
}

/** Chi-squared of ranks in twenty equal bins, and its upper tail. */
export function uniformity(ranks: readonly number[]): { chi2: number; p: number } {
  const counts = new Float64Array(BINS);
  for (const rank of ranks) {
    const bin = Math.floor((rank * BINS) / (RANKS + 1));
    counts[bin] = counts[bin]! + 1;
  }
  const expected = ranks.length / BINS;
  let chi2 = 0;
  for (const count of counts) chi2 += (count - expected) ** 2 / expected;
  return { chi2, p: chiSquaredAbove(chi2, BINS - 1) };
}
