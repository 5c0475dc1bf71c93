/**
 * A rode as it lies, from the bottom to the boat, or from the anchor end of a rig on land to its upper end: drawn to scale,
 * with the loads and angles at both ends, rise and span.
 */
import { formatQuantity, type UnitSystem } from "../../quantity/index.ts";
import { type Certainty, type Rig, riseOf, type SettledTrace } from "../../rode/index.ts";
import { ink } from "../ink.ts";
import { SIZE, text, widthOf } from "../lettering.ts";
import { type Box, boxAround, roomFor, textBox } from "../room-for.ts";
import { type Drawn, sheet } from "../sheet.ts";
import { num, tag } from "../svg.ts";
import { angleArc, arrow, levelDimension, uprightDimension } from "./drafting.ts";
import { cardAt, cardOf } from "./end-card.ts";
import { nameOf, partLabels } from "./part-labels.ts";
import { rodeLine } from "./rode-line.ts";
import { type Stage, stageFor } from "./stage.ts";
import { ground, surface, upperEnd, water } from "./surroundings.ts";

export interface RodeDrawing {
  readonly rig: Rig;
  readonly traced: SettledTrace;
  /** Standard uncertainties of what is drawn; without, no ± is shown. */
  readonly certainty?: Certainty | null;
  /** Standard uncertainty of the rise, m; without, that which the rig states. */
  readonly riseU?: number | null;
  /** The end a load cell sits at, marked. */
  readonly loadCellAt?: "anchor" | "bow";
  /** The same rig under another load, as a dotted line behind, with its name. */
  readonly beside?: { readonly traced: SettledTrace; readonly label: string };
  readonly units?: UnitSystem;
  /** px; 680 without */
  readonly width?: number;
  readonly title?: string;
  readonly alone?: boolean;
}

export interface DrawnRode extends Drawn {
  /** From metres to pixels and back, for a pointer. */
  readonly stage: Stage;
}

const ARROW = 46;

export function drawRode(drawing: RodeDrawing): DrawnRode {
  const { rig, traced, certainty, units = "metric", width = 680, beside } = drawing;
  const { settled } = traced;
  const inAir = rig.setting.medium === "air";
  const endName = inAir ? "upper end" : "bow";
  const rise = riseOf(rig.setting);
  const anchorCard = cardOf(
    {
      name: inAir ? "at the anchor end" : "at the anchor",
      tension: settled.anchor.tension,
      uTension: certainty?.anchorTension,
      angle: settled.anchor.angle,
      uAngle: certainty?.anchorAngle,
    },
    units,
  );
  const bowCard = cardOf(
    {
      name: `at the ${endName}`,
      tension: settled.bow.tension,
      uTension: certainty?.bowTension,
      angle: settled.bow.angle,
      uAngle: certainty?.bowAngle,
    },
    units,
  );
  const reach = Math.max(settled.span, beside?.traced.settled.span ?? 0);
  const slopeDown = Math.min(0, reach * Math.tan(rig.setting.bottomSlope));
  // A steep rode leaves its anchor's card no room but beside it.
  const steep = settled.anchor.angle > 0.6;
  const stage = stageFor({ left: 0, right: reach, bottom: slopeDown, top: rise }, width, {
    left: Math.min(0.3 * width, Math.max(ARROW + 18, steep ? anchorCard.width + 20 : 0)),
    right: Math.min(0.3 * width, Math.max(ARROW + 44, bowCard.width + 22, heightLabelWidth(drawing) + 34)),
    top: 56 + Math.max(22, ARROW * Math.sin(settled.bow.angle) + 6),
    bottom: 64,
  });
  const [ax, ay] = [stage.toX(0), stage.toY(0)];
  const [bx, by] = [stage.toX(settled.span), stage.toY(rise)];
  const onPage = (angle: number) => Math.atan2(Math.sin(angle) * stage.exaggeration, Math.cos(angle));
  const anchorOut = Math.PI + onPage(settled.anchor.angle);
  const bowOut = onPage(settled.bow.angle);
  const line = rodeLine(rig, traced, stage, { colour: "computed" });
  const ghost = beside === undefined ? null : rodeLine(rig, beside.traced, stage, { colour: "computed", ghost: true });

  const free = Array.from({ length: 9 }, (_, i) => {
    const top = ay - anchorCard.height - 14 - 10 * i;
    return { top, box: { left: 10, top, right: 10 + anchorCard.width, bottom: top + anchorCard.height } };
  });
  const anchorTop = roomFor(free, [...line.boxes, ...(ghost?.boxes ?? [])], {
    left: 0,
    right: width,
    top: 0,
    bottom: ay,
  });
  const anchorBox = cardAt(anchorCard, 10, anchorTop!.top, "computed");
  const tip = { x: bx + ARROW * Math.cos(bowOut), y: by - ARROW * Math.sin(bowOut) };
  const bowBox = cardAt(
    bowCard,
    Math.min(bx + 12, width - bowCard.width - 4),
    Math.min(by - 22, tip.y - 6) - bowCard.height,
    "computed",
  );
  const taken: Box[] = [
    ...line.boxes,
    anchorBox.box,
    bowBox.box,
    boxAround(bx, by, 10),
    { left: 0, right: width, top: ay, bottom: stage.height },
    { left: bx - 2, right: bx + 60, top: by, bottom: ay },
    ...(rig.setting.medium === "water" ? [surfaceBox(stage.toY(rig.setting.depth), width)] : []),
  ];
  const within: Box = { left: 4, right: width - 4, top: 4, bottom: stage.height - 4 };
  const spanY = Math.max(ay, stage.toY(slopeDown)) + (settled.grounded > 0 ? 38 : 28);
  const parts = [
    water(rig, stage),
    upperEnd(rig, stage, settled.span),
    ground(rig, stage),
    surface(rig, stage),
    settled.anchor.angle > 0.02 ? angleArc(ax, ay, 58, 1, onPage(settled.anchor.angle)) : "",
    settled.bow.angle > 0.02 ? angleArc(bx, by, 44, -1, Math.PI + onPage(settled.bow.angle)) : "",
    heights(drawing, stage, inAir ? bx + 18 : bx, ay, by),
    levelDimension(ax, bx, spanY, `span ${length(settled.span, units, certainty?.span)}`),
    ghost?.svg ?? "",
    line.svg,
    arrow(ax, ay, anchorOut, ARROW, "computed"),
    arrow(bx, by, bowOut, ARROW, "computed"),
    tag("circle", { cx: ax, cy: ay, r: 4.5, fill: ink("paper"), stroke: ink("ink"), "stroke-width": 2 }),
    drawing.loadCellAt === undefined
      ? ""
      : cell(drawing.loadCellAt === "anchor" ? [ax, ay, onPage(settled.anchor.angle)] : [bx, by, Math.PI + bowOut]),
    anchorBox.svg,
    bowBox.svg,
    resting(settled.grounded, ax, ay, units, certainty?.grounded),
    partLabels(rig, line.shape, stage, units, taken, within),
    ghost === null ? "" : ghostLabel(beside!.label, ghost, taken, within),
    text(10, stage.height - 8, scaleWords(stage), { size: SIZE.small, colour: "soft" }),
  ];
  return { ...sheet(width, stage.height, told(drawing), parts.join(""), drawing.alone), stage };
}

