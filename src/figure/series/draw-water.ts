/**
 * In which water each angle of a series can be had at each load: a row a pull, a bar over the depths that give it and a
 * ring at the depth where the depth moves the angle least. A row's words stand above its bar, so that it is as plain on a
 * phone as on paper; where nothing gives it, what stands against it is written in the place of the bar.
 */
import { ink } from "../ink.ts";
import { fitted, SIZE, text, widthOf } from "../lettering.ts";
import { linesOf } from "../lines-of-text.ts";
import { linearScale, ticksBetween, tickText } from "../scale.ts";
import { type Drawn, type FigureWords, sheet } from "../sheet.ts";
import { num, tag } from "../svg.ts";

/** An angle at a load: what is said of it, and the depths that give it. */
export interface WaterRow {
  /** What is asked for: "6°, 4 kN". */
  readonly asked: string;
  /** How it is had, in parts of which as many are written as there is room for; or what stands against it, whole. */
  readonly said: readonly string[];
  /** In the unit of the axis; null where no depth gives it. */
  readonly depths: { readonly least: number; readonly most: number; readonly best: number } | null;
}

/** The water of some sites, each with its rows. */
export interface WaterDrawing extends FigureWords {
  /** A name of "" is not written. */
  readonly sites: readonly { readonly name: string; readonly rows: readonly WaterRow[] }[];
  /** Greatest depth the axis has to reach, in its unit. */
  readonly deepest: number;
  readonly axis: { readonly label: string; readonly unit: string };
  /** px; 680 without */
  readonly width?: number;
  readonly alone?: boolean;
}

const LEFT = 10;
const RIGHT = 14;
const ROW = 44;
/** From the top of a row to the first of its words and to its bar. */
const WORDS = 15;
const BAR = 29;
const LEADING = 15;
const HEADING = 30;
const BOTTOM = 42;

/** So wide a sheet, px, holds its rows in two columns: a frame of film is wide and low. */
const TWO_COLUMNS = 780;
const BETWEEN = 24;

type Sites = WaterDrawing["sites"];
const heightOf = (sites: Sites): number =>
  sites.reduce((sum, { name, rows }) => sum + (name === "" ? 0 : HEADING) + rows.length * ROW, 0) + BOTTOM;

/** Bars over the depth of the water, a row an angle and load. */
export function drawWater(drawing: WaterDrawing): Drawn {
  const { sites, title, description, width = 680, alone = false } = drawing;
  const columns = width < TWO_COLUMNS ? [sites] : halves(sites);
  const across = (width - BETWEEN * (columns.length - 1)) / columns.length;
  const height = Math.max(...columns.map(heightOf));
  const parts = columns.map((own, i) =>
    tag("g", { transform: `translate(${num(i * (across + BETWEEN))} 0)` }, column(own, across, drawing)),
  );
  return sheet(width, height, { title, description }, parts.join(""), alone);
}

/** The first half of the rows and the rest; a site parted between them has its name over both. */
function halves(sites: Sites): Sites[] {
  let left = Math.ceil(sites.reduce((sum, { rows }) => sum + rows.length, 0) / 2);
  const [first, second]: [Sites[number][], Sites[number][]] = [[], []];
  for (const { name, rows } of sites) {
    const here = rows.slice(0, left);
    if (here.length > 0) first.push({ name, rows: here });
    if (here.length < rows.length) second.push({ name, rows: rows.slice(here.length) });
    left -= here.length;
  }
  return second.length === 0 ? [first] : [first, second];
}

function column(sites: Sites, width: number, { deepest, axis }: WaterDrawing): string {
  const most = (deepest > 0 ? deepest : 1) * 1.04;
  const x = linearScale(0, most, [LEFT, width - RIGHT]);
  const base = heightOf(sites) - BOTTOM + 2;
  const parts: string[] = [];
  const ticks = ticksBetween(0, most, Math.max(2, (width - LEFT - RIGHT) / 80));
  for (const value of ticks.values) {
    const at = x.toPixel(value);
    parts.push(
      tag("line", { x1: at, x2: at, y1: 0, y2: base, stroke: ink("faint") }),
      text(at, base + 14, tickText(value, ticks.decimals), { anchor: "middle", size: SIZE.small, colour: "soft" }),
    );
  }
  parts.push(text(width - RIGHT, base + 32, `${axis.label}, ${axis.unit}`, { anchor: "end" }));
  let top = 0;
  for (const { name, rows } of sites) {
    if (name !== "") {
      parts.push(
        text(LEFT, top + 20, fitted(name, width - LEFT - RIGHT, SIZE.strong), {
          size: SIZE.strong,
          weight: "bold",
          rimmed: true,
        }),
      );
      top += HEADING;
    }
    for (const row of rows) {
      parts.push(rowOf(row, top, width, x.toPixel));
      top += ROW;
    }
  }
  return parts.join("");
}

function rowOf({ asked, said, depths }: WaterRow, top: number, width: number, x: (depth: number) => number): string {
  const start = LEFT + widthOf(`${asked} `, SIZE.text, true) + 4;
  const right = width - RIGHT;
  const head = text(LEFT, top + WORDS, asked, { weight: "bold", rimmed: true });
  const edge = tag("line", { x1: LEFT, x2: right, y1: top, y2: top, stroke: ink("faint") });
  if (depths === null) {
    // The first line beside what is asked, the rest in the room of the bar: cut between words, so that no number is.
    const [first, ...rest] = linesOf(said.join(" "), right - start, SIZE.small);
    const second = linesOf(rest.join(" "), right - LEFT - widthOf("…", SIZE.small), SIZE.small);
    const last = second.length > 1 ? `${second[0]!.replace(/ \S*\d$/, "")}…` : second[0]!;
    return [
      edge,
      head,
      text(start, top + WORDS, first!, { size: SIZE.small, rimmed: true }),
      rest.length === 0 ? "" : text(LEFT, top + WORDS + LEADING, last, { size: SIZE.small, rimmed: true }),
    ].join("");
  }
  const y = top + BAR;
  let written = said[0] ?? "";
  for (const part of said.slice(1)) {
    if (widthOf(`${written}; ${part}`, SIZE.small) > right - start) break;
    written += `; ${part}`;
  }
  return [
    edge,
    head,
    text(start, top + WORDS, fitted(written, right - start, SIZE.small), {
      size: SIZE.small,
      colour: "soft",
      rimmed: true,
    }),
    tag("line", {
      ...{ x1: x(depths.least), x2: x(depths.most) + 0.1, y1: y, y2: y },
      ...{ stroke: ink("computed"), "stroke-width": 7, "stroke-linecap": "round" },
    }),
    tag("circle", {
      ...{ cx: x(depths.best), cy: y, r: 6 },
      ...{ fill: ink("paper"), stroke: ink("computed"), "stroke-width": 2.5 },
    }),
  ].join("");
}
