/** A bridle from above, under the peak of a surge. */
import { drawBridle } from "../../figure/index.ts";
import { formatQuantity, type UnitSystem } from "../../quantity/index.ts";
import { type Bridle, bridleAt } from "../../sizing/index.ts";
import type { FigureMade } from "./made.ts";

/** A bridle under a pull. @param rope "polyamide three-strand, 14 mm"; @param pull at the hook, N */
export function bridleFigure(rope: string, bridle: Bridle, pull: number, units: UnitSystem): FigureMade {
  const at = bridleAt(bridle, pull);
  const load = (value: number): string => formatQuantity(value, "force", { system: units, digits: 2 });
  const length = (value: number): string => formatQuantity(value, "length", { system: units, digits: 2 });
  const title = `Bridle from above: ${rope}`;
  return {
    title,
    uncertain:
      "No ± is drawn: beam, heading and legs are taken as stated. Loads are those of the peak, as rodebench shock answers it with its ±.",
    draw: (width, height) =>
      drawBridle({
        title,
        description: `Legs of ${length(bridle.legs[0])} and ${length(bridle.legs[1])} carry ${load(at.legs[0])} and ${load(at.legs[1])}.`,
        ...{ beam: bridle.beam, heading: bridle.heading, along: at.along, across: at.across, legs: at.legs },
        said: [load(at.legs[0]), load(at.legs[1])],
        pull: load(pull),
        width: Math.round(width),
        height: Math.round(height),
      }),
    table: {
      columns: ["what", "along the pull, m", "across the pull, m", "load, N", "length, m"],
      rows: [
        ["hook", at.along, at.across, pull, ""],
        ...([0, 1] as const).map((i) => {
          const side = (i === 0 ? 0.5 : -0.5) * bridle.beam;
          const [a, o] = [side * Math.sin(bridle.heading), side * Math.cos(bridle.heading)];
          return [`leg ${i + 1}, from its cleat`, a, o, at.legs[i], Math.hypot(at.along - a, at.across - o)];
        }),
      ],
    },
  };
}
