/**
 * The rode below the hook of a snubber, tabulated: how far out the hook lies, with what vertical force it is held down and at
 * what angle the anchor is pulled, over horizontal force and height of the hook. What is above the hook changes none of it, so
 * one table serves a whole map of snubbers.
 *
 * Heights run as squares: near the bottom the vertical force goes with the root of the height, which a cubic through evenly
 * spaced roots follows to about 1e-5 (tested against `endForcesOf`).
 */
import { endForcesOf, type LinePart, type Rig, riseOf } from "../rode/index.ts";

export interface BelowHook {
  /** Nodes of horizontal force, N, even in the logarithm. */
  readonly forces: Float64Array;
  /** Root of the highest height, √m, and nodes of height from 0 to there, even in the root. */
  readonly highest: number;
  readonly heights: number;
  /** force-major: [force × heights + height] */
  readonly out: Float64Array;
  readonly hold: Float64Array;
  readonly angle: Float64Array;
}

/** A rig whose rode below the hook can be tabulated: level bottom, still water, nothing that floats. */
export function canTabulate(rig: Rig): boolean {
  const { setting } = rig;
  if (setting.bottomSlope !== 0) return false;
  if (setting.medium === "water" && setting.current !== 0) return false;
  const water = setting.medium === "water" ? setting.waterDensity : 0;
  return rig.rode.every((part) => part.density > water);
}

/**
 * @param top index of the line next to the bow; parts above it are left out
 * @param length unloaded length of that line below the hook, m
 */
export function tabulate(rig: Rig, top: number, length: number, forces: Float64Array, heights: number): BelowHook {
  const rode = rig.rode.slice(0, top + 1);
  rode[top] = { ...(rode[top] as LinePart), length };
  const total = rode.reduce((sum, part) => sum + (part.kind === "line" ? part.length : 0), 0);
  const highest = Math.sqrt(Math.min(riseOf(rig.setting), 0.995 * total));
  const out = new Float64Array(forces.length * heights);
  const hold = new Float64Array(out.length);
  const angle = new Float64Array(out.length);
  for (let j = 0; j < heights; j++) {
    // A hook on the bottom is the limit of one just above it.
    const root = Math.max((highest * j) / (heights - 1), 1e-4 * highest);
    const endForces = endForcesOf({ ...rig, rode, setting: withRise(rig.setting, root * root) });
    for (let k = 0; k < forces.length; k++) {
      const seen = endForces({ at: "horizontal", newtons: forces[k]! });
      const at = k * heights + j;
      out[at] = seen?.span ?? Number.NaN;
      hold[at] = seen === null ? Number.NaN : seen.horizontal * Math.tan(seen.bowAngle);
      angle[at] = seen?.angleToBottom ?? Number.NaN;
    }
  }
  return { forces, highest, heights, out, hold, angle };
}

function withRise(setting: Rig["setting"], rise: number): Rig["setting"] {
  if (setting.medium === "air") return { ...setting, rise };
  return { ...setting, depth: Math.min(setting.depth, rise), rollerHeight: Math.max(0, rise - setting.depth) };
}

/** A column of a table at a root of height, by the cubic through the four nearest nodes. */
export function read(table: BelowHook, values: Float64Array, force: number, root: number): number {
  const { heights, highest } = table;
  const at = force * heights;
  const place = (root / highest) * (heights - 1);
  let j = Math.floor(place) - 1;
  if (j < 0) j = 0;
  if (j > heights - 4) j = heights - 4;
  const t = place - j;
  const [a, b, c] = [t - 1, t - 2, t - 3];
  return (
    values[at + j]! * ((a * b * c) / -6) +
    values[at + j + 1]! * ((t * b * c) / 2) +
    values[at + j + 2]! * ((t * a * c) / -2) +
    values[at + j + 3]! * ((t * a * b) / 6)
  );
}
