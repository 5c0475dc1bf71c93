/** The tide of a site as its file tells it. */
import { InputError, nearestName, nth, parseQuantity, quoted } from "../quantity/index.ts";
import { CONSTITUENTS } from "./constituents.ts";
import { readMoment } from "./read-days.ts";
import type { SeriesFields } from "./series-shape.ts";
import type { Tide } from "./tide.ts";

type Given = SeriesFields["sites"][number]["tide"];

/** @throws InputError naming the field */
export function readTide(given: Given, place: string): Tide {
  if (given === undefined) return { kind: "none" };
  const { turns, constituents, mean } = given;
  if ((turns === undefined) === (constituents === undefined)) {
    const what = turns === undefined ? "neither turns nor constituents" : "both turns and constituents";
    throw new InputError(place, what, "one of the two is expected");
  }
  if (constituents !== undefined)
    return {
      kind: "harmonic",
      mean: mean === undefined ? 0 : parseQuantity(mean, "length", `${place}.mean`),
      constituents: Object.entries(constituents).map(([name, [amplitude, lag]]) => {
        const at = `${place}.constituents.${name}`;
        if (!CONSTITUENTS.includes(name)) {
          const near = nearestName(name, CONSTITUENTS);
          const meant = near === undefined ? "" : ` (${near}?)`;
          throw new InputError(at, quoted(name), `one of ${CONSTITUENTS.join(", ")} is expected${meant}`);
        }
        return {
          name,
          amplitude: parseQuantity(amplitude, "length", at),
          lag: parseQuantity(lag, "angle", at),
        };
      }),
    };
  if (mean !== undefined)
    throw new InputError(`${place}.mean`, quoted(mean), "constituents are expected with it, not high and low waters");
  const read = turns!.map(({ at, level }, i) => ({
    at: readMoment(at, `${place}.turns${nth(i)}.at`),
    level: parseQuantity(level, "length", `${place}.turns${nth(i)}.level`),
  }));
  if (read.length < 2)
    throw new InputError(`${place}.turns`, `${read.length} of them`, "two or more high and low waters are expected");
  const late = read.findIndex(({ at }, i) => i > 0 && !(at > read[i - 1]!.at));
  if (late > 0)
    throw new InputError(
      `${place}.turns${nth(late)}.at`,
      quoted(turns![late]!.at),
      "a time after the one before is expected",
    );
  return { kind: "turns", turns: read };
}
