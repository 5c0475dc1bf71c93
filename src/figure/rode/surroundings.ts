/** What a rode hangs in: ground, water and its surface, the boat or the upper end of a rig. */
import type { Rig } from "../../rode/index.ts";
import { riseOf } from "../../rode/index.ts";
import { ink } from "../ink.ts";
import { SIZE, text } from "../lettering.ts";
import { num, tag, through } from "../svg.ts";
import type { Stage } from "./stage.ts";

/** The water, at the very back. */
export function water(rig: Rig, stage: Stage): string {
  if (rig.setting.medium !== "water") return "";
  const surface = stage.toY(rig.setting.depth);
  const slope = Math.tan(rig.setting.bottomSlope);
  const [left, right] = [stage.toX(0), stage.width];
  const bottom = (px: number) => stage.toY(((px - left) / stage.scale) * slope) + 5;
  return tag("path", {
    d: through([0, right, right, 0], [surface, surface, Math.max(surface, bottom(right)), bottom(0)], true),
    fill: ink("water"),
  });
}

/** The bottom with its strokes, the surface with its mark, each named. */
export function ground(rig: Rig, stage: Stage): string {
  const slope = Math.tan(rig.setting.bottomSlope);
  const at = (px: number) => stage.toY(((px - stage.toX(0)) / stage.scale) * slope);
  const ceiling = rig.setting.medium === "water" ? stage.toY(rig.setting.depth) : stage.toY(riseOf(rig.setting));
  let end = stage.width;
  while (end > 0 && at(end) < ceiling) end -= 1;
  const parts = [
    tag("line", { x1: 0, x2: end, y1: at(0) + 5, y2: at(end) + 5, stroke: ink("ground"), "stroke-width": 1.6 }),
  ];
  for (let px = 4; px < end; px += 12)
    parts.push(
      tag("line", {
        x1: px + 6,
        y1: at(px + 6) + 5,
        x2: px,
        y2: at(px) + 12,
        stroke: ink("ground"),
        "stroke-width": 1,
      }),
    );
  return parts.join("");
}

/** The surface with its mark, so far from the left, px. */
export function surface(rig: Rig, stage: Stage, name = "surface", x = 20): string {
  if (rig.setting.medium !== "water") return "";
  const y = stage.toY(rig.setting.depth);
  return (
    tag("line", { x1: 0, x2: stage.width, y1: y, y2: y, stroke: ink("soft"), "stroke-width": 1.2 }) +
    tag("path", { d: through([x - 6, x + 6, x], [y - 10, y - 10, y - 1], true), fill: "none", stroke: ink("soft") }) +
    tag("line", { x1: x - 4, x2: x + 4, y1: y + 3, y2: y + 3, stroke: ink("soft") }) +
    text(x + 12, y - 5, name, { size: SIZE.small, colour: "soft" })
  );
}

/** The bow of some boat above its waterline, or the point a rig on land is held by. */
export function upperEnd(rig: Rig, stage: Stage, span: number): string {
  const x = stage.toX(span);
  const y = stage.toY(riseOf(rig.setting));
  if (rig.setting.medium === "air")
    return (
      tag("line", {
        x1: x,
        x2: x,
        y1: y,
        y2: stage.toY(span * Math.tan(rig.setting.bottomSlope)) + 5,
        stroke: ink("faint"),
        "stroke-width": 5,
      }) + tag("rect", { x: x - 5, y: y - 5, width: 10, height: 10, rx: 2, fill: ink("ink") })
    );
  const waterline = stage.toY(rig.setting.depth);
  const freeboard = Math.max(waterline - y, 5);
  const rake = Math.min(0.6 * freeboard, 40);
  const right = stage.width;
  const draught = Math.min(0.45 * freeboard, 14);
  const keel = waterline + draught;
  const hull =
    through([x, right, right, x + rake + 2 * draught], [y, y + 2, keel, keel]) +
    `Q${num(x + rake + 0.6 * draught)} ${num(waterline + 0.8 * draught)} ${num(x + rake)} ${num(waterline)}Z`;
  return (
    tag("path", { d: hull, fill: ink("paper"), stroke: ink("soft"), "stroke-width": 1.4, "stroke-linejoin": "round" }) +
    tag("circle", { cx: x, cy: y, r: 4, fill: ink("ink") })
  );
}
