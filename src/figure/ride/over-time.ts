/** A boat riding: the loads at both ends of the rode and the angle at the anchor over the time ridden. */
import { type DrawnPanels, drawPanels } from "../xy/draw-xy.ts";

/** In the units the axes name; times in s. */
export interface RideOverTime {
  readonly title: string;
  readonly bow: { readonly x: ArrayLike<number>; readonly y: ArrayLike<number> };
  readonly anchor: { readonly x: ArrayLike<number>; readonly y: ArrayLike<number> };
  /** ° */
  readonly angle: { readonly x: ArrayLike<number>; readonly y: ArrayLike<number> };
  /** Load at the bow at rest; null where there is no rest. */
  readonly still: number | null;
  readonly unit: string;
  /** px; 680 by 400 without */
  readonly width?: number;
  readonly height?: number;
  readonly alone?: boolean;
}

/** Loads above, the angle below, over one time. */
export function drawRideOverTime({ title, bow, anchor, angle, still, unit, ...size }: RideOverTime): DrawnPanels {
  const { width = 680, height = 400, alone = false } = size;
  return drawPanels({
    title,
    description: "Load at the bow and at the anchor, and the angle at the anchor, over the time ridden",
    x: { label: "time ridden", unit: "s" },
    panels: [
      {
        y: { label: "load", unit, from: 0 },
        height: Math.round(0.6 * height),
        layers: [
          { kind: "line", ...anchor, role: "other", label: "at the anchor" },
          { kind: "line", ...bow, role: "computed", label: "at the bow" },
          ...(still === null
            ? []
            : [{ kind: "rule" as const, axis: "y" as const, at: still, role: "faint" as const, label: "at rest" }]),
        ],
      },
      {
        y: { label: "angle at the anchor", unit: "°" },
        height: Math.round(0.4 * height),
        layers: [{ kind: "line", ...angle, role: "computed" }],
      },
    ],
    width,
    alone,
  });
}
