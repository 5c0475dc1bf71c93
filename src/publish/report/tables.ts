/** Every reading and every unknown, in figures. */
import { endName } from "../../figure/index.ts";
import type { FittedValue, Reduction, Run } from "../../pull/index.ts";
import { formatQuantity, type UnitSystem } from "../../quantity/index.ts";
import type { Rig } from "../../rode/index.ts";
import { type Cell, table } from "./page.ts";
import { giveText, movementText, residualText, shown } from "./words.ts";

const head = (names: readonly string[], words: readonly string[]): Cell[] => [
  ...names.map((says) => ({ says, number: true })),
  ...words.map((says) => ({ says })),
];
const numbers = (texts: readonly string[]): Cell[] => texts.map((says) => ({ says, number: true }));

const weightText = (weight: number) => weight.toFixed(2);
const remark = (row: { outlier: boolean; suspect: boolean; resting: boolean }) =>
  [row.outlier ? "outlier" : row.suspect ? "suspect" : "", row.resting ? "rode rests on the ground" : ""]
    .filter((part) => part !== "")
    .join(", ");

export function readingsTable(run: Run, reduced: Reduction, rig: Rig, units: UnitSystem): string {
  const angle = (radians: number) => formatQuantity(radians, "angle", { system: units, digits: 3 });
  return table(
    `Angle read at the ${endName(run.angleAt, rig.setting.medium)}, and theory. Residual: reading less theory, in standard uncertainties. Weight: how far the fit believes it, 0 to 1.`,
    head(["load", "angle read", "theory", "residual", "weight"], ["remark"]),
    reduced.readings.map((row) => ({
      marked: row.outlier || row.suspect,
      cells: [
        ...numbers([
          shown(row.load, "force", units),
          row.angle === null ? "lift-off" : angle(row.angle),
          row.angle === null && reduced.liftoff !== null
            ? `at ${shown(reduced.liftoff, "force", units)}`
            : angle(row.theory),
          residualText(row.residual),
          weightText(row.weight),
        ]),
        { says: remark(row) },
      ],
    })),
  );
}

export function releaseTable(reduced: Reduction, units: UnitSystem): string {
  return table(
    "Movement of the loaded end since the first row, and theory, the rig's own give included.",
    head(["load", "movement read", "theory", "residual", "weight"], ["remark"]),
    reduced.release.map((row, i) => ({
      marked: row.outlier || row.suspect,
      cells: [
        ...numbers([
          shown(row.load, "force", units),
          movementText(row.movement, units),
          movementText(row.theory, units),
          residualText(row.residual),
          weightText(row.weight),
        ]),
        { says: [i === 0 ? "counted from here" : "", remark(row)].filter((part) => part !== "").join(", ") },
      ],
    })),
  );
}

export function fittedTable(reduced: Reduction, units: UnitSystem): string {
  const { fitted, beforehand } = reduced;
  const row = (
    name: string,
    value: FittedValue | null,
    before: FittedValue | null,
    text: (value: FittedValue) => string,
  ): { cells: Cell[] }[] => {
    if (value === null) return [];
    const moved = before === null || !(before.u > 0) ? "" : residualText((value.value - before.value) / before.u);
    return [
      {
        cells: [{ says: name }, ...numbers([text(value), before === null ? "nothing stated" : text(before), moved])],
      },
    ];
  };
  const rows = [
    ...row("mass per length", fitted.massPerLength, beforehand.massPerLength, (v) =>
      shown(v.value, "massPerLength", units, v.u),
    ),
    ...row("rise", fitted.rise, beforehand.rise, (v) => shown(v.value, "length", units, v.u)),
    ...row("zero of the angle gauge", fitted.gaugeZero, beforehand.gaugeZero, (v) =>
      shown(v.value, "angle", units, v.u),
    ),
    ...row("give of the rig itself", fitted.rigGive, beforehand.rigGive, (v) => giveText(v, units)),
    ...row("zero of the tape", fitted.tapeZero, beforehand.tapeZero, (v) =>
      formatQuantity(v.value, "length", { unit: units === "us" ? "in" : "mm", u: v.u }),
    ),
  ];
  return table(
    "Each with its standard uncertainty. Moved: by how many standard uncertainties of what was stated beforehand.",
    [{ says: "unknown" }, ...head(["fitted", "beforehand", "moved"], [])],
    rows,
  );
}
