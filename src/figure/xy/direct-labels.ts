/** Labels beside what they name, in its colour, in place of a key. */
import { fitted, SIZE, text, widthOf } from "../lettering.ts";
import { type Box, boxAround, roomFor, textBox } from "../room-for.ts";
import { inkOf, type Scales } from "./marks.ts";
import type { Layer, Role } from "./spec.ts";

interface Candidate {
  readonly box: Box;
  readonly x: number;
  readonly y: number;
  readonly anchor: "start" | "middle" | "end";
}

export function directLabels(layers: readonly Layer[], scales: Scales, plot: Box): string {
  const taken = layers.flatMap((layer) => covers(layer, scales));
  const written: string[] = [];
  const write = (line: string, role: Role, candidates: (width: number) => Candidate[]): void => {
    const shown = fitted(line, 0.6 * (plot.right - plot.left));
    const room = roomFor(candidates(widthOf(shown)), taken, plot);
    if (room === null) return;
    taken.push(room.box);
    written.push(text(room.x, room.y, shown, { colour: inkOf(role), anchor: room.anchor, rimmed: true }));
  };
  for (const layer of layers) {
    if (layer.kind === "points")
      for (const point of layer.points)
        if (point.label !== undefined)
          write(point.label, layer.role, (width) => beside(pixel(point.x, point.y, scales), width));
    if (layer.label === undefined) continue;
    write(layer.label, layer.role, (width) => placesFor(layer, scales, plot, width));
  }
  return written.join("");
}

const pixel = (x: number, y: number, scales: Scales) => ({ x: scales.x.toPixel(x), y: scales.y.toPixel(y) });

function at(x: number, y: number, width: number, anchor: Candidate["anchor"]): Candidate {
  return { x, y, anchor, box: textBox(x, y, width, SIZE.text, anchor) };
}

function beside(place: { x: number; y: number }, width: number): Candidate[] {
  const { x, y } = place;
  return [10, 16, 26].flatMap((gap) => [
    at(x + gap, y + 4, width, "start"),
    at(x + gap, y + gap + 8, width, "start"),
    at(x + gap, y - gap + 2, width, "start"),
    at(x - gap, y + 4, width, "end"),
    at(x - gap, y - gap + 2, width, "end"),
    at(x - gap, y + gap + 8, width, "end"),
    at(x, y - gap, width, "middle"),
    at(x, y + gap + 9, width, "middle"),
  ]);
}

function placesFor(layer: Layer, scales: Scales, plot: Box, width: number): Candidate[] {
  switch (layer.kind) {
    case "rule":
      if (layer.axis === "x") {
        const x = scales.x.toPixel(layer.at);
        return [plot.top + 12, plot.bottom - 8, (plot.top + plot.bottom) / 2].flatMap((y) => [
          at(x + 6, y, width, "start"),
          at(x - 6, y, width, "end"),
        ]);
      }
      return [1, 0.8, 0.6, 0.4, 0.2, 0]
        .map((share) => plot.left + 4 + width + share * (plot.right - plot.left - 8 - width))
        .flatMap((x) => [
          at(x, scales.y.toPixel(layer.at) - 5, width, "end"),
          at(x, scales.y.toPixel(layer.at) + 14, width, "end"),
        ]);
    case "points":
      return layer.points.flatMap((point) => beside(pixel(point.x, point.y, scales), width));
    case "region": {
      const n = layer.x.length;
      const middle = pixel(mean(layer.x, n), mean(layer.y, n), scales);
      return [0, 18, -18, 40, -40].map((up) => at(middle.x, middle.y - up, width, "middle"));
    }
    case "band":
      return along(layer.x, layer.high, scales, width, [7, 12, 20]).concat(
        along(layer.x, layer.low, scales, width, [-15, -20, -28]),
      );
    case "line":
      return along(layer.x, layer.y, scales, width, [8, -16, 14, -22, 24, -32]);
  }
}

/** Places along a curve, first near its far end, so many pixels above (or, negative, below) it. */
function along(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  scales: Scales,
  width: number,
  gaps: readonly number[],
): Candidate[] {
  const places: Candidate[] = [];
  for (const share of [0.97, 0.85, 0.7, 0.55, 0.4, 0.25, 0.1]) {
    const i = Math.round(share * (x.length - 1));
    const place = pixel(x[i]!, y[i]!, scales);
    for (const gap of gaps)
      for (const anchor of ["end", "middle", "start"] as const) places.push(at(place.x, place.y - gap, width, anchor));
  }
  return places;
}

/** What a layer's marks cover, as small boxes. */
function covers(layer: Layer, scales: Scales): Box[] {
  const { x, y } = scales;
  if (layer.kind === "points")
    return layer.points.flatMap((point) => {
      const p = pixel(point.x, point.y, scales);
      const bar = point.uY === undefined ? 0 : Math.abs(y.toPixel(point.y + point.uY) - p.y);
      const reach = point.uX === undefined ? 0 : Math.abs(x.toPixel(point.x + point.uX) - p.x);
      return [
        boxAround(p.x, p.y, 7),
        { left: p.x - 3, right: p.x + 3, top: p.y - bar, bottom: p.y + bar },
        { left: p.x - reach, right: p.x + reach, top: p.y - 2, bottom: p.y + 2 },
      ];
    });
  if (layer.kind === "line") return dense(layer.x, layer.y, scales);
  if (layer.kind === "band") return [...dense(layer.x, layer.low, scales), ...dense(layer.x, layer.high, scales)];
  if (layer.kind === "rule") {
    const p = layer.axis === "x" ? x.toPixel(layer.at) : y.toPixel(layer.at);
    return layer.axis === "x"
      ? [{ left: p - 1, right: p + 1, top: y.toPixel(y.to), bottom: y.toPixel(y.from) }]
      : [{ left: x.toPixel(x.from), right: x.toPixel(x.to), top: p - 1, bottom: p + 1 }];
  }
  return [];
}

/** Boxes every few pixels along a curve. */
function dense(xs: ArrayLike<number>, ys: ArrayLike<number>, scales: Scales): Box[] {
  const boxes: Box[] = [];
  for (let i = 1; i < xs.length; i++) {
    const a = pixel(xs[i - 1]!, ys[i - 1]!, scales);
    const b = pixel(xs[i]!, ys[i]!, scales);
    const steps = Math.min(400, Math.max(1, Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / 5)));
    for (let n = 0; n < steps; n++)
      boxes.push(boxAround(a.x + ((b.x - a.x) * n) / steps, a.y + ((b.y - a.y) * n) / steps, 2));
  }
  return boxes;
}

function mean(values: ArrayLike<number>, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += values[i]!;
  return sum / n;
}
