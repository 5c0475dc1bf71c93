/** Run files as the table's state, and back. Loaded only when a file is read or written. */

import demoRig from "../../../data/demo/gantry-rig.yaml?raw";
import demo from "../../../data/demo/gantry-run.yaml?raw";
import { type Run, type RunFile, readRun, writeRun } from "../../pull/index.ts";
import { InputError } from "../../quantity/index.ts";
import { type Rig, readRig } from "../../rode/index.ts";
import type { ReadingsState } from "./state.ts";

/** @throws InputError of one line; a rig in a file of its own cannot be fetched from here, and is asked for */
export function stateOfRunFile(text: string, place: string): ReadingsState {
  const file = readRun(text, place);
  if (file.rig.kind === "path") {
    throw new InputError(
      `${place}: rig`,
      file.rig.path,
      "the rig itself is expected here: a page cannot open a file beside another; open the rig in Rig and take it from the bench, or write it into the run",
    );
  }
  return stateOf(file, file.rig.rig);
}

function stateOf({ run }: RunFile, rig: Rig): ReadingsState {
  return {
    name: run.name,
    rig,
    loadCellAt: run.loadCellAt,
    angleAt: run.angleAt,
    u: run.uncertainty,
    readings: run.readings.map((row) => ({ load: row.load, angle: row.angle ?? null, liftoff: row.liftoff })),
    release: run.release.map((row) => ({ load: row.load, movement: row.movement })),
  };
}

export function demoRun(): ReadingsState {
  return stateOf(readRun(demo, "demo"), readRig(demoRig, "demo rig"));
}

export function textOfRun(run: Run, rig: Rig): string {
  return writeRun(run, rig);
}
