import { bridleFigure, type FigureMade } from "../publish/index.ts";
import { formatQuantity, InputError } from "../quantity/index.ts";
import { cannotBeRigged } from "../words/index.ts";
import { NoAnswer } from "./exit.ts";
import type { Io } from "./io.ts";
import { placeOf } from "./options.ts";
import { snubberTriedOf } from "./shock.ts";
import type { ShockOptions } from "./shock-options.ts";

/** A bridle under the peak of a surge, as a figure. @throws what `shock` throws; NoAnswer where it cannot be rigged */
export async function figureOfBridle(path: string, options: ShockOptions, io: Io): Promise<FigureMade> {
  if (options.bridle === undefined)
    throw new InputError("--bridle", "", 'a beam and a heading are expected, such as "2.4 m, 20 deg"');
  const { rope, diameter, answer } = await snubberTriedOf(path, options, io);
  if (answer.kind !== "tried" || answer.snubbed.bridle === undefined)
    throw new NoAnswer(
      `${placeOf(path)}: ${answer.kind === "notSnubbed" ? cannotBeRigged[answer.why] : "no rode takes that surge"}; another bridle would give a figure`,
    );
  const thick = formatQuantity(diameter, "length", { unit: options.units === "us" ? "in" : "mm", digits: 3 });
  const { bridle, line } = answer.snubbed;
  return bridleFigure(`${rope}, ${thick}`, bridle, answer.snatch.loads[line]!, options.units);
}
