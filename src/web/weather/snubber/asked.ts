import type { RopeEnds, SnubberLimits } from "../../../sizing/index.ts";

export interface SnubberAsked {
  readonly fibre: string;
  readonly lay: string;
  /** m; of each leg of a bridle */
  readonly length: number;
  readonly diameter: number;
  readonly ends: RopeEnds;
  /** Chain beside the rope beyond its reach, m; 0: never drawn straight. */
  readonly slack: number;
  /** Between the cleats, m, and the boat's angle off the pull, rad; null: one rope. */
  readonly bridle: { readonly beam: number; readonly heading: number } | null;
  readonly limits: SnubberLimits;
}
