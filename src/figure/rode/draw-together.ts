/** Two rodes from one anchor, laid over each other to one scale: a rig in air and the rode afloat it stands for. */
import { formatQuantity, type UnitSystem } from "../../quantity/index.ts";
import { type Rig, riseOf, type SettledTrace } from "../../rode/index.ts";
import { type Ink, ink } from "../ink.ts";
import { fitted, SIZE, text, widthOf } from "../lettering.ts";
import { sheet } from "../sheet.ts";
import { tag } from "../svg.ts";
import { angleArc } from "./drafting.ts";
import type { DrawnRode } from "./draw-rode.ts";
import { scaleWords } from "./rode-drawing.ts";
import { rodeLine } from "./rode-line.ts";
import { type Stage, stageFor } from "./stage.ts";
import { ground, surface, water } from "./surroundings.ts";

interface One {
  readonly rig: Rig;
  readonly traced: SettledTrace;
}

/** Two rigs and their equilibria, as they are laid over each other. */
export interface TogetherDrawing {
  readonly first: One;
  readonly second: One;
  readonly units?: UnitSystem;
  /** px; 680 without */
  readonly width?: number;
  readonly title?: string;
  readonly alone?: boolean;
}

const INKS: readonly [Ink, Ink] = ["computed", "other"];
const ROW = 18;

/** Two rodes over each other to one scale. */
export function drawTogether(drawing: TogetherDrawing): DrawnRode {
  const { first, second, units = "metric", width = 680 } = drawing;
  const both = [first, second] as const;
  const reach = Math.max(...both.map(({ traced }) => traced.settled.span));
  const lowest = Math.min(0, ...both.map(({ rig, traced }) => traced.settled.span * Math.tan(rig.setting.bottomSlope)));
  const stage = stageFor(
    { left: 0, right: reach, bottom: lowest, top: Math.max(...both.map(({ rig }) => riseOf(rig.setting))) },
    width,
    { left: 28, right: 28, top: 26, bottom: 84 },
  );
  const afloat = both.flatMap(({ rig }) =>
    rig.setting.medium === "water" ? [{ rig, surfaceY: stage.toY(rig.setting.depth) }] : [],
  );
  const onPage = (angle: number) => Math.atan2(Math.sin(angle) * stage.exaggeration, Math.cos(angle));
  const [ax, ay] = [stage.toX(0), stage.toY(0)];
  const lines = both.map(({ rig, traced }, i) => rodeLine(rig, traced, stage, { colour: INKS[i]! }).svg);
  const ends = both.map(({ rig, traced }, i) =>
    endMark(i, stage.toX(traced.settled.span), stage.toY(riseOf(rig.setting))),
  );
  const steepest = Math.max(...both.map(({ traced }) => traced.settled.anchor.angle));
  const rows = both.map((one, i) => {
    const y = stage.height - 44 + i * ROW;
    return (
      tag("line", { x1: 12, x2: 34, y1: y - 4, y2: y - 4, stroke: ink(INKS[i]!), "stroke-width": 3 }) +
      endMark(i, 34, y - 4) +
      text(46, y, rowWords(one, units, width - 54), { colour: INKS[i]! })
    );
  });
  const parts = [
    ...afloat.map(({ rig }) => water(rig, stage)),
    ground(first.rig, stage),
    second.rig.setting.bottomSlope === first.rig.setting.bottomSlope ? "" : ground(second.rig, stage),
    surfaces(afloat, stage),
    steepest > 0.02 ? angleArc(ax, ay, 70, 1, onPage(steepest)) : "",
    ...lines.toReversed(),
    ...ends.toReversed(),
    tag("circle", { cx: ax, cy: ay, r: 4.5, fill: ink("paper"), stroke: ink("ink"), "stroke-width": 2 }),
    tag("rect", { x: 0, y: stage.height - 62, width, height: 62, fill: ink("paper") }),
    ...rows,
    text(12, stage.height - 6, scaleWords(stage), { size: SIZE.small, colour: "soft" }),
  ];
  const told = {
    title: drawing.title ?? `${first.rig.name} and ${second.rig.name}, laid over each other`,
    description: `Two rodes from one anchor, to one scale. ${both.map((one) => words(one, units)).join(". ")}.`,
  };
  return { ...sheet(width, stage.height, told, parts.join(""), drawing.alone), stage };
}

/** The surface of the water both lie in, or that of each with its name. */
function surfaces(afloat: readonly { readonly rig: Rig; readonly surfaceY: number }[], stage: Stage): string {
  const [one, other] = afloat;
  if (one === undefined) return "";
  const apart = other === undefined ? 0 : Math.abs(one.surfaceY - other.surfaceY);
  if (other === undefined || apart < 1) return surface(one.rig, stage);
  const nameOf = ({ name }: Rig) => fitted(`surface, ${name}`, stage.width / 2 - 44);
  // Where they lie close the names stand beside each other.
  const beside = apart < 20 ? stage.width / 2 : 20;
  return surface(one.rig, stage, nameOf(one.rig)) + surface(other.rig, stage, nameOf(other.rig), beside);
}

/** The two told apart by shape as well: a square and a ring. */
function endMark(i: number, x: number, y: number): string {
  return i === 0
    ? tag("rect", { x: x - 5, y: y - 5, width: 10, height: 10, rx: 1.5, fill: ink(INKS[0]) })
    : tag("circle", { cx: x, cy: y, r: 7, fill: ink("paper"), stroke: ink(INKS[1]), "stroke-width": 2.4 });
}

/** Both ends, or the anchor alone where there is no room for both; a long name gives way before a number does. */
function rowWords(one: One, units: UnitSystem, room: number): string {
  const whole = words(one, units);
  if (widthOf(whole) <= room) return whole;
  const numbers = `: ${atAnchor(one, units)}`;
  return `${fitted(one.rig.name, room - widthOf(numbers))}${numbers}`;
}

const force = (newtons: number, system: UnitSystem) => formatQuantity(newtons, "force", { system, digits: 3 });
const degrees = (radians: number, system: UnitSystem) => formatQuantity(radians, "angle", { system, digits: 3 });

function atAnchor({ traced }: One, units: UnitSystem): string {
  const { anchor } = traced.settled;
  return `${force(anchor.tension, units)} at ${degrees(anchor.angle, units)} at the anchor`;
}

function words(one: One, units: UnitSystem): string {
  const { bow } = one.traced.settled;
  const end = one.rig.setting.medium === "air" ? "upper end" : "bow";
  return `${one.rig.name}: ${atAnchor(one, units)}, ${force(bow.tension, units)} at ${degrees(bow.angle, units)} at the ${end}`;
}
