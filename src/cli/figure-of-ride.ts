import { rideAnswer } from "../motion/index.ts";
import { type FigureMade, rideFigure, rideSharesFigure } from "../publish/index.ts";
import { lowestWorkingLoad } from "../rode/index.ts";
import type { Io } from "./io.ts";
import { ridden, rideQuestion, windageUOf } from "./ride.ts";
import type { RideOptions } from "./ride-options.ts";

/** A boat riding in gusts and waves, over time or by the time at each load, as a figure. @throws what `ride` throws */
export async function figureOfRide(
  path: string,
  options: RideOptions,
  io: Io,
  over: "time" | "shares",
): Promise<FigureMade> {
  const given = await rideQuestion(path, options, io);
  const { under, series } = await ridden(given, options, io);
  const { rig, boat, seed } = given;
  const about = {
    rig: rig.name,
    boat: boat.name,
    seed,
    measuredWind: given.measuredWind === true,
    wind: given.wind[0]!.speed,
    limit: lowestWorkingLoad(rig),
  };
  return (over === "time" ? rideFigure : rideSharesFigure)(
    { ...about, series, answer: rideAnswer(under), windageU: windageUOf(given) },
    options.units,
  );
}
