/** Two setups side by side under one load: a heavy chain at short scope may pull as a rope at a longer one does. */
import { longestLine, type Rig } from "../../rode/index.ts";
import { chainAndRope } from "../rig/state.ts";

export type Side = "one" | "other";
/** What each is called, so that two rigs of one name are told apart. */
export const LETTER: Readonly<Record<Side, "A" | "B">> = { one: "A", other: "B" };
export type MapKind = "load" | "scope";

export interface MatchState {
  readonly one: Rig;
  readonly other: Rig;
  /**
   * The part of each that is paid out and hauled in, 1 next to the anchor. It stays the same when it becomes shorter than
   * another: a slider must not change hands on the way.
   */
  readonly paid: Readonly<Record<Side, number>>;
  /** N at both bows. */
  readonly load: number;
  readonly map: MapKind;
}

const chain: Rig = {
  name: "All chain",
  setting: {
    medium: "water",
    depth: 5,
    rollerHeight: 1.2,
    waterDensity: 1025,
    bottomSlope: 0,
    bottomFriction: 0.6,
    current: 0,
  },
  rode: [
    {
      kind: "line",
      name: "chain 10 mm",
      length: 22,
      massPerLength: 2.25,
      density: 7850,
      stretch: { kind: "linear", stiffness: 6.4e6 },
      diameter: 0.01,
      material: "chain",
    },
  ],
  uncertainty: {},
};

export const usualMatch: MatchState = {
  one: chain,
  other: chainAndRope,
  paid: { one: 1, other: 2 },
  load: 2500,
  map: "load",
};

/** A setup with another rig, whose longest line is paid out. */
export function withRig(state: MatchState, side: Side, rig: Rig): MatchState {
  return { ...state, [side]: rig, paid: { ...state.paid, [side]: longestLine(rig) } };
}

/** The lines of a rig: what can be paid out. */
export function linesOf(rig: Rig): { readonly part: number; readonly name: string; readonly length: number }[] {
  return rig.rode.flatMap((part, i) =>
    part.kind === "line" ? [{ part: i + 1, name: part.name, length: part.length }] : [],
  );
}

/** The part of a setup that is paid out and hauled in. */
export function paidOut(state: MatchState, side: Side): { part: number; length: number; name: string } {
  const lines = linesOf(state[side]);
  return lines.find(({ part }) => part === state.paid[side]) ?? lines[0] ?? { part: 1, length: 0, name: "the rode" };
}
