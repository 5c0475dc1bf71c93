import { type FigureMade, snubbersFigure } from "../publish/index.ts";
import type { Io } from "./io.ts";
import { snubberMapOf } from "./shock.ts";
import type { ShockOptions } from "./shock-options.ts";

/** Snubbers over length and diameter, as a figure. @throws what `shock` throws */
export async function figureOfSnubbers(path: string, options: ShockOptions, io: Io): Promise<FigureMade> {
  const { rig, rope, map } = await snubberMapOf(path, options, io);
  return snubbersFigure(rig.name, rope, map, options.units);
}
