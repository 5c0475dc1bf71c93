/** Angle over load, and movement over load: theory with its band, readings with their ±, outliers by their shape, residuals under. */
import { DEGREES, formatQuantity, inUnit, unitFor } from "../../quantity/index.ts";
import { rimmedRange } from "../scale.ts";
import { type DrawnPanels, drawPanels } from "../xy/draw-xy.ts";
import type { Layer, PlotPoint } from "../xy/spec.ts";
import { residualPanel } from "./residuals.ts";
import { endName, fromZero, type ReadingsFigure } from "./rows.ts";

const WORDS =
  "Diamonds: readings with one standard uncertainty to either side; triangles: lift-offs seen; hollow: outliers. Line and band: theory with the fitted unknowns, one standard uncertainty to either side.";

/** Angles read and by theory over load, as a figure. */
export function angleOverLoad(figure: ReadingsFigure): DrawnPanels {
  const { run, reduced, units = "metric" } = figure;
  const scale = inLoadUnit(figure);
  const zero = reduced.fitted.gaugeZero?.value ?? 0;
  const rows = reduced.readings.map((row) => ({
    ...row,
    x: scale.load(row.load),
    shape: row.angle === null ? ("triangle" as const) : ("diamond" as const),
    doubted: row.outlier || row.suspect,
  }));
  const points = rows.map((row): PlotPoint => {
    const note = `${formatQuantity(row.load, "force", { system: units })}: ${row.angle === null ? "lift-off" : formatQuantity(row.angle, "angle", { digits: 3 })}${row.outlier ? ", an outlier" : row.suspect ? ", a suspect" : ""}`;
    const { x, shape, doubted } = row;
    return row.angle === null
      ? { x, y: scale.angle(zero), uX: scale.load(row.u), shape, doubted, note }
      : { x, y: scale.angle(row.angle), uY: scale.angle(row.u), shape, doubted, note };
  });
  const liftoff: Layer[] =
    reduced.liftoff === null
      ? []
      : [{ kind: "rule", axis: "x", at: scale.load(reduced.liftoff), role: "faint", label: "lifts off" }];
  return twoPanels(figure, {
    title: `Angle at the ${endName(run.angleAt, figure.medium)} over load at the ${endName(run.loadCellAt, figure.medium)}`,
    y: { label: `angle at the ${endName(run.angleAt, figure.medium)} above the level`, unit: "°" },
    theory: (at) => [scale.angle(at.angle), scale.angle(at.uAngle)],
    points,
    extra: liftoff,
    residuals: rows.map((row) => ({ x: row.x, residual: row.residual, outlier: row.doubted, shape: row.shape })),
    curve: figure.curve,
  });
}

/** Movements read and by theory over load, as a figure. */
export function movementOverLoad(figure: ReadingsFigure): DrawnPanels {
  const { run, reduced, units = "metric" } = figure;
  const scale = inLoadUnit(figure);
  const rows = reduced.release.map((row) => ({ ...row, x: scale.load(row.load), y: scale.length(row.movement) }));
  const first = run.release[0]?.load ?? 0;
  return twoPanels(figure, {
    title: `Movement of the loaded end over load at the ${endName(run.loadCellAt, figure.medium)}`,
    y: {
      label: `movement back since ${formatQuantity(first, "force", { system: units, digits: 3 })}`,
      unit: scale.lengthUnit,
    },
    theory: (at) => [scale.length(at.movement), scale.length(at.uMovement)],
    points: rows.map((row) => ({
      x: row.x,
      y: row.y,
      uY: scale.length(row.u),
      shape: "diamond",
      doubted: row.outlier || row.suspect,
      note: `${formatQuantity(row.load, "force", { system: units })}: ${formatQuantity(row.movement, "length", { unit: scale.lengthUnit, digits: 3 })}${row.outlier ? ", an outlier" : row.suspect ? ", a suspect" : ""}`,
    })),
    extra: [],
    residuals: rows
      .slice(1)
      .map((row) => ({ x: row.x, residual: row.residual, outlier: row.outlier || row.suspect, shape: "diamond" })),
    // Movement grows without end as the load goes to nothing: not far past what was read.
    curve: figure.curve.filter(
      (at) => at.load >= 0.85 * Math.min(...run.release.map((row) => row.load)) && at.load <= 1.0001 * first,
    ),
  });
}

