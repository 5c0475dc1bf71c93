/** Carried and reduced readings as other programs read them: SI, degrees, the unit in each name. */
import { DEGREES } from "../../quantity/index.ts";
import type { CarryOutcome, NotCarried } from "./carry.ts";
import type { Judgement } from "./judgement.ts";
import type { Fitted, FittedValue, Reduction } from "./reduce.ts";
import type { Verdict } from "./simplifications.ts";

/** A short cut in words: what it is, and at which loads it may stand. */
export interface WordedShortCut {
  readonly simplification: string;
  readonly says: string;
  readonly effects: Verdict["effects"];
}

/**
 * What was carried, as JSON has it.
 * @param why tells in words why a load is not carried
 */
export function carryFields(
  outcome: CarryOutcome,
  verdicts: readonly WordedShortCut[],
  why: (cause: NotCarried["cause"]) => string,
): object {
  return {
    rows: outcome.rows.map((row) => ({
      read_N: row.read,
      anchorAngle_deg: row.anchorAngle * DEGREES,
      angleToBottom_deg: row.angleToBottom * DEGREES,
      says: row.says,
      anchor_N: row.anchor,
      bow_N: row.bow,
      uncertainty: { anchor_N: row.u?.anchor ?? null, bow_N: row.u?.bow ?? null },
      cannotMove: row.cannotMove,
      budget: row.sources.map(({ name, anchor, bow, share }) => ({
        source: name,
        anchor_N: anchor,
        bow_N: bow,
        shareAtBow: share,
      })),
      spread: row.spread && {
        draws: row.spread.draws,
        without: row.spread.without,
        lifted: row.spread.lifted,
        anchor95_N: [row.spread.anchor.low, row.spread.anchor.high],
        bow95_N: [row.spread.bow.low, row.spread.bow.high],
      },
    })),
    assumedLoadShare: outcome.assumedLoadShare,
    notCarried: outcome.notCarried.map(({ read, cause }) => ({
      read_N: read,
      cause: cause.kind === "noEquilibrium" ? cause.none.cause : cause.kind,
      why: why(cause),
    })),
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

/** A verdict in words. */
export interface WordedJudgement extends Pick<Judgement, "about" | "load"> {
  readonly says: string;
}

/** A reduction as JSON has it. */
export function reduceFields(reduced: Reduction, verdicts: readonly WordedJudgement[]): object {
  return {
    rows: reduced.readings.map((row) => ({
      load_N: row.load,
      angle_deg: row.angle === null ? null : row.angle * DEGREES,
      theory_deg: row.theory * DEGREES,
      uncertainty_deg: row.angle === null ? null : row.u * DEGREES,
      residual: row.residual,
      standardised: row.standardised,
      weight: row.weight,
      influence: row.influence,
      outlier: row.outlier,
      suspect: row.suspect,
    })),
    release: reduced.release.map((row) => ({
      load_N: row.load,
      movement_m: row.movement,
      theory_m: row.theory,
      uncertainty_m: row.u,
      residual: row.residual,
      standardised: row.standardised,
      weight: row.weight,
      influence: row.influence,
      outlier: row.outlier,
      suspect: row.suspect,
    })),
    fitted: fittedFields(reduced.fitted),
    liftoff_N: reduced.liftoff,
    scatter: reduced.scatter,
    spread: reduced.spread,
    effectiveUnknowns: reduced.effectiveUnknowns,
    untold: reduced.untold,
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
    tapeZero_m: as(fitted.tapeZero),
  };
}
