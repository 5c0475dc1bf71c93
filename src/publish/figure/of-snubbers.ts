/** Snubbers over length and diameter, held against limits. */
import { drawSnubberMap } from "../../figure/index.ts";
import { DEGREES, inUnit, plotForceUnit, type UnitSystem, unitFor } from "../../quantity/index.ts";
import { REASONS, type SnubberMap } from "../../sizing/index.ts";
import { snubberReasonWords } from "../../words/index.ts";
import type { FigureMade } from "./made.ts";

/** Which limit stands against each snubber of a map. @param rope "polyamide three-strand" */
export function snubbersFigure(rig: string, rope: string, map: SnubberMap, units: UnitSystem): FigureMade {
  const lengthUnit = unitFor("length", units);
  const diameterUnit = units === "us" ? "in" : "mm";
  const forceUnit = plotForceUnit(units);
  const told = (code: number) => {
    const reason = REASONS[code]!;
    return { reason, ...snubberReasonWords[reason] };
  };
  const title = `Snubbers of ${rope} on ${rig}`;
  const columns = map.lengths.length;
  const within = map.reason.filter((code) => code === 0).length;
  return {
    title,
    uncertain: `No ± on the map: limits, load and surge are taken as stated${map.oneByOne ? "" : ", and peaks are worked out fast, good to some 5 %"}. Try a snubber near a border by itself.`,
    draw: (width, height) =>
      drawSnubberMap({
        title,
        description: `${within} of ${map.reason.length} snubbers are within all limits.`,
        lengths: map.lengths.map((metres) => inUnit(metres, lengthUnit, "length")),
        diameters: map.diameters.map((metres) => inUnit(metres, diameterUnit, "length")),
        codes: map.reason,
        ...{ lengthUnit, diameterUnit, told },
        width: Math.round(width),
        height: Math.max(380, Math.round(height)),
      }),
    table: {
      columns: [
        `length, ${lengthUnit}`,
        `diameter, ${diameterUnit}`,
        "verdict",
        `peak at the bow, ${forceUnit}`,
        "rope, share of its strength",
        "gear, share of working load",
        "angle at the anchor, deg",
      ],
      rows: Array.from(map.reason, (code, i) => [
        inUnit(map.lengths[i % columns]!, lengthUnit, "length"),
        inUnit(map.diameters[Math.floor(i / columns)]!, diameterUnit, "length"),
        told(code).long,
        inUnit(map.peak[i]!, forceUnit, "force"),
        map.ropeShare[i]!,
        map.workingLoadShare[i]!,
        map.anchorAngle[i]! * DEGREES,
      ]),
    },
  };
}
