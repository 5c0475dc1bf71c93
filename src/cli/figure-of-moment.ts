import { ride } from "../motion/index.ts";
import { type FigureMade, momentFigure } from "../publish/index.ts";
import { InputError, parseQuantity, quoted } from "../quantity/index.ts";
import type { Io } from "./io.ts";
import { rideQuestion } from "./ride.ts";
import type { RideOptions } from "./ride-options.ts";
import { noAnswer } from "./settle.ts";

/** What a second of a ride is asked with. */
export interface MomentOptions extends RideOptions {
  readonly second: string;
}

/** Seconds of the ride between looks at ctrl-c. */
const STRIDE = 5;

/** The boat and her rode at a second of a ride, as a figure. @throws what `ride` throws; InputError past its end */
export async function figureOfMoment(path: string, options: MomentOptions, io: Io): Promise<FigureMade> {
  const given = await rideQuestion(path, options, io);
  const second = parseQuantity(options.second, "time", "--second");
  if (!(second >= 0 && second <= given.duration))
    throw new InputError("--second", quoted(options.second), `a time from 0 to ${given.duration} s is expected`);
  const under = ride(given);
  if ("kind" in under) throw noAnswer(given.rig, under, options.units);
  const least = Math.max(second, 0.1);
  let goes = true;
  while (goes && under.counted() < least && !io.stop.aborted) {
    goes = under.goOn(under.counted() > 0 ? Math.min(STRIDE, least - under.counted() + 1e-6) : STRIDE);
    await new Promise((resolve) => setImmediate(resolve));
  }
  const series = under.series();
  const last = series.time.length - 1;
  if (last < 0 || series.time[last]! < second - 1)
    throw new InputError("--second", quoted(options.second), "a second that the ride comes to is expected");
  return momentFigure(
    {
      ...{ rig: given.rig, boat: given.boat, second: series.time[last]!, seed: given.seed },
      places: under.state.place,
      body: [under.state.q[0]!, under.state.q[1]!, under.state.q[2]!],
      bowLoad: series.bowLoad[last]!,
      anchorLoad: series.anchorLoad[last]!,
      anchorAngle: series.anchorAngle[last]!,
    },
    options.units,
  );
}
