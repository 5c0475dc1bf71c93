/**
 * The sites where they lie to one another, north up, from nothing but their own positions: metric and to scale about their
 * middle. No land and no depths are in it.
 */
import type { UnitSystem } from "../../quantity/index.ts";
import { ink } from "../ink.ts";
import { fitted, SIZE, text, widthOf } from "../lettering.ts";
import { type Box, boxAround, roomFor, textBox } from "../room-for.ts";
import { type Drawn, type FigureWords, sheet } from "../sheet.ts";
import { tag } from "../svg.ts";
import { graticuleOf, type MapSight, scaleBarOf } from "./map-lines.ts";
import { type Place, planeOf } from "./plane.ts";

/** A site on the map. */
export interface SiteMark extends Place {
  readonly name: string;
  /** Below its name: "3 days". */
  readonly line: string;
}

/** A map of sites, as it is drawn. */
export interface SitesDrawing extends FigureWords {
  readonly sites: readonly SiteMark[];
  readonly units: UnitSystem;
  /** px; 680 by 400 without */
  readonly width?: number;
  readonly height?: number;
  readonly alone?: boolean;
}

/** Room for the labels of what lies outermost, px. */
const RIM = { across: 170, up: 130 } as const;
/** Metres a pixel where all sites are one place. */
const ONE_PLACE = 2;
/** Where the arrow of north and the scale stand. */
const CORNER = 46;

/** Sites with their names, lines of latitude and longitude, the arrow of north and a scale. */
export function drawSites({
  sites,
  units,
  title,
  description,
  width = 680,
  height = 400,
  alone = false,
}: SitesDrawing): Drawn {
  const plane = planeOf(sites);
  const spread = (values: readonly number[]): number =>
    values.length === 0 ? 0 : Math.max(...values) - Math.min(...values);
  const [wide, high] = [spread(sites.map(plane.east)), spread(sites.map(plane.north))];
  const metre = Math.max(
    wide / Math.max(80, width - RIM.across),
    high / Math.max(60, height - RIM.up),
    wide + high > 0 ? 0 : ONE_PLACE,
  );
  const sight: MapSight = { east: 0, north: 0, metre };
  const points = sites.map((site) => ({
    site,
    x: width / 2 + plane.east(site) / metre,
    y: height / 2 - plane.north(site) / metre,
  }));
  const bar = scaleBarOf(metre, Math.min(160, width / 3), units);
  const foot = height - 14;
  const corners: Box[] = [
    { left: width - CORNER, top: 0, right: width, bottom: CORNER + 20 },
    { left: 0, top: foot - 26, right: 14 + bar.long + 14, bottom: height },
  ];
  const { parallels, meridians } = graticuleOf(plane, sight, width, height);
  const parts = [
    tag("rect", { x: 0, y: 0, width, height, fill: ink("water") }),
    ...parallels.flatMap(({ at, text: said }) => [
      tag("line", { x1: 0, x2: width, y1: at, y2: at, stroke: ink("faint") }),
      at > 34 && at < height - 48 ? text(6, at - 4, said, { size: SIZE.small, colour: "soft" }) : "",
    ]),
    ...meridians.flatMap(({ at, text: said }) => [
      tag("line", { x1: at, x2: at, y1: 0, y2: height, stroke: ink("faint") }),
      at > 90 && at < width - 130 ? text(at + 4, 14, said, { size: SIZE.small, colour: "soft" }) : "",
    ]),
    ...signs(points, { left: 4, top: 4, right: width - 4, bottom: height - 4 }, corners),
    tag(
      "g",
      { transform: `translate(${width - 24} 30)` },
      tag("path", { d: "M0-20L7 6L0 1L-7 6Z", fill: ink("ink") }),
      text(0, 20, "N", { anchor: "middle" }),
    ),
    tag("path", {
      ...{ d: `M14 ${foot - 5}V${foot}H${Math.round(1000 * (14 + bar.long)) / 1000}V${foot - 5}` },
      ...{ fill: "none", stroke: ink("ink"), "stroke-width": 1.5 },
    }),
    text(14 + bar.long / 2, foot - 9, bar.text, { anchor: "middle", size: SIZE.small, rimmed: true }),
  ];
  return sheet(width, height, { title, description }, parts.join(""), alone);
}

/** Dots with their names beside them, each where it covers least. */
function signs(
  points: readonly { readonly site: SiteMark; readonly x: number; readonly y: number }[],
  within: Box,
  corners: readonly Box[],
): string[] {
  const taken: Box[] = [...corners, ...points.map(({ x, y }) => boxAround(x, y, 8))];
  const labels = points.map(({ site, x, y }) => {
    const name = fitted(site.name, 0.45 * (within.right - within.left));
    const long = Math.max(widthOf(name, SIZE.text, true), widthOf(site.line, SIZE.small));
    const at = (px: number, py: number, anchor: "start" | "end" | "middle") => {
      const head = textBox(px, py, long, SIZE.text, anchor);
      return { x: px, y: py, anchor, box: { ...head, bottom: head.bottom + SIZE.small + 3 } };
    };
    const room = roomFor(
      [
        at(x + 13, y - 1, "start"),
        at(x - 13, y - 1, "end"),
        at(x, y + 24, "middle"),
        at(x, y - 28, "middle"),
        ...[at(x + 13, y + 18, "start"), at(x - 13, y + 18, "end")],
        ...[at(x + 13, y - 20, "start"), at(x - 13, y - 20, "end")],
      ],
      taken,
      within,
    );
    if (room === null) return "";
    taken.push(room.box);
    return (
      text(room.x, room.y, name, { anchor: room.anchor, weight: "bold", rimmed: true }) +
      text(room.x, room.y + 14, site.line, { anchor: room.anchor, size: SIZE.small, colour: "soft", rimmed: true })
    );
  });
  const dots = points.map(({ x, y }) =>
    tag("circle", { cx: x, cy: y, r: 6, fill: ink("measured"), stroke: ink("paper"), "stroke-width": 2 }),
  );
  return [...dots, ...labels];
}
