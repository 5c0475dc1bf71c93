/**
 * Snubbers over length and diameter: where one is within all limits, and by which limit it is not elsewhere. Each side of
 * the map has a sign of its own, so that it is told apart in grey and in print as well.
 */
import type { Reason } from "../../sizing/index.ts";
import { ink } from "../ink.ts";
import { fitted, SIZE, text } from "../lettering.ts";
import type { Box } from "../room-for.ts";
import { linearScale } from "../scale.ts";
import { type Drawn, sheet } from "../sheet.ts";
import { num, tag } from "../svg.ts";
import { axes } from "../xy/axes.ts";
import { borderOf, type MapFrame, regionsOf } from "./map-cells.ts";

/** A map of snubbers, as it is drawn. */
export interface SnubberMapDrawing {
  readonly title: string;
  readonly description: string;
  /** Rising, in the units named. */
  readonly lengths: ArrayLike<number>;
  readonly diameters: ArrayLike<number>;
  readonly lengthUnit: string;
  readonly diameterUnit: string;
  /** Code of each, diameter by diameter; 0: within all limits. */
  readonly codes: ArrayLike<number>;
  /** What a code is: its sign, and what it is called, short and whole. */
  readonly told: (code: number) => { readonly reason: Reason; readonly short: string; readonly long: string };
  /** px */
  readonly width: number;
  readonly height: number;
}

/** Strokes on a tile of 10 by 10, none beyond it. */
const SIGNS: Readonly<Record<Reason, string>> = {
  within: "",
  unriggable: "M2 2L8 8M8 2L2 8",
  notTaken: "M3.5 2V8M6.5 2V8M2 3.5H8M2 6.5H8",
  peak: "M2 8L8 2",
  rope: "M2 2L8 8",
  gear: "M1.5 5H8.5",
  hook: "M5 3L7 5L5 7L3 5Z",
  cleat: "M5 1.5V8.5",
  anchorAngle: "M2 8L5 2L8 8",
  loop: "M2 2L5 8L8 2",
};
const TILE = 10;
const MARGIN = { left: 48, right: 14, top: 34, bottom: 42 } as const;
const ROW = 17;

/** The map with its axes, and below it what each sign says. */
export function drawSnubberMap(drawing: SnubberMapDrawing): Drawn {
  const { lengths, diameters, codes, told, width, height } = drawing;
  const columns = lengths.length;
  const counts = new Map<number, number>();
  for (const code of Array.from(codes)) counts.set(code, (counts.get(code) ?? 0) + 1);
  const key = [...counts].sort(([a], [b]) => a - b);
  const plot: Box = {
    left: MARGIN.left,
    right: width - MARGIN.right,
    top: MARGIN.top,
    bottom: height - MARGIN.bottom - ROW * key.length,
  };
  const frame: MapFrame = {
    ...{ left: plot.left, top: plot.top },
    ...{ width: plot.right - plot.left, height: plot.bottom - plot.top },
  };
  const ends = (values: ArrayLike<number>): [number, number] => {
    // A cell is as wide on either side of its value: the map ends half a step beyond the last.
    const [first, last] = [values[0]!, values[values.length - 1]!];
    const half = values.length > 1 ? (last - first) / (values.length - 1) / 2 : 0.5 * Math.abs(first);
    return [first - half, last + half];
  };
  const x = linearScale(...ends(lengths), [plot.left, plot.right]);
  const y = linearScale(...ends(diameters), [plot.bottom, plot.top]);
  const regions = regionsOf(codes, columns, frame);
  const parts = [
    axes(
      {
        x: { label: "length", unit: drawing.lengthUnit },
        y: { label: "diameter", unit: drawing.diameterUnit },
        xShown: true,
      },
      { x, y },
      plot,
    ),
    ...regions.map(({ code, path }) =>
      code === 0 ? tag("path", { d: path, fill: ink("computed"), "fill-opacity": 0.16, stroke: "none" }) : "",
    ),
    ...key.map(([code]) => signs(code, drawing, frame)),
    tag("path", { d: borderOf(codes, columns, frame), fill: "none", stroke: ink("computed"), "stroke-width": 2.5 }),
    tag("rect", {
      ...{ x: plot.left, y: plot.top, width: frame.width, height: frame.height },
      ...{ fill: "none", stroke: ink("soft"), "stroke-width": 1 },
    }),
    ...key.flatMap(([code, cells], i) => {
      const row = plot.bottom + MARGIN.bottom + 4 + i * ROW;
      const { long } = told(code);
      const share = Math.max(1, Math.round((100 * cells) / codes.length));
      return [
        tag("rect", {
          ...{ x: plot.left, y: row, width: 2.4 * TILE, height: 1.2 * TILE },
          ...(code === 0
            ? { fill: ink("computed"), "fill-opacity": 0.16, stroke: ink("computed") }
            : { fill: "none", stroke: ink("soft") }),
        }),
        code === 0
          ? ""
          : stroked([0, 1].map((k) => moved(told(code).reason, plot.left + 2 + k * TILE, row + 1)).join("")),
        text(plot.left + 32, row + 10, fitted(`${long}, ${share} % of the map`, plot.right - plot.left - 34), {
          size: SIZE.small,
        }),
      ];
    }),
  ];
  return sheet(width, height, { title: drawing.title, description: drawing.description }, parts.join(""));
}

/** The sign of a code on every tile whose middle lies in one of its cells. */
function signs(code: number, { codes, lengths, diameters, told }: SnubberMapDrawing, frame: MapFrame): string {
  if (code === 0) return "";
  const { reason } = told(code);
  const [columns, rows] = [lengths.length, diameters.length];
  const [across, down] = [Math.floor(frame.width / TILE), Math.floor(frame.height / TILE)];
  const [left, top] = [frame.left + (frame.width - across * TILE) / 2, frame.top + (frame.height - down * TILE) / 2];
  let d = "";
  for (let j = 0; j < down; j++)
    for (let i = 0; i < across; i++) {
      const [px, py] = [left + i * TILE, top + j * TILE];
      const column = Math.min(columns - 1, Math.floor(((px + TILE / 2 - frame.left) / frame.width) * columns));
      const row = Math.min(rows - 1, rows - 1 - Math.floor(((py + TILE / 2 - frame.top) / frame.height) * rows));
      if (codes[row * columns + column] === code) d += moved(reason, px, py);
    }
  return d === "" ? "" : stroked(d);
}

const stroked = (d: string): string =>
  tag("path", { d, fill: "none", stroke: ink("soft"), "stroke-width": 1, "stroke-linecap": "round" });

/** A sign moved to where its tile stands. */
function moved(reason: Reason, x: number, y: number): string {
  return SIGNS[reason].replace(/([MLHVZ])([^MLHVZ]*)/g, (_, command: string, rest: string) => {
    const values = rest.trim() === "" ? [] : rest.trim().split(/\s+/).map(Number);
    const at = values.map((value, i) => num(value + (command === "V" || (command !== "H" && i % 2 === 1) ? y : x)));
    return `${command}${at.join(" ")}`;
  });
}
