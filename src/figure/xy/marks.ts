/** Lines, bands, points and their error bars, in pixels. */
import { type Ink, ink } from "../ink.ts";
import type { Scale } from "../scale.ts";
import { escaped, tag, through } from "../svg.ts";
import type { Layer, PlotPoint, PointShape, Role } from "./spec.ts";

export interface Scales {
  readonly x: Scale;
  readonly y: Scale;
}

const INK_OF: Readonly<Record<Role, Ink>> = {
  measured: "measured",
  computed: "computed",
  other: "other",
  faint: "soft",
};
const DASH = { solid: undefined, dashed: "7 4", dotted: "1.5 4" } as const;
const REACH = 4.5;

export function inkOf(role: Role): Ink {
  return INK_OF[role];
}

/** A layer's marks; its label is placed elsewhere. */
export function marksOf(layer: Layer, { x, y }: Scales): string {
  switch (layer.kind) {
    case "band":
      return band(layer, x, y);
    case "line":
      return tag("path", {
        d: through(pixels(layer.x, x), pixels(layer.y, y)),
        fill: "none",
        stroke: ink(inkOf(layer.role)),
        "stroke-width": layer.role === "faint" ? 1.2 : 2,
        "stroke-linejoin": "round",
        "stroke-linecap": layer.stroke === "dotted" ? "round" : undefined,
        "stroke-dasharray": DASH[layer.stroke ?? "solid"],
      });
    case "rule":
      return rule(layer, x, y);
    case "region":
      return tag("path", {
        d: through(pixels(layer.x, x), pixels(layer.y, y), true),
        fill: ink(inkOf(layer.role)),
        "fill-opacity": 0.14,
        stroke: ink(inkOf(layer.role)),
        "stroke-width": 1,
        "stroke-dasharray": layer.role === "faint" ? "3 3" : undefined,
      });
    case "points":
      return layer.points.map((point) => pointMark(point, layer.role, layer.stemFrom, x, y)).join("");
  }
}

function band(layer: Extract<Layer, { kind: "band" }>, x: Scale, y: Scale): string {
  const across = pixels(layer.x, x);
  const low = pixels(layer.low, y);
  const high = pixels(layer.high, y);
  const colour = ink(inkOf(layer.role));
  const edge = (along: number[]) =>
    tag("path", {
      d: through(across, along),
      fill: "none",
      stroke: colour,
      "stroke-width": 0.7,
      "stroke-opacity": 0.6,
    });
  return (
    tag("path", {
      d: through([...across, ...across.toReversed()], [...high, ...low.toReversed()], true),
      fill: colour,
      "fill-opacity": 0.16,
    }) +
    edge(low) +
    edge(high)
  );
}

function rule(layer: Extract<Layer, { kind: "rule" }>, x: Scale, y: Scale): string {
  const ends =
    layer.axis === "x"
      ? {
          x1: x.toPixel(layer.at),
          x2: x.toPixel(layer.at),
          y1: y.toPixel(y.from),
          y2: y.toPixel(y.to),
        }
      : {
          x1: x.toPixel(x.from),
          x2: x.toPixel(x.to),
          y1: y.toPixel(layer.at),
          y2: y.toPixel(layer.at),
        };
  return tag("line", { ...ends, stroke: ink(inkOf(layer.role)), "stroke-width": 1, "stroke-dasharray": "2 3" });
}

function pointMark(point: PlotPoint, role: Role, stemFrom: number | undefined, x: Scale, y: Scale): string {
  const px = x.toPixel(point.x);
  const py = y.toPixel(point.y);
  const colour = ink(inkOf(role));
  const thin = { stroke: colour, "stroke-width": 1.3 };
  const parts: string[] = [];
  if (point.note !== undefined) parts.push(tag("title", {}, escaped(point.note)));
  if (stemFrom !== undefined) parts.push(tag("line", { x1: px, x2: px, y1: y.toPixel(stemFrom), y2: py, ...thin }));
  if (point.uY !== undefined && point.uY > 0) {
    const [low, high] = [y.toPixel(point.y - point.uY), y.toPixel(point.y + point.uY)];
    parts.push(tag("path", { d: `${vertical(px, low, high)}${cap(px, low)}${cap(px, high)}`, fill: "none", ...thin }));
  }
  if (point.uX !== undefined && point.uX > 0) {
    const [left, right] = [x.toPixel(point.x - point.uX), x.toPixel(point.x + point.uX)];
    parts.push(tag("line", { x1: left, x2: right, y1: py, y2: py, ...thin }));
  }
  const shape = point.shape ?? (role === "measured" ? "diamond" : "ring");
  parts.push(symbol(shape, px, py, role, point.doubted === true));
  return tag("g", {}, ...parts);
}

const vertical = (x: number, from: number, to: number) => through([x, x], [from, to]);
const cap = (x: number, y: number) => through([x - 3, x + 3], [y, y]);

/** A point's symbol. A rim of paper sets a filled one off from what it lies on. */
function symbol(shape: PointShape, x: number, y: number, role: Role, doubted: boolean): string {
  const colour = ink(inkOf(role));
  const hollow = { fill: ink("paper"), stroke: colour, "stroke-width": 1.8 };
  const sign = doubted ? hollow : { fill: colour, stroke: ink("paper"), "stroke-width": 1 };
  const r = REACH;
  switch (shape) {
    case "diamond":
      return tag("path", {
        d: through([x - r - 1.5, x, x + r + 1.5, x], [y, y - r - 1.5, y, y + r + 1.5], true),
        ...sign,
      });
    case "triangle":
      return tag("path", { d: through([x - r - 1, x, x + r + 1], [y + r - 1, y - r - 1, y + r - 1], true), ...sign });
    case "ring":
      return tag("circle", { cx: x, cy: y, r, ...hollow });
    case "square":
      return tag("rect", { x: x - r + 0.5, y: y - r + 0.5, width: 2 * r - 1, height: 2 * r - 1, ...hollow });
  }
}

function pixels(values: ArrayLike<number>, scale: Scale): number[] {
  return Array.from(values, (value) => scale.toPixel(value));
}
