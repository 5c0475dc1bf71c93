/** A figure of y over x, or several panels one under another that share their x. */

import type { Box } from "../room-for.ts";
import { linearScale, rimmedRange, type Scale } from "../scale.ts";
import { type Drawn, sheet } from "../sheet.ts";
import { num, tag } from "../svg.ts";
import { axes } from "./axes.ts";
import { directLabels } from "./direct-labels.ts";
import { marksOf } from "./marks.ts";
import type { AxisSpec, Layer, XySpec } from "./spec.ts";

const MARGIN = { left: 46, right: 10, top: 32, bottom: 44 } as const;
const BETWEEN = { bottom: 12, top: 30 } as const;

/** A plot as it was drawn, with what is needed to put a pointer on it: where it lies, from pixels to values and back, what it shows. */
export interface DrawnPlot {
  readonly plot: Box;
  readonly x: Scale;
  readonly y: Scale;
  readonly axes: { readonly x: AxisSpec; readonly y: AxisSpec };
  readonly layers: readonly Layer[];
}

/** A figure of one plot. */
export interface DrawnXy extends Drawn, DrawnPlot {}

/** One plot among several. */
export type PanelSpec = Pick<XySpec, "y" | "layers"> & { readonly height: number };

/** @returns one panel on its own sheet; 680 px by 300 px unless the specification says otherwise */
export function drawXy(spec: XySpec): DrawnXy {
  const { width = 680, height = 300 } = spec;
  const drawn = drawPanels({ ...spec, width, panels: [{ y: spec.y, layers: spec.layers, height }] });
  const only = drawn.panels[0]!;
  return { svg: drawn.svg, width: drawn.width, height: drawn.height, ...only };
}

/** Plots under each other over one axis. */
export interface PanelsSpec extends Pick<XySpec, "title" | "description" | "x" | "width" | "alone"> {
  /** From the top; all have the x of the specification. */
  readonly panels: readonly PanelSpec[];
}

/** Panels under each other as SVG, with their scales. */
export interface DrawnPanels extends Drawn {
  readonly panels: readonly DrawnPlot[];
}

/** Several plots under each other over one axis. */
export function drawPanels(spec: PanelsSpec): DrawnPanels {
  const { width = 680 } = spec;
  const [left, right] = [MARGIN.left, width - MARGIN.right];
  const [fromX, toX] = range(
    spec.x,
    spec.panels.flatMap((panel) => panel.layers.flatMap((layer) => extent(layer, "x"))),
  );
  const x = linearScale(fromX, toX, [left, right]);
  let top = 0;
  const parts: string[] = [];
  const panels: DrawnPlot[] = [];
  spec.panels.forEach((panel, i) => {
    const last = i === spec.panels.length - 1;
    const plot: Box = {
      left,
      right,
      top: top + (i === 0 ? MARGIN.top : BETWEEN.top),
      bottom: top + panel.height - (last ? MARGIN.bottom : BETWEEN.bottom),
    };
    const [fromY, toY] = range(
      panel.y,
      panel.layers.flatMap((layer) => extent(layer, "y")),
    );
    const y = linearScale(fromY, toY, [plot.bottom, plot.top]);
    const scales = { x, y };
    parts.push(axes({ x: spec.x, y: panel.y, xShown: last }, scales, plot));
    parts.push(
      cutTo(
        plot,
        1,
        panel.layers.filter((layer) => layer.kind !== "points").map((layer) => marksOf(layer, scales)),
      ),
      cutTo(
        plot,
        9,
        panel.layers.filter((layer) => layer.kind === "points").map((layer) => marksOf(layer, scales)),
      ),
      directLabels(panel.layers, scales, plot),
    );
    panels.push({ plot, ...scales, axes: { x: spec.x, y: panel.y }, layers: panel.layers });
    top += panel.height;
  });
  return { ...sheet(width, top, spec, parts.join(""), spec.alone), panels };
}

/** A nested sheet cuts what runs out of the plot by more than a rim, without names that could clash within a page. */
function cutTo(plot: Box, rim: number, marks: readonly string[]): string {
  const [x, y] = [plot.left - rim, plot.top - rim];
  const [width, height] = [plot.right - plot.left + 2 * rim, plot.bottom - plot.top + 2 * rim];
  return tag("svg", { x, y, width, height, viewBox: `${num(x)} ${num(y)} ${num(width)} ${num(height)}` }, ...marks);
}

function range(axis: AxisSpec, values: readonly number[]): [number, number] {
  const seen = [...values, ...(axis.reach ?? [])].filter(Number.isFinite);
  let [low, high] = [Math.min(...seen), Math.max(...seen)];
  if (seen.length === 0) [low, high] = [0, 1];
  const [from, to] = rimmedRange(axis.from ?? low, axis.to ?? high);
  return [axis.from ?? from, axis.to ?? to];
}

/** The values a layer asks an axis to hold, error bars included. */
function extent(layer: Layer, axis: "x" | "y"): number[] {
  switch (layer.kind) {
    case "line":
    case "region":
      return Array.from(layer[axis]);
    case "band":
      return axis === "x" ? Array.from(layer.x) : [...Array.from(layer.low), ...Array.from(layer.high)];
    case "rule":
      return layer.axis === axis ? [layer.at] : [];
    case "points":
      return layer.points.flatMap((point) => {
        const u = (axis === "x" ? point.uX : point.uY) ?? 0;
        return [point[axis] - u, point[axis] + u];
      });
  }
}
