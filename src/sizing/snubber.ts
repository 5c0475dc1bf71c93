/**
 * A snubber, or a bridle of two, at the upper end of a rode, as a rig that `settle` takes.
 *
 * The chain runs from the anchor to the hook. From the hook to the bow the rope carries the load, and the chain hangs beside
 * it in a slack loop. To the rode the two side by side are one line: at every distance between hook and bow the rope pulls by
 * its law and the loop by its own (loop.ts), and their sum is that line's stretch law. Half the loop's weight hangs from the
 * hook; the other half hangs from the bow and does not pull on the rode.
 */

import { brent } from "../numeric/index.ts";
import type { LinePart, Part, PointPart, Rig, StretchLaw } from "../rode/index.ts";
import { GRAVITY } from "../rode/index.ts";
import { bridleAt, bridleLine } from "./bridle.ts";
import type { Bridle } from "./bridle-shape.ts";
import { cornersOf, loadAt } from "./law.ts";
import { type Loop, loopPull } from "./loop.ts";
import type { Rope } from "./rope-choice.ts";

/** A snubber: rope, length, slack of the chain beside it, how it is hooked. */
export interface Snubber {
  readonly rope: Rope;
  /** Worked-in, unloaded length of the rope, of each leg of a bridle, m. */
  readonly length: number;
  /** Chain beside the rope, longer than its reach by this slack, m; without: the loop is never drawn straight. */
  readonly slack?: number;
  /** Two legs in place of one. `other`: length of the second leg where it differs, m. */
  readonly bridle?: { readonly beam: number; readonly heading: number; readonly other?: number };
  /**
   * `veered`: the rig's rode lies between anchor and hook; rope and loop are paid out on top of it.
   * `within`: rope and loop lie within the rig's length of rode; the hook sits that far down from the bow.
   */
  readonly hooked: "veered" | "within";
  readonly hook?: { readonly mass: number; readonly density: number };
}

/** A rig with a snubber on it, and where its parts are. */
export interface Snubbed {
  readonly rig: Rig;
  /** Index of the line that stands for rope and loop. */
  readonly line: number;
  readonly rope: Rope;
  /** Reach of rope or bridle before it carries anything, m. */
  readonly reach: number;
  readonly loop?: Loop;
  readonly bridle?: Bridle;
}

/** Why a snubber cannot be put on a rode. */
export interface NotSnubbed {
  readonly kind: "notSnubbed";
  /** The legs of a bridle do not meet between its cleats; more is taken from the rode than it has; there is no line. */
  readonly why: "noChain" | "tooLong" | "legsTooShort";
}

/** Density of steel hooks, kg/m³, where none is stated. */
const STEEL = 7850;

/** The rig with a snubber on it; loop and rope are taken from the line next to the bow. */
export function withSnubber(rig: Rig, snubber: Snubber): Snubbed | NotSnubbed {
  const top = topLine(rig);
  if (top === null) return { kind: "notSnubbed", why: "noChain" };
  if (!spansBeam(snubber, snubber.length)) return { kind: "notSnubbed", why: "legsTooShort" };
  const { rope, bridle: two, slack } = snubber;
  const bridle =
    two === undefined
      ? undefined
      : {
          beam: two.beam,
          heading: two.heading,
          legs: [snubber.length, two.other ?? snubber.length] as const,
          stretch: rope.stretch,
        };
  const single = { length: snubber.length, stretch: rope.stretch };
  const { length: reach, stretch } = bridle === undefined ? single : bridleLine(bridle);
  const chain = rig.rode[top] as LinePart;
  const loop = slack === undefined ? undefined : loopBeside(rig, chain, reach + slack);
  const taken = snubber.hooked === "within" ? reach + (slack ?? 0) : 0;
  if (!(chain.length > taken)) return { kind: "notSnubbed", why: "tooLong" };
  const ropeLength = bridle === undefined ? snubber.length : bridle.legs[0] + bridle.legs[1];
  const hookMass = (snubber.hook?.mass ?? 0) + (loop === undefined ? 0 : 0.5 * loop.length * chain.massPerLength);
  const hook: PointPart[] =
    hookMass > 0 ? [{ kind: "point", name: "hook", mass: hookMass, density: snubber.hook?.density ?? STEEL }] : [];
  const line: LinePart = {
    kind: "line",
    name: bridle === undefined ? `snubber, ${rope.name}` : `bridle, ${rope.name}`,
    length: reach,
    massPerLength: (rope.massPerLength * ropeLength) / reach,
    density: rope.density,
    stretch: loop === undefined ? stretch : besideLoop(stretch, reach, loop),
    diameter: rope.diameter,
    material: "rope",
  };
  const rode: Part[] = [
    ...rig.rode.slice(0, top),
    { ...chain, length: chain.length - taken },
    ...hook,
    line,
    ...rig.rode.slice(top + 1),
  ];
  return {
    rig: { ...rig, name: `${rig.name}, snubbed`, rode },
    line: top + 1 + hook.length,
    rope,
    reach,
    ...(loop === undefined ? {} : { loop }),
    ...(bridle === undefined ? {} : { bridle }),
  };
}

