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
  type Unsettled,
} from "../../pull/index.ts";
import type { UnitSystem } from "../../quantity/index.ts";
import type { Rig } from "../../rode/index.ts";
import { unsettledWords } from "../../words/index.ts";
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

/** Theory has nothing to say: of which row of the run, and why. */
export interface RefusedRun {
  readonly kind: "refused";
  readonly run: Run;
  readonly row: Pick<Unsettled, "list" | "row" | "load" | "kind">;
  readonly why: string;
}

export type Outcome = JudgedRun | RefusedRun;

export function judgeRun(run: Run, rig: Rig, units: UnitSystem, width: number): Outcome {
  const unsettled = firstUnsettled(run, rig);
  if (unsettled !== null) {
    return {
      kind: "refused",
      run,
      row: unsettled,
      why: unsettledWords(unsettled, units, rig.setting.medium),
    };
  }
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
