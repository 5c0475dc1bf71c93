/**
 * What a figure shows, as plain data that goes from the worker to the page: where its plots lie, what their axes stand
 * for, and every line, band and point of them in the units the axes name. The read-out and the table are made of it.
 */
import type { AxisSpec, Box, DrawnPanels, DrawnPlot, DrawnXy, Layer } from "../../figure/index.ts";

export interface ShownAxis {
  readonly label: string;
  /** "" for a bare number. */
  readonly unit: string;
  readonly from: number;
  readonly to: number;
}

/** Something shown in a plot; `name` is empty where it needs none. */
export type Series = { readonly name: string; readonly x: ArrayLike<number> } & (
  | {
      readonly kind: "line";
      readonly y: ArrayLike<number>;
      /** Standard uncertainty of y; NaN where it is not known. */
      readonly u?: ArrayLike<number> | undefined;
    }
  | {
      readonly kind: "points";
      readonly y: ArrayLike<number>;
      readonly u?: ArrayLike<number> | undefined;
      /** Said of each; "" where there is nothing to say. */
      readonly notes: readonly string[];
    }
  | { readonly kind: "band"; readonly low: ArrayLike<number>; readonly high: ArrayLike<number> }
);

/** One plot of a figure. */
export interface ShownPlot {
  /** px of the drawing. */
  readonly box: Box;
  readonly x: ShownAxis;
  readonly y: ShownAxis;
  readonly series: readonly Series[];
}

/** What a pointer can read off, and a table can hold. */
export interface Shown {
  /** Size of the drawing, px of its own. */
  readonly width: number;
  readonly height: number;
  /** From the top. */
  readonly plots: readonly ShownPlot[];
}

/** A figure drawn as text, with what it shows. */
export interface ShownFigure extends Shown {
  readonly title: string;
  readonly svg: string;
}

/** A drawing of the figure room as plain data. */
export function shownFigure(title: string, drawn: DrawnXy | DrawnPanels): ShownFigure {
  const { svg, width, height } = drawn;
  const plots = "panels" in drawn ? drawn.panels : [drawn];
  return { title, svg, width, height, plots: plots.map(shownPlot) };
}

function shownPlot({ plot, x, y, axes, layers }: DrawnPlot): ShownPlot {
  const axis = ({ label, unit }: AxisSpec, { from, to }: { from: number; to: number }): ShownAxis => ({
    label,
    unit,
    from,
    to,
  });
  return { box: plot, x: axis(axes.x, x), y: axis(axes.y, y), series: layers.flatMap(seriesOf) };
}

function seriesOf(layer: Layer): readonly Series[] {
  const name = layer.label ?? "";
  switch (layer.kind) {
    case "line":
    case "region":
      return [{ kind: "line", name, x: layer.x, y: layer.y }];
    case "band":
      return [{ kind: "band", name: layer.label ?? "band", x: layer.x, low: layer.low, high: layer.high }];
    case "points":
      return [
        {
          kind: "points",
          name,
          x: layer.points.map(({ x }) => x),
          y: layer.points.map(({ y }) => y),
          u: layer.points.map(({ uY }) => uY ?? Number.NaN),
          notes: layer.points.map(({ note, label }) => note ?? label ?? ""),
        },
      ];
    case "rule":
      // A straight mark of one value, which its label tells.
      return [];
  }
}
