/** In which water each angle of a series can be had at each load. */
import { drawWater, type WaterRow } from "../../figure/index.ts";
import { DEGREES, formatQuantity, inUnit, type UnitSystem, unitFor } from "../../quantity/index.ts";
import type { Cell, SeriesSite } from "../../series/index.ts";
import { againstLine, degreesText } from "../../words/index.ts";
import type { FigureMade } from "./made.ts";

/** The water of some sites of a series. @param cells of its table; those of other sites are left out */
export function waterFigure(
  series: string,
  sites: readonly SeriesSite[],
  cells: readonly Cell[],
  units: UnitSystem,
): FigureMade {
  const unit = unitFor("length", units);
  const depth = (metres: number): number => inUnit(metres, unit, "length");
  const shown = sites.map((site) => ({ site, cells: cells.filter((cell) => cell.site === site.name) }));
  const all = shown.flatMap((one) => one.cells);
  const only = sites.length === 1 ? sites[0]! : null;
  const deepest = Math.max(...sites.map((site) => site.depth.most), ...all.map(({ depths }) => depths?.most ?? 0));
  const had = all.filter((cell) => cell.depths !== null).length;
  const title = `In which water each angle can be had: ${only === null ? series : only.name}`;
  return {
    title,
    uncertain:
      "A bar: water in which the angle can be had at that load, at some level of the tide; the ring: where the depth moves the angle least. No ± is drawn: rodes, boat and sites are taken as the series states them.",
    draw: (width) =>
      drawWater({
        title,
        description: `${had} of ${all.length} angles at a load can be had.`,
        sites: shown.map(({ site, cells: own }) => ({
          name: only === null ? site.name : "",
          rows: own.map((cell) => rowOf(cell, depth, units)),
        })),
        deepest: depth(deepest),
        axis: { label: "water at the anchor", unit },
        width: Math.round(width),
      }),
    table: {
      columns: [
        ...["site", "angle at the anchor, deg", "load at the anchor, N", "least water, m", "most water, m"],
        ...["water that moves the angle least, m", "rode", "length out, m", "load at the bow, N", "against it"],
      ],
      rows: all.map((cell) => [
        ...[cell.site, cell.angle * DEGREES, cell.load, cell.depths?.least ?? "", cell.depths?.most ?? ""],
        ...[cell.had?.depth ?? "", cell.had?.rode ?? "", cell.had?.length ?? "", cell.had?.bow ?? ""],
        cell.had === null ? againstText(cell, units) : "",
      ]),
    },
  };
}

function rowOf(cell: Cell, depth: (metres: number) => number, units: UnitSystem): WaterRow {
  const { angle, load, had, depths } = cell;
  const length = (metres: number) => formatQuantity(metres, "length", { system: units, digits: 3 });
  const force = (newtons: number) => formatQuantity(newtons, "force", { system: units, digits: 3 });
  const asked = `${degreesText(angle)}, ${force(load)}`;
  if (had === null || depths === null) return { asked, said: [`none. ${againstText(cell, units)}`], depths: null };
  return {
    asked,
    said: [
      `${length(depths.least)} to ${length(depths.most)}`,
      `${length(had.length)} of ${had.rode} out`,
      `${force(had.bow)} at the bow`,
    ],
    depths: { least: depth(depths.least), most: depth(depths.most), best: depth(had.depth) },
  };
}

/** What stands against an angle that cannot be had, rode by rode. */
export function againstText({ against }: Pick<Cell, "against">, units: UnitSystem): string {
  return against
    .map(({ rode, against: why }) => `${rode}: ${why.map((one) => againstLine(one, units)).join("; ")}`)
    .join(". ");
}
