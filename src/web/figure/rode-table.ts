/** Rodes as drawn, as tables: their line from the anchor to the upper end, and the tension along it. */

import type { FigureTable } from "../../figure/index.ts";
import type { Rig, RodeShape } from "../../rode/index.ts";

export interface DrawnLine {
  readonly rig: Rig;
  readonly shape: RodeShape;
}

/** @param drawn each with the name it is told by; one alone needs none */
export function rodeTable(drawn: readonly DrawnLine[]): FigureTable {
  return {
    columns: ["rode", "part", "distance from the anchor, m", "height above the anchor, m", "tension, N"],
    rows: drawn.flatMap(({ rig, shape }) =>
      Array.from({ length: shape.x.length }, (_, i) => [
        rig.name,
        rig.rode[shape.part[i]!]?.name ?? "",
        shape.x[i]!,
        shape.z[i]!,
        shape.tension[i]!,
      ]),
    ),
  };
}
