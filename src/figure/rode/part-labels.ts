/** A name beside each part of a rode, with a leader to it. */
import { formatQuantity, type UnitSystem } from "../../quantity/index.ts";
import type { Part, Rig, RodeShape } from "../../rode/index.ts";
import { ink } from "../ink.ts";
import { fitted, SIZE, text, widthOf } from "../lettering.ts";
import { type Box, boxAround, roomFor, textBox } from "../room-for.ts";
import { tag } from "../svg.ts";
import type { Stage } from "./stage.ts";

const LONGEST = 230;
/** Parts that are named; a rode of more is rare, and its page full. */
export const MOST = 12;

/** @param near how far from the rode a label is tried first, px */
export function partLabels(
  rig: Rig,
  shape: RodeShape,
  stage: Stage,
  say: (part: Part, at: number) => string,
  taken: Box[],
  within: Box,
  near = 24,
): string {
  const written: string[] = [];
  rig.rode.slice(0, MOST).forEach((part, i) => {
    const place = middleOf(shape, i);
    if (place === null) return;
    const [x, y] = [stage.toX(place.x), stage.toY(place.z)];
    const shown = fitted(say(part, i), LONGEST, SIZE.small);
    const width = widthOf(shown, SIZE.small);
    const room = roomFor(
      offsets(near).map(([dx, dy]) => {
        const anchor = dx < 0 ? ("end" as const) : dx > 0 ? ("start" as const) : ("middle" as const);
        const box = textBox(x + dx, y + dy, width, SIZE.small, anchor);
        return { dx, dy, anchor, box, leader: leaderBoxes(x, y, dx, dy) };
      }),
      taken,
      within,
    );
    if (room === null) return;
    taken.push(room.box);
    const under = room.dy > 0;
    const beside = room.anchor === "end" ? 4 : room.anchor === "start" ? -4 : 0;
    written.push(
      tag("line", {
        x1: x,
        y1: y + (under ? 4 : -4),
        x2: x + room.dx + beside,
        y2: y + room.dy + (under ? -10 : 4),
        stroke: ink("soft"),
        "stroke-width": 0.8,
      }),
      text(x + room.dx, y + room.dy, shown, { size: SIZE.small, colour: "ink", anchor: room.anchor, rimmed: true }),
    );
  });
  return written.join("");
}

/** Where a label may stand from the place it names, px: first above to the left, where a hanging rode leaves room. */
function offsets(near: number): [number, number][] {
  return [near, near + 16, near + 34, near + 56].flatMap((far): [number, number][] => [
    [-far * 0.5, -far],
    [0, -far],
    [far * 0.5, far + 8],
    [far * 0.5, -far],
    [0, far + 8],
    [-far * 0.5, far + 8],
  ]);
}

/** The leader from the place named to its label, but for its first part, which lies on the rode. */
function leaderBoxes(x: number, y: number, dx: number, dy: number): Box[] {
  return [0.4, 0.55, 0.7, 0.85].map((share) => boxAround(x + share * dx, y + share * dy, 2));
}

export function nameOf(part: Part, units: UnitSystem): string {
  if (part.kind === "point") return part.name;
  return `${formatQuantity(part.length, "length", { system: units, digits: 4 })} ${part.name}`;
}

/** The middle of a part along the rode, m; null where it has no length to be seen. */
function middleOf(shape: RodeShape, part: number): { x: number; z: number } | null {
  const point = shape.points.find((candidate) => candidate.part === part);
  if (point !== undefined) return point;
  let whole = 0;
  for (let i = 1; i < shape.x.length; i++) if (shape.part[i] === part) whole += stroke(shape, i);
  let run = 0;
  for (let i = 1; i < shape.x.length; i++) {
    if (shape.part[i] !== part) continue;
    const length = stroke(shape, i);
    if (run + length >= whole / 2) {
      const share = length > 0 ? (whole / 2 - run) / length : 0;
      return {
        x: shape.x[i - 1]! + share * (shape.x[i]! - shape.x[i - 1]!),
        z: shape.z[i - 1]! + share * (shape.z[i]! - shape.z[i - 1]!),
      };
    }
    run += length;
  }
  return null;
}

function stroke(shape: RodeShape, i: number): number {
  return Math.hypot(shape.x[i]! - shape.x[i - 1]!, shape.z[i]! - shape.z[i - 1]!);
}
