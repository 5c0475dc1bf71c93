/** From metres to pixels: one scale across and up, unless the rode lies too flat to be seen. */

export interface Stage {
  readonly width: number;
  readonly height: number;
  /** px per metre across; up, `exaggeration` times as many. */
  readonly scale: number;
  /** 1: to scale. */
  readonly exaggeration: number;
  toX(metres: number): number;
  toY(metres: number): number;
}

export interface Extent {
  /** m */
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

export interface Margins {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Below this height on the page a drawing is stretched upward, and says so. */
const LEAST_HEIGHT = 40;
const MOST_HEIGHT = 440;
const ROUND = [1, 2, 3, 5, 10, 20, 50, 100, 200, 500, 1000];

/** Fits an extent into a page of a width; the height follows. */
export function stageFor(extent: Extent, width: number, margins: Margins): Stage {
  const across = Math.max(extent.right - extent.left, 1e-9);
  const up = Math.max(extent.top - extent.bottom, 1e-9);
  const room = width - margins.left - margins.right;
  const scale = Math.min(room / across, MOST_HEIGHT / up);
  const exaggeration =
    up * scale >= LEAST_HEIGHT ? 1 : (ROUND.find((by) => up * scale * by >= LEAST_HEIGHT) ?? ROUND.at(-1)!);
  const tall = up * scale * exaggeration;
  const spare = (room - across * scale) / 2;
  return {
    width,
    height: margins.top + tall + margins.bottom,
    scale,
    exaggeration,
    toX: (metres) => margins.left + spare + (metres - extent.left) * scale,
    toY: (metres) => margins.top + (extent.top - metres) * scale * exaggeration,
  };
}
