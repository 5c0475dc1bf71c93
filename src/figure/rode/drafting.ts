/** What a draughtsman adds: dimension lines, angle arcs, load arrows. */
import { type Ink, ink } from "../ink.ts";
import { SIZE, text, widthOf } from "../lettering.ts";
import { num, tag, through } from "../svg.ts";

const HEAD = 7;

/** An arrow from a place along a direction (rad, 0 to the right, positive up). */
export function arrow(x: number, y: number, direction: number, length: number, colour: Ink): string {
  const [dx, dy] = [Math.cos(direction), -Math.sin(direction)];
  const [tipX, tipY] = [x + dx * length, y + dy * length];
  const [backX, backY] = [tipX - dx * HEAD * 1.4, tipY - dy * HEAD * 1.4];
  return (
    tag("line", { x1: x, y1: y, x2: backX, y2: backY, stroke: ink(colour), "stroke-width": 2.4 }) +
    tag("path", {
      d: through(
        [tipX, backX - dy * HEAD * 0.6, backX + dy * HEAD * 0.6],
        [tipY, backY + dx * HEAD * 0.6, backY - dx * HEAD * 0.6],
        true,
      ),
      fill: ink(colour),
    })
  );
}

/** A level dimension line with its measure in a gap in the middle, or past its end where it is short. */
export function levelDimension(fromX: number, toX: number, y: number, measure: string): string {
  const stroke = { stroke: ink("soft"), "stroke-width": 1 };
  const middle = (fromX + toX) / 2;
  const half = widthOf(measure, SIZE.small) / 2 + 6;
  const ends = stroke45(fromX, y) + stroke45(toX, y);
  if (toX - fromX < 2 * half + 24)
    return (
      tag("line", { x1: fromX, x2: toX, y1: y, y2: y, ...stroke }) +
      ends +
      text(toX + 9, y + 4, measure, { size: SIZE.small, colour: "soft" })
    );
  return (
    tag("line", { x1: fromX, x2: middle - half, y1: y, y2: y, ...stroke }) +
    tag("line", { x1: middle + half, x2: toX, y1: y, y2: y, ...stroke }) +
    ends +
    text(middle, y + 4, measure, { size: SIZE.small, colour: "soft", anchor: "middle" })
  );
}

/** An upright dimension line with its measure beside it, to the right. */
export function uprightDimension(x: number, fromY: number, toY: number, measure: string): string {
  return (
    tag("line", { x1: x, x2: x, y1: fromY, y2: toY, stroke: ink("soft"), "stroke-width": 1 }) +
    stroke45(x, fromY) +
    stroke45(x, toY) +
    text(x + 8, (fromY + toY) / 2 + 4, measure, { size: SIZE.small, colour: "soft", rimmed: true })
  );
}

function stroke45(x: number, y: number): string {
  return tag("line", { x1: x - 4, y1: y + 4, x2: x + 4, y2: y - 4, stroke: ink("soft"), "stroke-width": 1.4 });
}

/**
 * The arc of an angle above the level, with the level as a broken line.
 * @param facing 1 where the rode leaves to the right, −1 to the left
 * @param direction in which the rode leaves, rad, on the page
 */
export function angleArc(x: number, y: number, radius: number, facing: 1 | -1, direction: number): string {
  const level = facing === 1 ? 0 : Math.PI;
  const end = (angle: number, r: number): [number, number] => [x + r * Math.cos(angle), y - r * Math.sin(angle)];
  const [startX, startY] = end(level, radius);
  const [endX, endY] = end(direction, radius);
  const sweep = Math.sin(direction - level) > 0 ? 0 : 1;
  const arc = `${through([startX], [startY])}A${num(radius)} ${num(radius)} 0 0 ${sweep} ${through([endX], [endY]).slice(1)}`;
  return (
    tag("line", {
      x1: x,
      y1: y,
      x2: end(level, radius + 16)[0],
      y2: y,
      stroke: ink("soft"),
      "stroke-width": 1,
      "stroke-dasharray": "4 3",
    }) + tag("path", { d: arc, fill: "none", stroke: ink("soft"), "stroke-width": 1.2 })
  );
}
