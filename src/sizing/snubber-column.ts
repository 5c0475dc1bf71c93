/**
 * What all the snubbers of one length have in common, whatever their strength: the strains at which their joint law with the
 * loop is laid down, the rope's load there per newton of breaking load, that of its harder pulled leg, and the loop's own.
 */
import type { LinePart, Rig, StretchLaw } from "../rode/index.ts";
import { bridleAt, bridleLine } from "./bridle.ts";
import { cornersOf, loadAt } from "./law.ts";
import { loopPull } from "./loop.ts";
import { scaledLaw } from "./rope-choice.ts";
import { jointStrains, loopBeside, type Snubber, stiff } from "./snubber.ts";

export interface SnubberColumn {
  /** Reach of rope or bridle before it carries anything, m, and all the rope in it. */
  readonly reach: number;
  readonly ropeLength: number;
  /** Chain that hangs beside it, m; 0 without a loop. */
  readonly loopLength: number;
  readonly strain: Float64Array;
  /** Along the pull, per newton of breaking load. */
  readonly rope: Float64Array;
  /** Of the harder pulled leg, per newton of breaking load. */
  readonly leg: Float64Array;
  /** N */
  readonly loop: Float64Array;
}

/** How a snubber is rigged, but for its rope and its length. */
export type SnubberKind = Omit<Snubber, "rope" | "length">;

/** @param unit the rope's law for a breaking load of 1 N */
export function columnOf(
  rig: Rig,
  chain: LinePart,
  kind: SnubberKind,
  unit: StretchLaw,
  length: number,
): SnubberColumn {
  const { slack, bridle: two } = kind;
  const bridle =
    two === undefined
      ? undefined
      : { beam: two.beam, heading: two.heading, legs: [length, two.other ?? length] as const, stretch: unit };
  const { length: reach, stretch } = bridle === undefined ? { length, stretch: unit } : bridleLine(bridle);
  const loop = slack === undefined ? undefined : stiff(loopBeside(rig, chain, reach + slack));
  const own = loop === undefined ? cornersOf(stretch).map(([strain]) => strain) : jointStrains(stretch, reach, loop);
  const strain = Float64Array.from([0, ...own]);
  const rope = strain.map((e) => loadAt(stretch, e));
  return {
    reach,
    ropeLength: bridle === undefined ? length : bridle.legs[0] + bridle.legs[1],
    loopLength: loop?.length ?? 0,
    strain,
    rope,
    leg: bridle === undefined ? rope : rope.map((pull) => (pull > 0 ? Math.max(...bridleAt(bridle, pull).legs) : 0)),
    loop: strain.map((e) => (loop === undefined ? 0 : loopPull(loop, reach * (1 + e)))),
  };
}

/** A rope's law with its loads as shares of the breaking load. */
export function unitLaw(law: StretchLaw, breakingLoad: number): StretchLaw {
  return scaledLaw(law, 1 / breakingLoad);
}
