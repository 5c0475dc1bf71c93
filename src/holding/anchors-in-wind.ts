/** Every anchor of a conclusion in the winds asked about, each with its own mass. */
import type { Rig } from "../rode/index.ts";
import type { Boat } from "../sea/index.ts";
import { rng } from "../statistics/index.ts";
import { anglesPulledAt } from "./angle-curve.ts";
import { holdingInWind, type WindPoint } from "./in-wind.ts";
import type { Inquired } from "./inquire.ts";

/** The winds, rig and boat that anchors are asked about. */
export interface WindAsked {
  readonly boat: Boat;
  readonly rig: Rig;
  /** m/s, mean at 10 m. */
  readonly winds: readonly number[];
}

/** One anchor in the winds asked about. */
export interface AnchorInWind {
  readonly anchor: string;
  readonly points: readonly WindPoint[];
}

/**
 * Every anchor of a comparison in the winds asked about: the chance to hold, 0 to 1, with its band.
 * @param seed of the draws of wind and load; the same seed gives the same answer
 * @returns nothing where the inquiry came to no conclusion
 */
export function anchorsInWind(asked: WindAsked, inquired: Inquired | undefined, seed: number): AnchorInWind[] {
  if (inquired?.kind !== "concluded") return [];
  const { posterior, conclusion, pulls } = inquired;
  const angles = anglesPulledAt(pulls);
  return conclusion.holds.map(({ anchor, mass, seabed }) => ({
    anchor,
    points: holdingInWind(
      posterior,
      {
        ...asked,
        anchor,
        ...(mass === undefined ? {} : { mass }),
        ...(seabed === undefined ? {} : { seabed }),
        ...(angles === undefined ? {} : { angles }),
      },
      rng(seed + 2),
    ),
  }));
}
