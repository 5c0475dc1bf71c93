/** How a reduction was come by, in a few plain paragraphs with their sources. */

import type { Reduction, Run } from "../../pull/index.ts";
import type { UnitSystem } from "../../quantity/index.ts";
import type { Rig } from "../../rode/index.ts";
import { movementText, shown } from "./words.ts";

export function method({
  run,
  rig,
  reduced,
  units,
}: {
  run: Run;
  rig: Rig;
  reduced: Reduction;
  units: UnitSystem;
}): string[] {
  const stated = [
    run.uncertainty.load > 0 ? `load ${shown(run.uncertainty.load, "force", units)}` : "",
    run.uncertainty.angle > 0 ? `angle ${shown(run.uncertainty.angle, "angle", units)}` : "",
    run.uncertainty.movement > 0 ? `movement ${movementText(run.uncertainty.movement, units)}` : "",
  ].filter((part) => part !== "");
  const ground =
    rig.setting.bottomFriction > 0
      ? "what lies on the ground pulls back by friction."
      : "no friction of what lies on the ground.";
  return [
    `The rode is taken as a line that bends freely, of the stated parts, each with its weight and its stretch: a catenary for each part, in closed form (Irvine, Cable Structures, 1981, chapter 1), with g = 9.80665 m/s²; ${ground}`,
    `${stated.length === 0 ? "The run states no uncertainty of a reading: that of a hand-held gauge and a tape is taken" : `Standard uncertainties of one reading, as stated: ${stated.join(", ")}`}. That of the load enters through the slope of the curve. The unknowns are found by least squares on readings and prior knowledge together. Beyond ${(reduced.outlierBeyond / reduced.scatter).toFixed(1)} standard uncertainties of what the fit leaves of it${reduced.scatter > 1.01 ? `, widened ${reduced.scatter.toFixed(1)} times for the scatter of these readings` : ""}, a reading is called an outlier and counts by the chance that it is good after all, less than a half: it stays in every table and figure, and one good reading in a hundred is called so by chance. Where another reading would explain the disagreement as well, both are suspects and neither is believed. Uncertainties follow the Guide to the expression of uncertainty in measurement (JCGM 100:2008).`,
    ...(reduced.scatter > 1.01
      ? [
          `These readings spread more widely than stated, ${reduced.scatter.toFixed(1)} times in all; the ± of every fitted unknown is widened by as much.`,
        ]
      : []),
  ];
}
