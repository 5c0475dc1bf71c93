/** Reduces a run and draws its figures: one question to the worker. */
import { angleOverLoad, curveLoads, movementOverLoad } from "../../figure/index.ts";
import {
  firstUnsettled,
  type Judgement,
  judge,
  type Reduction,
  type Run,
  reduce,
  theoryCurve,
} from "../../pull/index.ts";
import { InputError, type UnitSystem } from "../../quantity/index.ts";
import type { Rig } from "../../rode/index.ts";
import { noEquilibriumLine } from "../../words/index.ts";
import { type ShownFigure, shownFigure } from "../figure/shown-figure.ts";

export interface JudgedRun {
  readonly kind: "judged";
  readonly run: Run;
  readonly reduced: Reduction;
  readonly judgements: readonly Judgement[];
  /** Null where nothing of its kind was read. */
  readonly angle: ShownFigure | null;
  readonly movement: ShownFigure | null;
}

/** Theory has nothing to say: why, and of which row of the run where it is one row's doing. */
export interface RefusedRun {
  readonly kind: "refused";
  readonly run: Run;
  readonly row: { readonly list: "readings" | "release"; readonly at: number; readonly load: number } | null;
  readonly why: string;
}

export type Outcome = JudgedRun | RefusedRun;

export function judgeRun(run: Run, rig: Rig, units: UnitSystem, width: number): Outcome {
  const unsettled = firstUnsettled(run, rig);
  if (unsettled !== null) {
    return {
      kind: "refused",
      run,
      row: rowAt(unsettled.place, run),
      why: `no equilibrium: ${noEquilibriumLine(unsettled.none, units)}`,
    };
  }
  try {
    return judged(run, rig, units, width);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { kind: "refused", run, row: rowAt(error.place, run), why: error.expected };
  }
}

function judged(run: Run, rig: Rig, units: UnitSystem, width: number): JudgedRun {
  const reduced = reduce(run, rig);
  const figure = {
    run,
    reduced,
    curve: theoryCurve(run, reduced, curveLoads(run, reduced)),
    medium: rig.setting.medium,
    units,
    width,
  } as const;
  return {
    kind: "judged",
    run,
    reduced,
    judgements: judge(run, rig, reduced),
    angle: run.readings.length > 0 ? shownFigure("Angle over load", angleOverLoad(figure)) : null,
    movement: run.release.length > 1 ? shownFigure("Movement over load", movementOverLoad(figure)) : null,
  };
}

/** `readings #3.load` as a row of the run. */
function rowAt(place: string, run: Run): RefusedRun["row"] {
  const [, list, at] = /^(readings|release) #(\d+)/.exec(place) ?? [];
  if (list !== "readings" && list !== "release") return null;
  const row = run[list][Number(at) - 1];
  return row === undefined ? null : { list, at: Number(at) - 1, load: row.load };
}