interface Panels {
  readonly title: string;
  readonly y: { readonly label: string; readonly unit: string };
  readonly theory: (at: ReadingsFigure["curve"][number]) => [number, number];
  readonly points: readonly PlotPoint[];
  readonly extra: readonly Layer[];
  readonly residuals: Parameters<typeof residualPanel>[0];
  readonly curve: ReadingsFigure["curve"];
}

function twoPanels(figure: ReadingsFigure, panels: Panels): DrawnPanels {
  const { run, width, alone } = figure;
  const scale = inLoadUnit(figure);
  const x = panels.curve.map((at) => scale.load(at.load));
  const theory = panels.curve.map(panels.theory);
  const banded = theory.every(([, u]) => Number.isFinite(u));
  const marked = (label: string, which: (point: PlotPoint) => boolean): Layer[] => {
    const points = panels.points.filter(which);
    return points.length === 0 ? [] : [{ kind: "points", points, role: "measured", label }];
  };
  const layers: Layer[] = [
    ...(banded
      ? [
          {
            kind: "band" as const,
            x,
            low: theory.map(([value, u]) => value - u),
            high: theory.map(([value, u]) => value + u),
            role: "computed" as const,
          },
        ]
      : []),
    { kind: "line", x, y: theory.map(([value]) => value), role: "computed", label: banded ? "theory ± u" : "theory" },
    ...panels.extra,
    ...marked("outlier", ({ doubted }) => doubted === true),
    ...marked("lift-off seen", ({ doubted, shape }) => doubted !== true && shape === "triangle"),
    ...marked("reading", ({ doubted, shape }) => doubted !== true && shape === "diamond"),
  ];
  const ends = [...x, ...panels.points.flatMap((point) => [point.x - (point.uX ?? 0), point.x + (point.uX ?? 0)])];
  const [low, high] = rimmedRange(Math.min(...ends), Math.max(...ends));
  const from = fromZero(run) ? 0 : low;
  return drawPanels({
    title: panels.title,
    description: `${panels.points.length} readings of ${run.name}. ${WORDS} Below: how far each reading lies from theory, in standard uncertainties.`,
    x: {
      label: `load at the ${endName(run.loadCellAt, figure.medium)}`,
      unit: scale.loadUnit,
      from,
      to: high,
    },
    panels: [
      { height: 300, y: panels.y, layers },
      residualPanel(panels.residuals, figure.reduced.outlierBeyond, from, high),
    ],
    ...(width === undefined ? {} : { width }),
    ...(alone === undefined ? {} : { alone }),
  });
}

/** Movements are small against lengths: inches or millimetres, as in the tables beside. */
function inLoadUnit({ run, units = "metric" }: ReadingsFigure) {
  const highest = Math.max(...[...run.readings, ...run.release].map((row) => row.load));
  const loadUnit = units === "us" ? "lbf" : highest > 3000 ? "kN" : "N";
  const farthest = Math.max(0, ...run.release.map((row) => Math.abs(row.movement)));
  const lengthUnit = units === "us" ? (farthest > 3 ? "ft" : "in") : farthest > 3 ? "m" : "mm";
  return {
    loadUnit: unitFor("force", units, loadUnit),
    lengthUnit,
    load: (newtons: number) => inUnit(newtons, loadUnit, "force"),
    length: (metres: number) => inUnit(metres, lengthUnit, "length"),
    angle: (radians: number) => radians * DEGREES,
  };
}
