/** Axes: a grid as faint as it can be, round marks, and a title with its unit. */
import { ink } from "../ink.ts";
import { SIZE, text } from "../lettering.ts";
import type { Box } from "../room-for.ts";
import { ticksBetween, tickText } from "../scale.ts";
import { tag } from "../svg.ts";
import type { Scales } from "./marks.ts";
import type { AxisSpec } from "./spec.ts";

export interface AxesSpec {
  readonly x: AxisSpec;
  readonly y: AxisSpec;
  /** False where another panel below carries the marks of x. */
  readonly xShown: boolean;
}

export function axes(spec: AxesSpec, { x, y }: Scales, plot: Box): string {
  const parts: string[] = [];
  const xTicks = ticksBetween(x.from, x.to, spec.x.marks ?? Math.max(2, (plot.right - plot.left) / 90));
  const yTicks = ticksBetween(y.from, y.to, spec.y.marks ?? Math.max(2, (plot.bottom - plot.top) / 50));
  const grid = { stroke: ink("faint"), "stroke-width": 1 };
  for (const value of yTicks.values) {
    const at = y.toPixel(value);
    parts.push(tag("line", { x1: plot.left, x2: plot.right, y1: at, y2: at, ...grid }));
    parts.push(
      text(plot.left - 7, at + 4, tickText(value, yTicks.decimals), {
        anchor: "end",
        size: SIZE.small,
        colour: "soft",
      }),
    );
  }
  for (const value of xTicks.values) {
    const at = x.toPixel(value);
    parts.push(tag("line", { x1: at, x2: at, y1: plot.bottom, y2: plot.bottom + 5, stroke: ink("soft") }));
    if (spec.xShown)
      parts.push(
        text(at, plot.bottom + 18, tickText(value, xTicks.decimals), {
          anchor: "middle",
          size: SIZE.small,
          colour: "soft",
        }),
      );
  }
  parts.push(tag("line", { x1: plot.left, x2: plot.right, y1: plot.bottom, y2: plot.bottom, stroke: ink("soft") }));
  if (spec.xShown) parts.push(text(plot.right, plot.bottom + 36, titled(spec.x), { anchor: "end" }));
  // Read level, not turned: above the axis it belongs to, flush with the sheet.
  parts.push(text(0, plot.top - 13, titled(spec.y)));
  return parts.join("");
}

function titled(axis: AxisSpec): string {
  return axis.unit === "" ? axis.label : `${axis.label}, ${axis.unit}`;
}
