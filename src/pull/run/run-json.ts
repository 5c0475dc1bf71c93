/** Carried and reduced readings as other programs read them: SI, degrees, the unit in each name. */
import type { Budget } from "../../chance/index.ts";
import type { CarryOutcome } from "./carry.ts";
import type { Judgement } from "./judgement.ts";
import type { Fitted, FittedValue, Reduction } from "./reduce.ts";
import type { Verdict } from "./simplifications.ts";

const DEGREES = 180 / Math.PI;

export function carryFields(outcome: CarryOutcome, verdicts: readonly Verdict[]): object {
  return {
    rows: outcome.rows.map((row) => ({
      read_N: row.read,
      anchorAngle_deg: row.anchorAngle * DEGREES,
      says: row.says,
      anchor_N: row.anchor,
      bow_N: row.bow,
      uncertainty: { anchor_N: row.budget.anchor.u, bow_N: row.budget.bow.u },
      budget: { anchor: shares(row.budget.anchor), bow: shares(row.budget.bow) },
      monteCarlo:
        row.comparison === null
          ? null
          : {
              agrees: row.comparison.agrees,
              ratioOfU: row.comparison.ratioOfU,
              bow95_N: [row.comparison.low.monteCarlo, row.comparison.high.monteCarlo],
              says: row.comparison.words,
            },
    })),
    notCarried: outcome.notCarried.map((row) => ({ read_N: row.read, why: row.why })),
    verdicts: verdicts.map((verdict) => ({
      simplification: verdict.simplification,
      says: verdict.says,
      effects: verdict.effects.map((effect) => ({
        read_N: effect.read,
        bow_N: effect.size,
        smallerThanUncertainty: effect.smaller,
      })),
    })),
  };
}

function shares(budget: Budget): object[] {
  return budget.sources
    .filter((source) => source.u > 0)
    .map((source) => ({ source: source.name, contribution_N: source.contribution, share: source.share }));
}

export function reduceFields(reduced: Reduction, verdicts: readonly Judgement[]): object {
  return {
    rows: reduced.readings.map((row) => ({
      load_N: row.load,
      angle_deg: row.angle === null ? null : row.angle * DEGREES,
      theory_deg: row.theory * DEGREES,
      uncertainty_deg: row.angle === null ? null : row.u * DEGREES,
      residual: row.residual,
      weight: row.weight,
      influence: row.influence,
      outlier: row.outlier,
    })),
    release: reduced.release.map((row) => ({
      load_N: row.load,
      movement_m: row.movement,
      theory_m: row.theory,
      uncertainty_m: row.u,
      residual: row.residual,
      weight: row.weight,
      influence: row.influence,
      outlier: row.outlier,
    })),
    fitted: fittedFields(reduced.fitted),
    liftoff_N: reduced.liftoff,
    scatter: reduced.scatter,
    verdicts: verdicts.map((verdict) => ({ about: verdict.about, load_N: verdict.load, says: verdict.says })),
  };
}

function fittedFields(fitted: Fitted): object {
  const as = (value: FittedValue | null, scale = 1) =>
    value === null ? null : { value: value.value * scale, u: value.u * scale };
  return {
    massPerLength_kg_per_m: as(fitted.massPerLength),
    rise_m: as(fitted.rise),
    gaugeZero_deg: as(fitted.gaugeZero, DEGREES),
    rigGive_m_per_N: as(fitted.rigGive),
  };
}
