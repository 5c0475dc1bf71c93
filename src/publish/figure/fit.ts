/** A drawing as large as its room allows: of some widths to draw it at, the one whose letters come out largest. */
import type { Drawn } from "../../figure/index.ts";

const WIDTHS = [1, 0.85, 0.7, 1.2, 1.4] as const;
/** Letters larger than this say no more, and words are cut sooner. */
const LARGE_ENOUGH = 1.2;

/** @param height px it may be high; null where the sheet grows with it */
export function drawnToFit(
  draw: (width: number, height: number) => Drawn,
  width: number,
  height: number | null,
): { readonly drawn: Drawn; readonly scale: number } {
  if (height === null) {
    const drawn = draw(width, 0.5 * width);
    return { drawn, scale: width / drawn.width };
  }
  let best: { drawn: Drawn; scale: number } | null = null;
  for (const share of WIDTHS) {
    const drawn = draw(Math.round(share * width), Math.round(share * height));
    const scale = Math.min(width / drawn.width, height / drawn.height);
    if (best === null || Math.min(scale, LARGE_ENOUGH) > best.scale * 1.001) best = { drawn, scale };
  }
  return best!;
}
