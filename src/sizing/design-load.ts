/** The load a plan is made for, or that of another wind on its boat. */
import { type Measured, weather } from "../sea/index.ts";
import type { LoadEnd } from "./catenary-end.ts";
import type { PlanLoad } from "./plan.ts";

/** The load a plan is made for, with its uncertainty, N. */
export interface DesignLoad {
  readonly at: LoadEnd;
  /** N, with standard uncertainties. */
  readonly mean: Measured;
  /** Brief peaks, measured or of a gust; the mean where neither is known. */
  readonly peak: Measured;
  /** Whether the peak is more than the mean because something said so. */
  readonly peaked: boolean;
}

/** @param wind m/s at 10 m, in place of the plan's own; a stated load stays what it is */
export function designLoad(load: PlanLoad, wind?: number): DesignLoad {
  if (load.kind === "stated") {
    const { at, mean, peak } = load;
    return { at, mean, peak: peak ?? mean, peaked: peak !== undefined };
  }
  const speed: Measured = wind === undefined ? load.wind : { value: wind, u: (load.wind.u * wind) / load.wind.value };
  const seen = weather(load.boat, speed, load.conditions);
  if (load.by === "measured") {
    const { at, mean, peak } = seen.measured[0]!;
    const most = peak === undefined || peak.value < mean.value ? mean : peak;
    return { at, mean: plain(mean), peak: plain(most), peaked: most === peak };
  }
  const { steady, gust } = seen.windage!;
  return { at: "horizontal", mean: plain(steady), peak: plain(gust ?? steady), peaked: gust !== undefined };
}

function plain({ value, u }: Measured): Measured {
  return { value, u };
}
