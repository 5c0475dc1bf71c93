/** Reduces a run and draws its figures: one question to the worker. */
import { angleOverLoad, curveLoads, movementOverLoad } from "../../figure/index.ts";
import { type Judgement, judge, type Reduction, type Run, reduce, theoryCurve } from "../../pull/index.ts";
import type { UnitSystem } from "../../quantity/index.ts";
import type { Rig } from "../../rode/index.ts";

export interface JudgedRun {
  readonly run: Run;
  readonly reduced: Reduction;
  readonly judgements: readonly Judgement[];
  /** SVG text; null where nothing of its kind was read. */
  readonly angle: string | null;
  readonly movement: string | null;
}

export function judgeRun(run: Run, rig: Rig, units: UnitSystem, width: number): JudgedRun {
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
    run,
    reduced,
    judgements: judge(run, rig, reduced),
    angle: run.readings.length > 0 ? angleOverLoad(figure).svg : null,
    movement: run.release.length > 1 ? movementOverLoad(figure).svg : null,
  };
}
