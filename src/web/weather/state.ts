/** A boat in a wind, the rode it lies to, and what is asked of both. */

import { KNOT } from "../../quantity/index.ts";
import type { Rig } from "../../rode/index.ts";
import type { Boat, LoadEnd } from "../../sea/index.ts";
import { chainAndRope } from "../rig/state.ts";
import { marshTern } from "./boat/boat.ts";
import { type GearAsked, usualGear } from "./gear/gear.ts";
import type { SnubberAsked } from "./snubber/asked.ts";

export type { SnubberAsked } from "./snubber/asked.ts";

/** What a load is told by: the boat's windage, or its own measured points of one end. */
export type Road = "windage" | LoadEnd;
export type GustName = "none" | "froya" | "kaimal-a" | "kaimal-b" | "kaimal-c" | "ochi-shin";

/** What surrounds the boat beside the mean wind. SI, radians. */
export interface Around {
  readonly yaw: number;
  readonly gust: GustName;
  /** s */
  readonly gustTime: number;
  readonly averaging: number;
  readonly current: number;
  readonly currentU: number;
  readonly currentAngle: number;
  /** Significant height, m, and peak period, s; a height of 0: no sea. */
  readonly waves: number;
  readonly wavePeriod: number;
}

/** How the boat comes to surge on its rode. */
export type SurgeBy = "speed" | "distance" | "waves";

export interface WeatherState {
  readonly boat: Boat;
  readonly rig: Rig;
  /** Mean wind at 10 m under the pointer, m/s, and its standard uncertainty. */
  readonly wind: number;
  readonly windU: number;
  /** Where the axis of the wind ends, m/s. */
  readonly most: number;
  /** By which road the rode is loaded. */
  readonly road: Road;
  readonly around: Around;
  /** A load to be carried back to a wind, N. */
  readonly load: number;
  readonly loadU: number;
  /** Give that is asked of the catenary, m/N. */
  readonly give: number;
  readonly surge: { readonly by: SurgeBy; readonly speed: number; readonly distance: number };
  readonly snubber: SnubberAsked;
  readonly gear: GearAsked;
}

export const usualWeather: WeatherState = {
  boat: marshTern,
  rig: chainAndRope,
  wind: 20 * KNOT,
  windU: 1 * KNOT,
  most: 45 * KNOT,
  road: "bow",
  around: {
    yaw: 0,
    gust: "froya",
    gustTime: 3,
    averaging: 600,
    current: 0,
    currentU: 0,
    currentAngle: 0,
    waves: 0.5,
    wavePeriod: 3,
  },
  load: 3500,
  loadU: 175,
  give: 0.1 / 1000,
  surge: { by: "speed", speed: 0.5, distance: 0.5 },
  snubber: {
    fibre: "polyamide",
    lay: "three-strand",
    length: 8,
    diameter: 0.014,
    ends: "spliced",
    slack: 0,
    bridle: null,
    limits: { peak: 2600, ropeShare: 0.15, workingLoadShare: 1, cleat: 5000, anchorAngle: (8 * Math.PI) / 180 },
  },
  gear: usualGear,
};

/** The roads a boat offers, the one with its own points first. */
export function roadsOf(boat: Boat): readonly Road[] {
  const ends = (["bow", "horizontal", "anchor"] as const).filter((end) =>
    boat.measured.some((point) => point.at === end),
  );
  return [...ends, ...(boat.windage === undefined ? [] : (["windage"] as const))];
}

/** The road that is taken: the one asked for, or the boat's first. Null for a boat of which nothing is known. */
export function roadOf({ road, boat }: WeatherState): Road | null {
  const roads = roadsOf(boat);
  return roads.includes(road) ? road : (roads[0] ?? null);
}
