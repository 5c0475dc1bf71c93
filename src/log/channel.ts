/**
 * What a log can hold beside time. Every value of a channel is in the one unit named here, whatever the file wrote.
 * Places stay in decimal degrees (WGS 84), as every track format writes them, so that a place read and written again
 * keeps its digits; all else is SI and radians.
 */
import type { Dimension } from "../quantity/index.ts";

/** What a log may hold beside time, each in its one unit. */
export const CHANNELS = {
  load: { unit: "N", dimension: "force" },
  angle: { unit: "rad", dimension: "angle" },
  movement: { unit: "m", dimension: "length" },
  latitude: { unit: "deg", dimension: "place" },
  longitude: { unit: "deg", dimension: "place" },
  speed: { unit: "m/s", dimension: "speed" },
  course: { unit: "rad", dimension: "angle" },
  heading: { unit: "rad", dimension: "angle" },
  headingTrue: { unit: "rad", dimension: "angle" },
  windSpeed: { unit: "m/s", dimension: "speed" },
  windAngle: { unit: "rad", dimension: "angle" },
  trueWindSpeed: { unit: "m/s", dimension: "speed" },
  trueWindAngle: { unit: "rad", dimension: "angle" },
  windDirection: { unit: "rad", dimension: "angle" },
  depth: { unit: "m", dimension: "length" },
  depthBelowTransducer: { unit: "m", dimension: "length" },
} as const satisfies Record<string, { unit: string; dimension: Dimension | "place" }>;

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
