import type { Rig } from "../../rode/index.ts";

/** What is unsure of a rig, as people call it. */
export const INPUT_NAMES: Readonly<Record<keyof Rig["uncertainty"], string>> = {
  massPerLength: "mass per length",
  length: "length",
  stretch: "stretch",
  rise: "depth or rise",
  depth: "depth",
  friction: "friction",
  bottomSlope: "slope",
  waterDensity: "density of the water",
  current: "current",
};
