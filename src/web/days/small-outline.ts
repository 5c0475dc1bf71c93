import type { Bands } from "./log/view-bytes.ts";

/** The size a small trace is drawn in, px; the page may make it smaller. */
export const WIDTH = 120;
export const HEIGHT = 26;

/** From the least to the greatest along the whole log, upwards from no load. */
export function outlineOf(bands: Bands, channel: string): string {
  const column = bands.columns.get(channel);
  if (column === undefined) return "";
  const { min, max } = column;
  let [low, high] = [0, 0];
  for (let i = 0; i < min.length; i++) {
    if (Number.isNaN(min[i]!)) continue;
    low = Math.min(low, min[i]!);
    high = Math.max(high, max[i]!);
  }
  if (!(high > low)) return "";
  const first = bands.from[0]!;
  const width = Math.max(1e-9, bands.to.at(-1)! - first);
  const x = (i: number): string => ((WIDTH * ((bands.from[i]! + bands.to[i]!) / 2 - first)) / width).toFixed(1);
  const y = (value: number): string => (1 + (HEIGHT - 2) * (1 - (value - low) / (high - low))).toFixed(1);
  let over = "";
  let back = "";
  for (let i = 0; i < min.length; i++) {
    if (Number.isNaN(min[i]!)) continue;
    over += `${over === "" ? "M" : "L"}${x(i)} ${y(max[i]!)}`;
    back = `L${x(i)} ${y(min[i]!)}${back}`;
  }
  return `${over}${back}Z`;
}
