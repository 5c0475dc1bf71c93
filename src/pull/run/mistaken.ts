/**
 * Readings that theory does not account for, tried as what a tester mixes up: the unit of the loads, degrees and per cent,
 * a sign, a digit too many, the end the cell or the gauge sat at. A mix-up is told only where it makes the readings fit
 * which did not fit without it.
 */
import { DEGREES, InputError } from "../../quantity/index.ts";
import { type Rig, settlesFast } from "../../rode/index.ts";
import { median } from "../../statistics/index.ts";
import { type FittedValue, type Reduction, reduce, TooLong } from "./reduce.ts";
import type { Run } from "./run-file.ts";
import { theoryOf } from "./theory.ts";

/** What a tester mixed up, that would make the readings fit. */
export interface Mistaken {
  /** What was mixed up, as a clause: "the loads were read in kgf and written as N". */
  readonly says: string;
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
    if (error instanceof InputError || error instanceof TooLong) return null;
    throw error;
  }
}

/** Newtons: exact by definition (standard gravity; the international pound), 1. */
const KGF = 9.80665;
const LBF = 4.4482216152605;

const LOADS: readonly (readonly [factor: number, says: string])[] = [
  [KGF, "kgf written as N"],
  [LBF, "lbf written as N"],
  [10, "daN written as N, or a tenth too little"],
  [100, "a hundredth too little"],
  [1000, "kN written as N"],
  [1 / KGF, "N written as kgf"],
  [1 / LBF, "N written as lbf"],
  [1 / 10, "N written as daN, or ten times too much"],
  [1 / 100, "a hundred times too much"],
  [1 / 1000, "N written as kN"],
  [KGF / LBF, "kgf written as lbf"],
  [LBF / KGF, "lbf written as kgf"],
  [10 / LBF, "daN written as lbf"],
  [LBF / 10, "lbf written as daN"],
];

const MOVEMENTS: readonly (readonly [factor: number, says: string])[] = [
  [-1, "movement counted the other way"],
  [2.54, "inches written as cm"],
  [1 / 2.54, "cm written as inches"],
  [25.4, "inches written as mm"],
  [1 / 25.4, "mm written as inches"],
  [0.0254, "inches written as m"],
  [12, "feet written as inches"],
  [1 / 12, "inches written as feet"],
  [10, "cm written as mm"],
  [0.1, "mm written as cm"],
  [0.01, "cm written as m"],
  [0.001, "mm written as m"],
];

const ANGLES: readonly (readonly [says: string, of: (angle: number) => number])[] = [
  ["angles below the horizontal written as above, or the other way", (angle) => -angle],
  ["per cent written as degrees", (angle) => Math.atan((angle * DEGREES) / 100)],
  ["degrees written as per cent", (angle) => (100 * Math.tan(angle)) / DEGREES],
  ["radians written as degrees", (angle) => angle * DEGREES],
  ["angles from the vertical written as from the horizontal", (angle) => Math.PI / 2 - angle],
  ["angles a tenth of what they are", (angle) => 10 * angle],
  ["angles ten times what they are", (angle) => angle / 10],
];

function variants(run: Run): { says: string; run: Run }[] {
  const other = (end: "anchor" | "bow") => (end === "anchor" ? "bow" : "anchor");
  const scaled = (factor: number): Run => ({
    ...run,
    uncertainty: { ...run.uncertainty, load: run.uncertainty.load * Math.max(1, factor) },
    readings: run.readings.map((row) => ({ ...row, load: row.load * factor })),
    release: run.release.map((row) => ({ ...row, load: row.load * factor })),
  });
  const found = LOADS.map(([factor, says]) => ({ says: `the loads are ${says}`, run: scaled(factor) }));
  found.push({
    says: `the load cell sat at the ${other(run.loadCellAt)}`,
    run: { ...run, loadCellAt: other(run.loadCellAt) },
  });
  if (run.readings.some((row) => row.angle !== undefined)) {
    for (const [says, of] of ANGLES) {
      const readings = run.readings.map((row) => (row.angle === undefined ? row : { ...row, angle: of(row.angle) }));
      if (readings.every((row) => row.angle === undefined || Math.abs(row.angle) < Math.PI / 2))
        found.push({ says: `these are ${says}`, run: { ...run, readings } });
    }
    found.push({
      says: `the gauge sat at the ${other(run.angleAt)}`,
      run: { ...run, angleAt: other(run.angleAt) },
    });
    found.push({
      says: `the load cell sat at the ${other(run.loadCellAt)} and the gauge at the ${other(run.angleAt)}`,
      run: { ...run, loadCellAt: other(run.loadCellAt), angleAt: other(run.angleAt) },
    });
  }
  if (run.release.length > 1)
    for (const [factor, says] of MOVEMENTS)
      found.push({
        says: `the movements are ${says}`,
        run: { ...run, release: run.release.map((row) => ({ ...row, movement: row.movement * factor })) },
      });
  return found;
}
