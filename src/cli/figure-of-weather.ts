import { type FigureMade, weatherFigure } from "../publish/index.ts";
import { InputError, type UnitSystem } from "../quantity/index.ts";
import { CALM_SURROUNDINGS, readBoat, windLoadCurve } from "../sea/index.ts";
import type { Io } from "./io.ts";
import { placeOf } from "./options.ts";

const WINDS = 80;

/**
 * Load of the wind on a boat, as a figure.
 * @param most strongest mean wind drawn, m/s
 * @throws InputError for a boat without windage or measured points
 */
export async function figureOfWeather(path: string, most: number, units: UnitSystem, io: Io): Promise<FigureMade> {
  const boat = readBoat(await io.read(path), placeOf(path));
  if (boat.windage === undefined && boat.measured.length === 0)
    throw new InputError(placeOf(path), "neither windage nor measured points", "one of them is expected");
  const winds = Array.from({ length: WINDS }, (_, i) => (most * (i + 1)) / WINDS);
  return weatherFigure(boat.name, windLoadCurve(boat, winds, CALM_SURROUNDINGS), units);
}
