import type { GroundShape } from "./ground.ts";
import type { HelmShape } from "./helm.ts";

/** What a kind of pull is made of; what it does not name is drawn anew for each pull. */
export interface Regime {
  readonly name: string;
  readonly ways?: GroundShape["ways"];
  /** Most the ground resists, as a share of the highest thrust. */
  readonly most?: readonly [number, number];
  readonly again?: readonly [number, number];
  readonly minds?: readonly [number, number];
  readonly ends?: HelmShape["ends"];
  readonly steps?: readonly [number, number];
  readonly hold?: readonly [number, number];
  readonly light?: readonly [number, number];
  /** Speed of a plough, m/s. */
  readonly speed?: readonly [number, number];
  /** Standard deviation of gusts and of swell at the bow, as a share of the thrust, and m. */
  readonly gusts?: readonly [number, number];
  readonly swell?: readonly [number, number];
  /** Error of a fix on one axis, m. */
  readonly fix?: readonly [number, number];
  /** Wander of the zero over the log with warmth, as a share of the highest load. */
  readonly warms?: readonly [number, number];
  readonly track?: false;
  readonly heading?: true;
  readonly ahead?: true;
  readonly glitches?: true;
  readonly turns?: "round" | "veers";
  /** Share of the first pull's ground that is there after the turn. */
  readonly after?: readonly [number, number];
  /** Load that hangs at the cell when the rode is slack, N, stated. */
  readonly hangs?: readonly [number, number];
}

const drags = { most: [0.6, 0.9] } as const;

/** Kinds of pulls: what an anchor, a boat, a sea, a cell and a receiver do. */
export const regimes: readonly Regime[] = [
  { name: "holds, quiet water" },
  { name: "holds, heading logged", heading: true },
  { name: "holds, gusts", gusts: [0.1, 0.25] },
  { name: "holds, swell in groups", swell: [0.1, 0.4] },
  { name: "holds, cut to a lower load", ends: "cuts to lower" },
  { name: "holds, cut to slack between steps", ends: "cuts between" },
  { name: "holds, fix wanders 2.8 m an axis", fix: [2.8, 2.8] },
  { name: "holds, warming cell", warms: [0.03, 0.08] },
  { name: "holds, light load after slack", light: [8, 20] },
  { name: "holds, rode hangs at the cell", hangs: [60, 200] },
  { name: "holds, glitches in cell and fix", glitches: true },
  { name: "holds, pulled ahead, heading logged", ahead: true, heading: true },
  { name: "veers by 30 to 70 degrees and holds", turns: "veers" },
  { name: "ploughs slowly", ways: "ploughs", ...drags, speed: [0.03, 0.12], minds: [60, 90] },
  { name: "ploughs, throttle off at once", ways: "ploughs", ...drags, speed: [0.15, 0.4], minds: [12, 30] },
  { name: "ploughs in gusts", ways: "ploughs", ...drags, speed: [0.1, 0.3], minds: [20, 50], gusts: [0.08, 0.2] },
  {
    name: "ploughs in swell, heading logged",
    ways: "ploughs",
    ...drags,
    speed: [0.1, 0.3],
    minds: [20, 50],
    swell: [0.1, 0.35],
    heading: true,
  },
  { name: "breaks out, engine stays on", ways: "breaks out", ...drags, minds: [15, 30] },
  { name: "breaks out, throttle off at once", ways: "breaks out", ...drags, minds: [2, 5] },
  { name: "breaks out and sets again", ways: "breaks out", ...drags, again: [1, 5], minds: [90, 90] },
  { name: "stick-slip", ways: "stick-slip", ...drags, minds: [30, 60] },
  { name: "turned round, set again", turns: "round", after: [1, 1.2] },
  {
    name: "turned round, gives way",
    turns: "round",
    ways: "ploughs",
    most: [1.3, 1.5],
    after: [0.3, 0.5],
    speed: [0.2, 0.5],
    minds: [15, 30],
    heading: true,
  },
  { name: "no track, holds", track: false },
  { name: "no track, cut to a lower load", track: false, ends: "cuts to lower" },
  { name: "no track, ploughs slowly", track: false, ways: "ploughs", ...drags, speed: [0.03, 0.12], minds: [60, 90] },
  { name: "no track, breaks out", track: false, ways: "breaks out", ...drags, minds: [5, 15] },
];
