/** Load against the anchor's movement, from the answer of `trace`. */
import { type LoadAtWay, loadOverWay } from "../../figure/index.ts";
import type { UnitSystem } from "../../quantity/index.ts";
import type { FigureMade } from "./made.ts";

/** A load held, when its time ended, and how far the anchor had gone by then. */
export interface HeldAtWay extends LoadAtWay {
  /** s from the log's first reading. */
  readonly at: number;
}

/** Loads held over the anchor's way since the rode bit. */
export function wayFigure(
  name: string,
  rows: readonly HeldAtWay[],
  readAt: "anchor" | "bow",
  units: UnitSystem,
): FigureMade {
  const title = `${name}: load against the anchor's movement`;
  return {
    title,
    uncertain:
      "± one standard uncertainty of each load and of each way, which share their error from one mark to the next.",
    draw: (width, height) => loadOverWay({ title, rows, readAt, units, width, height }),
    table: {
      columns: [
        ...["mark", "by, s from the first reading", "load held, N", "standard uncertainty of the load, N"],
        ...["way of the anchor, m", "standard uncertainty of the way, m"],
      ],
      rows: rows.map(({ at, load, way }, k) => [k + 1, at, load.value, load.u, way.value, way.u]),
    },
  };
}
