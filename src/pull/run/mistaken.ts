/**
 * Readings that theory does not account for, tried as what a tester mixes up: the unit of the loads, degrees and per cent,
 * a sign, a digit too many, the end the cell or the gauge sat at. A mix-up is told only where it makes the readings fit
 * which did not fit without it.
 */
import { DEGREES } from "../../quantity/index.ts";
import { type Rig, settlesFast } from "../../rode/index.ts";
import { median } from "../../statistics/index.ts";
import { type FittedValue, type Reduction, reduce, TooLong } from "./reduce.ts";
import type { Run } from "./run-file.ts";
import { theoryOf } from "./theory.ts";
import { UnsettledRun } from "./unsettled.ts";

/** What was mixed up: how the loads, angles or movements were written, or at which end an instrument really sat. */
export type MixUp =
  | { readonly kind: "loads"; readonly as: keyof typeof LOADS }
  | { readonly kind: "angles"; readonly as: keyof typeof ANGLES }
  | { readonly kind: "movements"; readonly as: keyof typeof MOVEMENTS }
  | { readonly kind: "ends"; readonly cell: End | null; readonly gauge: End | null };

type End = Run["loadCellAt"];

/** What a tester mixed up, that would make the readings fit. */
export interface Mistaken {
  readonly mixUp: MixUp;
  /** The run as it would then be. */
  readonly run: Run;
  /** Its reduction, which fits. */
  readonly reduced: Reduction;
}

/** At most so many are told: past that, the readings tell nothing apart. */
const MOST_TOLD = 3;

/** So many of the mix-ups, those nearest to the rig as stated, are tried with all that is fitted. */
const TRIED = 5;

/**
 * How often a trial may ask the theory: twenty readings that fit but for a wild one or two are found in some eight thousand,
 * and a search that wanders fits nothing.
 */
const MOST_ASKED = 12_000;

/** Once a mix-up fits, those that leave the readings ten times as far from the rig are no rivals, and not tried. */
const RIVAL = Math.log(10);

/** Mean squares of residuals that differ by less do not tell two mix-ups apart. */
const ALIKE = 1;

/** Residual, in standard uncertainties, past which a reading counts no more: one wild reading speaks against nothing. */
const CAPPED = 4;

/**
 * @param reduced the reduction of the run as it stands; null where it has none, as no equilibrium answers to a reading
 * @returns what would make the readings fit, the best first; empty where they fit as they stand, nothing known makes them,
 * or the rig takes too long to be asked so often (a current, a float)
 */
export function mistakenReadings(run: Run, rig: Rig, reduced: Reduction | null): Mistaken[] {
  if (!settlesFast(rig)) return [];
  if (reduced !== null && missOf(reduced) !== null) return [];
  const asRead = offFrom(run, rig);
  const likely = variants(run)
    .map((variant) => ({ ...variant, off: offFrom(variant.run, rig) }))
    // What would explain the readings brings them nearer to the rig before anything is fitted.
    .filter(({ off }) => off < asRead)
    .sort((a, b) => a.off - b.off)
    .slice(0, TRIED);
  let nearest = Number.POSITIVE_INFINITY;
  const fitting = likely.flatMap(({ off, ...variant }) => {
    if (off > nearest + RIVAL) return [];
    const tried = reducedOrNone(variant.run, rig);
    const miss = tried && missOf(tried);
    if (tried === null || miss === null) return [];
    nearest = Math.min(nearest, off);
    return [{ ...variant, reduced: tried, miss }];
  });
  const least = Math.min(...fitting.map(({ miss }) => miss));
  return fitting
    .filter(({ miss }) => miss <= least + ALIKE)
    .sort((a, b) => a.miss - b.miss)
    .slice(0, MOST_TOLD)
    .map(({ miss: _, ...rest }) => rest);
}

/**
 * How far readings lie from the rig as it was stated, by the middle one of each sort in standard uncertainties: rough, as
 * nothing is fitted, but at the price of a curve.
 */
function offFrom(run: Run, rig: Rig): number {
  const theory = theoryOf(run, rig, 1, 0, 0, 0, 0);
  const angles = run.readings.flatMap(({ load, angle }) =>
    angle === undefined ? [] : [Math.abs(angle - theory.angle(load)) / theory.uOfAngle(load)],
  );
  const movements = run.release
    .slice(1)
    .map(({ load, movement }) => Math.abs(movement - theory.movement(load)) / theory.uOfMovement(load));
  const sorts = [angles, movements].filter((sort) => sort.length > 0);
  const off = sorts.reduce((sum, sort) => sum + Math.log1p(median(sort)), 0);
  return Number.isNaN(off) ? Number.POSITIVE_INFINITY : off;
}

