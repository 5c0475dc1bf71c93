import { meanHeading } from "../trace/headings.ts";
import type { TraceSettings } from "../trace/settings.ts";
import type { Headings } from "../trace/trace.ts";
import type { Direction } from "./direction.ts";
import type { FixGrid } from "./fix-grid.ts";
import type { Stretch } from "./ramp.ts";

/** A compass and the leeway of a boat that pulls, rad. */
const HEADING = 0.08;

/** A bearing taken by hand from the anchor's buoy or mark, rad. */
const BEARING = 0.1;

/** Parts of the track that may have a direction of their own: cut where the rode was slack and the boat came back elsewhere. */
export function stretchesOf(grid: FixGrid): Stretch[] {
  const out: Stretch[] = [];
  const reach = Math.round(10 / grid.step);
  let from = -1;
  let last = -1;
  for (let k = 0; k < grid.tight.length; k++) {
    if (grid.tight[k] !== 1) continue;
    if (from < 0) from = k;
    else if ((k - last) * grid.step > 8) {
      const [was, is] = [placeOf(grid, last - reach, last + 1), placeOf(grid, k, k + reach)];
      if (was && is && Math.hypot(is.east - was.east, is.north - was.north) > 10) {
        out.push({ from, to: last + 1 });
        from = k;
      }
    }
    last = k;
  }
  if (from >= 0) out.push({ from, to: last + 1 });
  return out;
}

export function placeOf(grid: FixGrid, from: number, to: number): { east: number; north: number } | null {
  let [east, north, n] = [0, 0, 0];
  for (let k = Math.max(0, from); k < Math.min(to, grid.tight.length); k++) {
    if (grid.tight[k] !== 1) continue;
    east += grid.east[k]!;
    north += grid.north[k]!;
    n++;
  }
  return n === 0 ? null : { east: east / n, north: north / n };
}

/** The direction as somebody stated it: by the anchor's place, or the bow's heading. */
export function statedDirection(
  grid: FixGrid,
  stretch: Stretch,
  heading: Headings | undefined,
  settings: TraceSettings,
): Direction | null {
  const place = placeOf(grid, stretch.from, stretch.to);
  if (settings.anchor && place) {
    const [east, north] = [place.east - settings.anchor.east, place.north - settings.anchor.north];
    const far = Math.hypot(east, north);
    if (far > 3) return { value: Math.atan2(east, north), u: Math.min(1, 2 / far), by: "anchor" };
  }
  if (settings.bearing !== undefined) return { value: settings.bearing, u: BEARING, by: "stated" };
  const span = { from: grid.start + stretch.from * grid.step, to: grid.start + stretch.to * grid.step };
  const pointed = heading && meanHeading(heading, span);
  if (!pointed || pointed.agreement < 0.8) return null;
  // Pulling astern the bow looks at the anchor.
  return { value: pointed.angle + (settings.pulls === "ahead" ? 0 : Math.PI), u: HEADING, by: "heading" };
}
