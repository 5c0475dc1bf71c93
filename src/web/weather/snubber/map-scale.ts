/** The ends of the map's axes, and where a length and a diameter stand in it. */
import type { MapFrame } from "../../../figure/index.ts";

/** m */
export interface MapRange {
  readonly lengths: readonly [number, number];
  readonly diameters: readonly [number, number];
}

export const xOf = (frame: MapFrame, { lengths: [from, to] }: MapRange, length: number): number =>
  frame.left + ((length - from) / (to - from)) * frame.width;
export const yOf = (frame: MapFrame, { diameters: [from, to] }: MapRange, diameter: number): number =>
  frame.top + (1 - (diameter - from) / (to - from)) * frame.height;