const length = (metres: number, units: UnitSystem, u?: number) =>
  formatQuantity(metres, "length", {
    system: units,
    ...(u !== undefined && u > 0 && Number.isFinite(u) ? { u } : { digits: 3 }),
  });

/** The surface's line and its name, px. */
const surfaceBox = (y: number, width: number): Box => ({ left: 0, right: width, top: y - 2, bottom: y + 2 });

export function scaleWords(stage: Stage): string {
  return stage.exaggeration === 1
    ? "drawn to scale"
    : `not to scale: heights drawn ${stage.exaggeration} times as large as lengths`;
}

/** What is written at the upper end: the rise, or the depth. */
function heightLabel({ rig, riseU, units = "metric" }: RodeDrawing): string {
  const { setting } = rig;
  const [name, value] = setting.medium === "air" ? ["rise", setting.rise] : ["depth", setting.depth];
  return `${name} ${length(value as number, units, riseU ?? rig.uncertainty.rise)}`;
}

const heightLabelWidth = (drawing: RodeDrawing) => widthOf(heightLabel(drawing), SIZE.small);

/** Rise, or depth and the height of the roller. */
function heights(drawing: RodeDrawing, stage: Stage, x: number, bottom: number, top: number): string {
  const { setting } = drawing.rig;
  if (setting.medium === "air") return uprightDimension(x, bottom, top, heightLabel(drawing));
  const surfaceY = stage.toY(setting.depth);
  const depth = uprightDimension(x, bottom, surfaceY, heightLabel(drawing));
  if (!(setting.rollerHeight > 0) || surfaceY - top <= 14) return depth;
  const roller = `roller ${length(setting.rollerHeight, drawing.units ?? "metric")}`;
  return depth + text(x + 24, (surfaceY + top) / 2 + 5, roller, { size: SIZE.small, colour: "soft" });
}

function cell([x, y, direction]: readonly [number, number, number]): string {
  const at = { x: x + 20 * Math.cos(direction), y: y - 20 * Math.sin(direction) };
  const turned = (-direction * 180) / Math.PI;
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

function told({ rig, traced, units = "metric", title }: RodeDrawing): { title: string; description: string } {
  const { settled } = traced;
  const force = (newtons: number) => formatQuantity(newtons, "force", { system: units, digits: 3 });
  const angle = (radians: number) => formatQuantity(radians, "angle", { system: units, digits: 3 });
  const where = rig.setting.medium === "air" ? "hanging in air" : `in ${length(rig.setting.depth, units)} of water`;
  return {
    title: title ?? `${rig.name} as it lies`,
    description: `${rig.name}, ${where}: ${rig.rode.map((part) => nameOf(part, units)).join("; ")}. It pulls with ${force(settled.anchor.tension)} at ${angle(settled.anchor.angle)} above the level at the anchor, and ${force(settled.bow.tension)} at ${angle(settled.bow.angle)} at the other end, over a span of ${length(settled.span, units)} and a rise of ${length(riseOf(rig.setting), units)}. ${settled.grounded > 0 ? `${length(settled.grounded, units)} of it rest on the bottom.` : "None of it rests on the bottom."}`,
  };
}
