/** How a channel of a log is shown: its quantity, its unit, its name in words. */
import { type Dimension, inUnit } from "../../../quantity/index.ts";
import type { LogHere } from "../book-copy.ts";

export type Channel = LogHere["content"]["channels"][number];

/** The SI units in which logs are kept, and what they measure. */
const MEASURED: Readonly<Record<string, Dimension>> = {
  N: "force",
  m: "length",
  "m/s": "speed",
  rad: "angle",
  s: "time",
};

export const dimensionOf = (channel: Channel): Dimension | null => MEASURED[channel.unit] ?? null;
export const isLoad = (channel: Channel): boolean => channel.unit === "N";

/** The channels shown at first: the loads, or the first of whatever there is. */
export function usualChannels(channels: readonly Channel[]): readonly string[] {
  const loads = channels.filter(isLoad).map(({ name }) => name);
  return loads.length > 0 ? loads.slice(0, 2) : channels.slice(0, 1).map(({ name }) => name);
}

/** The field under which the unit of a channel is chosen: loads share theirs with every other load of the bench. */
export const fieldOf = (channel: Channel): string => (isLoad(channel) ? "load" : channel.name);

/** The unit shown, and what a value of the log is to be multiplied by for it. */
export function shownIn(
  channel: Channel,
  unitOf: (field: string, dimension: Dimension) => string,
): { unit: string; factor: number } {
  const dimension = dimensionOf(channel);
  if (dimension === null) return { unit: channel.unit, factor: 1 };
  const unit = unitOf(fieldOf(channel), dimension);
  return { unit, factor: inUnit(1, unit, dimension) };
}
