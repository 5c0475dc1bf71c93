/** One pull as it went: load over time, its steps and marks, and what it came to. */
import { type DrawnXy, drawXy, type Layer } from "../../figure/index.ts";
import { formatQuantity, inUnit, plotForceUnit, type UnitSystem } from "../../quantity/index.ts";
import { type FigureMade, tableOfPlots } from "./made.ts";
import { peaksKept } from "./thinned.ts";

/** A pull as it went. */
export interface OnePullDrawn {
  /** The anchor, and what else tells it from others. */
  readonly name: string;
  /** End the loads were read at. */
  readonly at: "bow" | "anchor";
  /** s, rising, and N. */
  readonly time: ArrayLike<number>;
  readonly load: ArrayLike<number>;
  /** What was noted, by the same clock; in order. */
  readonly marks: readonly { readonly time: number; readonly text: string }[];
  /** What it came to, N, with its standard uncertainty (0: none stated); null where nothing was noted. */
  readonly result: {
    readonly kind: "gaveWay" | "heldTo" | "neverSet";
    readonly newtons: number;
    readonly u: number;
  } | null;
}

/** So few readings are each a mark of their own. */
const SINGLE = 80;
/** Words of more marks would lie over one another. */
const MOST_MARKS = 16;
const RESULT = { gaveWay: "gave way at", heldTo: "held to", neverSet: "never set: at most" } as const;

/** Load over the time from the first reading. */
export function onePullFigure(pull: OnePullDrawn, units: UnitSystem): FigureMade {
  const { name, at, time, load, marks, result } = pull;
  const unit = plotForceUnit(units);
  const to = (newtons: number): number => inUnit(newtons, unit, "force");
  const start = Math.min(time[0] ?? Number.POSITIVE_INFINITY, marks[0]?.time ?? Number.POSITIVE_INFINITY);
  const since = (seconds: number): number => seconds - (Number.isFinite(start) ? start : 0);
  const kept = peaksKept(load);
  const [x, y] = [kept.map((i) => since(time[i]!)), kept.map((i) => to(load[i]!))];
  const layers: Layer[] = [
    ...marks.map(
      ({ time: when, text }, i): Layer => ({
        ...{ kind: "rule", axis: "x", at: since(when), role: "faint" },
        ...(i < MOST_MARKS ? { label: text } : {}),
      }),
    ),
    { kind: "line", x, y, role: "measured" },
    ...(kept.length > SINGLE
      ? []
      : [{ kind: "points" as const, points: x.map((px, i) => ({ x: px, y: y[i]! })), role: "measured" as const }]),
    ...(result === null
      ? []
      : [
          {
            ...{ kind: "rule" as const, axis: "y" as const, role: "computed" as const },
            ...{ at: to(result.newtons), label: RESULT[result.kind] },
          },
        ]),
  ];
  const title = `${name}: load over time`;
  const draw = (width: number, height: number): DrawnXy =>
    drawXy({
      title,
      description: `Load at the ${at} over time, ${load.length} readings, with the steps and marks of the pull.`,
      x: { label: "time from the beginning", unit: "s", from: 0 },
      y: { label: `load at the ${at}`, unit, from: 0 },
      layers,
      width: Math.round(width),
      height: Math.round(height),
    });
  const shown = (newtons: number, u: number): string =>
    formatQuantity(newtons, "force", { system: units, ...(u > 0 ? { u } : { digits: 3 }) });
  const said =
    result === null
      ? "What it came to is not noted; no ± is stated."
      : `${RESULT[result.kind][0]!.toUpperCase()}${RESULT[result.kind].slice(1)} ${shown(result.newtons, result.u)}, ${result.u > 0 ? "± one standard uncertainty" : "no ± stated"}, as it was noted.`;
  return {
    title,
    uncertain: `${said} Loads as they were read, no zero taken off.`,
    draw,
    table: tableOfPlots(draw(680, 300)),
  };
}
