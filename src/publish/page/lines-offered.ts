/** Chains and ropes of the catalogue a viewer may choose from: what most rodes are made of, the thinnest first. */
import { catalogue, type LineRow } from "../../gear/index.ts";
import type { LinePart } from "../../rode/index.ts";

const offered = (wanted: (row: LineRow) => boolean): LinePart[] =>
  catalogue.rows
    .flatMap((row) => (row.kind !== "point" && wanted(row) ? [row] : []))
    .sort((a, b) => a.diameter - b.diameter)
    .map(
      (row): LinePart => ({
        kind: "line",
        name: row.name,
        length: 1,
        massPerLength: row.massPerLength,
        density: row.density,
        stretch: row.stretch,
        diameter: row.diameter,
        material: row.kind,
        ...(row.workingLoad === undefined ? {} : { workingLoad: row.workingLoad }),
      }),
    );

/** Chain of the usual grade; another grade of one size weighs and stretches much the same. */
export const chainsOffered = (): LinePart[] => offered((row) => row.kind === "chain" && row.grade === "30");

/** Three-strand rope that stretches much, and that stretches little. */
export const ropesOffered = (): LinePart[] => offered((row) => row.kind === "rope" && row.lay === "three-strand");
