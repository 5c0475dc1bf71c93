/** Theory as a curve over load, with the band that the uncertainty of the fitted unknowns leaves about it. */
import { combined } from "../../statistics/index.ts";
import type { Reduction } from "./reduce.ts";
import type { Run } from "./run-file.ts";
import { theoryOf } from "./theory.ts";

/** Theory at one load, with its standard uncertainty. */
export interface TheoryPoint {
  /** N at the load cell */
  readonly load: number;
  /** rad at the gauge, and its standard uncertainty */
  readonly angle: number;
  readonly uAngle: number;
  /** m read since the first row of the release (0 where there is none), and its standard uncertainty */
  readonly movement: number;
  readonly uMovement: number;
}

/** Share of a standard deviation at which differences are taken: the curve is near enough straight over it. */
const STEP = 0.5;

/**
 * The fitted theory at some loads. Its standard uncertainty is that of the unknowns alone, with their correlations
 * (JCGM 100:2008 eq. 13, sensitivities by central differences over half a standard deviation to either side); the
 * scatter of a reading comes on top.
 * @param loads N; one without an equilibrium is left out
 */
export function theoryCurve(run: Run, reduced: Reduction, loads: readonly number[]): TheoryPoint[] {
  const { massPerLength, rise, gaugeZero, rigGive, tapeZero } = reduced.fitted;
  const zero = gaugeZero?.value ?? 0;
  const give = rigGive?.value ?? 0;
  const at = (name: string, by: number) =>
    theoryOf(
      run,
      reduced.rig,
      name === "mass per length" ? 1 + (by * massPerLength!.u) / massPerLength!.value : 1,
      name === "rise" ? by * rise!.u : 0,
      zero + (name === "gauge zero" ? by * gaugeZero!.u : 0),
      give + (name === "rig give" ? by * rigGive!.u : 0),
      (tapeZero?.value ?? 0) + (name === "tape zero" ? by * tapeZero!.u : 0),
    );
  const here = at("", 0);
  const sides = reduced.names.map((name) => ({ up: at(name, STEP), down: at(name, -STEP) }));
  return loads.flatMap((load): TheoryPoint[] => {
    const angle = here.angle(load);
    if (!Number.isFinite(angle)) return [];
    const uOf = (read: "angle" | "movement") =>
      combined(
        {
          values: [0],
          contributions: sides.map(({ up, down }) => [(up[read](load) - down[read](load)) / (2 * STEP)]),
        },
        reduced.correlation,
      ).u[0]!;
    return [{ load, angle, uAngle: uOf("angle"), movement: here.movement(load), uMovement: uOf("movement") }];
  });
}
