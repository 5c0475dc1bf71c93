/** The boat and her rode at one second of a ride, to scale: from the side, and from above in the same scale. */
import { ink } from "../ink.ts";
import { SIZE, text } from "../lettering.ts";
import { type Drawn, type FigureWords, sheet } from "../sheet.ts";
import { num, tag, through } from "../svg.ts";

/** Where everything is; m from the anchor: x downwind, y across it, z above the anchor. */
export interface MomentDrawing extends FigureWords {
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
  readonly z: ArrayLike<number>;
  /** Of the surface above the anchor, and how the bottom falls away downwind, rad. */
  readonly surface: number;
  readonly bottomSlope: number;
  /** Middle of the boat and her heading, rad; her size, m. */
  readonly boat: {
    readonly x: number;
    readonly y: number;
    readonly heading: number;
    readonly length: number;
    readonly beam: number;
    readonly depth: number;
    readonly freeboard: number;
  };
  /** px; 680 by what the scale asks for without */
  readonly width?: number;
  readonly alone?: boolean;
}

const RIM = 14;
const ABOVE = 3;
/** Least height of either view, px. */
const LEAST = 90;

/** Two views under one another, over one scale. */
export function drawMoment(drawing: MomentDrawing): Drawn {
  const { x, y, z, surface, bottomSlope, boat, title, description, width = 680, alone = false } = drawing;
  const list = (values: ArrayLike<number>): number[] => Array.from(values);
  const far = Math.max(...list(x), boat.x + boat.length / 2) + 2;
  const near = Math.min(0, ...list(x)) - 2;
  const scale = (width - 2 * RIM) / (far - near);
  const px = (metres: number): number => RIM + (metres - near) * scale;
  const deep = Math.max(0.5, Math.tan(bottomSlope) * far + 0.5, ...list(z).map((up) => -up));
  const side = Math.max(LEAST, (surface + ABOVE + deep) * scale + 2 * RIM);
  const up = (metres: number): number => side - RIM - (metres + deep) * scale;
  const wide = Math.max(boat.beam, ...list(y).map(Math.abs), Math.abs(boat.y) + boat.length / 2) + 1;
  const plan = Math.max(LEAST, 2 * wide * scale + 2 * RIM);
  const across = (metres: number): number => side + plan / 2 - metres * scale;
  const bottom = (metres: number): number => up(-Math.tan(bottomSlope) * metres);
  const last = x.length - 1;
  const line = (d: string): string =>
    tag("path", { d, fill: "none", stroke: ink("computed"), "stroke-width": 2.5, "stroke-linejoin": "round" });
  const anchor = (cx: number, cy: number): string =>
    tag("circle", { cx, cy, r: 4, fill: ink("paper"), stroke: ink("ink"), "stroke-width": 2 });
  const label = (at: number, said: string): string =>
    text(8, at, said, { size: SIZE.small, colour: "soft", rimmed: true });
  const parts = [
    tag("rect", { x: 0, y: up(surface), width, height: side - up(surface), fill: ink("water") }),
    tag("path", {
      d: `M0 ${num(bottom(near - RIM / scale))}L${num(width)} ${num(bottom(far + RIM / scale))}V${num(side)}H0Z`,
      ...{ fill: ink("ground"), "fill-opacity": 0.5 },
    }),
    tag("rect", { x: 0, y: side, width, height: plan, fill: ink("water") }),
    tag("line", { x1: 0, x2: width, y1: side, y2: side, stroke: ink("soft") }),
    sideHull(drawing, px, up, { x: x[last]!, z: z[last]! }),
    line(through(list(x).map(px), list(z).map(up))),
    topHull(drawing, px, across),
    line(through(list(x).map(px), list(y).map(across))),
    anchor(px(0), up(0)),
    anchor(px(0), across(0)),
    label(16, "from the side, to scale"),
    label(side + 18, "from above"),
    text(width - 62, side + 18, "wind", { anchor: "end", size: SIZE.small, colour: "soft", rimmed: true }),
    tag("path", {
      d: `M${num(width - 56)} ${num(side + 14)}h40m-8-5l8 5l-8 5`,
      fill: "none",
      stroke: ink("soft"),
      "stroke-width": 1.5,
    }),
  ];
  return sheet(width, side + plan, { title, description }, parts.join(""), alone);
}

type To = (metres: number) => number;
const HULL = () => ({ fill: ink("paper"), stroke: ink("soft"), "stroke-width": 1.5 });

/** From the roller aft; shorter as she turns away. */
function sideHull({ boat, surface }: MomentDrawing, px: To, up: To, bow: { x: number; z: number }): string {
  const length = boat.length * Math.cos(boat.heading);
  const at = (share: number, z: number): string => `${num(px(bow.x + share * length))} ${num(up(z))}`;
  return tag("path", {
    d: `M${at(0, bow.z)}L${at(1, surface + boat.freeboard)}L${at(0.97, surface - 0.1)}Q${at(0.5, surface - 2 * boat.depth)} ${at(0.08, surface)}Z`,
    ...HULL(),
  });
}

/** About her middle. */
function topHull({ boat }: MomentDrawing, px: To, across: To): string {
  const [half, wide] = [boat.length / 2, boat.beam / 2];
  const [c, s] = [Math.cos(boat.heading), Math.sin(boat.heading)];
  const at = (ahead: number, port: number): string =>
    `${num(px(boat.x - ahead * c + port * s))} ${num(across(boat.y - ahead * s - port * c))}`;
  return tag("path", {
    d: `M${at(half, 0)}Q${at(0.35 * half, wide)} ${at(-0.2 * half, wide)}L${at(-half, 0.75 * wide)}L${at(-half, -0.75 * wide)}L${at(-0.2 * half, -wide)}Q${at(0.35 * half, -wide)} ${at(half, 0)}Z`,
    ...HULL(),
  });
}
