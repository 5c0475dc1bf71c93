/**
 * The view of the drawing: metres to pixels, one scale both ways. In the drawing the upper end stands still: its height
 * is 0 and depth runs down, so that a seabed that is lowered moves under the hand that lowers it. x is m from the anchor.
 */
import { roundBelow } from "../../numeric/index.ts";

export interface View {
  readonly width: number;
  readonly height: number;
  /** px per m */
  readonly scale: number;
  /** px of x = 0, and of the upper end */
  readonly left: number;
  readonly top: number;
}

export interface Extent {
  /** m from the anchor */
  readonly from: number;
  readonly to: number;
  /** Deepest and highest things drawn, below and above the upper end, m. */
  readonly below: number;
  readonly above: number;
}

export interface Margins {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** The largest view in which all of the extent is seen, its spare height above. */
export function fit(width: number, height: number, extent: Extent, margins: Margins): View {
  const across = Math.max(1e-6, extent.to - extent.from);
  const inner = {
    width: Math.max(40, width - margins.left - margins.right),
    height: Math.max(40, height - margins.top - margins.bottom),
  };
  const deep = Math.max(1e-6, extent.below + extent.above);
  const scale = Math.min(inner.width / across, inner.height / deep);
  const spare = { width: inner.width - across * scale, height: inner.height - deep * scale };
  return {
    width,
    height,
    scale,
    left: margins.left + spare.width / 2 - extent.from * scale,
    top: margins.top + extent.above * scale + spare.height * 0.6,
  };
}

/** Height at which the extent fills the width, px, within bounds. */
export function heightAcross(width: number, extent: Extent, margins: Margins, least: number, most: number): number {
  const across = Math.max(1e-6, extent.to - extent.from);
  const scale = Math.max(40, width - margins.left - margins.right) / across;
  return Math.min(most, Math.max(least, margins.top + margins.bottom + scale * (extent.below + extent.above)));
}

export const xPx = (view: View, x: number): number => view.left + x * view.scale;
/** @param below m below the upper end */
export const yPx = (view: View, below: number): number => view.top + below * view.scale;
export const xMetres = (view: View, px: number): number => (px - view.left) / view.scale;

/** A round length for the scale bar, in the unit shown: the longest of 1, 2, 5 × 10ⁿ that is at most `most` px. */
export function scaleBar(view: View, perUnit: number, most: number): { readonly units: number; readonly px: number } {
  const units = roundBelow(most / (view.scale * perUnit));
  return { units, px: units * perUnit * view.scale };
}
