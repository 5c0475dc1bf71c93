/** Load held against how far the anchor had gone by then: one mark a plateau, in the order of time. */
import { formatQuantity, inUnit, plotForceUnit, type UnitSystem, unitFor } from "../../quantity/index.ts";
import { type DrawnXy, drawXy } from "../xy/draw-xy.ts";
import type { Layer } from "../xy/spec.ts";

/** A load held, N, and the way of the anchor by its end, m, each with its standard uncertainty. */
export interface LoadAtWay {
  readonly load: { readonly value: number; readonly u: number };
  readonly way: { readonly value: number; readonly u: number };
}

/** What is drawn, and how large. */
export interface LoadOverWay {
  readonly title: string;
  /** In the order of time. */
  readonly rows: readonly LoadAtWay[];
  readonly readAt: "anchor" | "bow";
  readonly units: UnitSystem;
  readonly width: number;
  readonly height: number;
}

/** The marks numbered in the order of time, with ± both ways, a faint line from one to the next. */
export function loadOverWay({ title, rows, readAt, units, width, height }: LoadOverWay): DrawnXy {
  const [force, length] = [plotForceUnit(units), unitFor("length", units)];
  const points = rows.map(({ load, way }, k) => ({
    x: inUnit(way.value, length, "length"),
    y: inUnit(load.value, force, "force"),
    uX: inUnit(way.u, length, "length"),
    uY: inUnit(load.u, force, "force"),
    label: String(k + 1),
    note: `${k + 1}: ${formatQuantity(load.value, "force", { system: units, u: load.u })}, went ${formatQuantity(way.value, "length", { system: units, u: way.u })}`,
  }));
  const layers: Layer[] = [
    { kind: "line", x: points.map(({ x }) => x), y: points.map(({ y }) => y), role: "faint" },
    { kind: "points", points, role: "measured" },
  ];
  return drawXy({
    title,
    description: `${rows.length} loads held, numbered in the order of time, over how far the anchor had gone by the end of each; one standard uncertainty to every side.`,
    x: { label: "way of the anchor since the rode bit", unit: length },
    y: { label: `load held, read at the ${readAt}`, unit: force, from: 0 },
    layers,
    width: Math.round(width),
    height: Math.round(height),
  });
}
