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
import { type Rig, sayWhy } from "../../rode/index.ts";

export interface JudgedRun {
  readonly kind: "judged";
  readonly run: Run;
  readonly reduced: Reduction;
  readonly judgements: readonly Judgement[];
  /** SVG text; null where nothing of its kind was read. */
  readonly angle: string | null;
  readonly movement: string | null;
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
    const { cause, given, limit } = unsettled.none;
    const { why, nearest } = sayWhy(cause, given, limit, units);
    return { kind: "refused", run, row: rowAt(unsettled.place, run), why: `no equilibrium: ${why}; ${nearest}` };
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
    angle: run.readings.length > 0 ? angleOverLoad(figure).svg : null,
    movement: run.release.length > 1 ? movementOverLoad(figure).svg : null,
  };
}

/** `readings[2].load` as a row of the run. */
function rowAt(place: string, run: Run): RefusedRun["row"] {
  const [, list, at] = /^(readings|release)\[(\d+)\]/.exec(place) ?? [];
  if (list !== "readings" && list !== "release") return null;
  const row = run[list][Number(at)];
  return row === undefined ? null : { list, at: Number(at), load: row.load };
}