/** Whether the legs of a bridle meet at all, with something to spare; true of a single rope. */
export function spansBeam({ bridle }: Pick<Snubber, "bridle">, length: number): boolean {
  return bridle === undefined || length + (bridle.other ?? length) > 1.001 * bridle.beam;
}

/** Index of the line next to the bow. */
export function topLine(rig: Rig): number | null {
  for (let i = rig.rode.length - 1; i >= 0; i--) if (rig.rode[i]!.kind === "line") return i;
  return null;
}

/** A loop of the chain next to the bow, in the water where there is any: the hook hangs below the surface at most loads. */
export function loopBeside(rig: Rig, chain: LinePart, length: number): Loop {
  const water = rig.setting.medium === "water" ? rig.setting.waterDensity : 0;
  return {
    length,
    weight: Math.max(0, chain.massPerLength * GRAVITY * (1 - water / chain.density)),
    stiffness: chain.stretch.kind === "linear" ? chain.stretch.stiffness : Number.POSITIVE_INFINITY,
  };
}

/** Shares of the way from the slack loop to its full length at which the joint law is laid down. */
const DRAWN = [0.5, 0.75, 0.9, 0.96, 0.985, 0.995, 0.999, 1];
/** Strain of the loop's own chain beyond that. */
const BEYOND = [5e-5, 2e-4, 1e-3, 4e-3];

/** The law of a rope of unloaded length `reach` with a loop beside it, by distance between hook and bow. */
export function besideLoop(rope: StretchLaw, reach: number, loop: Loop): StretchLaw {
  const pulls = stiff(loop);
  const slack = loopPull(pulls, reach);
  // Below what the slack loop pulls by itself the rope hangs loose.
  const points: [number, number][] = slack > 0 ? [[FIRST_STRAIN, slack]] : [];
  for (const strain of jointStrains(rope, reach, loop)) {
    const load = loadAt(rope, strain) + loopPull(pulls, reach * (1 + strain));
    if (load > (points.at(-1)?.[1] ?? 0)) points.push([strain, load]);
  }
  return { kind: "curve", points };
}

/** Strains at which the joint law of rope and loop is laid down, rising. */
export function jointStrains(rope: StretchLaw, reach: number, loop: Loop): readonly number[] {
  const straight = loop.length / reach - 1;
  const strains = cornersOf(rope).flatMap(([strain]) => (strain < straight ? [strain] : []));
  for (const share of DRAWN) strains.push(share * straight);
  for (const more of BEYOND) strains.push(straight + (1 + straight) * more);
  const rising: number[] = [];
  for (const strain of strains.sort((a, b) => a - b)) {
    if (strain > FIRST_STRAIN && strain > (rising.at(-1) ?? 0) * (1 + 1e-9)) rising.push(strain);
  }
  return rising;
}

const FIRST_STRAIN = 1e-9;

/** A loop that does not stretch is given the stretch of a bar of steel: nothing pulls without end. */
export function stiff(loop: Loop): Loop {
  return Number.isFinite(loop.stiffness) ? loop : { ...loop, stiffness: 1e9 };
}

/** How a load between hook and bow divides. */
export interface Division {
  /** Tension of the rope, of each leg, N. */
  readonly legs: readonly number[];
  readonly loop: number;
  /** Distance between hook and bow, m. */
  readonly distance: number;
  /** Moment of a bridle on the boat, N m; positive: it lessens a positive heading. */
  readonly turning?: number;
}

/** Rope and loop under a load between hook and bow, N. */
export function divide(snubbed: Snubbed, load: number): Division {
  const { loop, reach, bridle, rope } = snubbed;
  const pull = (distance: number): number => (loop === undefined ? 0 : loopPull(stiff(loop), distance));
  const single = (distance: number): number => loadAt(rope.stretch, distance / reach - 1);
  const own =
    bridle === undefined
      ? single
      : // The bridle's own law is laid down as a line; its legs are then balanced exactly.
        (
          (law) => (distance: number) =>
            loadAt(law, distance / reach - 1)
        )(bridleLine(bridle).stretch);
  const distance = distanceUnder((d) => own(d) + pull(d), reach, load);
  const loopLoad = Math.min(pull(distance), load);
  const ropeLoad = load - loopLoad;
  if (bridle === undefined) return { legs: [ropeLoad], loop: loopLoad, distance };
  const balanced = bridleAt(bridle, ropeLoad);
  return { legs: balanced.legs, loop: loopLoad, distance, turning: balanced.turning };
}

function distanceUnder(load: (distance: number) => number, reach: number, wanted: number): number {
  let [low, high] = [reach, 1.01 * reach];
  if (load(low) >= wanted) return low;
  while (load(high) < wanted) [low, high] = [high, reach + 2 * (high - reach)];
  return brent((distance) => load(distance) - wanted, low, high, 1e-14 * high);
}
