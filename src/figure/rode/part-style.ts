/** Parts of a rode told apart by their line: chain in short strokes, wire thin, rope solid, any other line in long strokes. */
import type { Part } from "../../rode/index.ts";
import { type Ink, ink } from "../ink.ts";
import { type Attributes, tag } from "../svg.ts";

type Material = "chain" | "rope" | "wire" | "line";

const STYLES: Readonly<Record<Material, Attributes>> = {
  chain: { "stroke-width": 4, "stroke-dasharray": "5.5 2.5" },
  rope: { "stroke-width": 3 },
  wire: { "stroke-width": 1.5 },
  line: { "stroke-width": 2.4, "stroke-dasharray": "14 3" },
};

/** A stretch of one part, along a path. */
export function stretchOf(part: Part, d: string, colour: Ink): string {
  const material = part.kind === "line" ? (part.material ?? "line") : "line";
  const style = STYLES[material];
  const stroke = { d, fill: "none", stroke: ink(colour), "stroke-linejoin": "round" };
  // A thread through the strokes keeps a far chain one line.
  const thread = style["stroke-dasharray"] === undefined ? "" : tag("path", { ...stroke, "stroke-width": 1.2 });
  return thread + tag("path", { ...stroke, ...style });
}

/** Mass from which a point is drawn as a weight rather than a joint, kg. */
const HEAVY = 4;

/** A point by what it is: a float, a weight, or a joint. `waterDensity` 0 in air. */
export function pointOf(part: Part, x: number, y: number, colour: Ink, waterDensity: number): string {
  if (part.kind !== "point") return "";
  const stroke = { stroke: ink(colour), "stroke-width": 1.8 };
  if (part.density < waterDensity) return tag("circle", { cx: x, cy: y, r: 7, fill: ink("paper"), ...stroke });
  if (part.mass >= HEAVY)
    return tag("rect", { x: x - 6, y: y - 3, width: 12, height: 13, rx: 2, fill: ink(colour), stroke: ink("paper") });
  return tag("circle", { cx: x, cy: y, r: 3.6, fill: ink("paper"), ...stroke });
}
