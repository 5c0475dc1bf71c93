import { type FigureMade, readingsFigure } from "../publish/index.ts";
import type { UnitSystem } from "../quantity/index.ts";
import { NoAnswer } from "./exit.ts";
import type { Io } from "./io.ts";
import { placeOf } from "./options.ts";
import { reducedRun } from "./reduced-run.ts";

/** The readings of a run against theory, as a figure. @throws NoAnswer where none of that kind was read */
export async function figureOfReadings(
  what: "angle" | "movement",
  path: string,
  units: UnitSystem,
  io: Io,
): Promise<FigureMade> {
  const { run, rig, reduced } = await reducedRun(path, units, io);
  const made = readingsFigure(what, { run, reduced, medium: rig.setting.medium }, units);
  if (made === null)
    throw new NoAnswer(`${placeOf(path)}: no ${what} was read; a run with readings of it would give one`);
  return made;
}
