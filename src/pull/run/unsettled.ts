/** Readings that theory says nothing of: they cannot be set against it, and say that something is wrong. */
import { type NoEquilibrium, type Rig, settle } from "../../rode/index.ts";
import type { Run } from "./run-file.ts";
import { liftoffLoad } from "./theory.ts";

/** A row of a run that theory says nothing of, and why. */
export type Unsettled = {
  readonly list: "readings" | "release";
  /** From 0. */
  readonly row: number;
  /** N */
  readonly load: number;
} & (
  | { readonly kind: "noEquilibrium"; readonly none: NoEquilibrium }
  /** The lift-off was noted without an angle, and no load lifts the rig off. */
  | { readonly kind: "neverLiftsOff" }
);

/** A run was to be reduced of which theory says nothing in one row: `firstUnsettled` would have told. */
export class UnsettledRun extends Error {
  readonly unsettled: Unsettled;

  constructor(unsettled: Unsettled) {
    super(unsettled.kind);
    this.name = "UnsettledRun";
    this.unsettled = unsettled;
  }
}

/** The first row of a run that theory says nothing of; null where there is none. */
export function firstUnsettled(run: Run, rig: Rig): Unsettled | null {
  for (const list of ["readings", "release"] as const)
    for (const [row, { load }] of run[list].entries()) {
      const answer = settle(rig, { at: run.loadCellAt, newtons: load });
      if (answer.kind === "noEquilibrium") return { kind: "noEquilibrium", list, row, load, none: answer };
    }
  const row = run.readings.findIndex(({ angle }) => angle === undefined);
  if (row < 0 || Number.isFinite(liftoffLoad(rig, run.loadCellAt))) return null;
  return { kind: "neverLiftsOff", list: "readings", row, load: run.readings[row]!.load };
}
