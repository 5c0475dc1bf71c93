import type { Rig } from "../../src/rode/index.ts";

/** A rig in still water on a level bottom without friction, but for what is told of its setting. */
export const rigInWater = (rode: Rig["rode"], over: object = {}): Rig => ({
  name: "in water",
  setting: {
    ...{ medium: "water", depth: 7, rollerHeight: 1, waterDensity: 1025 },
    ...{ bottomSlope: 0, bottomFriction: 0, current: 0 },
    ...over,
  } as Rig["setting"],
  rode,
  uncertainty: {},
});
