/**
 * What a log can hold beside time. Every value of a channel is in the one unit named here, whatever the file wrote.
 * Places stay in decimal degrees (WGS 84), as every track format writes them, so that a place read and written again
 * keeps its digits; all else is SI and radians.
 */
import type { Dimension } from "../quantity/index.ts";

/** What a log may hold beside time, each in its one unit. */
export const CHANNELS = {
  load: { unit: "N", dimension: "force", says: "load" },
  angle: { unit: "rad", dimension: "angle", says: "angle above the horizontal" },
  movement: { unit: "m", dimension: "length", says: "movement" },
  latitude: { unit: "deg", dimension: "place", says: "latitude" },
  longitude: { unit: "deg", dimension: "place", says: "longitude" },
  speed: { unit: "m/s", dimension: "speed", says: "speed over ground" },
  course: { unit: "rad", dimension: "angle", says: "course over ground, true" },
  heading: { unit: "rad", dimension: "angle", says: "heading, magnetic" },
  headingTrue: { unit: "rad", dimension: "angle", says: "heading, true" },
  windSpeed: { unit: "m/s", dimension: "speed", says: "apparent wind speed" },
  windAngle: { unit: "rad", dimension: "angle", says: "apparent wind angle from the bow, clockwise" },
  trueWindSpeed: { unit: "m/s", dimension: "speed", says: "true wind speed" },
  trueWindAngle: { unit: "rad", dimension: "angle", says: "true wind angle from the bow, clockwise" },
  windDirection: { unit: "rad", dimension: "angle", says: "direction the true wind comes from" },
  depth: { unit: "m", dimension: "length", says: "water depth below the surface" },
  depthBelowTransducer: { unit: "m", dimension: "length", says: "water depth below the transducer" },
} as const satisfies Record<string, { unit: string; dimension: Dimension | "place"; says: string }>;

/** A kind of channel. */
export type ChannelKind = keyof typeof CHANNELS;

/** The kinds of channel, by name. */
export const channelKinds = Object.keys(CHANNELS) as ChannelKind[];

/** One channel of one log: `load`, or `load-2` where a file holds two. */
export interface Channel {
  readonly name: string;
  readonly kind: ChannelKind;
  /** What the column or sentence was called where it came from. */
  readonly from: string;
  /** Unit it was written in there. */
  readonly fromUnit: string;
}

/**
 * What the numbers of a log's time column count from.
 * `utc`: seconds since 1970-01-01T00:00:00Z; `local`: the same of a clock whose zone nobody stated;
 * `elapsed`: seconds since a start nobody stated; `clock`: seconds since the midnight before the first row.
 */
export type Clock = "utc" | "local" | "elapsed" | "clock";

/** Rows read and not yet taken: `time` and each of `values` hold `rows` numbers; NaN where a row has no value. */
export interface Batch {
  readonly rows: number;
  readonly time: Float64Array;
  readonly values: readonly Float64Array[];
}
