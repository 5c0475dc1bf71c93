/** Where catenary ends, on the axis of the wind. */
import type { CatenaryEnd } from "../../../sizing/index.ts";

/** What the worker says of a rode. */
export interface CatenaryEndFound {
  readonly fade: CatenaryEnd;
  /** Load at the road's end, N, with its standard uncertainty; null where there is no such load. */
  readonly load: number | null;
  readonly u: number;
}

export interface CatenaryEndShown {
  /** Mean wind, m/s, with its standard uncertainty. */
  readonly wind: number;
  readonly u: number;
}
