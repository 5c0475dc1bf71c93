/** From values to places along an axis, and the round values an axis is marked at. */
import { roundStep, ticks } from "../numeric/index.ts";

/** From values to pixels and back. */
export interface Scale {
  readonly from: number;
  readonly to: number;
  toPixel(value: number): number;
  toValue(pixel: number): number;
}

export interface Ticks {
  readonly values: readonly number[];
  readonly step: number;
  /** Decimals with which each is written. */
  readonly decimals: number;
}

/** @param pixels at the two ends; the second may be the smaller, as on an axis that runs up */
export function linearScale(from: number, to: number, pixels: readonly [number, number]): Scale {
  const per = (pixels[1] - pixels[0]) / (to - from);
  return {
    from,
    to,
    toPixel: (value) => pixels[0] + (value - from) * per,
    toValue: (pixel) => from + (pixel - pixels[0]) / per,
  };
}

/** Steps of 1, 2 or 5 times a power of ten, about so many between two values, both ends included where they are round. */
export function ticksBetween(from: number, to: number, about: number): Ticks {
  const step = roundStep((to - from) / Math.max(1, about));
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  return { values: ticks(from, to, about), step, decimals: Math.min(12, decimals) };
}

/** Widens a range by a rim at either end, so that no mark sits on an edge; a range without extent is given one. */
export function rimmedRange(low: number, high: number): [number, number] {
  const rim = high > low ? 0.04 * (high - low) : 0.5 * (Math.abs(high) || 1);
  return [low - rim, high + rim];
}

/** A mark's text, with a true minus sign. */
export function tickText(value: number, decimals: number): string {
  const plain = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(plain) !== 0 ? `−${plain}` : plain;
}
