/** In the worker: load against the anchor's movement, drawn. */
import { type LoadAtWay, loadOverWay } from "../../../figure/index.ts";
import type { UnitSystem } from "../../../quantity/index.ts";
import { type ShownFigure, shownFigure } from "../../figure/shown-figure.ts";

/** px */
const HEIGHT = 260;

export function shownWay(
  name: string,
  rows: readonly LoadAtWay[],
  readAt: "anchor" | "bow",
  units: UnitSystem,
  width: number,
): ShownFigure {
  const title = `${name}: load against the anchor's movement`;
  return shownFigure(title, loadOverWay({ title, rows, readAt, units, width, height: HEIGHT }));
}
