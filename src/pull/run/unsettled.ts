/** Readings that no equilibrium of the rig answers to: they cannot be set against theory, and say that something is wrong. */
import { InputError, nth } from "../../quantity/index.ts";
import { type NoEquilibrium, type Rig, settle } from "../../rode/index.ts";
import type { Run } from "./run-file.ts";

/** A row that no equilibrium of the rig answers to, and why. */
export interface Unsettled {
  /** Which row, as in the run file: `readings #3.load`. */
  readonly place: string;
  /** N */
  readonly load: number;
  readonly none: NoEquilibrium;
}

/** The first row of a run under whose load the rig has no equilibrium; null where every one has. */
export function firstUnsettled(run: Run, rig: Rig): Unsettled | null {
  for (const list of ["readings", "release"] as const)
    for (const [i, { load }] of run[list].entries()) {
      const answer = settle(rig, { at: run.loadCellAt, newtons: load });
      if (answer.kind === "noEquilibrium") return { place: `${list}${nth(i)}.load`, load, none: answer };
    }
  return null;
}

/**
 * @param liftoff load of lift-off by theory, N; NaN where the rig has none
 * @throws InputError naming the row that theory says nothing of
 */
export function expectSettled(run: Run, rig: Rig, liftoff: () => number): void {
  const unsettled = firstUnsettled(run, rig);
  if (unsettled !== null) {
    const { place, load } = unsettled;
    throw new InputError(place, `${load} N`, "a load under which the rig has an equilibrium is expected");
  }
  const noted = run.readings.findIndex((row) => row.angle === undefined);
  if (noted >= 0 && !Number.isFinite(liftoff()))
    throw new InputError(
      `readings${nth(noted)}.event`,
      "liftoff",
      "an angle is expected with it: by theory no load lifts this rig off",
    );
}
