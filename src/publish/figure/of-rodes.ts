/** Rodes as they lie: one, and two laid over each other; and one over a ladder of loads. */
import { type DrawnXy, drawRode, drawTogether, drawXy, type FigureTable } from "../../figure/index.ts";
import { DEGREES, formatQuantity, inUnit, plotForceUnit, type UnitSystem, unitFor } from "../../quantity/index.ts";
import { type Certainty, certaintyOf, type Pull, type Rig, type SettledTrace, shapeOf } from "../../rode/index.ts";
import { type FigureMade, tableOfPlots } from "./made.ts";

/** A rig and its equilibrium under a pull. */
export interface RodeAsked {
  readonly rig: Rig;
  readonly pull: Pull;
  readonly traced: SettledTrace;
  /** Standard uncertainty of the load, N, or of the span, m. */
  readonly pullU: number;
}

const STATED =
  "± is one standard uncertainty, by what the rig file states of mass, lengths, height and the like, and of the load";
const none = (name: string): string => `No ±: ${name} states no uncertainties, and the load is taken as exact.`;

/** A rode as it lies, to scale. */
export function rodeFigure(asked: RodeAsked, units: UnitSystem): FigureMade {
  const { rig, pull, traced, pullU } = asked;
  const certainty = certaintyOf(rig, pull, pullU);
  const title = `${rig.name}, ${pulledBy(asked, units)}`;
  return {
    title,
    uncertain: certainty === null ? none(rig.name) : `${STATED}.`,
    draw: (width) => drawRode({ rig, traced, certainty, units, width: Math.round(width), title }),
    table: rodeTable([{ asked, certainty }]),
  };
}

/** Two rodes over each other, each under its pull. */
export function togetherFigure(first: RodeAsked, second: RodeAsked, units: UnitSystem): FigureMade {
  const both = [first, second].map((asked) => ({
    asked,
    certainty: certaintyOf(asked.rig, asked.pull, asked.pullU),
  }));
  const title = `${first.rig.name} and ${second.rig.name}, ${pulledBy(first, units)}`;
  const said = both.map(({ asked: { rig }, certainty }) =>
    certainty === null
      ? none(rig.name)
      : `${rig.name}: ± ${formatQuantity(certainty.anchorAngle, "angle", { digits: 2 })} in the angle at the anchor, ± ${formatQuantity(certainty.anchorTension, "force", { system: units, digits: 2 })} in its load.`,
  );
  return {
    title,
    uncertain: said.join(" "),
    draw: (width) => drawTogether({ first, second, units, width: Math.round(width), title }),
    table: rodeTable(both),
  };
}

function pulledBy({ pull }: RodeAsked, units: UnitSystem): string {
  if (pull.at === "span") return `${formatQuantity(pull.metres, "length", { system: units, digits: 3 })} apart`;
  const load = formatQuantity(pull.newtons, "force", { system: units, digits: 3 });
  return pull.at === "horizontal" ? `${load} level` : `${load} at the ${pull.at}`;
}

/** The line of each rode, and what its ends carry with ±. */
function rodeTable(rodes: readonly { readonly asked: RodeAsked; readonly certainty: Certainty | null }[]): FigureTable {
  return {
    columns: [
      ...["rode", "what", "part", "distance from the anchor, m", "height above the anchor, m"],
      ...["tension, N", "u of tension, N", "angle, deg", "u of angle, deg"],
    ],
    rows: rodes.flatMap(({ asked: { rig, traced }, certainty }) => {
      const shape = shapeOf(traced);
      const { anchor, bow } = traced.settled;
      const last = shape.x.length - 1;
      const end = (what: "anchor" | "bow", i: number): (string | number)[] => [
        ...[rig.name, what, "", shape.x[i]!, shape.z[i]!],
        what === "anchor" ? anchor.tension : bow.tension,
        certainty?.[what === "anchor" ? "anchorTension" : "bowTension"] ?? "",
        (what === "anchor" ? anchor.angle : bow.angle) * DEGREES,
        certainty === null ? "" : certainty[what === "anchor" ? "anchorAngle" : "bowAngle"] * DEGREES,
      ];
      const line = Array.from(shape.x, (x, i) => [
        ...[rig.name, "line", rig.rode[shape.part[i]!]?.name ?? "", x, shape.z[i]!],
        ...[shape.tension[i]!, "", "", ""],
      ]);
      return [end("anchor", 0), end("bow", last), ...line];
    }),
  };
}

/** One load of a ladder, settled. */
export interface LadderRow {
  readonly load: number;
  /** Angle at the anchor above the level, rad, or distance to it, m; and its standard uncertainty where it is known. */
  readonly value: number;
  readonly u: number | null;
}

const OVER_LOAD = {
  angle: { title: "angle at the anchor", label: "angle at the anchor above the level" },
  distance: { title: "distance to the anchor", label: "distance to the anchor" },
} as const;

/** Angle at the anchor, or distance to it, over the load at an end. */
export function ladderFigure(
  name: string,
  what: keyof typeof OVER_LOAD,
  at: "anchor" | "bow" | "horizontal",
  rungs: readonly LadderRow[],
  units: UnitSystem,
): FigureMade {
  const unit = plotForceUnit(units);
  const x = rungs.map(({ load }) => inUnit(load, unit, "force"));
  const known = rungs.every(({ u }) => u !== null);
  const shown = what === "angle" ? "°" : unitFor("length", units);
  const y = (value: number): number => (what === "angle" ? value * DEGREES : inUnit(value, shown, "length"));
  const told = OVER_LOAD[what];
  const title = `${name}: ${told.title} over the load`;
  const draw = (width: number, height: number): DrawnXy =>
    drawXy({
      title,
      description: `${told.label[0]!.toUpperCase()}${told.label.slice(1)} over the load ${at === "horizontal" ? "level" : `at the ${at}`}${known ? ", with one standard uncertainty to either side" : ""}`,
      x: { label: at === "horizontal" ? "horizontal load" : `load at the ${at}`, unit },
      y: { label: told.label, unit: shown, ...(what === "angle" ? { from: 0 } : {}) },
      layers: [
        ...(known
          ? [
              {
                kind: "band" as const,
                x,
                low: rungs.map(({ value, u }) => y(Math.max(0, value - u!))),
                high: rungs.map(({ value, u }) => y(value + u!)),
                role: "computed" as const,
              },
            ]
          : []),
        { kind: "line", x, y: rungs.map(({ value }) => y(value)), role: "computed", label: "by theory" },
      ],
      width: Math.round(width),
      height: Math.round(height),
    });
  return {
    title,
    uncertain: known ? `The band: one standard uncertainty to either side, by what the rig file states.` : none(name),
    draw,
    table: tableOfPlots(draw(680, 300)),
  };
}
