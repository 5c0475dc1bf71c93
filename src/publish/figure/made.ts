/** A figure as it can be published: how it draws itself at a size, and what is said and written beside it. */
import type { Drawn, DrawnPanels, DrawnXy, FigureTable, Layer } from "../../figure/index.ts";

/** A figure before it is put on a sheet. */
export interface FigureMade {
  readonly title: string;
  /** What its ± are, or that there are none; whole sentences. */
  readonly uncertain: string;
  /** @param height px it may be high; a drawing that has a height of its own pays no heed */
  readonly draw: (width: number, height: number) => Drawn;
  readonly table: FigureTable;
  /** Made of a book whose data are invented: the sheet says so. */
  readonly invented?: boolean;
}

/** Layers whose bands go without a name: each lies about its own line, which has one. */
export function bandsUnnamed(layers: readonly Layer[]): Layer[] {
  return layers.map((layer) => {
    if (layer.kind !== "band") return layer;
    const { label: _, ...band } = layer;
    return band;
  });
}

type Series = readonly (string | number)[][];

/** Every value a plot shows, each with the line it is of: in the units of the axes. */
export function tableOfPlots(drawn: Pick<DrawnXy, "axes" | "layers"> | DrawnPanels): FigureTable {
  const panels = "panels" in drawn ? drawn.panels : [drawn];
  const x = panels[0]!.axes.x;
  const named = ({ label, unit }: { readonly label: string; readonly unit: string }): string =>
    unit === "" ? label : `${label}, ${unit}`;
  return {
    columns: ["line", "of", named(x), "value", "standard uncertainty", "low", "high"],
    rows: panels.flatMap(({ axes, layers }) => layers.flatMap((layer) => rowsOf(layer, named(axes.y)))),
  };
}

function rowsOf(layer: Layer, of: string): Series {
  const name = layer.label ?? "";
  switch (layer.kind) {
    case "line":
    case "region":
      return Array.from(layer.x, (x, i) => [name, of, x, layer.y[i]!, "", "", ""]);
    case "band":
      return Array.from(layer.x, (x, i) => [name === "" ? "band" : name, of, x, "", "", layer.low[i]!, layer.high[i]!]);
    case "points":
      return layer.points.map(({ x, y, uY, note, label }) => [name || note || label || "", of, x, y, uY ?? "", "", ""]);
    case "rule":
      return [layer.axis === "x" ? [name, of, layer.at, "", "", "", ""] : [name, of, "", layer.at, "", "", ""]];
  }
}