/** Mean square of the residuals and of what the priors had to give; null where the readings do not fit. */
function missOf(reduced: Reduction): number | null {
  if (reduced.outcome.kind !== "converged") return null;
  const rows = [...reduced.readings, ...reduced.release.slice(1)];
  if (rows.length === 0) return null;
  const { fitted, beforehand } = reduced;
  const moved = (["massPerLength", "rise", "gaugeZero"] as const).map((name) => shift(fitted[name], beforehand[name]));
  if (moved.some((by) => by > CAPPED)) return null;
  if (fitted.rigGive !== null && fitted.rigGive.value < -CAPPED * fitted.rigGive.u) return null;
  const far = rows.filter((row) => Math.abs(row.residual) > CAPPED).length;
  if (far > 0.4 * rows.length) return null;
  const squares = rows.reduce((sum, row) => sum + Math.min(row.residual ** 2, CAPPED ** 2), 0);
  return (squares + moved.reduce((sum, by) => sum + by ** 2, 0)) / rows.length;
}

/** How far a fitted value was drawn from what was known beforehand, in its standard uncertainties. */
function shift(fitted: FittedValue | null, before: FittedValue | null): number {
  return fitted === null || before === null || !(before.u > 0) ? 0 : Math.abs(fitted.value - before.value) / before.u;
}

function reducedOrNone(run: Run, rig: Rig): Reduction | null {
  try {
    return reduce(run, rig, MOST_ASKED);
  } catch (error) {
    if (error instanceof UnsettledRun || error instanceof TooLong) return null;
    throw error;
  }
}

/** Newtons: exact by definition (standard gravity; the international pound), 1. */
const KGF = 9.80665;
const LBF = 4.4482216152605;

/** Factors that turn loads as they were written into those that were meant, by what was mixed up. */
const LOADS = {
  kgfAsN: KGF,
  lbfAsN: LBF,
  tenth: 10,
  hundredth: 100,
  kNAsN: 1000,
  nAsKgf: 1 / KGF,
  nAsLbf: 1 / LBF,
  tenfold: 1 / 10,
  hundredfold: 1 / 100,
  nAsKN: 1 / 1000,
  kgfAsLbf: KGF / LBF,
  lbfAsKgf: LBF / KGF,
  daNAsLbf: 10 / LBF,
  lbfAsDaN: LBF / 10,
} as const;

const MOVEMENTS = {
  otherWay: -1,
  inchesAsCm: 2.54,
  cmAsInches: 1 / 2.54,
  inchesAsMm: 25.4,
  mmAsInches: 1 / 25.4,
  inchesAsM: 0.0254,
  feetAsInches: 12,
  inchesAsFeet: 1 / 12,
  cmAsMm: 10,
  mmAsCm: 0.1,
  cmAsM: 0.01,
  mmAsM: 0.001,
} as const;

const ANGLES = {
  otherSign: (angle: number) => -angle,
  perCentAsDegrees: (angle: number) => Math.atan((angle * DEGREES) / 100),
  degreesAsPerCent: (angle: number) => (100 * Math.tan(angle)) / DEGREES,
  radiansAsDegrees: (angle: number) => angle * DEGREES,
  fromVertical: (angle: number) => Math.PI / 2 - angle,
  tenth: (angle: number) => 10 * angle,
  tenfold: (angle: number) => angle / 10,
} as const;

const namesOf = <T extends object>(table: T) => Object.keys(table) as (keyof T)[];

function variants(run: Run): { readonly mixUp: MixUp; readonly run: Run }[] {
  const other = (end: End): End => (end === "anchor" ? "bow" : "anchor");
  const scaled = (factor: number): Run => ({
    ...run,
    uncertainty: { ...run.uncertainty, load: run.uncertainty.load * Math.max(1, factor) },
    readings: run.readings.map((row) => ({ ...row, load: row.load * factor })),
    release: run.release.map((row) => ({ ...row, load: row.load * factor })),
  });
  const found: { mixUp: MixUp; run: Run }[] = namesOf(LOADS).map((as) => ({
    mixUp: { kind: "loads", as },
    run: scaled(LOADS[as]),
  }));
  const [cell, gauge] = [other(run.loadCellAt), other(run.angleAt)];
  found.push({ mixUp: { kind: "ends", cell, gauge: null }, run: { ...run, loadCellAt: cell } });
  if (run.readings.some((row) => row.angle !== undefined)) {
    for (const as of namesOf(ANGLES)) {
      const readings = run.readings.map((row) =>
        row.angle === undefined ? row : { ...row, angle: ANGLES[as](row.angle) },
      );
      if (readings.every((row) => row.angle === undefined || Math.abs(row.angle) < Math.PI / 2))
        found.push({ mixUp: { kind: "angles", as }, run: { ...run, readings } });
    }
    found.push({ mixUp: { kind: "ends", cell: null, gauge }, run: { ...run, angleAt: gauge } });
    found.push({ mixUp: { kind: "ends", cell, gauge }, run: { ...run, loadCellAt: cell, angleAt: gauge } });
  }
  if (run.release.length > 1)
    for (const as of namesOf(MOVEMENTS))
      found.push({
        mixUp: { kind: "movements", as },
        run: { ...run, release: run.release.map((row) => ({ ...row, movement: row.movement * MOVEMENTS[as] })) },
      });
  return found;
}
