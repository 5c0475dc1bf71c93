import { GRAVITY, type LinePart, type Rig } from "../../src/rode/index.ts";

/** Thirty metres of rigid chain of 2 kg/m, and what a metre of it weighs in air, N/m. */
export const chain: LinePart = {
  ...{ kind: "line", name: "chain", length: 30, massPerLength: 2, density: 7850, material: "chain" },
  stretch: { kind: "rigid" },
};
export const w = 2 * GRAVITY;
/** m */
export const RISE = 8;

/** That chain, or another rode, strung in air over a level bottom without friction, but for what is told of its setting. */
export const rigInAir = (rode: Rig["rode"] = [chain], over: object = {}): Rig => ({
  name: "in air",
  setting: { medium: "air", rise: RISE, bottomSlope: 0, bottomFriction: 0, ...over } as Rig["setting"],
  rode,
  uncertainty: {},
});
