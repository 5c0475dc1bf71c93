/** The rode itself as it lies: each part's stretches, its points, and where it rests. */
import type { Rig, SettledTrace } from "../../rode/index.ts";
import { type RodeShape, shapeOf } from "../../rode/index.ts";
import { type Ink, ink } from "../ink.ts";
import { type Box, boxAround } from "../room-for.ts";
import { tag, through } from "../svg.ts";
import { pointOf, stretchOf } from "./part-style.ts";
import type { Stage } from "./stage.ts";

export interface RodeLine {
  readonly svg: string;
  readonly shape: RodeShape;
  /** Pixels of every vertex. */
  readonly x: readonly number[];
  readonly y: readonly number[];
  /** What it covers. */
  readonly boxes: readonly Box[];
}

export interface RodeLook {
  readonly colour: Ink;
  /** A plain thin line, as for a second load behind the first. */
  readonly ghost?: boolean;
}

export function rodeLine(rig: Rig, traced: SettledTrace, stage: Stage, look: RodeLook): RodeLine {
  const shape = shapeOf(traced, 48);
  const x = Array.from(shape.x, stage.toX);
  const y = Array.from(shape.z, stage.toY);
  const boxes = boxesAlong(x, y);
  if (look.ghost) {
    const svg = tag("path", {
      d: through(x, y),
      fill: "none",
      stroke: ink(look.colour),
      "stroke-width": 1.3,
      "stroke-dasharray": "1.5 4",
      "stroke-linecap": "round",
    });
    return { svg, shape, x, y, boxes };
  }
  const parts: string[] = [];
  for (const { from, to, resting } of runs(shape)) {
    const d = through(x.slice(from, to + 1), y.slice(from, to + 1));
    if (resting)
      parts.push(tag("path", { d, fill: "none", stroke: ink(look.colour), "stroke-width": 11, "stroke-opacity": 0.2 }));
    parts.push(stretchOf(rig.rode[shape.part[to]!]!, d, look.colour));
  }
  const water = rig.setting.medium === "water" ? rig.setting.waterDensity : 0;
  for (const point of shape.points)
    parts.push(pointOf(rig.rode[point.part]!, stage.toX(point.x), stage.toY(point.z), look.colour, water));
  return { svg: parts.join(""), shape, x, y, boxes };
}

/** Vertices `from`…`to` of one part that all rest or all hang. */
function runs(shape: RodeShape): { from: number; to: number; resting: boolean }[] {
  const found: { from: number; to: number; resting: boolean }[] = [];
  for (let i = 1; i < shape.x.length; i++) {
    const resting = shape.resting[i] === 1;
    const last = found.at(-1);
    if (last !== undefined && shape.part[i] === shape.part[last.to] && resting === last.resting) last.to = i;
    else found.push({ from: i - 1, to: i, resting });
  }
  return found;
}

function boxesAlong(x: readonly number[], y: readonly number[]): Box[] {
  const boxes: Box[] = [];
  for (let i = 1; i < x.length; i++) {
    const [dx, dy] = [x[i]! - x[i - 1]!, y[i]! - y[i - 1]!];
    const steps = Math.min(200, Math.max(1, Math.ceil(Math.hypot(dx, dy) / 6)));
    for (let n = 0; n < steps; n++)
      boxes.push(boxAround(x[i - 1]! + (dx * n) / steps, y[i - 1]! + (dy * n) / steps, 4));
  }
  return boxes;
}
