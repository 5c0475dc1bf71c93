/**
 * A rode as it lies, from the bottom to the boat, or from the anchor end of a rig on land to its upper end: drawn to scale,
 * with the loads and angles at both ends, rise and span.
 */

import type { UnitSystem } from "../../quantity/index.ts";
import { DEGREES } from "../../quantity/index.ts";
import { riseOf } from "../../rode/index.ts";
import { ink } from "../ink.ts";
import { SIZE, text, widthOf } from "../lettering.ts";
import { type Box, roomFor, textBox } from "../room-for.ts";
import { type Drawn, sheet } from "../sheet.ts";
import { num, tag } from "../svg.ts";
import { angleArc, arrow, levelDimension } from "./drafting.ts";
import { type Ends, length, type RodeDrawing, scaleWords, wordsOf } from "./rode-drawing.ts";
import { rodeLine } from "./rode-line.ts";
import { type Stage, stageFor } from "./stage.ts";
import { ground, surface, upperEnd, water } from "./surroundings.ts";
import { marginsBelow, NARROW, SHORT_ARROW, wordsBelow } from "./words-below.ts";
import { ARROW, marginsBeside, wordsBeside } from "./words-beside.ts";

/** A rode as SVG, with the way from metres to its pixels. */
export interface DrawnRode extends Drawn {
  /** From metres to pixels and back, for a pointer. */
  readonly stage: Stage;
}

/** A settled rode to scale, with its ends, angles and what rests. */
export function drawRode(drawing: RodeDrawing): DrawnRode {
  const { rig, traced, certainty, units = "metric", width = 680, beside } = drawing;
  const { settled } = traced;
  const narrow = width < NARROW;
  const arrowLength = narrow ? SHORT_ARROW : ARROW;
  const rise = riseOf(rig.setting);
  const reach = Math.max(settled.span, beside?.traced.settled.span ?? 0);
  const slopeDown = Math.min(0, reach * Math.tan(rig.setting.bottomSlope));
  const stage = stageFor(
    { left: 0, right: reach, bottom: slopeDown, top: rise },
    width,
    narrow ? marginsBelow(drawing) : marginsBeside(drawing, width),
  );
  const [ax, ay] = [stage.toX(0), stage.toY(0)];
  const [bx, by] = [stage.toX(settled.span), stage.toY(rise)];
  const onPage = (angle: number) => Math.atan2(Math.sin(angle) * stage.exaggeration, Math.cos(angle));
  const [anchorOut, bowOut] = [Math.PI + onPage(settled.anchor.angle), onPage(settled.bow.angle)];
  const ends: Ends = { ax, ay, bx, by, anchorOut, bowOut };
  const line = rodeLine(rig, traced, stage, { colour: "computed" });
  const ghost = beside === undefined ? null : rodeLine(rig, beside.traced, stage, { colour: "computed", ghost: true });
  const lines = ghost === null ? [line] : [line, ghost];
  const words = narrow ? wordsBelow(drawing, stage, ends, lines) : wordsBeside(drawing, stage, ends, lines);
  const spanY = Math.max(ay, stage.toY(slopeDown)) + (settled.grounded > 0 ? 38 : 28);
  const parts = [
    water(rig, stage),
    upperEnd(rig, stage, settled.span),
    ground(rig, stage),
    surface(rig, stage),
    settled.anchor.angle > 0.02 ? angleArc(ax, ay, 58, 1, onPage(settled.anchor.angle)) : "",
    settled.bow.angle > 0.02 ? angleArc(bx, by, 44, -1, Math.PI + onPage(settled.bow.angle)) : "",
    words.behind,
    levelDimension(ax, bx, spanY, `span ${length(settled.span, units, certainty?.span)}`),
    ghost?.svg ?? "",
    line.svg,
    arrow(ax, ay, anchorOut, arrowLength, "computed"),
    arrow(bx, by, bowOut, arrowLength, "computed"),
    tag("circle", { cx: ax, cy: ay, r: 4.5, fill: ink("paper"), stroke: ink("ink"), "stroke-width": 2 }),
    drawing.loadCellAt === undefined
      ? ""
      : cell(drawing.loadCellAt === "anchor" ? [ax, ay, onPage(settled.anchor.angle)] : [bx, by, Math.PI + bowOut]),
    words.ends,
    resting(settled.grounded, ax, ay, units, certainty?.grounded),
    words.parts,
    ghost === null ? "" : ghostLabel(beside!.label, ghost, words.taken, words.within),
    text(10, words.foot - 8, scaleWords(stage), { size: SIZE.small, colour: "soft" }),
  ];
  return { ...sheet(width, stage.height, wordsOf(drawing), parts.join(""), drawing.alone), stage };
}

function cell([x, y, direction]: readonly [number, number, number]): string {
  const at = { x: x + 20 * Math.cos(direction), y: y - 20 * Math.sin(direction) };
  const turned = -direction * DEGREES;
  return tag(
    "g",
    { transform: `translate(${num(at.x)} ${num(at.y)}) rotate(${num(turned)})` },
    tag("title", {}, "load cell"),
    tag("rect", {
      x: -9,
      y: -5,
      width: 18,
      height: 10,
      rx: 2,
      fill: ink("measured"),
      stroke: ink("paper"),
      "stroke-width": 1,
    }),
  );
}

function resting(grounded: number, x: number, y: number, units: UnitSystem, u?: number): string {
  if (!(grounded > 0)) return "";
  return text(x + 8, y + 24, `${length(grounded, units, u)} at rest`, {
    size: SIZE.small,
    colour: "computed",
    rimmed: true,
  });
}

function ghostLabel(
  label: string,
  ghost: { x: readonly number[]; y: readonly number[] },
  taken: Box[],
  within: Box,
): string {
  const width = widthOf(label, SIZE.small);
  const candidates = [0.5, 0.6, 0.4, 0.7, 0.3, 0.8].flatMap((share) => {
    const i = Math.round(share * (ghost.x.length - 1));
    return [16, 26, 38].map((down) => {
      const [x, y] = [ghost.x[i]! + 8, ghost.y[i]! + down];
      return { x, y, box: textBox(x, y, width, SIZE.small, "start") };
    });
  });
  const room = roomFor(candidates, taken, within);
  if (room === null) return "";
  taken.push(room.box);
  return text(room.x, room.y, label, { size: SIZE.small, colour: "computed", rimmed: true });
}
