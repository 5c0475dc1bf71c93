/** How far a settled rode of still water or air is from an equilibrium, by the independent check that can tell. */
import type { Pull, Rig, SettledTrace } from "../../src/rode/index.ts";
import { POINT, R_KIND, R_Z, TRACE_COLUMNS } from "../../src/rode/trace.ts";
import { imbalanceOf } from "./balance.ts";
import { type Residual, residualOf } from "./descent.ts";

/**
 * From the printed answer alone, bow to anchor; but of a rode that hangs a point in the surface the answer does not say
 * what the water bears of it: there the record of its pieces is weighed instead.
 */
export function offBy(rig: Rig, pull: Pull, traced: SettledTrace): Residual {
  const heavy = !traced.rode.hasBuoyant;
  return heavy && !pointInSurface(traced) ? residualOf(rig, pull, traced.settled) : imbalanceOf(rig, pull, traced);
}

function pointInSurface({ trace, rode }: SettledTrace): boolean {
  const near = 1e-9 * (rode.totalLength + rode.rise);
  for (let at = 0; at < trace.rows * TRACE_COLUMNS; at += TRACE_COLUMNS) {
    if (trace.data[at + R_KIND] === POINT && Math.abs(trace.data[at + R_Z]! - rode.surface) <= near) return true;
  }
  return false;
}
