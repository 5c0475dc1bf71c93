/** What draws of what is not known say of an answer, in a few words. */
import { type Dimension, type Format, formatQuantity } from "../quantity/index.ts";
import type { SettledUncertainty } from "../rode/index.ts";
import type { Bounds } from "../statistics/index.ts";

/** `35 of 100`, or `3 of 1000` where it is seldom or nearly always. */
export function shareOfDraws(count: number, of: number): string {
  const part = count / of;
  const size = part < 0.01 || part > 0.99 ? 1000 : 100;
  const rounded = Math.round(part * size);
  if (rounded === 0) return `fewer than 1 of ${size}`;
  return rounded === size ? `all but a few of ${size}` : `${rounded} of ${size}`;
}

/** `1900 N to 2600 N`, `from 1900 N`, `up to 2600 N`, `no bounds`. */
export function boundsText({ low, high }: Bounds, dimension: Dimension, format: Format): string {
  const end = (each: number) => formatQuantity(each, dimension, { ...format, digits: 3 });
  if (low === null && high === null) return "no bounds";
  if (low === null) return `up to ${end(high!)}`;
  if (high === null) return `from ${end(low)}`;
  return `${end(low)} to ${end(high)}`;
}

/** In how many draws the anchor is lifted, where it is in some alone; in how many there is no equilibrium. */
export function spreadWords(uncertainty: SettledUncertainty | null): { lifted: string | null; without: string | null } {
  const spread = uncertainty?.spread;
  if (!spread) return { lifted: null, without: null };
  const { draws, without, lifted } = spread;
  return {
    lifted:
      lifted > 0 && lifted < draws - without ? `the anchor is lifted in ${shareOfDraws(lifted, draws)} draws` : null,
    without: without > 0 ? `in ${shareOfDraws(without, draws)} draws; an end beyond them is left open` : null,
  };
}
