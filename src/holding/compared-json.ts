/** What comparing answers as `compare --json` prints it and a package publishes it: SI with the unit in each name. */
import { DEGREES } from "../quantity/index.ts";
import type { Compared } from "./compare.ts";
import type { Conclusion } from "./conclude.ts";
import type { Between } from "./holding-draws.ts";
import type { Inquired } from "./inquire.ts";
import type { PullsTable } from "./pulls-table.ts";
import type { Step } from "./survival-curve.ts";
import type { HoldingVerdict } from "./verdict.ts";

/** Format of the document. */
const COMPARED_FORMAT = "rodebench/compared@1";

const degrees = (angle: number | undefined): number | null => (angle === undefined ? null : angle * DEGREES);

/**
 * The document `rodebench/compared@1`.
 * @param read rows of the pulls compared, and those left out
 * @param sentences what the verdicts say, in their order
 * @param inWind fields of the winds asked about
 */
export function comparedFields(
  read: Pick<PullsTable, "rows" | "leftOut">,
  compared: Compared,
  inquired: Inquired | undefined,
  verdicts: readonly HoldingVerdict[],
  sentences: readonly string[],
  inWind: readonly object[],
): object {
  const concluded = inquired?.kind === "concluded" ? inquired : undefined;
  return {
    format: COMPARED_FORMAT,
    pulls: compared.pulls.length,
    leftOut: read.leftOut,
    anchors: compared.anchors.map((about) => ({
      anchor: about.anchor,
      pulls: about.pulls,
      gaveWay: about.gaveWay,
      heldOn: about.heldOn,
      between: about.between,
      neverHeld: about.neverHeld,
      by: about.by,
      curve: about.curve.map(stepFields),
      incidence: about.incidence.map(({ ending, pulls, steps }) => ({
        ending,
        pulls,
        steps: steps.map(({ load, chance, se }) => ({ load_N: load, chance, se })),
      })),
      endings: about.endings.map(({ ending, count, of, share, low, high }) => ({
        ending,
        count,
        of,
        share,
        low,
        high,
      })),
    })),
    logRank: compared.logRank === undefined ? null : logRankFields(compared.logRank),
    fits: compared.fits.flatMap(({ law, random, fit }) => {
      const found = fit.kind === "noSpreadBetweenGroups" ? fit.without : fit;
      if (found.kind !== "fitted") return [];
      return [
        {
          law,
          terms: found.terms.map(({ name, value, u }) => ({ name, value, u })),
          logScale: found.logScale,
          ...(found.logRandom === undefined || random === undefined
            ? {}
            : { logRandom: { [random]: found.logRandom } }),
          logLikelihood: found.logLikelihood,
        },
      ];
    }),
    posterior: posteriorFields(inquired),
    holds: concluded === undefined ? [] : holdsFields(concluded.conclusion),
    pairs: concluded === undefined ? [] : pairsFields(concluded.conclusion),
    testers: testersFields(concluded?.conclusion),
    laws: concluded?.laws ?? [],
    priors: (concluded?.sensitivity ?? []).map(({ times, sound, pairs, holds }) => ({
      times,
      sound,
      pairs: pairs.map(({ first, second, moreInTheMean }) => ({ first, second, moreInTheMean })),
      holds: holds.map(({ anchor, median }) => ({
        anchor,
        median_N: median.middle,
        low_N: median.low,
        high_N: median.high,
      })),
    })),
    morePulls: (concluded?.more ?? []).map(({ first, second, answer }) => ({ first, second, ...answer })),
    influential: (concluded?.conclusion.influential ?? []).map(({ pull, k, first, second, with: seen, without }) => ({
      row: read.rows[compared.pulls.indexOf(concluded!.pulls[pull]!)] ?? null,
      k,
      first,
      second,
      with: seen,
      without,
    })),
    inWind,
    causes: verdicts.map(({ kind }) => kind),
    verdicts: sentences,
  };
}

function stepFields({ load, from, atRisk, gaveWay, chance, se, low, high }: Step): object {
  return {
    load_N: load,
    ...(from === undefined ? {} : { from_N: from }),
    atRisk,
    gaveWay,
    chance,
    se: se ?? null,
    low: low ?? null,
    high: high ?? null,
  };
}

function logRankFields({ chi2, df, p, pPermuted, by }: NonNullable<Compared["logRank"]>): object {
  return { chi2, df, p, pPermuted: pPermuted ?? null, by };
}

function posteriorFields(inquired: Inquired | undefined): object | null {
  if (inquired?.kind !== "concluded" && inquired?.kind !== "unsound") return null;
  const { posterior, law } = inquired;
  return {
    law,
    draws: posterior.length,
    rHatWorst: posterior.rHatWorst,
    effectiveLeast: posterior.effectiveLeast,
    divergent: posterior.divergent,
    sound: inquired.kind === "concluded",
    loadsWithError: posterior.model.loadsWithError,
    angle: posterior.model.angleIs,
    terms: posterior.summaries.map(({ name, mean, sd, low, high, rHat, effective }) => ({
      name,
      mean,
      sd,
      low,
      high,
      rHat,
      effective,
    })),
  };
}

function holdsFields({ holds }: Conclusion): object[] {
  return holds.map((one) => ({
    anchor: one.anchor,
    anchorAngle_deg: degrees(one.anchorAngle),
    mass_kg: one.mass ?? null,
    seabed: one.seabed ?? null,
    median_N: one.median.middle,
    low_N: one.median.low,
    high_N: one.median.high,
    chances: one.chances.map(({ chance, middle, low, high }) => ({ chance, load_N: middle, low_N: low, high_N: high })),
    perMass_N_per_kg: one.perKilogram ?? null,
    perFlukeArea_N_per_m2: one.perFlukeArea ?? null,
    sizeFor_kg: one.sizeFor ?? null,
    ranks: one.ranks,
  }));
}

function testersFields(conclusion: Conclusion | undefined): object | null {
  const testers = conclusion?.testers;
  if (testers === undefined) return null;
  const flat = ({ middle, low, high }: Between): object => ({ factor: middle, low, high });
  return {
    spread: flat(testers.spread),
    each: testers.each.map(({ tester, pulls, factor }) => ({ tester, pulls, ...flat(factor) })),
  };
}

function pairsFields({ pairs }: Conclusion): object[] {
  return pairs.map(({ first, second, moreInTheMean, moreInOnePull, ratio }) => ({
    first,
    second,
    moreInTheMean,
    moreInOnePull,
    ratio,
  }));
}
